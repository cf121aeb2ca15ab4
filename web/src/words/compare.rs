//! Words for the place where variants lie side by side.

use stickleaf_sheet::LengthUnit;

use crate::messages::{Figures, PackAim};
use crate::words::{at_most, dense, placed, tenths};

words! {
    compare: "Compare", "Compare";
    compare_title: "What does it cost in stickers?", "What does it cost in stickers?";
    compare_hint: "Each is packed from a bare sheet, with the same aim and the same time. Locked pieces stay. Your sheet on the desk is left alone until you choose one.", "Each is packed from a bare sheet, with the same aim and the same time. Locked pieces stay. Your sheet on the desk is left alone until you choose one.";
    what_to_compare: "What to compare", "What to compare";
    backgrounds: "Backgrounds", "Backgrounds";
    spacings: "Spacing", "Spacing";
    borders: "Border", "Border";
    sheet_sizes: "Sheet size", "Sheet size";
    another: "Another one", "Another one";
    add_it: "Add", "Add";
    pack_for: "Pack to", "Pack to";
    time_for_each: "Time for each", "Time for each";
    five_seconds: "5 s", "5 s";
    fifteen_seconds: "15 s", "15 s";
    one_minute: "1 min", "1 min";
    start_comparing: "Compare these", "Compare these";
    comparing: "Comparing", "Comparing";
    save_comparison_picture: "Save picture", "Save picture";
    stopped_early: "Stopped early. Each had the same time, but with more of it some would hold more: mind small differences.", "Stopped early. Each had the same time, but with more of it some would hold more: mind small differences.";
    comparison_done: "The comparison is done.", "The comparison is done.";
    variants: "Variants", "Variants";
    put_it_on_desk: "Put on the desk", "Put on the desk";
    as_on_desk: "as on the desk", "as on the desk";
    waiting: "waiting for its turn", "waiting for its turn";
    nothing_yet: "nothing was packed", "nothing was packed";
    earlier_state: "earlier state", "earlier state";
    sheet_has_changed: "The sheet on the desk has changed since. These cards show it as it was when they were packed.", "The sheet on the desk has changed since. These cards show it as it was when they were packed.";
    compare_again: "Compare again", "Compare again";
    compare_needs_stickers: "There are no stickers to pack yet. Bring art in on the desk, or open a sample.", "There are no stickers to pack yet. Bring art in on the desk, or open a sample.";
    go_to_desk: "Go to the desk", "Go to the desk";
    desk_is_packing: "The desk is packing. Stop it there first.", "The desk is packing. Stop it there first.";
    choose_two: "Choose two or more.", "Choose two or more.";
}

pub fn too_many(most: usize) -> String {
    format!("That is too many to see side by side. Choose {most} at most.")
}

words! {
    there_already: "this one is there already", "this one is there already";
}

/// How far a comparison by the clock is.
pub fn time_left(seconds: u64) -> String {
    if seconds >= 100 {
        format!("about {} min left", seconds.div_ceil(60))
    } else {
        format!("{seconds} s left")
    }
}

pub fn rounds_each(rounds: u64, seed: u64) -> String {
    format!("{rounds} rounds each, from seed {seed}")
}

pub fn seconds_each(seconds: u64, seed: u64) -> String {
    format!("{seconds} s each, from seed {seed}")
}

/// How far one card is: the part of its time or rounds.
pub fn part_done(part: f64) -> String {
    format!("{:.0} % done", 100.0 * part)
}

/// What was packed for, after what was compared: `Backgrounds, packed to fill the sheet`.
pub fn about_comparison(subjects: &str, aim: PackAim, how: &str, is_stopped: bool) -> String {
    let aim = match aim {
        PackAim::Place => "packed to place these",
        _ => "packed to fill the sheet",
    };
    let stopped = if is_stopped { ", stopped early" } else { "" };
    format!("{subjects} compared: {aim}, {how}{stopped}")
}

/// How many more or fewer than on the first card; nothing on the first card itself.
pub fn against_first(difference: i64, first: &str) -> String {
    match difference {
        0 => format!("as many as {first}"),
        more if more > 0 => format!("{more} more than {first}"),
        fewer => format!("{} fewer than {first}", -fewer),
    }
}

pub fn count_of(figures: &Figures, aim: PackAim) -> String {
    match aim {
        PackAim::Place => {
            format!("{} of {} placed", figures.placed, figures.placed + figures.missing)
        }
        _ => placed(figures.placed),
    }
}

pub fn ceiling_of(figures: &Figures) -> String {
    at_most(figures.ceiling)
}

pub fn not_placed_count(missing: usize) -> String {
    if missing == 1 {
        "1 wanted copy found no place".to_owned()
    } else {
        format!("{missing} wanted copies found no place")
    }
}

words! {
    density: "Density", "Density";
    gap_between_cuts: "Smallest gap between cut lines", "Smallest gap between cut lines";
    largest_dot: "Largest empty dot", "Largest empty dot";
    no_dot: "none", "none";
    no_gap: "only one piece", "only one piece";
}

pub fn density_of(density: f64) -> String {
    format!("{:.0} %", 100.0 * density)
}

/// The figures of a card as short lines, for the picture that is saved.
pub fn figure_lines(figures: &Figures, dot: Option<String>, unit: LengthUnit) -> Vec<String> {
    let mut lines = vec![dense(figures.density)];
    lines.extend(
        figures.smallest_gap.map(|gap| format!("smallest gap between cut lines {}", tenths(unit, gap))),
    );
    lines.extend(dot.map(|dot| format!("largest empty dot {dot}")));
    if figures.missing > 0 {
        lines.push(not_placed_count(figures.missing));
    }
    lines
}

/// The sheet of a card, for those who do not see it.
pub fn picture_of(name: &str) -> String {
    format!("The sheet with {name}")
}

/// Said once when all is done.
pub fn compared(results: &[(String, String)]) -> String {
    let list: Vec<String> = results.iter().map(|(name, count)| format!("{name}: {count}")).collect();
    format!("Compared. {}.", list.join(", "))
}

pub fn put_on_desk(name: &str) -> String {
    format!("{name} is on the desk.")
}

pub fn put_on_desk_as_it_was(name: &str) -> String {
    format!("{name} is on the desk, with the sheet as it was when it was compared.")
}

/// What undo calls it.
pub fn step_choose(name: &str) -> String {
    format!("Put {name} on the desk")
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
