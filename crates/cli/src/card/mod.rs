//! `card`: trial cuts to find the blade's setting, what their outcomes say, and the log of what worked.

mod lines;
mod log;
mod report;

use std::path::Path;

use stickleaf_files::report as json;
use stickleaf_shop::trial::{Advice, Card, CardOptions, Scale, Trial, Verdict, advice, card_svg};

use crate::options::CardCommand;
use crate::{Outcome, Trouble, disk, output};

/// How many settings are tried next when some were tried already.
const NEXT: usize = 3;

/// Writes the card and prints what is known; lacking if no setting cuts clean, outcomes contradict, or the log knows nothing.
pub fn run(typed: &CardCommand) -> Result<Outcome, Trouble> {
    let keep: Vec<&Path> = typed.log.as_deref().into_iter().collect();
    if let Some(file) = &typed.output {
        disk::can_write(file, &keep)?;
        if keep.contains(&file.as_path()) && !disk::is_standard(file) {
            return Err(Trouble::WouldOverwrite { file: disk::shown(file) });
        }
        if disk::is_standard(file) && typed.report.is_json() {
            return Err(Trouble::OutputTwice);
        }
    }
    let trials = match scale(typed)? {
        Some(scale) => Some(Trials::new(typed, scale)?),
        None => None,
    };
    let logged = log::run(typed, trials.as_ref())?;
    let card = trials
        .as_ref()
        .and_then(Trials::card)
        .map(|settings| Card::new(settings.0, &settings.1, &options(typed)));
    if let (Some(file), Some(card)) = (&typed.output, &card) {
        disk::write(file, &card_svg(card))?;
    }
    let answer = report::CardReport::new(typed, trials.as_ref(), card.as_ref(), logged.as_ref());
    if typed.report.is_json() {
        output::print(&json::text(&answer));
    } else {
        let lines = lines::lines(&answer);
        // A card on standard output is not to be mixed with words.
        if typed.output.as_deref().is_some_and(disk::is_standard) {
            output::tell(&lines)
        } else {
            output::print(&lines)
        }
    }
    let is_lacking =
        trials.is_some_and(|trials| trials.is_lacking()) || logged.is_some_and(|logged| logged.is_lacking());
    Ok(if is_lacking { Outcome::Lacking } else { Outcome::Done })
}

/// A scale, what was tried on it, and what that says.
struct Trials {
    scale: Scale,
    trials: Vec<Trial>,
    advice: Advice,
}

impl Trials {
    fn new(typed: &CardCommand, scale: Scale) -> Result<Trials, Trouble> {
        let mut trials = Vec::new();
        for typed in &typed.outcomes {
            let setting = scale
                .find(&typed.setting)
                .ok_or_else(|| Trouble::Setting { name: typed.setting.clone(), known: names(&scale) })?;
            trials.push(Trial { setting, outcome: typed.outcome });
        }
        let most_next = match typed.trials {
            Some(count) => count as usize,
            None if trials.is_empty() => scale.count(),
            None => NEXT,
        };
        Ok(Trials { advice: advice(scale.count(), &trials, most_next), scale, trials })
    }

    /// The settings to put on a card; nothing if all is settled.
    fn card(&self) -> Option<(&Scale, Vec<usize>)> {
        (!self.advice.next.is_empty()).then(|| (&self.scale, self.advice.next.clone()))
    }

    fn is_lacking(&self) -> bool {
        let has_none = matches!(
            self.advice.verdict,
            Verdict::NoneBetween { .. } | Verdict::AllNotThrough | Verdict::AllTooDeep
        );
        has_none || !self.advice.contradicting.is_empty()
    }
}

fn names(scale: &Scale) -> String {
    (0..scale.count()).map(|i| scale.name(i)).collect::<Vec<_>>().join(", ")
}

/// The scale that was typed, if one was.
fn scale(typed: &CardCommand) -> Result<Option<Scale>, Trouble> {
    let scale = match (typed.from, typed.to) {
        _ if !typed.named.is_empty() => Scale::named(typed.named.clone()),
        (Some(from), Some(to)) if typed.passes => {
            // What is no whole number, or none at all, is refused as an order that makes no sense.
            let whole = |value: f64| if value.fract() == 0.0 && value <= 1e6 { value as u32 } else { 0 };
            Scale::passes(whole(from), whole(to))
        }
        (Some(from), Some(to)) if typed.step.is_some() => {
            Scale::stepped(from, to, typed.step.unwrap_or_default())
        }
        (Some(from), Some(to)) => Scale::numbers(from, to, typed.steps as usize),
        _ => return Ok(None),
    };
    scale.map(Some).map_err(Trouble::Scale)
}

fn options(typed: &CardCommand) -> CardOptions {
    CardOptions { square: typed.square_mm, gap: typed.gap_mm, most_width: typed.width_mm }
}
