//! The answer of `card`.

use serde::Serialize;
use stickleaf_shop::trial::{CAUTIONS, Card, MISREAD, SURE, Verdict};

use crate::card::Trials;
use crate::card::log::Logged;
use crate::disk;
use crate::options::CardCommand;

/// All that is known; settings by their names.
#[derive(Debug, Serialize)]
pub struct CardReport {
    /// What the trials say, if a scale was given.
    pub trials: Option<TrialReport>,
    /// The card; nothing if there is nothing to try.
    pub card: Option<CardFacts>,
    /// What the log says, if one was given.
    pub log: Option<Logged>,
    /// What to mind.
    pub cautions: [&'static str; 4],
}

/// What the trials say.
#[derive(Debug, Serialize)]
pub struct TrialReport {
    /// `open`, `clean`, `none_between`, `all_not_through`, `all_too_deep` or `unclear`.
    pub verdict: &'static str,
    /// The setting that is clean.
    pub setting: Option<String>,
    /// The lightest that may be clean, or the one that does not cut through.
    pub from: Option<String>,
    /// The strongest that may be clean, or the one that cuts too deep.
    pub to: Option<String>,
    /// The setting that most likely cuts clean.
    pub likeliest: String,
    /// The chance of the likeliest setting to cut clean.
    pub chance: f64,
    /// From which chance a setting counts as found.
    pub sure_from: f64,
    /// How often an outcome is taken to be misread.
    pub misread: f64,
    /// What to try next, the most telling first.
    pub next: Vec<String>,
    /// Outcomes that speak against the rest, by their place in what was typed, from 1.
    pub contradicting: Vec<usize>,
    /// The settings of those outcomes.
    pub contradicting_settings: Vec<String>,
    /// Each setting's chance to cut clean.
    pub clean_chances: Vec<(String, f64)>,
}

/// The card.
#[derive(Debug, Serialize)]
pub struct CardFacts {
    /// Where it was written.
    pub file: Option<String>,
    /// Left to right.
    pub width_mm: f64,
    /// Top to bottom.
    pub height_mm: f64,
    /// The trials in their order: what is written below, and the setting.
    pub trials: Vec<(String, String)>,
}

impl CardReport {
    /// The answer from what was typed and worked out.
    pub fn new(
        typed: &CardCommand,
        trials: Option<&Trials>,
        card: Option<&Card>,
        log: Option<&Logged>,
    ) -> CardReport {
        let facts = |card: &Card| CardFacts {
            file: typed.output.as_deref().map(disk::shown),
            width_mm: (card.width * 1000.0).round() / 1000.0,
            height_mm: (card.height * 1000.0).round() / 1000.0,
            trials: card.cells.iter().map(|cell| (cell.label.clone(), cell.name.clone())).collect(),
        };
        CardReport {
            trials: trials.map(TrialReport::new),
            card: card.map(facts),
            log: log.cloned(),
            cautions: CAUTIONS,
        }
    }
}

impl TrialReport {
    fn new(trials: &Trials) -> TrialReport {
        let (scale, advice) = (&trials.scale, &trials.advice);
        let name = |setting: usize| scale.name(setting).to_owned();
        let (verdict, setting, from, to) = match advice.verdict {
            Verdict::Open { from, to } => ("open", None, Some(from), Some(to)),
            Verdict::Clean { setting, .. } => ("clean", Some(setting), None, None),
            Verdict::NoneBetween { below } => ("none_between", None, Some(below), Some(below + 1)),
            Verdict::AllNotThrough => ("all_not_through", None, None, None),
            Verdict::AllTooDeep => ("all_too_deep", None, None, None),
            Verdict::Unclear => ("unclear", None, None, None),
        };
        let settings = advice.contradicting.iter().map(|&i| name(trials.trials[i].setting));
        TrialReport {
            verdict,
            setting: setting.map(name),
            from: from.map(name),
            to: to.map(name),
            likeliest: name(advice.likeliest),
            chance: advice.clean_chances.iter().copied().fold(0.0, f64::max),
            sure_from: SURE,
            misread: MISREAD,
            next: advice.next.iter().map(|&setting| name(setting)).collect(),
            contradicting: advice.contradicting.iter().map(|i| i + 1).collect(),
            contradicting_settings: settings.collect(),
            clean_chances: advice
                .clean_chances
                .iter()
                .enumerate()
                .map(|(i, &chance)| (name(i), chance))
                .collect(),
        }
    }
}
