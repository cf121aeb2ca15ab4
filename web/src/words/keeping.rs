//! Words for what is kept on the device: the save state, the list of projects, other tabs.

use crate::keeping::{Occasion, SaveState, Why};

// The save state

words! {
    save_state_name: "Save state", "Save state";
    save_layout_file: "Save a layout file", "Save a layout file";
    take_over: "Take over here", "Take over here";
    keep_a_copy: "Keep a copy", "Keep a copy";
    not_kept_yet: "Your last changes are not kept on this device yet, so the newer version waits. \
     Save a layout file, then load the page again.",
        "Your last changes are not kept on this device yet, so the newer version waits. \
     Save a layout file, then load the page again.";
    step_take_over: "Take over", "Take over";
    step_copy: "Copy", "Copy";
    taken_over_here: "This tab keeps the sheet now, as the other tab left it.", "This tab keeps the sheet now, as the other tab left it.";
    taken_over_here_with_changes: "This tab keeps the sheet now, as the other tab left it. \
     What you changed here is among its earlier states, and Undo brings it back.",
        "This tab keeps the sheet now, as the other tab left it. \
     What you changed here is among its earlier states, and Undo brings it back.";
}

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

words! {
    my_sheets: "My sheets", "My sheets";
    new_sheet: "New sheet", "New sheet";
    no_sheets: "Nothing is kept yet. A sheet is kept as soon as you change something on it.", "Nothing is kept yet. A sheet is kept as soon as you change something on it.";
    list_failed: "The sheets that are kept on this device could not be read. Close other tabs of this page and load it again.", "The sheets that are kept on this device could not be read. Close other tabs of this page and load it again.";
    on_the_desk: "On the desk", "On the desk";
    rename: "Rename", "Rename";
    duplicate_sheet: "Duplicate", "Duplicate";
    delete: "Delete", "Delete";
    new_name: "New name", "New name";
    earlier_states: "Earlier states", "Earlier states";
    no_earlier_states: "There are none yet. One is kept when a sheet is opened, before packing, and every \
     few minutes of work.",
        "There are none yet. One is kept when a sheet is opened, before packing, and every \
     few minutes of work.";
    go_back: "Go back to this", "Go back to this";
    step_go_back: "Go back", "Go back";
    have_it_back: "Have it back", "Have it back";
    copy_ending: " copy", " copy";
}

pub fn named(name: &str) -> &str {
    if name.is_empty() { super::untitled() } else { name }
}

pub fn copy_of(name: &str) -> String {
    format!("{}{}", named(name), copy_ending())
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

words! {
    just_now: "just now", "just now";
}

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

words! {
    on_this_device: "On this device", "On this device";
    ask_to_keep: "Ask the browser to keep them", "Ask the browser to keep them";
    promised: "This browser promises to keep your sheets until you delete them.", "This browser promises to keep your sheets until you delete them.";
    not_promised: "This browser does not promise to keep your sheets: it may clear them when the device \
     runs short of room, or when you do not come back for a while. Save a layout file of what matters to you.",
        "This browser does not promise to keep your sheets: it may clear them when the device \
     runs short of room, or when you do not come back for a while. Save a layout file of what matters to you.";
    still_not_promised: "The browser still does not promise it. Save a layout file of what matters to you.", "The browser still does not promise it. Save a layout file of what matters to you.";
}

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
