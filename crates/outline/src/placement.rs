//! Where a piece lies: the one place in which a turn becomes numbers.

use kurbo::{Point, Vec2};

/// A turn in degrees, clockwise as seen (y down); 0 or more and below 360.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Turn(f64);

impl Turn {
    /// No turn at all.
    pub const NONE: Turn = Turn(0.0);

    /// The turn by so many degrees, brought into 0 to 360. Anything but a finite number gives no turn.
    pub fn degrees(degrees: f64) -> Turn {
        if !degrees.is_finite() {
            return Turn::NONE;
        }
        let turn = degrees.rem_euclid(360.0);
        // A tiny negative number is rounded up to 360 itself.
        Turn(if turn >= 360.0 { 0.0 } else { turn })
    }

    /// The turn in degrees, 0 or more and below 360.
    pub fn to_degrees(self) -> f64 {
        self.0
    }

    /// The turn in degrees, above -180 and up to 180.
    pub fn to_signed_degrees(self) -> f64 {
        if self.0 > 180.0 { self.0 - 360.0 } else { self.0 }
    }

    /// The smallest way round from one turn to another, 0 to 180 degrees.
    pub fn distance_to(self, other: Turn) -> f64 {
        let apart = (self.0 - other.0).abs();
        apart.min(360.0 - apart)
    }

    /// Sine and cosine, the same on every platform; exact for quarter turns.
    pub fn sine_cosine(self) -> (f64, f64) {
        match self.0 {
            0.0 => (0.0, 1.0),
            90.0 => (1.0, 0.0),
            180.0 => (0.0, -1.0),
            270.0 => (-1.0, 0.0),
            degrees => libm::sincos(degrees * (core::f64::consts::PI / 180.0)),
        }
    }
}

/// Where and how one copy of an outline lies on the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// Where the outline's own (0, 0) comes to lie, in sheet millimetres.
    pub at: Point,
    /// How far it is turned about that point.
    pub turn: Turn,
    /// Whether it is flipped left to right before it is turned.
    pub mirrored: bool,
}

impl Placement {
    /// Upright at this point.
    pub fn at(x: f64, y: f64) -> Placement {
        Placement { at: Point::new(x, y), turn: Turn::NONE, mirrored: false }
    }

    /// Turned by so many degrees at this point.
    pub fn turned(x: f64, y: f64, degrees: f64) -> Placement {
        Placement { at: Point::new(x, y), turn: Turn::degrees(degrees), mirrored: false }
    }

    /// The point of the sheet that a point of the outline comes to lie on.
    ///
    /// For many points at once take [`Placement::motion`], which works out the sine once.
    pub fn apply(&self, point: Point) -> Point {
        self.motion().apply(point)
    }

    /// The placement with its sine and cosine worked out.
    pub fn motion(&self) -> Motion {
        let (sine, cosine) = self.turn.sine_cosine();
        Motion { sine, cosine, flip: if self.mirrored { -1.0 } else { 1.0 }, shift: self.at.to_vec2() }
    }
}

/// A placement ready to be applied to many points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    sine: f64,
    cosine: f64,
    flip: f64,
    shift: Vec2,
}

impl Motion {
    /// The point of the sheet that a point of the outline comes to lie on.
    pub fn apply(&self, point: Point) -> Point {
        let x = point.x * self.flip;
        Point::new(
            x * self.cosine - point.y * self.sine + self.shift.x,
            x * self.sine + point.y * self.cosine + self.shift.y,
        )
    }

    /// The point of the outline that comes to lie on a point of the sheet: the way back of [`Motion::apply`].
    pub fn apply_inverse(&self, point: Point) -> Point {
        let (x, y) = (point.x - self.shift.x, point.y - self.shift.y);
        Point::new((x * self.cosine + y * self.sine) * self.flip, y * self.cosine - x * self.sine)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turn_is_brought_into_one_round() {
        assert_eq!(Turn::degrees(-90.0).to_degrees(), 270.0);
        assert_eq!(Turn::degrees(720.0).to_degrees(), 0.0);
        assert_eq!(Turn::degrees(-1e-20).to_degrees(), 0.0);
        assert_eq!(Turn::degrees(f64::NAN), Turn::NONE);
        assert_eq!(Turn::degrees(350.0).to_signed_degrees(), -10.0);
        assert_eq!(Turn::degrees(350.0).distance_to(Turn::degrees(10.0)), 20.0);
    }

    #[test]
    fn quarter_turn_takes_right_to_down_exactly() {
        let placement = Placement::turned(10.0, 20.0, 90.0);
        assert_eq!(placement.apply(Point::new(1.0, 0.0)), Point::new(10.0, 21.0));
    }

    #[test]
    fn mirror_comes_before_the_turn() {
        let placement = Placement { at: Point::ZERO, turn: Turn::degrees(90.0), mirrored: true };
        assert_eq!(placement.apply(Point::new(1.0, 0.0)), Point::new(0.0, -1.0));
    }

    #[test]
    fn inverse_brings_the_point_back() {
        for mirrored in [false, true] {
            let motion =
                Placement { at: Point::new(3.0, -7.0), turn: Turn::degrees(123.4), mirrored }.motion();
            let point = Point::new(11.0, 5.0);
            assert!((motion.apply_inverse(motion.apply(point)) - point).hypot2() < 1e-20);
        }
    }
}
