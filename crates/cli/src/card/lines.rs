//! The answer of `card` in words.

use crate::card::log::Logged;
use crate::card::report::{CardFacts, CardReport, TrialReport};

/// The answer as lines for people.
pub fn lines(answer: &CardReport) -> String {
    let mut text = String::new();
    if let Some(trials) = &answer.trials {
        text.push_str(&verdict(trials));
    }
    if let Some(card) = &answer.card {
        text.push_str(&card_lines(card));
    }
    if let Some(log) = &answer.log {
        text.push_str(&log_lines(log));
    }
    for caution in answer.cautions {
        text.push_str(&format!("- {caution}\n"));
    }
    text
}

fn verdict(trials: &TrialReport) -> String {
    let name = |name: &Option<String>| name.clone().unwrap_or_default();
    let (setting, from, to) = (name(&trials.setting), name(&trials.from), name(&trials.to));
    let percent = 100.0 * trials.chance;
    let mut text = match trials.verdict {
        "clean" => format!("{setting} cuts clean, with a chance of {percent:.0} %\n"),
        "open" | "unclear" if trials.chance >= 0.5 => {
            let likeliest = &trials.likeliest;
            format!(
                "{likeliest} most likely cuts clean, with a chance of {percent:.0} %; try again to be sure\n"
            )
        }
        "open" if from == to => format!("if any setting cuts clean, it is {from}\n"),
        "open" => format!("if any setting cuts clean, it is from {from} to {to}\n"),
        "none_between" => format!(
            "no setting cuts clean: {from} does not go through, {to} goes too deep; give finer steps between them, or \
             change the blade\n"
        ),
        "all_not_through" => {
            "even the strongest setting does not go through; give stronger ones, more passes, or a \
                              new blade\n"
                .to_owned()
        }
        "all_too_deep" => "even the lightest setting goes too deep; give lighter ones\n".to_owned(),
        _ => "the outcomes leave no setting that cuts clean; try again\n".to_owned(),
    };
    if !trials.contradicting.is_empty() {
        text.push_str(&format!(
            "the outcomes contradict each other; against the rest speaks {}\n",
            trials.contradicting_settings.join(", ")
        ));
    }
    if !trials.next.is_empty() {
        text.push_str(&format!("try next: {}\n", trials.next.join(", ")));
    }
    text
}

fn card_lines(card: &CardFacts) -> String {
    let file = card.file.as_ref().map_or_else(|| "not written; give -o".to_owned(), Clone::clone);
    let mut text =
        format!("card: {} trials on {} x {} mm: {file}\n", card.trials.len(), card.width_mm, card.height_mm);
    for (label, name) in card.trials.iter().filter(|(label, name)| label != name) {
        text.push_str(&format!("  {label} is {name}\n"));
    }
    text
}

fn log_lines(log: &Logged) -> String {
    let mut text = String::new();
    if log.added > 0 {
        text.push_str(&format!(
            "{} added to the log, which now has {}\n",
            counted(log.added, "outcome"),
            log.entries
        ));
    }
    let Some(found) = &log.suggestion else {
        text.push_str("the log has no clean cut of this machine, blade, material and passes\n");
        return text;
    };
    let near = log.nearest_name.as_ref().map_or_else(String::new, |name| format!(" (nearest to {name})"));
    text.push_str(&format!(
        "the log suggests {:.3}{near}, from {}",
        found.setting,
        counted(found.entries, "clean cut")
    ));
    text.push_str(&match found.range {
        Some((from, to)) => format!("; in about four of five cases from {from:.3} to {to:.3}\n"),
        None => "; too few to say how sure that is\n".to_owned(),
    });
    if found.is_beyond {
        text.push_str("the blade is newer or more worn than any of those was: try it on a card first\n");
    }
    if found.against > 0 {
        text.push_str(&format!("{} entries speak against it\n", found.against));
    }
    text
}

/// So many of something.
fn counted(count: usize, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}
