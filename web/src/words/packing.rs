//! Words for the count on the card and packing.

use stickleaf_sheet::{Ceiling, CeilingReason, LengthUnit, MM_PER_INCH, RULE_TOLERANCE};

use crate::messages::{PackAim, PackNews};
use crate::words::language::pick;
use crate::words::{length, with_decimal_sign};

// The tally

words! {
    tally: "Tally", "Zählung";
    all_rules_hold: "all rules hold", "alle Regeln eingehalten";
}

pub fn placed(count: usize) -> String {
    if count == 1 { pick("1 placed", "1 liegt").to_owned() } else { say!("{count} placed", "{count} liegen") }
}

pub fn at_most(ceiling: usize) -> String {
    say!("at most {ceiling}", "höchstens {ceiling}")
}

/// Why no more can lie on the sheet than that.
pub fn why_at_most(Ceiling { most, reason }: Ceiling) -> String {
    let why = match reason {
        CeilingReason::Wanted => pick("no more copies are wanted", "mehr Exemplare sind nicht gewünscht"),
        CeilingReason::NoRoom => pick(
            "nothing fits between the margin and the background",
            "zwischen Rand und Hintergrund passt nichts",
        ),
        CeilingReason::Area => pick(
            "with half the spacing round each sticker, more would take a larger area than there is",
            "mit dem halben Abstand um jeden Aufkleber bräuchten mehr eine größere Fläche, als da ist",
        ),
        CeilingReason::Discs => pick(
            "each sticker holds a round disc, and no more of these fit with the spacing between them",
            "in jedem Aufkleber liegt eine runde Scheibe, und mehr davon passen mit dem Abstand nicht nebeneinander",
        ),
        CeilingReason::Boxes => pick(
            "each sticker holds a box, and no more of these fit beside and above each other",
            "in jedem Aufkleber liegt ein Rechteck, und mehr davon passen nicht neben- und übereinander",
        ),
        CeilingReason::Gaps => pick(
            "the stickers, and the gaps that their shapes leave, take all the room",
            "die Aufkleber und die Lücken, die ihre Formen lassen, nehmen allen Platz ein",
        ),
        CeilingReason::Parts => pick(
            "the background parts the sheet, and no part holds more",
            "der Hintergrund teilt den Bogen, und kein Teil fasst mehr",
        ),
    };
    say!("At most {most}: {why}.", "Höchstens {most}: {why}.")
}

pub fn dense(density: f64) -> String {
    // A sum of nothing may be a negative zero.
    say!("{:.0} % dense", "{:.0} % dicht", (density * 100.0).max(0.0).abs())
}

pub fn smallest_gap(gap: &str) -> String {
    say!("smallest gap {gap}", "kleinste Lücke {gap}")
}

pub fn rules_broken(count: usize, first: &str) -> String {
    match count {
        1 => first.to_owned(),
        _ => say!("{first}, and {} more", "{first}, und {} weitere", count - 1),
    }
}

// Packing

words! {
    fill: "Fill the sheet", "Bogen füllen";
    place_these: "Place these", "Diese legen";
    more_ways: "More ways", "Weitere Arten";
    grow: "As large as fits", "So groß wie möglich";
    grow_text: "All of them, as large as possible", "Alle, und alle so groß wie möglich";
    even: "Even the gaps", "Lücken angleichen";
    even_text:
        "All of them spread out, the smallest gap as large as possible",
        "Alle verteilt, die kleinste Lücke so groß wie möglich";
    shorten: "Shorten the sheet", "Bogen kürzen";
    shorten_text: "The lowest sheet that holds all of them", "Der niedrigste Bogen, auf den alle passen";
    stop: "Stop", "Anhalten";
    pack_options: "How to pack", "Wie gepackt wird";
    repeatable: "Repeatable", "Wiederholbar";
    repeatable_hint:
        "The same layout, rounds and seed give the same sheet again, here and at the command line.",
        "Dasselbe Layout mit denselben Runden und demselben Startwert ergibt wieder denselben Bogen, hier und in \
         der Kommandozeile.";
    rounds: "Rounds", "Runden";
    seed: "Seed", "Startwert";
    seconds_hint:
        "Otherwise it goes on until you stop it, or nothing is left to try.",
        "Sonst geht es weiter, bis du anhältst oder nichts mehr zu versuchen bleibt.";
    whole_number: "type a whole number above 0", "gib eine ganze Zahl über 0 ein";
    whole_number_from_0: "type a whole number, 0 or more", "gib eine ganze Zahl ein, 0 oder mehr";
    starting: "getting ready", "es geht los";
    packing_name: "Packing", "Packen";
}

pub fn packing_begins(seconds: u64) -> String {
    format!("{} · {seconds} s", starting())
}

/// How far packing is: what lies there, what was reached or the proven bound, what it is doing, for how long.
pub fn packing(aim: PackAim, news: &PackNews, unit: LengthUnit, seconds: u64) -> String {
    let PackNews { placed, missing, ceiling, doing, .. } = news;
    let so_far = match (reached(aim, news, unit), missing) {
        (None, _) => format!("{} · {}", self::placed(*placed), at_most(*ceiling)),
        (Some(reached), 0) => format!("{} · {reached}", self::placed(*placed)),
        (Some(_), missing) => {
            format!("{} · {}", self::placed(*placed), to_go(missing))
        }
    };
    format!("{so_far} · {doing} · {seconds} s")
}

fn to_go(missing: &usize) -> String {
    if *missing == 1 {
        pick("1 to go", "1 fehlt noch").to_owned()
    } else {
        say!("{missing} to go", "{missing} fehlen noch")
    }
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
        PackAim::Shorten => Some(say!("sheet {} high", "Bogen {} hoch", length(unit, news.height))),
    }
}

/// The size in tenths of a per cent, never told larger than it is.
fn percent_of_size(scale: f64) -> String {
    // What is a whole number of steps but for rounding stays so.
    let tenths = with_decimal_sign(&((scale * 1000.0 + 1e-6).floor() / 10.0).to_string());
    say!("{tenths} % of the size", "{tenths} % der Größe")
}

/// A gap as one reads it at a glance: a tenth of a millimetre, a hundredth or a sixty-fourth of an inch, never rounded up to a limit
/// that it misses.
pub fn tenths(unit: LengthUnit, mm: f64) -> String {
    let step = match unit {
        LengthUnit::Millimetres => 0.1,
        LengthUnit::Inches => 0.01 * MM_PER_INCH,
        LengthUnit::InchFractions => MM_PER_INCH / 64.0,
    };
    length(unit, ((mm + RULE_TOLERANCE) / step).floor() * step)
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
        more => names.push(say!("{more} other stickers", "{more} weitere Aufkleber")),
    }
    let list = match names.split_last() {
        Some((last, before)) if !before.is_empty() => {
            say!("{} and {last}", "{} und {last}", before.join(", "))
        }
        _ => names.join(""),
    };
    say!(
        "No room was found for {list}. Give it longer, a smaller spacing or a larger sheet.",
        "Kein Platz gefunden für {list}. Gib mehr Zeit, einen kleineren Abstand oder einen größeren Bogen."
    )
}

words! {
    no_answer: "its answer could not be read", "ihre Antwort war nicht zu lesen";
}

/// An error's text as a sentence of its own: a large letter in front, a full stop behind.
pub fn sentence(error: &str) -> String {
    let mut letters = error.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

pub fn worker_failed(why: &str) -> String {
    say!(
        "The work stopped because of a mistake in Stickleaf ({why}). Your sheet is as it was; try again.",
        "Die Arbeit brach wegen eines Fehlers in Stickleaf ab ({why}). Dein Bogen ist, wie er war; versuch es noch einmal."
    )
}
