//! Words for what is kept on the device: the save state, the list of projects, other tabs.

use crate::keeping::{Occasion, SaveState, Why};
use crate::words::figure;
use crate::words::language::pick;

// The save state

words! {
    save_state_name: "Save state", "Sicherungsstand";
    save_layout_file: "Save a layout file", "Layoutdatei sichern";
    take_over: "Take over here", "Hier übernehmen";
    keep_a_copy: "Keep a copy", "Kopie behalten";
    not_kept_yet:
        "Your last changes are not kept on this device yet, so the newer version waits. Save a layout file, then \
         load the page again.",
        "Deine letzten Änderungen sind noch nicht auf diesem Gerät gesichert, darum wartet die neuere Version. \
         Sichere eine Layoutdatei und lade dann die Seite neu.";
    step_take_over: "Take over", "Übernehmen";
    step_copy: "Copy", "Kopieren";
    taken_over_here:
        "This tab keeps the sheet now, as the other tab left it.",
        "Dieser Tab behält den Bogen jetzt, so wie der andere ihn gelassen hat.";
    taken_over_here_with_changes:
        "This tab keeps the sheet now, as the other tab left it. What you changed here is among its earlier \
         states, and Undo brings it back.",
        "Dieser Tab behält den Bogen jetzt, so wie der andere ihn gelassen hat. Was du hier geändert hast, steht \
         in seinem Verlauf, und „Rückgängig“ holt es zurück.";
}

/// The save state in a few words; nothing while there is nothing to keep.
pub fn save_state(state: SaveState) -> &'static str {
    match state {
        SaveState::Nothing => "",
        SaveState::Saving => pick("Saving", "Wird gesichert"),
        SaveState::Saved => pick("Saved on this device", "Hier gesichert"),
        SaveState::NotSaved(Why::OpenElsewhere | Why::TakenOver) => {
            pick("Not saved: open in another tab", "Nicht gesichert: in anderem Tab offen")
        }
        SaveState::NotSaved(Why::Full) => pick("Not saved: no room left", "Nicht gesichert: kein Platz mehr"),
        SaveState::NotSaved(Why::Refused) => {
            pick("Not saved: this browser keeps nothing", "Nicht gesichert: Der Browser behält nichts")
        }
        SaveState::NotSaved(Why::Failed) => {
            pick("Not saved: it did not work", "Nicht gesichert: Es ging nicht")
        }
    }
}

/// Why nothing is kept and what can be done, in whole sentences.
pub fn not_saved(why: Why) -> &'static str {
    match why {
        Why::OpenElsewhere => pick(
            "This sheet is open in another tab, which keeps it. What you change here is not kept.",
            "Dieser Bogen ist in einem anderen Tab geöffnet, der ihn sichert. Was du hier änderst, wird nicht gesichert.",
        ),
        Why::TakenOver => pick(
            "Another tab keeps this sheet now. What you change here from now on is not kept.",
            "Ein anderer Tab sichert diesen Bogen jetzt. Was du hier von nun an änderst, wird nicht gesichert.",
        ),
        Why::Full => pick(
            "There is no room left on this device for your last changes. They stay here as long as the page is open: \
             save a layout file, or delete sheets that you no longer need.",
            "Auf diesem Gerät ist kein Platz mehr für deine letzten Änderungen. Sie bleiben hier, solange die Seite offen ist: Sichere eine Layoutdatei oder lösche Bögen, die du nicht mehr brauchst.",
        ),
        Why::Refused => pick(
            "This browser keeps nothing for this page, as in a private window. Your work stays here as long as the page \
             is open: save a layout file before you leave.",
            "Dieser Browser behält nichts für diese Seite, so wie in einem privaten Fenster. Deine Arbeit bleibt hier, solange die Seite offen ist: Sichere eine Layoutdatei, bevor du gehst.",
        ),
        Why::Failed => pick(
            "Your last changes could not be kept on this device. They stay here as long as the page is open: \
             it is tried again every few seconds. Save a layout file to be safe.",
            "Deine letzten Änderungen ließen sich auf diesem Gerät nicht sichern. Sie bleiben hier, solange die Seite offen ist: Alle paar Sekunden wird es noch einmal versucht. Sichere zur Sicherheit eine Layoutdatei.",
        ),
    }
}

pub fn could_not_take_over(why: Why) -> String {
    say!(
        "The sheet could not be taken over{}. Keep a copy instead.",
        "Der Bogen ließ sich nicht übernehmen{}. Behalte stattdessen eine Kopie.",
        because(why)
    )
}

pub fn copy_is_kept(name: &str) -> String {
    say!(
        "{name} is a sheet of its own now, and is kept.",
        "{name} ist jetzt ein eigener Bogen und wird gesichert."
    )
}

pub fn picture_not_kept(file: &str) -> String {
    say!(
        "The picture {file} could not be read again, so it is not kept. Bring it in again before you leave.",
        "Das Bild {file} ließ sich nicht noch einmal lesen und ist darum nicht gesichert. Hol es noch einmal herein, bevor du gehst."
    )
}

// My sheets

words! {
    my_sheets: "My sheets", "Meine Bögen";
    new_sheet: "New sheet", "Neuer Bogen";
    no_sheets:
        "Nothing is kept yet. A sheet is kept as soon as you change something on it.",
        "Noch ist nichts gesichert. Ein Bogen wird gesichert, sobald du etwas an ihm änderst.";
    list_failed:
        "The sheets that are kept on this device could not be read. Close other tabs of this page and load it \
         again.",
        "Die Bögen, die auf diesem Gerät gesichert sind, ließen sich nicht lesen. Schließ andere Tabs dieser Seite \
         und lade sie neu.";
    on_the_desk: "On the desk", "Auf dem Tisch";
    rename: "Rename", "Umbenennen";
    duplicate_sheet: "Duplicate", "Duplizieren";
    delete: "Delete", "Löschen";
    new_name: "New name", "Neuer Name";
    earlier_states: "Earlier states", "Verlauf";
    no_earlier_states:
        "There are none yet. One is kept when a sheet is opened, before packing, and every few minutes of work.",
        "Noch gibt es keine. Einer wird behalten, wenn ein Bogen geöffnet wird, vor dem Packen und alle paar \
         Minuten Arbeit.";
    go_back: "Go back to this", "Hierhin zurückgehen";
    step_go_back: "Go back", "Zurückgehen";
    have_it_back: "Have it back", "Wiederhaben";
    copy_ending: " copy", " Kopie";
}

pub fn named(name: &str) -> &str {
    if name.is_empty() { super::untitled() } else { name }
}

pub fn copy_of(name: &str) -> String {
    format!("{}{}", named(name), copy_ending())
}

pub fn open_sheet(name: &str) -> String {
    say!("Open {}", "{} öffnen", named(name))
}

/// A button's name for those who do not see which sheet it belongs to.
pub fn of_sheet(deed: &str, name: &str) -> String {
    format!("{deed}: {}", named(name))
}

pub fn changed(when: &str) -> String {
    say!("Changed {when}", "Geändert {when}")
}

pub fn stickers_and_pieces(stickers: usize, count: usize) -> String {
    let stickers = if stickers == 1 {
        pick("1 sticker", "1 Aufkleber").to_owned()
    } else {
        say!("{stickers} stickers", "{stickers} Aufkleber")
    };
    format!("{stickers}, {}", super::pieces(count))
}

pub fn sheet_is_open(name: &str) -> String {
    say!("{} is on the desk.", "{} liegt auf dem Tisch.", named(name))
}

pub fn sheet_is_deleted(name: &str) -> String {
    say!("{} is deleted.", "{} ist gelöscht.", named(name))
}

pub fn sheet_is_gone(name: &str) -> String {
    say!(
        "{} is deleted for good: there was no room to keep it for a while.",
        "{} ist endgültig gelöscht: Es war kein Platz, es noch eine Weile aufzuheben.",
        named(name)
    )
}

pub fn sheet_is_copied(name: &str) -> String {
    say!("{name} is in the list.", "{name} steht in der Liste.")
}

pub fn occasion(occasion: Occasion) -> &'static str {
    match occasion {
        Occasion::Opening => pick("when it was opened", "beim Öffnen"),
        Occasion::Packing => pick("before packing", "vor dem Packen"),
        Occasion::Meanwhile => pick("while working", "während der Arbeit"),
        Occasion::GoingBack => pick("before going back", "vor dem Zurückgehen"),
        Occasion::OtherTab => pick("changed in another tab", "in anderem Tab geändert"),
    }
}

pub fn went_back(when: &str) -> String {
    say!("This is the sheet as it was {when}.", "So war der Bogen {when}.")
}

pub fn could_not_open_project(why: Why) -> String {
    match why {
        Why::OpenElsewhere | Why::TakenOver => pick("What you changed here is not kept, because the sheet is open in another \
             tab. Keep a copy of it or take it over, then open the other one.", "Was du hier geändert hast, ist nicht gesichert, weil der Bogen in einem anderen Tab offen ist. Behalte eine Kopie oder übernimm ihn, dann öffne den anderen.")
            .to_owned(),
        Why::Full => pick("What is on the desk could not be kept, because there is no room left. Save a layout file of it or \
             delete another sheet first.", "Was auf dem Tisch liegt, ließ sich nicht sichern, weil kein Platz mehr ist. Sichere eine Layoutdatei davon oder lösche zuerst einen anderen Bogen.")
            .to_owned(),
        Why::Refused | Why::Failed => {
            pick("The sheet could not be opened. What is on the desk is still there. Try it once more.", "Der Bogen ließ sich nicht öffnen. Was auf dem Tisch lag, ist noch da. Versuch es noch einmal.").to_owned()
        }
    }
}

pub fn could_not_do(deed: &str, why: Why) -> String {
    say!(
        "{deed} did not work{}. Nothing was changed.",
        "{deed}: Das ging nicht{}. Nichts wurde geändert.",
        because(why)
    )
}

fn because(why: Why) -> &'static str {
    match why {
        Why::OpenElsewhere | Why::TakenOver => pick(
            ": the sheet is open in another tab; close it there first",
            ": Der Bogen ist in einem anderen Tab offen; schließ ihn dort zuerst",
        ),
        Why::Full => pick(": there is no room left on this device", ": Auf diesem Gerät ist kein Platz mehr"),
        Why::Refused => pick(
            ": this browser keeps nothing for this page",
            ": Dieser Browser behält nichts für diese Seite",
        ),
        Why::Failed => pick("; try it once more", "; versuch es noch einmal"),
    }
}

// When

words! {
    just_now: "just now", "gerade eben";
}

pub fn minutes_ago(minutes: u64) -> String {
    if minutes == 1 {
        pick("1 minute ago", "vor 1 Minute").to_owned()
    } else {
        say!("{minutes} minutes ago", "vor {minutes} Minuten")
    }
}

pub fn hours_ago(hours: u64) -> String {
    if hours == 1 {
        pick("1 hour ago", "vor 1 Stunde").to_owned()
    } else {
        say!("{hours} hours ago", "vor {hours} Stunden")
    }
}

pub fn on_date(date: &str) -> String {
    say!("on {date}", "am {date}")
}

// How the browser keeps it

words! {
    on_this_device: "On this device", "Auf diesem Gerät";
    ask_to_keep: "Ask the browser to keep them", "Den Browser bitten, sie zu behalten";
    promised:
        "This browser promises to keep your sheets until you delete them.",
        "Dieser Browser verspricht, deine Bögen zu behalten, bis du sie löschst.";
    not_promised:
        "This browser does not promise to keep your sheets: it may clear them when the device runs short of room, \
         or when you do not come back for a while. Save a layout file of what matters to you.",
        "Dieser Browser verspricht nicht, deine Bögen zu behalten: Er kann sie löschen, wenn der Platz auf dem \
         Gerät knapp wird oder wenn du länger nicht wiederkommst. Sichere eine Layoutdatei von allem, was dir \
         wichtig ist.";
    still_not_promised:
        "The browser still does not promise it. Save a layout file of what matters to you.",
        "Der Browser verspricht es noch immer nicht. Sichere eine Layoutdatei von allem, was dir wichtig ist.";
}

pub fn used_and_left(used: f64, left: f64) -> String {
    say!("{} used, {} left.", "{} belegt, {} frei.", bytes(used), bytes(left))
}

/// A number of bytes as people say it.
pub fn bytes(count: f64) -> String {
    let count = count.max(0.0);
    let units = ["kB", "MB", "GB", "TB"];
    let mut amount = count / 1000.0;
    let mut unit = 0;
    while amount >= 999.5 && unit + 1 < units.len() {
        amount /= 1000.0;
        unit += 1;
    }
    if amount < 9.95 && unit > 0 {
        format!("{} {}", figure(amount, 1), units[unit])
    } else {
        format!("{} {}", figure(amount, 0), units[unit])
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
