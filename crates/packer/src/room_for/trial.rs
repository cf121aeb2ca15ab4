//! Looking for the place and turn at which a drawing can be largest, on a chart of the room.

use kurbo::{Point, Vec2};
use stickleaf_outline::{Disc, Turn};
use stickleaf_sheet::RoomChart;

use super::LEAST_SCALE;
use super::drawing::Drawing;
use crate::build::NOISE;
use crate::random::Chance;

/// So many of the turns tried first are followed further, each for so many steps.
const FOLLOWED: usize = 4;
const STEPS: usize = 400;

/// A drawing is said to grow if its scale does by this.
const GROWTH: f64 = 0.001;

/// More room to spare than this, in millimetres, makes no full-size place better.
const ENOUGH: f64 = 0.05;

/// The worth of a place that is as good as any.
pub const FULL_WORTH: f64 = 1.0 + ENOUGH;

/// Where and how a drawing might lie, and how well that is.
#[derive(Clone, Copy)]
pub struct Try {
    /// Where the drawing's pivot lies.
    pub at: Point,
    /// Its turn.
    pub degrees: f64,
    /// Whether it is flipped.
    pub mirrored: bool,
    /// How well that is; see [`Trial::better`].
    pub worth: f64,
}

/// A drawing under trial on a chart; counts what is looked up.
pub struct Trial<'a> {
    /// The room about every point.
    pub chart: &'a RoomChart,
    /// What is tried.
    pub drawing: &'a Drawing<'a>,
    /// How many points may still be looked up.
    pub left: u64,
}

impl Trial<'_> {
    /// The room to spare at the tightest point; nothing if that is not more than `above`.
    fn slack(&mut self, tried: &Try, scale: f64, above: f64) -> Option<f64> {
        let (sine, cosine) = Turn::degrees(tried.degrees).sine_cosine();
        let (along, across) = (Vec2::new(cosine, sine) * scale, Vec2::new(-sine, cosine) * scale);
        let along = if tried.mirrored { -along } else { along };
        let mut least = f64::INFINITY;
        for (count, sample) in self.drawing.samples.iter().enumerate() {
            let point = tried.at + along * sample.x + across * sample.y;
            least = least.min(room_at(self.chart, point) - self.drawing.need);
            if least <= above {
                self.left = self.left.saturating_sub(count as u64 + 1);
                return None;
            }
        }
        self.left = self.left.saturating_sub(self.drawing.samples.len() as u64);
        Some(least)
    }

    fn fits(&mut self, tried: &Try, scale: f64) -> bool {
        self.slack(tried, scale, -NOISE).is_some()
    }

    /// How well a drawing would lie, if that is better than `worth`: one and the room to spare at full size, else the
    /// scale at which it fits, else what is missing (below zero) at the least scale.
    fn better(&mut self, tried: &Try, worth: f64) -> Option<f64> {
        if worth >= 1.0 {
            return Some(self.slack(tried, 1.0, worth - 1.0).map_or(worth, full_worth))
                .filter(|better| *better > worth);
        }
        let from = if worth < LEAST_SCALE {
            let slack = self.slack(tried, LEAST_SCALE, worth.min(0.0))?;
            if slack < 0.0 {
                return Some(slack);
            }
            LEAST_SCALE
        } else {
            (worth + GROWTH).min(1.0)
        };
        if from > LEAST_SCALE && !self.fits(tried, from) {
            return None;
        }
        let (mut scale, mut step) = (from, (1.0 - from) / 2.0);
        if self.fits(tried, 1.0) {
            scale = 1.0;
        }
        while scale < 1.0 && step > GROWTH / 2.0 {
            if self.fits(tried, scale + step) {
                scale += step;
            } else {
                step /= 2.0;
            }
        }
        if scale < 1.0 { Some(scale) } else { self.slack(tried, 1.0, -NOISE).map(full_worth) }
    }

    /// The best place and turn found by following the best first turns in a disc of empty room, best first.
    pub fn follow(&mut self, disc: Disc, chance: &mut Chance) -> Vec<Try> {
        let mut tries: Vec<Try> = Vec::new();
        let flips = if self.drawing.sticker.mirror { &[false, true][..] } else { &[false] };
        for degrees in self.drawing.first_turns() {
            for &mirrored in flips {
                if self.left == 0 {
                    break;
                }
                let mut tried = Try { at: disc.centre, degrees, mirrored, worth: f64::NEG_INFINITY };
                tried.worth = self.better(&tried, f64::NEG_INFINITY).unwrap_or(f64::NEG_INFINITY);
                tries.push(tried);
            }
        }
        tries.sort_by(|a, b| b.worth.total_cmp(&a.worth));
        // The first turn that fits well is as good as any.
        tries.truncate(if tries.first().is_some_and(|best| best.worth >= FULL_WORTH) { 1 } else { FOLLOWED });
        for tried in &mut tries {
            self.improve(tried, disc.radius, chance);
        }
        tries
    }

    /// Changes place and turn by chance, in ever smaller steps, and keeps what is better.
    fn improve(&mut self, tried: &mut Try, radius: f64, chance: &mut Chance) {
        let (widest, narrowest) = (radius.max(1.0), 0.02);
        let mut reach = widest;
        for _ in 0..STEPS {
            if self.left == 0 || tried.worth >= FULL_WORTH {
                return;
            }
            let away = Vec2::new(chance.between(-reach, reach), chance.between(-reach, reach));
            // A turn moves the rim of the drawing about as far as the shift moves its middle.
            let turned = chance.between(-reach, reach) / widest * 60.0;
            let degrees = self.drawing.allowed(tried.degrees + turned);
            let mut other = Try { at: tried.at + away, degrees, ..*tried };
            match self.better(&other, tried.worth) {
                Some(worth) => {
                    other.worth = worth;
                    *tried = other;
                    reach = (reach * 1.6).min(widest);
                }
                None => reach = (reach * 0.97).max(narrowest),
            }
        }
    }
}

/// How well a drawing lies that fits at full size with so much room to spare.
fn full_worth(slack: f64) -> f64 {
    1.0 + slack.clamp(0.0, ENOUGH)
}

/// The room at a point between the points of the chart; none at all outside of it.
#[inline]
fn room_at(chart: &RoomChart, point: Point) -> f64 {
    let (x, y) = ((point.x - chart.origin.x) / chart.step, (point.y - chart.origin.y) / chart.step);
    if !(x >= 0.0 && y >= 0.0) {
        return f64::NEG_INFINITY;
    }
    let (column, row) = (x as usize, y as usize);
    if column + 1 >= chart.columns || row + 1 >= chart.rows {
        return f64::NEG_INFINITY;
    }
    let (right, down) = (x - column as f64, y - row as f64);
    let first = row * chart.columns + column;
    let value = |index: usize| f64::from(chart.values[index]);
    let top = value(first) * (1.0 - right) + value(first + 1) * right;
    let below = first + chart.columns;
    let bottom = value(below) * (1.0 - right) + value(below + 1) * right;
    top * (1.0 - down) + bottom * down
}
