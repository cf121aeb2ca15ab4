//! A machine's figures from jobs that were timed.

use crate::cutting::machine::CutMachine;
use crate::cutting::work::CutWork;

/// A job whose cutting was timed, without loading.
#[derive(Clone, Debug, PartialEq)]
pub struct TimedJob {
    /// What was cut.
    pub work: CutWork,
    /// How long it took, in seconds.
    pub seconds: f64,
}

/// Steps of halving an interval; far below the error of a hand on a stop watch.
const HALVINGS: usize = 60;

/// The machine with its cutting speed set so that it takes as long as both jobs together, and its lift time so that it
/// takes as long as each: two unknowns from two jobs. Nothing if no speed from 1 to 2000 mm a second and no lift time of 0
/// or more do that, as when both jobs are alike, or the longer one was the faster.
pub fn fitted(machine: &CutMachine, jobs: [&TimedJob; 2]) -> Option<CutMachine> {
    // For a speed, the lift time that suits the first job; what the second job then lacks changes its sign at the answer.
    let with = |speed_mm_s: f64| {
        let still = CutMachine { speed_mm_s, lift_s: 0.0, ..*machine };
        let lift_s = (jobs[0].seconds - still.seconds(&jobs[0].work)) / jobs[0].work.lines.max(1) as f64;
        CutMachine { lift_s, ..still }
    };
    let lacks = |speed: f64| with(speed).seconds(&jobs[1].work) - jobs[1].seconds;
    let (mut slow, mut fast) = (1.0, 2000.0);
    let is_too_long = |speed: f64| lacks(speed) > 0.0;
    if is_too_long(slow) == is_too_long(fast) {
        return None;
    }
    for _ in 0..HALVINGS {
        let middle = (slow + fast) / 2.0;
        if is_too_long(middle) == is_too_long(slow) { slow = middle } else { fast = middle }
    }
    let found = with(slow);
    let is_near = |job: &TimedJob| (found.seconds(&job.work) - job.seconds).abs() <= 0.01 * job.seconds;
    (found.lift_s >= 0.0 && jobs.into_iter().all(is_near)).then_some(found)
}

#[cfg(test)]
mod tests {
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
        assert_eq!(fitted(&CutMachine::default(), [&job, &slower]), None);
    }
}
