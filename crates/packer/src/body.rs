//! One piece or zone during a search, with its points where they lie.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::{Disc, Placement, Turn};

use crate::ground::Ground;

/// A piece or zone on the sheet. Change it by [`Body::lie`] only, which keeps its points in step.
#[derive(Clone, Debug)]
pub struct Body {
    /// Position of its kind in [`Ground::kinds`].
    pub kind: usize,
    /// Where the centre of its shape lies, in sheet millimetres.
    pub at: Point,
    /// Its turn in degrees.
    pub degrees: f64,
    /// Whether it is flipped.
    pub mirrored: bool,
    /// Whether nothing may move it.
    pub held: bool,
    /// The samples of its shape, in sheet millimetres.
    pub points: Vec<Point>,
    /// The discs inside its shape, on the sheet.
    pub discs: Vec<Disc>,
    /// The smallest upright rectangle round the points.
    pub bounds: Rect,
    sine: f64,
    cosine: f64,
}

impl Body {
    /// A body of this kind at this placement.
    pub fn new(ground: &Ground, kind: usize, placement: &Placement, held: bool) -> Body {
        let centre = placement.apply(ground.kinds[kind].shape.centre);
        let mut body = Body {
            kind,
            at: centre,
            degrees: 0.0,
            mirrored: false,
            held,
            points: Vec::new(),
            discs: Vec::new(),
            bounds: Rect::ZERO,
            sine: 0.0,
            cosine: 1.0,
        };
        body.lie(ground, centre, placement.turn.to_degrees(), placement.mirrored);
        body
    }

    /// Puts the body's centre at this point, turned and flipped like this.
    pub fn lie(&mut self, ground: &Ground, at: Point, degrees: f64, mirrored: bool) {
        self.at = at;
        self.degrees = degrees;
        self.mirrored = mirrored;
        (self.sine, self.cosine) = Turn::degrees(degrees).sine_cosine();
        let shape = &ground.kinds[self.kind].shape;
        self.discs.clear();
        for disc in &shape.discs {
            let centre = self.to_sheet(disc.centre);
            self.discs.push(Disc { centre, radius: disc.radius });
        }
        self.points.clear();
        self.points.reserve(shape.samples.len());
        let mut range = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        for &sample in &shape.samples {
            let point = self.to_sheet(sample);
            range =
                [range[0].min(point.x), range[1].min(point.y), range[2].max(point.x), range[3].max(point.y)];
            self.points.push(point);
        }
        self.bounds = Rect::new(range[0], range[1], range[2], range[3]);
    }

    /// The point of the sheet on which a point of the shape, told from its centre, lies.
    #[inline]
    pub fn to_sheet(&self, point: Point) -> Point {
        let x = if self.mirrored { -point.x } else { point.x };
        Point::new(
            self.at.x + x * self.cosine - point.y * self.sine,
            self.at.y + x * self.sine + point.y * self.cosine,
        )
    }

    /// The point of the shape, told from its centre, that lies on this point of the sheet.
    #[inline]
    pub fn to_shape(&self, point: Point) -> Point {
        let (x, y) = (point.x - self.at.x, point.y - self.at.y);
        let across = x * self.cosine + y * self.sine;
        Point::new(if self.mirrored { -across } else { across }, y * self.cosine - x * self.sine)
    }

    /// The direction on the sheet of a direction of the shape.
    #[inline]
    pub fn direction_to_sheet(&self, direction: Vec2) -> Vec2 {
        let x = if self.mirrored { -direction.x } else { direction.x };
        Vec2::new(x * self.cosine - direction.y * self.sine, x * self.sine + direction.y * self.cosine)
    }

    /// Where the sticker's own (0, 0) lies: what a piece remembers.
    pub fn placement(&self, ground: &Ground) -> Placement {
        let centre = ground.kinds[self.kind].shape.centre;
        let own_origin = self.to_sheet(Point::new(-centre.x, -centre.y));
        Placement { at: own_origin, turn: Turn::degrees(self.degrees), mirrored: self.mirrored }
    }
}
