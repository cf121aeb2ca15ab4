//! What the page says about how safe the work is.

/// How safe what lies on the desk is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SaveState {
    /// There is nothing to keep: an empty sheet, or a sample that nobody touched.
    #[default]
    Nothing,
    /// A change is on its way to the device.
    Saving,
    /// All is on the device.
    Saved,
    /// Nothing is kept.
    NotSaved(Why),
}

/// Why nothing is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The project was open in another tab already.
    OpenElsewhere,
    /// Another tab took the project over.
    TakenOver,
    /// The browser has no room left.
    Full,
    /// The browser keeps nothing at all for this page.
    Refused,
    /// It failed for another reason.
    Failed,
}

impl Why {
    /// Whether it has to do with another tab; then trying again is of no use.
    pub fn is_other_tab(self) -> bool {
        matches!(self, Why::OpenElsewhere | Why::TakenOver)
    }
}

impl SaveState {
    /// Why nothing is kept, if so.
    pub fn why(self) -> Option<Why> {
        match self {
            SaveState::NotSaved(why) => Some(why),
            _ => None,
        }
    }

    /// The state once a write has ended; `is_all` if nothing was changed meanwhile.
    pub fn after_write(result: Result<(), Why>, is_all: bool) -> SaveState {
        match result {
            Ok(()) if is_all => SaveState::Saved,
            Ok(()) => SaveState::Saving,
            Err(why) => SaveState::NotSaved(why),
        }
    }

    /// The state once something was changed: what could not be kept before cannot be kept until a write succeeds.
    pub fn after_change(self) -> SaveState {
        match self {
            SaveState::NotSaved(_) => self,
            _ => SaveState::Saving,
        }
    }

    /// The state once a project of its own has begun: other tabs have nothing to do with it.
    pub fn with_own_project(self) -> SaveState {
        match self {
            SaveState::NotSaved(why) if why.is_other_tab() => SaveState::Saving,
            state => state,
        }
    }

    /// The state as it is read out. Saving and saved are one: nobody wants to hear of every change.
    pub fn spoken(self) -> SaveState {
        match self {
            SaveState::Saving => SaveState::Saved,
            state => state,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_write_that_succeeds_heals_every_trouble() {
        assert_eq!(SaveState::after_write(Ok(()), true), SaveState::Saved);
        assert_eq!(SaveState::after_write(Ok(()), false), SaveState::Saving);
    }

    #[test]
    fn trouble_stays_until_a_write_succeeds() {
        let full = SaveState::after_write(Err(Why::Full), true);
        assert_eq!(full, SaveState::NotSaved(Why::Full));
        assert_eq!(full.after_change(), full);
        assert_eq!(SaveState::Saved.after_change(), SaveState::Saving);
    }

    #[test]
    fn nothing_new_is_read_out_while_all_goes_well() {
        let told = [SaveState::Saving, SaveState::Saved, SaveState::Saving].map(SaveState::spoken);
        assert!(told.windows(2).all(|pair| pair[0] == pair[1]));
        assert_ne!(SaveState::NotSaved(Why::Full).spoken(), SaveState::Saved.spoken());
    }

    #[test]
    fn a_project_of_its_own_leaves_other_tabs_behind_but_not_a_full_device() {
        assert_eq!(SaveState::NotSaved(Why::TakenOver).with_own_project(), SaveState::Saving);
        let full = SaveState::NotSaved(Why::Full);
        assert_eq!(full.with_own_project(), full);
    }

    #[test]
    fn only_other_tabs_make_trying_again_useless() {
        let useless =
            [Why::OpenElsewhere, Why::TakenOver, Why::Full, Why::Refused, Why::Failed].map(Why::is_other_tab);
        assert_eq!(useless, [true, true, false, false, false]);
    }
}
