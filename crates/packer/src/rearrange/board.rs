//! The sheet and the pieces on it, as the search for places sees them.

use kurbo::{Point, Rect, Vec2};

use crate::rearrange::boxes::Boxes;
use crate::rearrange::lies::Lies;

/// Where a piece lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// How it lies: a position in [`Lies::list`].
    pub lie: usize,
    /// Where its centre is.
    pub at: Point,
}

/// Pieces on a rectangle. They may overlap each other, but not leave it.
#[derive(Clone, Debug)]
pub struct Board {
    /// What pieces stay in: the sheet less its margin.
    pub room: Rect,
    /// The pieces: first those that may move, then what is held. Change them by [`Board::put`] only.
    pub spots: Vec<Spot>,
    /// How many may move.
    pub free: usize,
    /// For each piece, the distance that those before it in the list keep from it, in millimetres.
    pub needs: Vec<f64>,
    most_need: f64,
    boxes: Boxes,
}

/// How much a piece lacks to another near by, as a linear function of where its centre is.
#[derive(Clone, Copy, Debug)]
pub struct Slope {
    /// What is lacking at the place it was measured for, in millimetres; negative with room left.
    pub lack: f64,
    /// The direction in which it lacks less, of length 1.
    pub outward: Vec2,
    /// What a millimetre costs.
    pub weight: f64,
}

/// What the weights of a piece's conflicts are, and how many pairs have been looked up.
pub struct Prices<'a> {
    /// For each other piece, what a lacking millimetre costs.
    pub weights: &'a [f32],
    /// Counts the pairs that are looked up.
    pub looked: &'a mut u64,
}

impl Board {
    /// A board with these pieces, of which the first `free` may move.
    pub fn new(lies: &Lies, room: Rect, spots: Vec<Spot>, free: usize, needs: Vec<f64>) -> Board {
        let boxes = spots.iter().map(|spot| lies.bounds(*spot)).collect();
        let most_need = needs.iter().copied().fold(0.0, f64::max);
        Board { boxes: Boxes::new(room, boxes), room, spots, free, needs, most_need }
    }

    /// Puts a piece there.
    pub fn put(&mut self, lies: &Lies, index: usize, spot: Spot) {
        self.spots[index] = spot;
        self.boxes.set(index, lies.bounds(spot));
    }

    /// Puts each piece where it is in another list of as many.
    pub fn put_all(&mut self, lies: &Lies, spots: &[Spot]) {
        for (index, spot) in spots.iter().enumerate() {
            self.put(lies, index, *spot);
        }
    }

    /// Where the centre of a piece that lies so may be. For one that is too large, the middle.
    pub fn range(&self, lies: &Lies, lie: usize) -> Rect {
        let bounds = lies.list[lie].bounds;
        let ordered = |low: f64, high: f64| {
            if low <= high { (low, high) } else { ((low + high) / 2.0, (low + high) / 2.0) }
        };
        let (x0, x1) = ordered(self.room.x0 - bounds.x0, self.room.x1 - bounds.x1);
        let (y0, y1) = ordered(self.room.y0 - bounds.y0, self.room.y1 - bounds.y1);
        Rect::new(x0, y0, x1, y1)
    }

    /// The nearest place within the room for a piece that lies so.
    pub fn inside(&self, lies: &Lies, spot: Spot) -> Spot {
        Spot { at: within(self.range(lies, spot.lie), spot.at), ..spot }
    }

    /// Whether a piece that lies so fits between the edges.
    pub fn fits(&self, lies: &Lies, lie: usize) -> bool {
        let bounds = lies.list[lie].bounds;
        bounds.width() <= self.room.width() + 1e-9 && bounds.height() <= self.room.height() + 1e-9
    }

    /// How far down the free pieces reach, in sheet millimetres.
    pub fn lowest_point(&self, lies: &Lies) -> f64 {
        let bottom = |spot: &Spot| lies.bounds(*spot).y1;
        self.spots[..self.free].iter().map(bottom).fold(f64::NEG_INFINITY, f64::max)
    }

    /// What each two pieces lack to their distance, those that keep it left out; the first is one that may move.
    pub fn for_each_lack(&self, lies: &Lies, mut on: impl FnMut(usize, usize, f64)) {
        for i in 0..self.free {
            let spot = self.spots[i];
            let over = lies.bounds(spot).inflate(self.most_need, self.most_need);
            self.boxes.near(over, |j| {
                if j > i {
                    let other = self.spots[j];
                    let lack = self.needs[j] - lies.gap(spot.lie, other.lie, other.at - spot.at);
                    if lack > 0.0 {
                        on(i, j, lack);
                    }
                }
                false
            });
        }
    }

    /// Calls `on` with every pair, the first free, whose rectangles grown by half of `within` meet.
    pub fn for_each_near(&self, lies: &Lies, within: f64, mut on: impl FnMut(usize, usize)) {
        for i in 0..self.free {
            let over = lies.bounds(self.spots[i]).inflate(within, within);
            self.boxes.near(over, |j| {
                if j > i {
                    on(i, j);
                }
                false
            });
        }
    }

    /// The most that two pieces lack to their distance, in millimetres.
    pub fn most_lacking(&self, lies: &Lies) -> f64 {
        let mut most = 0.0f64;
        self.for_each_lack(lies, |_, _, lack| most = most.max(lack));
        most
    }

    /// The distance that one piece keeps from another, whichever comes first.
    #[inline]
    pub fn need(&self, i: usize, j: usize) -> f64 {
        self.needs[i.max(j)]
    }

    /// How many others have a rectangle that meets that of a piece there, grown by the distance to be kept: those that
    /// [`Board::cost`] then looks up.
    pub fn near(&self, lies: &Lies, index: usize, spot: Spot) -> u64 {
        let over = lies.bounds(spot).inflate(self.most_need, self.most_need);
        let mut count = 0;
        self.boxes.near(over, |j| {
            count += u64::from(j != index);
            false
        });
        count
    }

    /// What it costs to put a piece there: what it would lack to each other, weighed. At least `limit` as soon as it is
    /// clear that it is no less.
    #[inline]
    pub fn cost(&self, lies: &Lies, index: usize, spot: Spot, prices: &mut Prices, limit: f64) -> f64 {
        let over = lies.bounds(spot).inflate(self.most_need, self.most_need);
        let mut cost = 0.0;
        let mut looked = 1;
        self.boxes.near(over, |j| {
            if j == index {
                return false;
            }
            let (other, weight, need) = (self.spots[j], f64::from(prices.weights[j]), self.need(index, j));
            // What lacks more than this costs too much at once.
            let least = need - (limit - cost) / weight;
            let lack = need - lies.gap_above(other.lie, spot.lie, spot.at - other.at, least);
            looked += 1;
            if lack > 0.0 {
                cost += lack * weight;
            }
            cost >= limit
        });
        *prices.looked += looked;
        cost
    }

    /// What a piece that lies there lacks to each other that it might touch within `radius` millimetres.
    pub fn slopes(
        &self,
        lies: &Lies,
        index: usize,
        spot: Spot,
        prices: &mut Prices,
        radius: f64,
        slopes: &mut Vec<Slope>,
    ) {
        slopes.clear();
        let pad = self.most_need + radius;
        self.boxes.near(lies.bounds(spot).inflate(pad, pad), |j| {
            if j == index {
                return false;
            }
            let other = self.spots[j];
            *prices.looked += 2;
            if let Some(nearest) = lies.nearest(other.lie, spot.lie, spot.at - other.at) {
                let lack = self.need(index, j) - nearest.gap;
                if lack > -radius {
                    let weight = f64::from(prices.weights[j]);
                    slopes.push(Slope { lack, outward: nearest.outward, weight });
                }
            }
            false
        });
    }
}

/// The point of the rectangle nearest to this one.
pub fn within(range: Rect, at: Point) -> Point {
    Point::new(at.x.clamp(range.x0, range.x1), at.y.clamp(range.y0, range.y1))
}
