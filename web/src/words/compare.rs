//! Words for the place where variants lie side by side.

use stickleaf_sheet::LengthUnit;

use crate::messages::{Figures, PackAim};
use crate::words::language::pick;
use crate::words::{at_most, dense, money_parts, placed, tenths};

words! {
    compare: "Compare", "Vergleich";
    compare_title: "What does it cost in stickers?", "Was kostet es an Aufklebern?";
    compare_hint:
        "Each is packed from a bare sheet, with the same aim and the same time. Locked pieces stay. Your sheet on \
         the desk is left alone until you choose one.",
        "Jeder wird von einem leeren Bogen aus gepackt, mit demselben Ziel und derselben Zeit. Gesperrte Stücke \
         bleiben. Dein Bogen auf dem Tisch bleibt unberührt, bis du einen auswählst.";
    what_to_compare: "What to compare", "Was verglichen wird";
    backgrounds: "Backgrounds", "Hintergründe";
    spacings: "Spacing", "Abstand";
    borders: "Border", "Weißer Rand";
    sheet_sizes: "Sheet size", "Bogengröße";
    another: "Another one", "Noch ein Wert";
    add_it: "Add", "Hinzufügen";
    pack_for: "Pack to", "Ziel beim Packen";
    time_for_each: "Time for each", "Zeit für jeden";
    five_seconds: "5 s", "5 s";
    fifteen_seconds: "15 s", "15 s";
    one_minute: "1 min", "1 min";
    start_comparing: "Compare these", "Diese vergleichen";
    comparing: "Comparing", "Vergleichen";
    save_comparison_picture: "Save picture", "Bild sichern";
    stopped_early:
        "Stopped early. Each had the same time, but with more of it some would hold more: mind small differences.",
        "Vorzeitig angehalten. Alle hatten dieselbe Zeit, doch mit mehr davon würden manche mehr fassen: Gib auf \
         kleine Unterschiede nicht zu viel.";
    comparison_done: "The comparison is done.", "Der Vergleich ist fertig.";
    variants: "Variants", "Varianten";
    put_it_on_desk: "Put on the desk", "Auf den Tisch";
    as_on_desk: "as on the desk", "wie auf dem Tisch";
    waiting: "waiting for its turn", "wartet, bis er dran ist";
    nothing_yet: "nothing was packed", "nichts wurde gepackt";
    earlier_state: "earlier state", "früherer Stand";
    sheet_has_changed:
        "The sheet on the desk has changed since. These cards show it as it was when they were packed.",
        "Der Bogen auf dem Tisch hat sich seither geändert. Diese Karten zeigen ihn, wie er beim Packen war.";
    compare_again: "Compare again", "Noch einmal vergleichen";
    compare_needs_stickers:
        "There are no stickers to pack yet. Bring art in on the desk, or open a sample.",
        "Es gibt noch keine Aufkleber zum Packen. Hol auf dem Tisch Bilder herein oder öffne ein Beispiel.";
    go_to_desk: "Go to the desk", "Zum Tisch";
    desk_is_packing:
        "The desk is packing. Stop it there first.",
        "Auf dem Tisch wird gerade gepackt. Halte das zuerst an.";
    choose_two: "Choose two or more.", "Wähle mindestens zwei.";
}

pub fn too_many(most: usize) -> String {
    say!(
        "That is too many to see side by side. Choose {most} at most.",
        "Das sind zu viele, um sie nebeneinander zu sehen. Wähle höchstens {most}."
    )
}

words! {
    there_already: "this one is there already", "den gibt es schon";
}

/// How far a comparison by the clock is.
pub fn time_left(seconds: u64) -> String {
    if seconds >= 100 {
        say!("about {} min left", "noch etwa {} min", seconds.div_ceil(60))
    } else {
        say!("{seconds} s left", "noch {seconds} s")
    }
}

pub fn rounds_each(rounds: u64, seed: u64) -> String {
    say!("{rounds} rounds each, from seed {seed}", "je {rounds} Runden, ab Startwert {seed}")
}

pub fn seconds_each(seconds: u64, seed: u64) -> String {
    say!("{seconds} s each, from seed {seed}", "je {seconds} s, ab Startwert {seed}")
}

/// How far one card is: the part of its time or rounds.
pub fn part_done(part: f64) -> String {
    say!("{:.0} % done", "zu {:.0} % fertig", 100.0 * part)
}

/// What was packed for, after what was compared: `Backgrounds, packed to fill the sheet`.
pub fn about_comparison(subjects: &str, aim: PackAim, how: &str, is_stopped: bool) -> String {
    let aim = match aim {
        PackAim::Place => pick("packed to place these", "gepackt, um diese zu legen"),
        _ => pick("packed to fill the sheet", "gepackt, um den Bogen zu füllen"),
    };
    let stopped = if is_stopped { pick(", stopped early", ", vorzeitig angehalten") } else { "" };
    say!("{subjects} compared: {aim}, {how}{stopped}", "{subjects} im Vergleich: {aim}, {how}{stopped}")
}

/// How many more or fewer than on the first card; nothing on the first card itself.
pub fn against_first(difference: i64, first: &str) -> String {
    match difference {
        0 => say!("as many as {first}", "so viele wie bei {first}"),
        more if more > 0 => say!("{more} more than {first}", "{more} mehr als bei {first}"),
        fewer => say!("{} fewer than {first}", "{} weniger als bei {first}", -fewer),
    }
}

pub fn count_of(figures: &Figures, aim: PackAim) -> String {
    match aim {
        PackAim::Place => {
            say!("{} of {} placed", "{} von {} liegen", figures.placed, figures.placed + figures.missing)
        }
        _ => placed(figures.placed),
    }
}

pub fn ceiling_of(figures: &Figures) -> String {
    at_most(figures.ceiling)
}

pub fn not_placed_count(missing: usize) -> String {
    if missing == 1 {
        pick("1 wanted copy found no place", "1 gewünschtes Exemplar fand keinen Platz").to_owned()
    } else {
        say!("{missing} wanted copies found no place", "{missing} gewünschte Exemplare fanden keinen Platz")
    }
}

words! {
    density: "Density", "Dichte";
    gap_between_cuts: "Smallest gap between cut lines", "Kleinste Lücke zwischen Schnittlinien";
    largest_dot: "Largest empty dot", "Größter freier Punkt";
    sheet_costs: "A sheet costs, ink aside", "Ein Bogen kostet, ohne Tinte";
    sticker_costs: "A sticker costs", "Ein Aufkleber kostet";
    no_dot: "none", "keiner";
    no_gap: "only one piece", "nur ein Stück";
}

pub fn density_of(density: f64) -> String {
    format!("{:.0} %", 100.0 * density)
}

/// The figures of a card as short lines, for the picture that is saved.
pub fn figure_lines(figures: &Figures, dot: Option<String>, unit: LengthUnit) -> Vec<String> {
    let mut lines = vec![dense(figures.density)];
    lines.extend(figures.smallest_gap.map(|gap| {
        say!(
            "smallest gap between cut lines {}",
            "kleinste Lücke zwischen Schnittlinien {}",
            tenths(unit, gap)
        )
    }));
    lines.extend(dot.map(|dot| say!("largest empty dot {dot}", "größter freier Punkt {dot}")));
    if figures.missing > 0 {
        lines.push(not_placed_count(figures.missing));
    }
    lines
}

/// What a sheet and a sticker of it cost, in cents and parts of them, as short lines for the picture that is saved.
pub fn cost_lines((sheet, sticker): (f64, f64), currency: &str) -> [String; 2] {
    let (sheet, sticker) = (money_parts(sheet, currency), money_parts(sticker, currency));
    [
        say!("a sheet costs {sheet}, ink aside", "ein Bogen kostet {sheet}, ohne Tinte"),
        say!("a sticker costs {sticker}", "ein Aufkleber kostet {sticker}"),
    ]
}

/// The sheet of a card, for those who do not see it.
pub fn picture_of(name: &str) -> String {
    say!("The sheet with {name}", "Der Bogen mit {name}")
}

/// Said once when all is done.
pub fn compared(results: &[(String, String)]) -> String {
    let list: Vec<String> = results.iter().map(|(name, count)| format!("{name}: {count}")).collect();
    say!("Compared. {}.", "Verglichen. {}.", list.join(", "))
}

pub fn put_on_desk(name: &str) -> String {
    say!("{name} is on the desk.", "{name} liegt auf dem Tisch.")
}

pub fn put_on_desk_as_it_was(name: &str) -> String {
    say!(
        "{name} is on the desk, with the sheet as it was when it was compared.",
        "{name} liegt auf dem Tisch, mit dem Bogen, wie er beim Vergleichen war."
    )
}

/// What undo calls it.
pub fn step_choose(name: &str) -> String {
    say!("Put {name} on the desk", "{name} auf den Tisch legen")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differences_read_as_people_say_them() {
        assert_eq!(against_first(0, "Plain"), "as many as Plain");
        assert_eq!(against_first(2, "Plain"), "2 more than Plain");
        assert_eq!(against_first(-3, "Plain"), "3 fewer than Plain");
        assert_eq!(time_left(42), "42 s left");
        assert_eq!(time_left(130), "about 3 min left");
    }
}
