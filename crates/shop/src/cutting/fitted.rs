//! A machine's figures from jobs that were timed.

use serde::{Deserialize, Serialize};

use crate::cutting::machine::CutMachine;
use crate::cutting::work::CutWork;

/// A job whose cutting was timed, without loading.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct TimedJob {
    /// What was cut.
    pub work: CutWork,
    /// How long it took, in seconds.
    pub seconds: f64,
}

/// Why two jobs give no figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FitError {
    /// A time is 0 or less or no number, or a job has no line.
    #[error("a job without lines or without a time says nothing; give what was cut and how long that took")]
    Nothing,
    /// For each line that is begun both cut about as much, so that any lift time would do.
    #[error(
        "both jobs are alike, with about as much to cut for each line; time one with few long lines and one with many short ones"
    )]
    Alike,
    /// No speed and no lift time suit both.
    #[error(
        "no speed suits both times: one of them is too short or too long for what was cut; look whether both are of the same machine and \
         setting, and without loading"
    )]
    Contradicting,
}

/// The slowest and the fastest blade that is looked for, in millimetres a second.
const SPEEDS: [f64; 2] = [1.0, 2000.0];

/// Steps of halving an interval; far below the error of a hand on a stop watch.
const HALVINGS: usize = 60;

/// Jobs whose lengths a line differ by less than this share are alike: a second on the watch would then be many in the
/// lift time.
const ALIKE: f64 = 0.2;

/// The machine with the cutting speed and the lift time at which both jobs take as long as they did: two unknowns from two
/// jobs. Acceleration, lifted speed and loading stay those of `machine`. Speeds from 1 to 2000 mm a second are looked for.
///
/// Errors: jobs that say nothing, say the same, or contradict each other.
pub fn fitted(machine: &CutMachine, jobs: [&TimedJob; 2]) -> Result<CutMachine, FitError> {
    let says_something = |job: &TimedJob| job.work.lines > 0 && job.seconds.is_finite() && job.seconds > 0.0;
    if !jobs.into_iter().all(says_something) {
        return Err(FitError::Nothing);
    }
    let a_line = jobs.map(|job| (job.work.kiss_length() + job.work.through_length()) / job.work.lines as f64);
    let (short, long) = (a_line[0].min(a_line[1]), a_line[0].max(a_line[1]));
    if long - short <= ALIKE * long {
        return Err(FitError::Alike);
    }
    // For a speed, the lift time that suits the first job; what the second job then lacks changes its sign at the answer.
    let with = |speed_mm_s: f64| {
        let still = CutMachine { speed_mm_s, lift_s: 0.0, ..*machine };
        let lift_s = (jobs[0].seconds - still.seconds(&jobs[0].work)) / jobs[0].work.lines as f64;
        CutMachine { lift_s, ..still }
    };
    let is_too_long = |speed: f64| with(speed).seconds(&jobs[1].work) > jobs[1].seconds;
    let [mut slow, mut fast] = SPEEDS;
    let at_slow = is_too_long(slow);
    if at_slow == is_too_long(fast) {
        return Err(FitError::Contradicting);
    }
    for _ in 0..HALVINGS {
        let middle = (slow + fast) / 2.0;
        if is_too_long(middle) == at_slow { slow = middle } else { fast = middle }
    }
    let found = with(slow);
    let is_near = |job: &TimedJob| (found.seconds(&job.work) - job.seconds).abs() <= 0.01 * job.seconds;
    let suits = found.lift_s >= 0.0 && jobs.into_iter().all(is_near);
    if suits { Ok(found) } else { Err(FitError::Contradicting) }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn two_jobs_give_speed_and_lift_time_back() {
        let true_machine = CutMachine { speed_mm_s: 73.0, lift_s: 0.31, ..CutMachine::default() };
        // Few long lines, and many short ones.
        let job = |stretch: f64, count: usize, lines: u64| {
            let work = CutWork { kiss: vec![stretch; count], passes: 1, lines, ..CutWork::default() };
            TimedJob { seconds: true_machine.seconds(&work), work }
        };
        let (long, short) = (job(120.0, 30, 10), job(12.0, 60, 60));
        let found = fitted(&CutMachine::default(), [&long, &short]).unwrap();
        assert!((found.speed_mm_s - 73.0).abs() < 0.01 && (found.lift_s - 0.31).abs() < 0.001, "{found:?}");
    }

    #[test]
    fn jobs_that_say_nothing_new_give_nothing() {
        let work = CutWork { kiss: vec![50.0; 10], passes: 1, lines: 10, ..CutWork::default() };
        let job = TimedJob { work: work.clone(), seconds: 20.0 };
        let slower = TimedJob { work, seconds: 30.0 };
        assert_eq!(fitted(&CutMachine::default(), [&job, &slower]), Err(FitError::Alike));
        let nothing = TimedJob::default();
        assert_eq!(fitted(&CutMachine::default(), [&nothing, &slower]), Err(FitError::Nothing));
    }

    #[test]
    fn jobs_that_contradict_each_other_give_nothing() {
        let work = |stretch: f64, lines: u64| CutWork {
            kiss: vec![stretch; lines as usize],
            passes: 1,
            lines,
            ..CutWork::default()
        };
        // Ten times the length in a tenth of the time, line for line.
        let slow = TimedJob { work: work(20.0, 10), seconds: 300.0 };
        let fast = TimedJob { work: work(200.0, 10), seconds: 30.0 };
        assert_eq!(fitted(&CutMachine::default(), [&slow, &fast]), Err(FitError::Contradicting));
    }

    proptest! {
        #[test]
        fn whatever_is_found_takes_as_long_as_both_jobs(
            lengths in [1.0..500.0_f64, 1.0..500.0_f64], lines in [1..50_u64, 1..50_u64], seconds in [-1.0..2000.0, 0.1..2000.0_f64],
        ) {
            let job = |i: usize| TimedJob {
                work: CutWork { kiss: vec![lengths[i]; lines[i] as usize], passes: 1, lines: lines[i], ..CutWork::default() },
                seconds: seconds[i],
            };
            let jobs = [job(0), job(1)];
            if let Ok(found) = fitted(&CutMachine::default(), [&jobs[0], &jobs[1]]) {
                prop_assert!(found.lift_s >= 0.0 && (SPEEDS[0]..=SPEEDS[1]).contains(&found.speed_mm_s));
                for job in jobs {
                    prop_assert!((found.seconds(&job.work) - job.seconds).abs() <= 0.01 * job.seconds);
                }
            }
        }
    }
}
