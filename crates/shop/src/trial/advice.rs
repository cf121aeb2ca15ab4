//! What to try next, and when the answer is there.
//!
//! As long as the outcomes agree, the scale is halved: n settings of which one or more are clean need at most ⌈log₂ n⌉
//! trials until one came out clean or only one is left. A clean one is then tried again until it is sure enough. Once
//! outcomes contradict each other, the most telling setting is tried: the one whose outcome can be foretold least.

use crate::trial::belief::{Belief, CutOutcome, Trial, belief};

/// The chance from which something counts as settled.
pub const SURE: f64 = 0.95;

/// What all trials together say. Settings are positions on the scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What is known.
    pub verdict: Verdict,
    /// What to try next, the most telling first; nothing when all is settled.
    pub next: Vec<usize>,
    /// Which trials, by their positions, speak against the rest; nothing if all agree.
    pub contradicting: Vec<usize>,
    /// The setting that most likely cuts clean; of equally likely ones the middle.
    pub likeliest: usize,
    /// The chance of each setting to cut clean.
    pub clean_chances: Vec<f64>,
}

/// What is known about the scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// A clean setting, if there is one, lies here. If outcomes contradict, each setting outside is clean with a chance of
    /// less than a twentieth of the best one's.
    Open {
        /// The lightest that may be clean.
        from: usize,
        /// The strongest that may be clean.
        to: usize,
    },
    /// This one is clean with a chance of at least `SURE`; of several, the middle one.
    Clean {
        /// Which.
        setting: usize,
        /// The chance.
        chance: f64,
    },
    /// None is clean: `below` does not cut through, and its neighbour `below + 1` cuts too deep.
    NoneBetween {
        /// The strongest that does not cut through.
        below: usize,
    },
    /// Even the strongest does not cut through.
    AllNotThrough,
    /// Even the lightest cuts too deep.
    AllTooDeep,
    /// All may still be right or wrong, as outcomes contradict or the last trials are to be repeated.
    Unclear,
}

/// What to make of the trials on a scale of so many settings, with at most `most_next` settings to try next.
pub fn advice(count: usize, trials: &[Trial], most_next: usize) -> Advice {
    let belief = belief(count, trials);
    let verdict = verdict(count, trials, &belief);
    let next = match verdict {
        Verdict::Clean { .. }
        | Verdict::NoneBetween { .. }
        | Verdict::AllNotThrough
        | Verdict::AllTooDeep => Vec::new(),
        Verdict::Open { from, to } if belief.misread == 0 && !has_clean(trials) => split(from, to, most_next),
        Verdict::Open { .. } | Verdict::Unclear => most_telling(&belief, most_next),
    };
    let (a, b) = belief.likeliest;
    let deserved = |setting: usize| match setting {
        _ if setting < a => CutOutcome::NotThrough,
        _ if setting < b => CutOutcome::Clean,
        _ => CutOutcome::TooDeep,
    };
    let speaks_against = |trial: &Trial| trial.setting < count && trial.outcome != deserved(trial.setting);
    let contradicting = (0..trials.len()).filter(|&i| speaks_against(&trials[i])).collect();
    Advice { verdict, next, contradicting, likeliest: best(&belief.clean).0, clean_chances: belief.clean }
}

fn has_clean(trials: &[Trial]) -> bool {
    trials.iter().any(|trial| trial.outcome == CutOutcome::Clean)
}

fn verdict(count: usize, trials: &[Trial], belief: &Belief) -> Verdict {
    let (best, chance) = best(&belief.clean);
    if chance >= SURE {
        return Verdict::Clean { setting: best, chance };
    }
    if let Some(first) = belief.none_before.iter().position(|&chance| chance >= SURE) {
        return match first {
            0 => Verdict::AllTooDeep,
            _ if first == count => Verdict::AllNotThrough,
            _ => Verdict::NoneBetween { below: first - 1 },
        };
    }
    let may_be_clean = |setting: usize| match belief.misread {
        0 => trials.iter().all(|trial| match trial.outcome {
            CutOutcome::NotThrough => trial.setting < setting,
            CutOutcome::Clean => true,
            CutOutcome::TooDeep => trial.setting > setting,
        }),
        _ => belief.clean[setting] >= chance / 20.0,
    };
    let mut open = (0..count).filter(|&setting| may_be_clean(setting));
    match open.next() {
        Some(from) => Verdict::Open { from, to: open.next_back().unwrap_or(from) },
        None => Verdict::Unclear,
    }
}

/// The likeliest setting and its chance; of equal ones the middle.
fn best(clean: &[f64]) -> (usize, f64) {
    let most = clean.iter().copied().fold(0.0, f64::max);
    let equal: Vec<usize> = (0..clean.len()).filter(|&i| clean[i] >= most - 1e-12).collect();
    (equal.get((equal.len().max(1) - 1) / 2).copied().unwrap_or(0), most)
}

/// Up to so many settings that split a range as evenly as can be, the middle one first.
fn split(from: usize, to: usize, most: usize) -> Vec<usize> {
    let count = to - from + 1;
    let parts = most.min(count);
    let mut settings: Vec<usize> = (0..parts).map(|i| from + (count * (i + 1)) / (parts + 1)).collect();
    if parts == count {
        settings = (from..=to).collect();
    }
    let middle = from + count / 2;
    settings.sort_by_key(|&setting| (setting.abs_diff(middle), setting));
    settings
}

/// The settings whose outcomes can be foretold least. One that is more likely clean than not goes first: its being sure is
/// what is looked for.
fn most_telling(belief: &Belief, most: usize) -> Vec<usize> {
    let surprise = |setting: usize| -> f64 {
        let chances = [belief.not_through[setting], belief.clean[setting], belief.too_deep[setting]];
        chances.iter().filter(|&&chance| chance > 0.0).map(|&chance| -chance * libm::log(chance)).sum()
    };
    let (best, chance) = best(&belief.clean);
    let mut settings: Vec<usize> = (0..belief.clean.len()).collect();
    settings.sort_by(|&i, &j| surprise(j).total_cmp(&surprise(i)));
    if chance >= 0.5 {
        settings.retain(|&setting| setting != best);
        settings.insert(0, best);
    }
    settings.truncate(most);
    settings
}

#[cfg(test)]
#[path = "advice_tests.rs"]
mod tests;
