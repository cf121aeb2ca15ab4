//! Words for the count on the card and packing.

use stickleaf_sheet::{Ceiling, CeilingReason, LengthUnit, MM_PER_INCH, RULE_TOLERANCE};

use crate::messages::{PackAim, PackNews};

// The tally

words! {
    tally: "Tally", "Tally";
    all_rules_hold: "all rules hold", "all rules hold";
}

pub fn placed(count: usize) -> String {
    format!("{count} placed")
}

pub fn at_most(ceiling: usize) -> String {
    format!("at most {ceiling}")
}

/// Why no more can lie on the sheet than that.
pub fn why_at_most(Ceiling { most, reason }: Ceiling) -> String {
    let why = match reason {
        CeilingReason::Wanted => "no more copies are wanted",
        CeilingReason::NoRoom => "nothing fits between the margin and the background",
        CeilingReason::Area => {
            "with half the spacing round each sticker, more would take a larger area than there is"
        }
        CeilingReason::Discs => {
            "each sticker holds a round disc, and no more of these fit with the spacing between them"
        }
        CeilingReason::Boxes => {
            "each sticker holds a box, and no more of these fit beside and above each other"
        }
        CeilingReason::Gaps => "the stickers, and the gaps that their shapes leave, take all the room",
        CeilingReason::Parts => "the background parts the sheet, and no part holds more",
    };
    format!("At most {most}: {why}.")
}

pub fn dense(density: f64) -> String {
    // A sum of nothing may be a negative zero.
    format!("{:.0} % dense", (density * 100.0).max(0.0).abs())
}

pub fn smallest_gap(gap: &str) -> String {
    format!("smallest gap {gap}")
}

pub fn rules_broken(count: usize, first: &str) -> String {
    match count {
        1 => first.to_owned(),
        _ => format!("{first}, and {} more", count - 1),
    }
}

// Packing

words! {
    fill: "Fill the sheet", "Fill the sheet";
    place_these: "Place these", "Place these";
    more_ways: "More ways", "More ways";
    grow: "As large as fits", "As large as fits";
    grow_text: "All of them, as large as possible", "All of them, as large as possible";
    even: "Even the gaps", "Even the gaps";
    even_text: "All of them spread out, the smallest gap as large as possible", "All of them spread out, the smallest gap as large as possible";
    shorten: "Shorten the sheet", "Shorten the sheet";
    shorten_text: "The lowest sheet that holds all of them", "The lowest sheet that holds all of them";
    stop: "Stop", "Stop";
    pack_options: "How to pack", "How to pack";
    repeatable: "Repeatable", "Repeatable";
    repeatable_hint: "The same layout, rounds and seed give the same sheet again, here and at the command line.", "The same layout, rounds and seed give the same sheet again, here and at the command line.";
    rounds: "Rounds", "Rounds";
    seed: "Seed", "Seed";
    seconds_hint: "Otherwise it goes on until you stop it, or nothing is left to try.", "Otherwise it goes on until you stop it, or nothing is left to try.";
    whole_number: "type a whole number above 0", "type a whole number above 0";
    whole_number_from_0: "type a whole number, 0 or more", "type a whole number, 0 or more";
    starting: "getting ready", "getting ready";
    packing_name: "Packing", "Packing";
}

pub fn packing_begins(seconds: u64) -> String {
    format!("{} · {seconds} s", starting())
}

/// How far packing is: what lies there, what was reached or the proven bound, what it is doing, for how long.
pub fn packing(aim: PackAim, news: &PackNews, unit: LengthUnit, seconds: u64) -> String {
    let PackNews { placed, missing, ceiling, doing, .. } = news;
    let so_far = match (reached(aim, news, unit), missing) {
        (None, _) => format!("{placed} placed · at most {ceiling}"),
        (Some(reached), 0) => format!("{placed} placed · {reached}"),
        (Some(_), missing) => format!("{placed} placed · {missing} to go"),
    };
    format!("{so_far} · {doing} · {seconds} s")
}

/// What packing has reached beside the count; nothing for the aims that are about the count alone.
pub fn reached(aim: PackAim, news: &PackNews, unit: LengthUnit) -> Option<String> {
    match aim {
        PackAim::Place | PackAim::Fill => None,
        PackAim::Grow => Some(percent_of_size(news.scale)),
        PackAim::Even => Some(match news.gap {
            Some(gap) => smallest_gap(&tenths(unit, gap)),
            None => placed(news.placed),
        }),
        PackAim::Shorten => Some(format!("sheet {} high", unit.text(news.height))),
    }
}

/// The size in tenths of a per cent, never told larger than it is.
fn percent_of_size(scale: f64) -> String {
    // What is a whole number of steps but for rounding stays so.
    let tenths = (scale * 1000.0 + 1e-6).floor() / 10.0;
    format!("{tenths} % of the size")
}

/// A gap as one reads it at a glance: a tenth of a millimetre, a hundredth of an inch, never rounded up to a limit
/// that it misses.
pub fn tenths(unit: LengthUnit, mm: f64) -> String {
    let step = match unit {
        LengthUnit::Millimetres => 0.1,
        LengthUnit::Inches => 0.01 * MM_PER_INCH,
    };
    unit.text(((mm + RULE_TOLERANCE) / step).floor() * step)
}

/// Names the first few stickers that found no room, and counts the rest.
pub fn not_placed(missing: &[(String, usize)]) -> String {
    const NAMED: usize = 3;
    let name = |(name, count): &(String, usize)| {
        if *count == 1 { name.clone() } else { format!("{count} × {name}") }
    };
    let mut names: Vec<String> = missing.iter().take(NAMED).map(name).collect();
    match missing.len().saturating_sub(NAMED) {
        0 => {}
        1 => names.extend(missing.last().map(name)),
        more => names.push(format!("{more} other stickers")),
    }
    let list = match names.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => names.join(""),
    };
    format!("No room was found for {list}. Give it longer, a smaller spacing or a larger sheet.")
}

words! {
    no_answer: "its answer could not be read", "its answer could not be read";
}

/// An error's text as a sentence of its own: a large letter in front, a full stop behind.
pub fn sentence(error: &str) -> String {
    let mut letters = error.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

pub fn worker_failed(why: &str) -> String {
    format!("The work stopped because of a mistake in Stickleaf ({why}). Your sheet is as it was; try again.")
}
