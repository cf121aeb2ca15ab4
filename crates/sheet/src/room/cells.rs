//! The search for the largest disc: squares are split, the most promising first.
//!
//! Source of the search by squares: V. Agafonkin, "A new algorithm for finding a visual center of a polygon", 2016. The
//! bound of `bound` is added, since squares along a strip of even width would otherwise be split without end, and a list
//! of the obstacles that matter, which goes from a square to its parts.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use kurbo::{Point, Vec2};
use stickleaf_outline::Disc;

use super::bound::{AtCorners, least_corner};
use super::obstacles::Obstacles;
use super::{PARTS, SEARCH_TOLERANCE};

/// How many distances may be worked out in all: a fifth of a second or so.
const MOST_WORK: u64 = 40_000_000;

/// With more obstacles than this about, a square is large, and the simple bound is good enough.
const MANY: usize = 120;

/// A search under way; each disc found becomes an obstacle for the next.
pub struct Search {
    obstacles: Obstacles,
    /// Smaller discs are not wanted.
    least: f64,
    open: BinaryHeap<Cell>,
    /// The point with the most room since the last disc, and how much that is.
    best: Option<(Point, f64)>,
    /// Squares made so far.
    made: u64,
    /// Distances worked out so far.
    work: u64,
    values: Vec<f64>,
}

/// A square in which there may be room; the more promising one is the greater, then the one made earlier.
struct Cell {
    middle: Point,
    half: f64,
    /// No point of it has more room than this.
    reach: f64,
    number: u64,
    /// The obstacles that may be the nearest somewhere in it.
    near: Vec<u32>,
    /// How many obstacles there were when it was looked at.
    known: usize,
}

impl Search {
    /// A search for discs of this radius or more.
    pub fn new(obstacles: Obstacles, least: f64) -> Search {
        let (width, height) = obstacles.size();
        let half = width.max(height) / 2.0;
        let known = obstacles.list.len();
        let mut search = Search {
            obstacles,
            least,
            open: BinaryHeap::new(),
            best: None,
            made: 0,
            work: 0,
            values: Vec::new(),
        };
        let all: Vec<u32> = (0..known as u32).collect();
        search.look(Point::new(width / 2.0, height / 2.0), half, &all);
        search
    }

    /// Whether no answer was cut short so far.
    pub fn is_within_bounds(&self) -> bool {
        self.work <= MOST_WORK
    }

    /// The largest disc that is left; nothing if there is none, or the work is used up.
    pub fn next_disc(&mut self) -> Option<Disc> {
        self.best = None;
        while let Some(cell) = self.open.pop() {
            let known = self.obstacles.list.len();
            if cell.known < known {
                let mut near = cell.near;
                near.extend(cell.known as u32..known as u32);
                self.look(cell.middle, cell.half, &near);
                continue;
            }
            let floor = self.best.map_or(self.least, |(_, room)| room.max(self.least));
            if cell.reach <= floor + SEARCH_TOLERANCE {
                self.open.push(cell);
                return self.take_best();
            }
            if !self.is_within_bounds() {
                return None;
            }
            let half = cell.half / 2.0;
            for (x, y) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
                self.look(cell.middle + Vec2::new(x, y), half, &cell.near);
            }
        }
        self.take_best()
    }

    fn take_best(&mut self) -> Option<Disc> {
        let (point, room) = self.best.take()?;
        if room < self.least {
            return None;
        }
        let rounded = |mm: f64| (mm * PARTS).round() / PARTS;
        let centre = Point::new(rounded(point.x), rounded(point.y));
        let radius = (self.obstacles.room(centre) * PARTS).floor() / PARTS;
        let disc = Disc { centre, radius };
        self.obstacles.add_disc(disc);
        Some(disc)
    }

    /// Looks at a square among these obstacles: keeps its best point, and the square itself if it may hold more.
    fn look(&mut self, middle: Point, half: f64, among: &[u32]) {
        let list = &self.obstacles.list;
        let diagonal = half * core::f64::consts::SQRT_2;
        let (mut room, mut distance) = (self.obstacles.room_to_edge(middle), f64::INFINITY);
        self.values.clear();
        for &index in among {
            let obstacle = &list[index as usize];
            let apart = obstacle.distance(middle);
            let value = obstacle.room_at(apart);
            distance = distance.min(apart);
            room = room.min(value);
            self.values.push(value);
        }
        self.work += among.len() as u64 + 1;
        if room + diagonal <= self.least {
            return;
        }
        if self.obstacles.is_covered(middle) {
            if distance >= diagonal {
                return;
            }
        } else if self.best.is_none_or(|(_, best)| room > best) {
            self.best = Some((middle, room));
        }
        // What has so much more room than the nearest is nowhere in the square the nearest itself.
        let limit = room + 2.0 * diagonal;
        let kept = among.iter().zip(&self.values).filter(|&(_, &value)| value <= limit);
        let near: Vec<u32> = kept.map(|(&index, _)| index).collect();
        let mut reach = room + diagonal;
        if near.len() <= MANY {
            reach = reach.min(self.bound(middle, half, &near));
        }
        if reach > self.least {
            let known = self.obstacles.list.len();
            self.open.push(Cell { middle, half, reach, number: self.made, near, known });
            self.made += 1;
        }
    }

    /// The bound by the obstacles that are nearest to the middle and to the corners; corners may be the best point too.
    fn bound(&mut self, middle: Point, half: f64, near: &[u32]) -> f64 {
        let list = &self.obstacles.list;
        let corners = [(-half, -half), (half, -half), (-half, half), (half, half)]
            .map(|(x, y)| middle + Vec2::new(x, y));
        let mut rows: Vec<AtCorners> = Vec::with_capacity(5);
        let mut taken: Vec<u32> = Vec::with_capacity(5);
        for point in [middle, corners[0], corners[1], corners[2], corners[3]] {
            let edge = self.obstacles.room_to_edge(point);
            let mut nearest: Option<(f64, u32)> = None;
            for &index in near {
                let value = list[index as usize].room(point);
                if nearest.is_none_or(|(least, _)| value < least) {
                    nearest = Some((value, index));
                }
            }
            let (room, row) = match nearest {
                Some((value, index)) if value < edge => {
                    if taken.contains(&index) {
                        (value, None)
                    } else {
                        taken.push(index);
                        (value, Some(corners.map(|corner| list[index as usize].room(corner))))
                    }
                }
                _ => {
                    let slope = self.obstacles.slope_of_edge(point);
                    (edge, Some(corners.map(|corner| slope.room(corner))))
                }
            };
            rows.extend(row);
            if self.best.is_none_or(|(_, best)| room > best) && !self.obstacles.is_covered(point) {
                self.best = Some((point, room));
            }
        }
        self.work += 5 * near.len() as u64 + 40;
        least_corner(&rows)
    }
}

impl Ord for Cell {
    fn cmp(&self, other: &Cell) -> Ordering {
        self.reach.total_cmp(&other.reach).then(other.number.cmp(&self.number))
    }
}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Cell) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Cell {
    fn eq(&self, other: &Cell) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Cell {}
