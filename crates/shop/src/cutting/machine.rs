//! How long a cutter takes: from stop to stop it speeds up, runs, and slows down again.

use serde::{Deserialize, Serialize};

use crate::cutting::work::CutWork;

/// A cutting machine as a simple model, typed in by the artist or fitted from timed jobs.
///
/// Along every stretch the blade speeds up evenly to `speed_mm_s`, runs, and slows down to a stop; where the stretch is too
/// short it never gets that fast. Real machines slow down in curves too: fitting takes that up into the acceleration.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CutMachine {
    /// The speed of the blade in the stock, in millimetres a second.
    pub speed_mm_s: f64,
    /// The speed of the lifted blade.
    pub travel_mm_s: f64,
    /// How fast it speeds up and slows down, in millimetres a second, each second.
    pub acceleration_mm_s2: f64,
    /// How long it takes to put the blade down and to lift it again, in seconds.
    pub lift_s: f64,
    /// How long it takes to load a page, find its marks, and unload it, in seconds.
    pub load_s: f64,
}

impl Default for CutMachine {
    /// A slow hobby machine; a guess, to be replaced by the artist's own figures (common practice, no source).
    fn default() -> CutMachine {
        CutMachine {
            speed_mm_s: 50.0,
            travel_mm_s: 150.0,
            acceleration_mm_s2: 500.0,
            lift_s: 0.2,
            load_s: 60.0,
        }
    }
}

impl CutMachine {
    /// How long the cut of one sheet takes, in seconds, without loading.
    pub fn seconds(&self, work: &CutWork) -> f64 {
        let all = |stretches: &[f64], speed: f64| -> f64 {
            stretches.iter().map(|&length| self.stretch_seconds(length, speed)).sum()
        };
        all(&work.kiss, self.speed_mm_s)
            + all(&work.through, self.speed_mm_s) * f64::from(work.passes)
            + all(&work.travel, self.travel_mm_s)
            + self.lift_s * work.lines as f64
    }

    /// How long one stretch takes from stop to stop.
    ///
    /// With speed v and acceleration a the blade needs v²/a to speed up to v and to slow down again. A longer stretch d takes
    /// d/v + v/a, a shorter one 2·√(d/a).
    pub fn stretch_seconds(&self, length: f64, speed: f64) -> f64 {
        let (speed, acceleration) = (speed.max(1e-6), self.acceleration_mm_s2.max(1e-6));
        if length >= speed * speed / acceleration {
            length / speed + speed / acceleration
        } else {
            2.0 * (length / acceleration).sqrt()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand, step by step.
    #[test]
    fn a_sheet_takes_what_the_spreadsheet_says() {
        let machine = CutMachine {
            speed_mm_s: 100.0,
            travel_mm_s: 200.0,
            acceleration_mm_s2: 1000.0,
            lift_s: 0.25,
            load_s: 0.0,
        };
        // v²/a = 100² / 1000 = 10 mm. A side of 40 mm: 40/100 + 100/1000 = 0.5 s. A side of 2.5 mm: 2·√(2.5/1000) = 0.1 s.
        assert!((machine.stretch_seconds(40.0, 100.0) - 0.5).abs() < 1e-12);
        assert!((machine.stretch_seconds(2.5, 100.0) - 0.1).abs() < 1e-12);
        let work = CutWork {
            // Two squares of 40 mm: 8 x 0.5 s = 4 s.
            kiss: vec![40.0; 8],
            // A card of 40 x 2.5 mm: 0.5 + 0.1 + 0.5 + 0.1 = 1.2 s, four times = 4.8 s.
            through: vec![40.0, 2.5, 40.0, 2.5],
            passes: 4,
            // 200²/1000 = 40 mm. 80 mm: 80/200 + 200/1000 = 0.6 s. 10 mm: 2·√(10/1000) = 0.2 s. Together 0.8 s.
            travel: vec![80.0, 10.0],
            // Two kiss lines and four passes: 6 x 0.25 s = 1.5 s.
            lines: 6,
        };
        assert!((machine.seconds(&work) - (4.0 + 4.8 + 0.8 + 1.5)).abs() < 1e-9);
    }

    #[test]
    fn a_longer_stretch_never_takes_less() {
        let machine = CutMachine::default();
        let mut last = 0.0;
        for length in (0..2000).map(|i| f64::from(i) * 0.05) {
            let seconds = machine.stretch_seconds(length, machine.speed_mm_s);
            assert!(seconds >= last, "{length}");
            last = seconds;
        }
    }
}
