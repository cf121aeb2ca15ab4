//! What to compare: the values that the layout suggests, those that were added, and without those that were left out.

use stickleaf_sheet::{Change, Layout, Subject, usual_changes};

use crate::messages::PackAim;

/// No more cards than these are shown side by side.
pub const MOST_CARDS: usize = 8;

/// What the artist wants compared, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Wishes {
    /// What the variants differ in.
    pub subject: Subject,
    /// Values beyond those that the layout suggests.
    pub added: Vec<Change>,
    /// Values that are left out.
    pub left_out: Vec<Change>,
    /// What they are packed for.
    pub aim: PackAim,
    /// How long each is packed, in seconds.
    pub seconds: u64,
}

impl Default for Wishes {
    fn default() -> Wishes {
        Wishes {
            subject: Subject::Backgrounds,
            added: Vec::new(),
            left_out: Vec::new(),
            aim: PackAim::Fill,
            seconds: 15,
        }
    }
}

impl Wishes {
    /// The values that are wanted, in the order in which they are offered.
    pub fn chosen(&self, layout: &Layout) -> Vec<Change> {
        offered(self, layout).into_iter().filter(|change| !self.left_out.contains(change)).collect()
    }

    /// Takes a value in or leaves it out.
    pub fn toggle(&mut self, change: &Change) {
        match self.left_out.iter().position(|other| other == change) {
            Some(place) => drop(self.left_out.remove(place)),
            None => self.left_out.push(change.clone()),
        }
    }

    /// Adds a value; one that was left out comes back. False if it is wanted already.
    pub fn add(&mut self, change: Change, layout: &Layout) -> bool {
        if self.left_out.contains(&change) {
            self.toggle(&change);
            return true;
        }
        let is_new = !offered(self, layout).contains(&change);
        if is_new {
            self.added.push(change);
        }
        is_new
    }
}

/// The values to choose from: numbers in rising order, sheets by their area.
pub fn offered(wishes: &Wishes, layout: &Layout) -> Vec<Change> {
    let mut changes = usual_changes(layout, wishes.subject);
    for change in wishes.added.iter().filter(|change| change.subject() == wishes.subject) {
        if !changes.contains(change) {
            changes.push(change.clone());
        }
    }
    // Backgrounds have no measure and stay in their order.
    changes.sort_by(|a, b| measure(a).total_cmp(&measure(b)));
    changes
}

fn measure(change: &Change) -> f64 {
    match change {
        Change::Background(_) => 0.0,
        Change::Spacing(mm) | Change::Border(mm) => *mm,
        Change::SheetSize { width, height } => width * height,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_can_be_left_out_and_added() {
        let layout = Layout::default();
        let mut wishes = Wishes { subject: Subject::Spacing, ..Wishes::default() };
        wishes.toggle(&Change::Spacing(1.5));
        assert!(wishes.add(Change::Spacing(2.2), &layout));
        assert!(!wishes.add(Change::Spacing(2.2), &layout));
        assert_eq!(wishes.chosen(&layout), [2.0, 2.2, 2.5, 3.0].map(Change::Spacing));
        assert_eq!(offered(&wishes, &layout).len(), 5);
        assert!(wishes.add(Change::Spacing(1.5), &layout));
        assert_eq!(wishes.chosen(&layout).len(), 5);
    }

    #[test]
    fn what_was_added_to_one_subject_is_not_offered_for_another() {
        let layout = Layout::default();
        let mut wishes = Wishes { subject: Subject::Border, ..Wishes::default() };
        wishes.add(Change::Border(7.0), &layout);
        wishes.subject = Subject::Backgrounds;
        assert_eq!(wishes.chosen(&layout), [Change::Background(None)]);
    }
}
