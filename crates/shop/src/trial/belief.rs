//! What the outcomes of trials make likely.
//!
//! On an ordered scale of n settings there are two thresholds: from position a on a cut goes through the face, and from
//! position b on, a ≤ b ≤ n, through the backing too. The settings from a to b, without b, are clean; there may be none.
//! Before anything is tried every pair (a, b) is as likely as any other. A trial is misread, or comes out by chance as the
//! blade does not deserve, once in ten times (`MISREAD`), and then either wrong outcome is as likely. Bayes' rule does the
//! rest, over all pairs at once.

use serde::{Deserialize, Serialize};

/// How one trial came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CutOutcome {
    /// Not through the face; on a through line: not through the backing.
    NotThrough,
    /// A clean kiss cut; on a through line: clean through.
    Clean,
    /// Through the backing; on a through line: into the mat.
    TooDeep,
}

/// A setting by its position on the scale, and how it came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trial {
    /// The setting's position.
    pub setting: usize,
    /// The outcome.
    pub outcome: CutOutcome,
}

/// The chance that an outcome is not what the setting deserves. A guess; common practice gives no figure.
pub const MISREAD: f64 = 0.1;

/// Chances, by setting, after all trials.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Belief {
    /// Does not cut through the face.
    pub not_through: Vec<f64>,
    /// Cuts clean.
    pub clean: Vec<f64>,
    /// Cuts too deep.
    pub too_deep: Vec<f64>,
    /// No setting is clean, and this is the first that is too deep; one more entry than settings.
    pub none_before: Vec<f64>,
    /// The thresholds (a, b) that the fewest trials speak against; the first such pair.
    pub likeliest: (usize, usize),
    /// How many trials speak against them.
    pub misread: usize,
}

/// For each setting how often it came out in each way, added up from the first setting on.
struct Tallies(Vec<[usize; 3]>);

impl Tallies {
    fn of(count: usize, trials: &[Trial]) -> Tallies {
        let mut sums = vec![[0; 3]; count + 1];
        for trial in trials.iter().filter(|trial| trial.setting < count) {
            sums[trial.setting + 1][trial.outcome as usize] += 1;
        }
        for i in 0..count {
            let before = sums[i];
            sums[i + 1].iter_mut().zip(before).for_each(|(sum, before)| *sum += before);
        }
        Tallies(sums)
    }

    /// How many trials agree with these thresholds.
    fn agreeing(&self, a: usize, b: usize) -> usize {
        let last = self.0.len() - 1;
        let between = |from: usize, to: usize, outcome: CutOutcome| {
            self.0[to][outcome as usize] - self.0[from][outcome as usize]
        };
        between(0, a, CutOutcome::NotThrough)
            + between(a, b, CutOutcome::Clean)
            + between(b, last, CutOutcome::TooDeep)
    }

    fn all(&self) -> usize {
        self.0.last().map_or(0, |sums| sums.iter().sum())
    }
}

/// What is likely on a scale of so many settings. Trials of settings beyond the scale count for nothing.
pub(crate) fn belief(count: usize, trials: &[Trial]) -> Belief {
    let tallies = Tallies::of(count, trials);
    let pairs = || (0..=count).flat_map(move |a| (a..=count).map(move |b| (a, b)));
    let mut likeliest = (0, 0);
    let mut most = 0;
    for (a, b) in pairs() {
        let agreeing = tallies.agreeing(a, b);
        if agreeing > most {
            (most, likeliest) = (agreeing, (a, b));
        }
    }
    // Each trial that disagrees makes a pair this many times less likely than the likeliest one.
    let odds = MISREAD / 2.0 / (1.0 - MISREAD);
    let weight = |a, b| libm::pow(odds, (most - tallies.agreeing(a, b)) as f64);
    let whole: f64 = pairs().map(|(a, b)| weight(a, b)).sum();
    let mut belief = Belief {
        not_through: vec![0.0; count],
        clean: vec![0.0; count],
        too_deep: vec![0.0; count],
        none_before: vec![0.0; count + 1],
        likeliest,
        misread: tallies.all() - most,
    };
    for (a, b) in pairs() {
        let chance = weight(a, b) / whole;
        belief.not_through[..a].iter_mut().for_each(|sum| *sum += chance);
        belief.clean[a..b].iter_mut().for_each(|sum| *sum += chance);
        belief.too_deep[b..].iter_mut().for_each(|sum| *sum += chance);
        if a == b {
            belief.none_before[a] += chance;
        }
    }
    belief
}

#[cfg(test)]
mod tests {
    use super::*;

    fn trial(setting: usize, outcome: CutOutcome) -> Trial {
        Trial { setting, outcome }
    }

    /// Two settings: the pairs (a, b) are 00, 01, 02, 11, 12, 22; worked by hand.
    #[test]
    fn two_settings_by_hand() {
        let before = belief(2, &[]);
        // Setting 0 is clean under 01 and 02, setting 1 under 02 and 12.
        assert!(before.clean.iter().all(|chance| (chance - 2.0 / 6.0).abs() < 1e-12));
        assert!((before.none_before.iter().sum::<f64>() - 3.0 / 6.0).abs() < 1e-12);
        // "Not through" at 0 agrees with 11, 12, 22 (0.9 each); the others get 0.05 each: 2.85 in all.
        let after = belief(2, &[trial(0, CutOutcome::NotThrough)]);
        assert!((after.not_through[0] - 2.7 / 2.85).abs() < 1e-12);
        assert!((after.clean[0] - 0.1 / 2.85).abs() < 1e-12);
        assert!((after.clean[1] - 0.95 / 2.85).abs() < 1e-12);
        assert_eq!(after.misread, 0);
    }

    #[test]
    fn chances_of_each_setting_add_up_to_one() {
        let trials =
            [trial(3, CutOutcome::Clean), trial(1, CutOutcome::TooDeep), trial(9, CutOutcome::NotThrough)];
        let belief = belief(7, &trials);
        for i in 0..7 {
            assert!((belief.not_through[i] + belief.clean[i] + belief.too_deep[i] - 1.0).abs() < 1e-12);
        }
        // Clean at 3 and too deep at the lighter 1: one of them is wrong. The setting 9 is not on the scale.
        assert_eq!(belief.misread, 1);
    }

    #[test]
    fn a_clean_cut_and_its_likes_are_believed_more_each_time() {
        let clean = [trial(4, CutOutcome::Clean); 3];
        let chances: Vec<f64> = (0..=3).map(|n| belief(9, &clean[..n]).clean[4]).collect();
        assert!(chances.windows(2).all(|pair| pair[0] < pair[1]), "{chances:?}");
        assert!(chances[3] > 0.99);
    }
}
