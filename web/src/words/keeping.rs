//! Words for what is kept on the device: the save state, the list of projects, other tabs.

use crate::keeping::{Occasion, SaveState, Why};

// The save state

pub const SAVE_STATE: &str = "Save state";
pub const SAVE_LAYOUT_FILE: &str = "Save a layout file";
pub const TAKE_OVER: &str = "Take over here";
pub const KEEP_A_COPY: &str = "Keep a copy";
pub const NOT_KEPT_YET: &str = "Your last changes are not kept on this device yet, so the newer version waits. \
     Save a layout file, then load the page again.";
pub const STEP_TAKE_OVER: &str = "Take over";
pub const STEP_COPY: &str = "Copy";
pub const TAKEN_OVER_HERE: &str = "This tab keeps the sheet now, as the other tab left it.";
pub const TAKEN_OVER_HERE_WITH_CHANGES: &str = "This tab keeps the sheet now, as the other tab left it. \
     What you changed here is among its earlier states, and Undo brings it back.";

/// The save state in a few words; nothing while there is nothing to keep.
pub fn save_state(state: SaveState) -> &'static str {
    match state {
        SaveState::Nothing => "",
        SaveState::Saving => "Saving",
        SaveState::Saved => "Saved on this device",
        SaveState::NotSaved(Why::OpenElsewhere | Why::TakenOver) => "Not saved: open in another tab",
        SaveState::NotSaved(Why::Full) => "Not saved: no room left",
        SaveState::NotSaved(Why::Refused) => "Not saved: this browser keeps nothing",
        SaveState::NotSaved(Why::Failed) => "Not saved: it did not work",
    }
}

/// Why nothing is kept and what can be done, in whole sentences.
pub fn not_saved(why: Why) -> &'static str {
    match why {
        Why::OpenElsewhere => {
            "This sheet is open in another tab, which keeps it. What you change here is not kept."
        }
        Why::TakenOver => "Another tab keeps this sheet now. What you change here from now on is not kept.",
        Why::Full => {
            "There is no room left on this device for your last changes. They stay here as long as the page is open: \
             save a layout file, or delete sheets that you no longer need."
        }
        Why::Refused => {
            "This browser keeps nothing for this page, as in a private window. Your work stays here as long as the page \
             is open: save a layout file before you leave."
        }
        Why::Failed => {
            "Your last changes could not be kept on this device. They stay here as long as the page is open: \
             it is tried again every few seconds. Save a layout file to be safe."
        }
    }
}

pub fn could_not_take_over(why: Why) -> String {
    format!("The sheet could not be taken over{}. Keep a copy instead.", because(why))
}

pub fn copy_is_kept(name: &str) -> String {
    format!("{name} is a sheet of its own now, and is kept.")
}

pub fn picture_not_kept(file: &str) -> String {
    format!(
        "The picture {file} could not be read again, so it is not kept. Bring it in again before you leave."
    )
}

// My sheets

pub const MY_SHEETS: &str = "My sheets";
pub const NEW_SHEET: &str = "New sheet";
pub const NO_SHEETS: &str = "Nothing is kept yet. A sheet is kept as soon as you change something on it.";
pub const LIST_FAILED: &str = "The sheets that are kept on this device could not be read. Close other tabs of this page and load it again.";
pub const ON_THE_DESK: &str = "On the desk";
pub const RENAME: &str = "Rename";
pub const DUPLICATE_SHEET: &str = "Duplicate";
pub const DELETE: &str = "Delete";
pub const NEW_NAME: &str = "New name";
pub const EARLIER_STATES: &str = "Earlier states";
pub const NO_EARLIER_STATES: &str = "There are none yet. One is kept when a sheet is opened, before packing, and every \
     few minutes of work.";
pub const GO_BACK: &str = "Go back to this";
pub const STEP_GO_BACK: &str = "Go back";
pub const HAVE_IT_BACK: &str = "Have it back";
pub const COPY_ENDING: &str = " copy";

pub fn named(name: &str) -> &str {
    if name.is_empty() { super::UNTITLED } else { name }
}

pub fn copy_of(name: &str) -> String {
    format!("{}{COPY_ENDING}", named(name))
}

pub fn open_sheet(name: &str) -> String {
    format!("Open {}", named(name))
}

/// A button's name for those who do not see which sheet it belongs to.
pub fn of_sheet(deed: &str, name: &str) -> String {
    format!("{deed}: {}", named(name))
}

pub fn changed(when: &str) -> String {
    format!("Changed {when}")
}

pub fn stickers_and_pieces(stickers: usize, count: usize) -> String {
    let stickers = if stickers == 1 { "1 sticker".to_owned() } else { format!("{stickers} stickers") };
    format!("{stickers}, {}", super::pieces(count))
}

pub fn sheet_is_open(name: &str) -> String {
    format!("{} is on the desk.", named(name))
}

pub fn sheet_is_deleted(name: &str) -> String {
    format!("{} is deleted.", named(name))
}

pub fn sheet_is_gone(name: &str) -> String {
    format!("{} is deleted for good: there was no room to keep it for a while.", named(name))
}

pub fn sheet_is_copied(name: &str) -> String {
    format!("{name} is in the list.")
}

pub fn occasion(occasion: Occasion) -> &'static str {
    match occasion {
        Occasion::Opening => "when it was opened",
        Occasion::Packing => "before packing",
        Occasion::Meanwhile => "while working",
        Occasion::GoingBack => "before going back",
        Occasion::OtherTab => "changed in another tab",
    }
}

pub fn went_back(when: &str) -> String {
    format!("This is the sheet as it was {when}.")
}

pub fn could_not_open_project(why: Why) -> String {
    match why {
        Why::OpenElsewhere | Why::TakenOver => "What you changed here is not kept, because the sheet is open in another \
             tab. Keep a copy of it or take it over, then open the other one."
            .to_owned(),
        Why::Full => "What is on the desk could not be kept, because there is no room left. Save a layout file of it or \
             delete another sheet first."
            .to_owned(),
        Why::Refused | Why::Failed => {
            "The sheet could not be opened. What is on the desk is still there. Try it once more.".to_owned()
        }
    }
}

pub fn could_not_do(deed: &str, why: Why) -> String {
    format!("{deed} did not work{}. Nothing was changed.", because(why))
}

fn because(why: Why) -> &'static str {
    match why {
        Why::OpenElsewhere | Why::TakenOver => ": the sheet is open in another tab; close it there first",
        Why::Full => ": there is no room left on this device",
        Why::Refused => ": this browser keeps nothing for this page",
        Why::Failed => "; try it once more",
    }
}

// When

pub const JUST_NOW: &str = "just now";

pub fn minutes_ago(minutes: u64) -> String {
    if minutes == 1 { "1 minute ago".to_owned() } else { format!("{minutes} minutes ago") }
}

pub fn hours_ago(hours: u64) -> String {
    if hours == 1 { "1 hour ago".to_owned() } else { format!("{hours} hours ago") }
}

pub fn on_date(date: &str) -> String {
    format!("on {date}")
}

// How the browser keeps it

pub const ON_THIS_DEVICE: &str = "On this device";
pub const ASK_TO_KEEP: &str = "Ask the browser to keep them";
pub const PROMISED: &str = "This browser promises to keep your sheets until you delete them.";
pub const NOT_PROMISED: &str = "This browser does not promise to keep your sheets: it may clear them when the device \
     runs short of room, or when you do not come back for a while. Save a layout file of what matters to you.";
pub const STILL_NOT_PROMISED: &str =
    "The browser still does not promise it. Save a layout file of what matters to you.";

pub fn used_and_left(used: f64, left: f64) -> String {
    format!("{} used, {} left.", bytes(used), bytes(left))
}

/// A number of bytes as people say it.
pub fn bytes(count: f64) -> String {
    let count = count.max(0.0);
    let units = ["kB", "MB", "GB", "TB"];
    let mut figure = count / 1000.0;
    let mut unit = 0;
    while figure >= 999.5 && unit + 1 < units.len() {
        figure /= 1000.0;
        unit += 1;
    }
    if figure < 9.95 && unit > 0 {
        format!("{figure:.1} {}", units[unit])
    } else {
        format!("{figure:.0} {}", units[unit])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_are_said_in_the_unit_that_suits_them() {
        let said = [0.0, 640_400.0, 999_600.0, 4_240_000_000.0, 58e9, 3e12].map(bytes);
        assert_eq!(said, ["0 kB", "640 kB", "1.0 MB", "4.2 GB", "58 GB", "3.0 TB"]);
    }

    #[test]
    fn every_trouble_says_that_it_is_not_saved() {
        for why in [Why::OpenElsewhere, Why::TakenOver, Why::Full, Why::Refused, Why::Failed] {
            assert!(save_state(SaveState::NotSaved(why)).starts_with("Not saved: "));
        }
        assert_eq!(save_state(SaveState::Nothing), "");
    }
}
