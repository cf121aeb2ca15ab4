//! Blades that are known, cut by the advice alone.

use super::*;

/// What a setting deserves where settings from a on go through the face, and from b on too deep.
fn deserved(setting: usize, a: usize, b: usize) -> CutOutcome {
    match setting {
        _ if setting < a => CutOutcome::NotThrough,
        _ if setting < b => CutOutcome::Clean,
        _ => CutOutcome::TooDeep,
    }
}

fn ceil_log2(n: usize) -> usize {
    n.next_power_of_two().trailing_zeros() as usize
}

/// A repeatable stream of numbers from 0 to 1: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014; constants from memory).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        ((self.next() * n as f64) as usize).min(n - 1)
    }
}

#[test]
fn halving_reaches_a_clean_setting_in_as_many_steps_as_it_must() {
    for count in 1..=40 {
        for (a, b) in (0..count).flat_map(|a| (a + 1..=count).map(move |b| (a, b))) {
            let mut trials: Vec<Trial> = Vec::new();
            loop {
                let said = advice(count, &trials, 1);
                assert!(said.contradicting.is_empty());
                if has_clean(&trials) {
                    break;
                }
                match said.verdict {
                    Verdict::Clean { setting, .. } => {
                        assert!((a..b).contains(&setting));
                        break;
                    }
                    Verdict::Open { from, to } => {
                        assert!(from < b && to >= a, "a clean one is never ruled out");
                        if from == to {
                            break;
                        }
                    }
                    other => panic!("{other:?} with {trials:?}"),
                }
                let setting = said.next[0];
                trials.push(Trial { setting, outcome: deserved(setting, a, b) });
            }
            assert!(trials.len() <= ceil_log2(count), "{count} settings, clean {a}..{b}: {trials:?}");
        }
    }
}

#[test]
fn a_scale_without_a_clean_setting_is_known_as_such() {
    for count in 1..=12 {
        for a in 0..=count {
            let mut trials: Vec<Trial> = Vec::new();
            let verdict = loop {
                let said = advice(count, &trials, 1);
                let Some(&setting) = said.next.first() else { break said.verdict };
                trials.push(Trial { setting, outcome: deserved(setting, a, a) });
                assert!(trials.len() < 25, "{count} {a} {trials:?}");
            };
            let expected = match a {
                0 => Verdict::AllTooDeep,
                _ if a == count => Verdict::AllNotThrough,
                _ => Verdict::NoneBetween { below: a - 1 },
            };
            assert_eq!(verdict, expected, "{count} {a} {trials:?}");
        }
    }
}

/// Blades drawn as the belief assumes, misread once in ten times: what is called sure is right in 19 of 20 cases, within
/// three standard errors of the sample, and no search goes on for ever.
#[test]
fn with_noise_what_is_sure_is_right_as_often_as_it_says() {
    let mut chance = Chance(1);
    let (count, blades) = (12, 600);
    let (mut right, mut steps) = (0, 0);
    for _ in 0..blades {
        // Every pair of thresholds is as likely: draw until a <= b.
        let (a, b) = loop {
            let pair = (chance.below(count + 1), chance.below(count + 1));
            if pair.0 <= pair.1 {
                break pair;
            }
        };
        let mut trials: Vec<Trial> = Vec::new();
        let verdict = loop {
            let said = advice(count, &trials, 1);
            let Some(&setting) = said.next.first() else { break said.verdict };
            let mut outcome = deserved(setting, a, b);
            if chance.next() < crate::trial::belief::MISREAD {
                let others = [CutOutcome::NotThrough, CutOutcome::Clean, CutOutcome::TooDeep];
                outcome = others[(outcome as usize + 1 + chance.below(2)) % 3];
            }
            trials.push(Trial { setting, outcome });
            assert!(trials.len() < 100, "{a} {b} {trials:?}");
        };
        steps += trials.len();
        right += usize::from(match verdict {
            Verdict::Clean { setting, .. } => (a..b).contains(&setting),
            Verdict::NoneBetween { below } => a == b && a == below + 1,
            Verdict::AllNotThrough => a == count && b == count,
            Verdict::AllTooDeep => a == 0 && b == 0,
            Verdict::Open { .. } | Verdict::Unclear => false,
        });
    }
    let share = right as f64 / f64::from(blades);
    let error = (SURE * (1.0 - SURE) / f64::from(blades)).sqrt();
    assert!(share >= SURE - 3.0 * error, "{share}");
    assert!(steps as f64 / f64::from(blades) < 10.0, "{steps}");
}

#[test]
fn outcomes_that_contradict_are_named_and_tried_again() {
    let trial = |setting, outcome| Trial { setting, outcome };
    let trials = [
        trial(5, CutOutcome::TooDeep),
        trial(6, CutOutcome::NotThrough),
        trial(4, CutOutcome::Clean),
        trial(8, CutOutcome::TooDeep),
    ];
    let said = advice(10, &trials, 3);
    assert_eq!(said.contradicting, [1], "6 cannot fail to cut where 5 goes too deep");
    assert!(!said.next.is_empty() && !matches!(said.verdict, Verdict::Clean { .. }), "{said:?}");
    // Repeats settle it.
    let again = [&trials[..], &[trial(4, CutOutcome::Clean), trial(4, CutOutcome::Clean)]].concat();
    assert!(matches!(advice(10, &again, 3).verdict, Verdict::Clean { setting: 4, .. }));
}

#[test]
fn a_card_of_several_trials_splits_the_range_evenly() {
    let sorted = |mut settings: Vec<usize>| {
        settings.sort_unstable();
        settings
    };
    assert_eq!(sorted(advice(11, &[], 3).next), [2, 5, 8]);
    assert_eq!(advice(11, &[], 1).next, [5]);
    assert_eq!(sorted(advice(3, &[], 9).next), [0, 1, 2]);
    assert_eq!(advice(3, &[], 0).next, Vec::<usize>::new());
}
