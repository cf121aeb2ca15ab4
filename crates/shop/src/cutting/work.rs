//! What there is to cut on one sheet, as stretches between stops.

use kurbo::Point;
use serde::{Deserialize, Serialize};

/// Where a line turns by more than this, in degrees, the blade stops as at an end (an assumption of the model).
const CORNER: f64 = 30.0;

/// What there is to cut on one sheet. Lengths in millimetres.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CutWork {
    /// The stretches of all kiss lines, each from stop to stop.
    pub kiss: Vec<f64>,
    /// The stretches of the through line, gone over once.
    pub through: Vec<f64>,
    /// How often the through line is gone over.
    pub passes: u32,
    /// The ways of the lifted blade.
    pub travel: Vec<f64>,
    /// How many lines are begun: as often the blade is put down and lifted.
    pub lines: u64,
}

impl CutWork {
    /// The length of all kiss lines.
    pub fn kiss_length(&self) -> f64 {
        self.kiss.iter().sum()
    }

    /// The length of the through line, all passes.
    pub fn through_length(&self) -> f64 {
        self.through.iter().sum::<f64>() * f64::from(self.passes)
    }

    /// The length of all ways of the lifted blade.
    pub fn travel_length(&self) -> f64 {
        self.travel.iter().sum()
    }

    /// How many metres the blade cuts.
    pub fn blade_metres(&self) -> f64 {
        (self.kiss_length() + self.through_length()) / 1000.0
    }

    /// At how many places within the lines the blade stops: corners, and the start of every line.
    pub fn corners(&self) -> usize {
        self.kiss.len() + self.through.len() * self.passes as usize
    }
}

/// The lengths of the stretches of a line of chords between its sharp corners. A closed line's last point is its first.
pub fn straight_stretches(points: &[Point]) -> Vec<f64> {
    let mut stretches = Vec::new();
    let mut length = 0.0;
    let mut before: Option<kurbo::Vec2> = None;
    for pair in points.windows(2) {
        let way = pair[1] - pair[0];
        let step = way.hypot2().sqrt();
        if step == 0.0 {
            continue;
        }
        if before.is_some_and(|before| turn(before, way) > CORNER) {
            stretches.push(length);
            length = 0.0;
        }
        length += step;
        before = Some(way);
    }
    if length > 0.0 {
        stretches.push(length);
    }
    stretches
}

/// By how much a way turns into the next, 0 to 180 degrees.
fn turn(before: kurbo::Vec2, after: kurbo::Vec2) -> f64 {
    libm::atan2(before.cross(after).abs(), before.dot(after)).to_degrees()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_has_four_stretches_and_a_circle_one() {
        let square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0), (0.0, 0.0)].map(Point::from);
        assert_eq!(straight_stretches(&square), [10.0; 4]);
        let circle: Vec<Point> = (0..=64)
            .map(|i| {
                let (sine, cosine) = libm::sincos(f64::from(i) / 64.0 * core::f64::consts::TAU);
                Point::new(5.0 * cosine, 5.0 * sine)
            })
            .collect();
        let stretches = straight_stretches(&circle);
        assert_eq!(stretches.len(), 1);
        assert!((stretches[0] - 31.4).abs() < 0.1);
        assert_eq!(straight_stretches(&[Point::ZERO, Point::ZERO]), Vec::<f64>::new());
    }

    #[test]
    fn passes_count_for_the_card_only() {
        let work =
            CutWork { kiss: vec![100.0], through: vec![500.0], passes: 4, travel: vec![30.0], lines: 5 };
        assert_eq!((work.through_length(), work.blade_metres()), (2000.0, 2.1));
        assert_eq!(work.corners(), 5);
    }
}
