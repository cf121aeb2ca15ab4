//! Edges of a no-fit polygon and the distance of a point to them.

use kurbo::{Point, Vec2};

/// One edge, with the inside on the left of its direction in a plane with y up, on the right as seen with y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Where it starts.
    pub start: Point,
    /// From its start to its end.
    pub along: Vec2,
    /// One over its squared length.
    per_length2: f64,
    /// The direction out of the polygon, of length 1.
    pub outward: Vec2,
    /// Between the outward directions of this edge and the one before: a point nearest to the start lies outside if it
    /// lies that way from it (J. A. Bærentzen, H. Aanæs, "Signed distance computation using the angle weighted
    /// pseudonormal", IEEE Transactions on Visualization and Computer Graphics 11, 2005).
    outward_at_start: Vec2,
    /// The same at the end.
    outward_at_end: Vec2,
}

/// What of an edge its distance to a point needs, close together in memory.
#[derive(Clone, Copy, Debug)]
pub struct Segment {
    start: Point,
    along: Vec2,
    per_length2: f64,
}

impl Segment {
    pub fn of(edge: &Edge) -> Segment {
        Segment { start: edge.start, along: edge.along, per_length2: edge.per_length2 }
    }

    /// The squared distance to a point.
    #[inline]
    pub fn squared_distance(&self, point: Point) -> f64 {
        let from = point - self.start;
        let share = (from.dot(self.along) * self.per_length2).clamp(0.0, 1.0);
        (from - self.along * share).hypot2()
    }
}

/// The nearest point of a no-fit polygon's line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The distance to it, negative inside the polygon.
    pub gap: f64,
    /// The direction in which the gap grows fastest, of length 1.
    pub outward: Vec2,
}

impl Edge {
    /// The edges of a ring that has the inside on the left of its edges, y up.
    pub fn of_ring(ring: &[Point]) -> Vec<Edge> {
        let count = ring.len();
        let along = |i: usize| ring[(i + 1) % count] - ring[i];
        let outward = |i: usize| {
            let along = along(i);
            Vec2::new(along.y, -along.x) / along.hypot2().sqrt()
        };
        (0..count)
            .map(|i| Edge {
                start: ring[i],
                along: along(i),
                per_length2: 1.0 / along(i).hypot2(),
                outward: outward(i),
                outward_at_start: outward((i + count - 1) % count) + outward(i),
                outward_at_end: outward(i) + outward((i + 1) % count),
            })
            .collect()
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.start + self.along
    }

    /// Which share of the way along the edge is nearest to a point, 0 to 1.
    #[inline]
    fn share(&self, point: Point) -> f64 {
        ((point - self.start).dot(self.along) * self.per_length2).clamp(0.0, 1.0)
    }

    /// The squared distance to a point.
    #[inline]
    pub fn squared_distance(&self, point: Point) -> f64 {
        (point - (self.start + self.along * self.share(point))).hypot2()
    }

    /// Whether a point for which this edge is the nearest lies outside the polygon.
    #[inline]
    pub fn is_outside(&self, point: Point) -> bool {
        let share = self.share(point);
        let direction = if share <= 0.0 {
            self.outward_at_start
        } else if share >= 1.0 {
            self.outward_at_end
        } else {
            self.outward
        };
        (point - (self.start + self.along * share)).dot(direction) >= 0.0
    }

    /// How far a point lies on the outer side of the edge's line, negative on the inner side.
    #[inline]
    pub fn height(&self, point: Point) -> f64 {
        (point - self.start).dot(self.outward)
    }

    /// The edge's nearest point to a point, and the direction out of the polygon there.
    ///
    /// For a point outside that is the direction to it, so that all of the edge lies behind the line across it.
    pub fn support(&self, point: Point, outside: bool) -> (Point, Vec2) {
        let share = self.share(point);
        let at = self.start + self.along * share;
        let from = point - at;
        let length = from.hypot2().sqrt();
        let at_end = share <= 0.0 || share >= 1.0;
        (at, if at_end && outside && length > 1e-6 { from / length } else { self.outward })
    }

    /// The ends of the part of the edge that lies within a circle; a point twice if it hardly touches it.
    pub fn clipped(&self, centre: Point, radius: f64) -> (Point, Point) {
        let share = (centre - self.start).dot(self.along) * self.per_length2;
        let off = (self.start + self.along * share - centre).hypot2();
        let half = ((radius * radius - off).max(0.0) * self.per_length2).sqrt();
        let at = |share: f64| self.start + self.along * share.clamp(0.0, 1.0);
        (at(share - half), at(share + half))
    }

    /// The direction from the edge to a point, of length 1, turned about for a point inside.
    pub fn outward_to(&self, point: Point, outside: bool) -> Vec2 {
        let from = point - (self.start + self.along * self.share(point));
        let length = from.hypot2().sqrt();
        if length < 1e-9 {
            self.outward
        } else if outside {
            from / length
        } else {
            -from / length
        }
    }
}
