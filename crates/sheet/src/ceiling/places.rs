//! Whether a handful of points can keep their distance in a region: all their places are searched.
//!
//! The region is cut into rows of cells whose diagonal is below the distance d, so that each cell holds one point at
//! most. For a choice of cells, each point is known to lie in its box. A place x in one box is ruled out by another box if
//! all of that other box is nearer to x than d, whichever place is taken there. Such x form a convex set, the common part
//! of the discs of radius d round the four corners, so a side of the first box may be moved in as long as both its ends
//! stay in that set. If a box gets empty, the choice is impossible; otherwise the largest box is halved and both
//! halves are looked at. If all choices of n cells come out impossible, n points do not fit, and that is a proof. If the
//! boxes get small or the work is used up, nothing is said.
//!
//! The last row comes first, then the last two, and so on: what the rows below hold at most cuts the search of those
//! above short. In a rectangle, any so many rows in turn hold no more than the last so many.
//!
//! Source: R. Peikert, D. Würtz, M. Monagan, C. de Groot, "Packing circles in a square: a review and new results", System
//! Modelling and Optimization, Lecture Notes in Control and Information Sciences 180 (1992); M. Markót, T. Csendes, "A new
//! verified optimization technique for the packing circles in a unit square problems", SIAM Journal on Optimization 16
//! (2005). Taking the last rows first: G. Verfaillie, M. Lemaître, T. Schiex, "Russian doll search for solving constraint
//! optimization problems", AAAI 1996.

use kurbo::{Point, Rect};
use stickleaf_outline::Region;

use super::points::{bounds, rectangle};
use super::rows::most_in_rectangle;
use super::slack::GRAIN;

/// More points than this are not searched: nearly each takes three times as long as one fewer.
const MOST_POINTS: usize = 17;

/// How many pairs of boxes may be compared for one ceiling: half a tenth of a second.
const MOST_WORK: u64 = 2_000_000;

/// Boxes with sides below this share of the distance are small.
const SMALL: f64 = 1.0 / 256.0;

/// How large a side of a cell is at most, as a share of the distance; 1/√2 would be too much.
const CELL_SHARE: f64 = 0.68;

/// A region that fills this share of the box about it is taken to fill it.
const NEARLY_ALL: f64 = 0.97;

/// The squared distance is taken this much smaller, so that rounding rules no place out.
const SMALLER: f64 = 1.0 - 1e-9;

/// The work that is left.
pub struct Search {
    left: u64,
}

impl Search {
    /// As much work as one ceiling may cost.
    pub fn new() -> Search {
        Search { left: MOST_WORK }
    }

    /// The bound `most` lowered by as many points as are proved not to fit, but to no less than `enough`.
    pub fn lowered(&mut self, part: &Region, apart: f64, most: usize, enough: usize) -> usize {
        if most > MOST_POINTS || most <= enough.max(1) || self.left == 0 {
            return most;
        }
        let grid = Grid::new(part, apart);
        let mut trial = Trial {
            squared: apart * apart * SMALLER,
            small: apart * SMALL,
            most_from: vec![0; grid.rows.len() + 1],
            counts: vec![0; grid.rows.len()],
            grid: &grid,
            left: &mut self.left,
        };
        for (row, cells) in grid.rows.iter().enumerate().rev() {
            let by_cells = trial.most_from[row + 1] + cells.len();
            trial.most_from[row] = by_cells.min(grid.simple_bounds[row]).min(most);
            let enough = if row == 0 { enough } else { 0 };
            while trial.most_from[row] > enough.max(1) && trial.rules_out_from(row) {
                trial.most_from[row] -= 1;
            }
        }
        trial.most_from[0]
    }
}

/// The region in rows of cells along its longer side.
struct Grid {
    /// The boxes about what the region has in each cell.
    rows: Vec<Vec<Rect>>,
    /// How many points each row and all after it hold at most.
    simple_bounds: Vec<usize>,
    /// Whether it fills a rectangle, so that all rows are alike.
    is_even: bool,
}

impl Grid {
    fn new(part: &Region, apart: f64) -> Grid {
        let around = bounds(&part.rings().flatten().collect::<Vec<Point>>());
        let is_even = part.area() >= NEARLY_ALL * around.area();
        let is_high = around.height() >= around.width();
        let steps = |length: f64| (length / (CELL_SHARE * apart)).floor() as usize + 1;
        let (columns, rows) = (steps(around.width()), steps(around.height()));
        let side = |start: f64, length: f64, i: usize, count: usize| start + length * i as f64 / count as f64;
        let cell = |column: usize, row: usize| {
            let [x0, x1] = [column, column + 1].map(|i| side(around.x0, around.width(), i, columns));
            let [y0, y1] = [row, row + 1].map(|i| side(around.y0, around.height(), i, rows));
            let cell = Rect::new(x0, y0, x1, y1);
            if is_even {
                return Some(cell);
            }
            // Points on a common side belong to both cells, whichever way it is rounded.
            let inside = part.intersection(&rectangle(cell.inflate(GRAIN, GRAIN)));
            (!inside.is_empty()).then(|| bounds(&inside.rings().flatten().collect::<Vec<Point>>()))
        };
        let (outer, inner) = if is_high { (rows, columns) } else { (columns, rows) };
        let (across, along) =
            if is_high { (around.width(), around.height()) } else { (around.height(), around.width()) };
        let simple_bound = |i: usize| {
            let rest = along * (outer - i) as f64 / outer as f64;
            most_in_rectangle(across + 2.0 * GRAIN, rest + 2.0 * GRAIN, apart)
        };
        let cells =
            |i: usize| (0..inner).filter_map(|j| if is_high { cell(j, i) } else { cell(i, j) }).collect();
        Grid {
            rows: (0..outer).map(cells).collect(),
            simple_bounds: (0..outer).map(simple_bound).collect(),
            is_even,
        }
    }
}

struct Trial<'a> {
    squared: f64,
    small: f64,
    grid: &'a Grid,
    /// How many points each row and all after it hold at most, as far as is proved.
    most_from: Vec<usize>,
    /// How many points have been given to each row.
    counts: Vec<usize>,
    left: &'a mut u64,
}

impl Trial<'_> {
    /// Whether this row and those after it cannot hold as many points as is still thought possible.
    fn rules_out_from(&mut self, row: usize) -> bool {
        self.counts.fill(0);
        self.rules_out(&[], row, 0, self.most_from[row])
    }

    /// Whether it is impossible that points lie in these boxes and so many more in this row, from cell `next` on, and in
    /// the rows after it.
    fn rules_out(&mut self, boxes: &[Rect], row: usize, next: usize, missing: usize) -> bool {
        if missing == 0 {
            return self.rules_out_halves(boxes);
        }
        let cells = &self.grid.rows[row];
        for number in next..cells.len() {
            if cells.len() - number + self.most_from[row + 1] < missing {
                return true;
            }
            if self.is_full(row) {
                break;
            }
            let mut more = boxes.to_vec();
            more.push(cells[number]);
            if self.narrow(&mut more, boxes.len()) {
                continue;
            }
            self.counts[row] += 1;
            if *self.left == 0 || !self.rules_out(&more, row, number + 1, missing - 1) {
                return false;
            }
            self.counts[row] -= 1;
        }
        missing > self.most_from[row + 1] || self.rules_out(boxes, row + 1, 0, missing)
    }

    /// Whether this row, or some rows in turn up to it, hold all that so many rows can hold.
    fn is_full(&self, row: usize) -> bool {
        let rows = self.counts.len();
        let mut sum = 0;
        self.grid.is_even
            && (1..rows).take(row + 1).any(|length| {
                sum += self.counts[row + 1 - length];
                // Of a run that reaches back to the row where this trial starts, less may be known; zero is not known.
                let most = self.most_from[rows - length];
                most > 0 && sum >= most
            })
    }

    fn rules_out_halves(&mut self, boxes: &[Rect]) -> bool {
        let side = |rect: &Rect| rect.width().max(rect.height());
        let widest = (0..boxes.len()).max_by(|&a, &b| side(&boxes[a]).total_cmp(&side(&boxes[b])));
        let Some(widest) = widest.filter(|&widest| side(&boxes[widest]) >= self.small && *self.left > 0)
        else {
            return false;
        };
        let whole = boxes[widest];
        let middle = whole.center();
        let halves = if whole.width() > whole.height() {
            [Rect { x1: middle.x, ..whole }, Rect { x0: middle.x, ..whole }]
        } else {
            [Rect { y1: middle.y, ..whole }, Rect { y0: middle.y, ..whole }]
        };
        halves.into_iter().all(|half| {
            let mut boxes = boxes.to_vec();
            boxes[widest] = half;
            self.narrow(&mut boxes, widest) || self.rules_out_halves(&boxes)
        })
    }

    /// Moves the sides of the boxes in as far as the others allow, once one has changed; true if one gets empty.
    fn narrow(&mut self, boxes: &mut [Rect], changed: usize) -> bool {
        for j in (0..boxes.len()).filter(|&j| j != changed) {
            let Some(narrower) = narrowed(boxes[changed], boxes[j], self.squared) else { return true };
            boxes[changed] = narrower;
        }
        let mut open = vec![changed];
        while let Some(j) = open.pop() {
            *self.left = self.left.saturating_sub(boxes.len() as u64);
            for i in (0..boxes.len()).filter(|&i| i != j) {
                let Some(narrower) = narrowed(boxes[i], boxes[j], self.squared) else { return true };
                let gain = (boxes[i].width() - narrower.width()).max(boxes[i].height() - narrower.height());
                boxes[i] = narrower;
                if gain > self.small && !open.contains(&i) {
                    open.push(i);
                }
            }
        }
        false
    }
}

/// The box about the points of `own` that lie at the squared distance or further from some point of `other`; nothing if
/// there are none. It may be larger.
fn narrowed(own: Rect, other: Rect, squared: f64) -> Option<Rect> {
    let furthest = |a0: f64, a1: f64, b0: f64, b1: f64| (a1 - b0).max(b1 - a0);
    let mut own = own;
    let down = furthest(own.y0, own.y1, other.y0, other.y1);
    (own.x0, own.x1) = narrowed_span((own.x0, own.x1), (other.x0, other.x1), squared - down * down)?;
    let across = furthest(own.x0, own.x1, other.x0, other.x1);
    (own.y0, own.y1) = narrowed_span((own.y0, own.y1), (other.y0, other.y1), squared - across * across)?;
    Some(own)
}

/// The span without its ends that are nearer than the root of `squared` to all of the other span.
fn narrowed_span(own: (f64, f64), other: (f64, f64), squared: f64) -> Option<(f64, f64)> {
    if squared <= 0.0 {
        return Some(own);
    }
    // Nearer to both ends of the other span.
    let reach = squared.sqrt();
    let (from, to) = (other.1 - reach, other.0 + reach);
    let is_near = |x: f64| x > from && x < to;
    let low = if is_near(own.0) { to } else { own.0 };
    let high = if is_near(own.1) { from } else { own.1 };
    (low <= high).then_some((low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn most(width: f64, height: f64, apart: f64, start: usize) -> usize {
        let part = rectangle(Rect::new(0.0, 0.0, width, height));
        Search::new().lowered(&part, apart, start, 0)
    }

    #[test]
    fn a_span_loses_what_is_too_near() {
        assert_eq!(narrowed_span((0.0, 10.0), (0.0, 1.0), 9.0), Some((3.0, 10.0)));
        assert_eq!(narrowed_span((0.0, 2.0), (0.0, 1.0), 9.0), None);
        // In the middle nothing can be taken off a span.
        assert_eq!(narrowed_span((-10.0, 10.0), (0.0, 1.0), 9.0), Some((-10.0, 10.0)));
        assert_eq!(narrowed_span((0.0, 10.0), (0.0, 1.0), -1.0), Some((0.0, 10.0)));
    }

    #[test]
    fn points_in_a_square_are_as_many_as_proved() {
        // The greatest least distance of n points in a unit square: J. Schaer, "The densest packing of nine circles in a
        // square", Canadian Mathematical Bulletin 8 (1965), and his earlier papers.
        let distances = [
            (4, 1.0),
            (5, 0.5f64.sqrt()),
            (6, 13f64.sqrt() / 6.0),
            (7, 4.0 - 12f64.sqrt()),
            (8, (6f64.sqrt() - 2f64.sqrt()) / 2.0),
            (9, 0.5),
        ];
        for (count, distance) in distances {
            assert_eq!(most(100.0, 100.0, distance * 100.0 - 1e-4, count), count, "{count} fit");
            assert_eq!(most(100.0, 100.0, distance * 102.0, count), count - 1, "{count} do not fit");
        }
    }

    #[test]
    fn a_region_with_a_hole_is_searched_too() {
        // A square ring, 30 across, its sides 1 wide: nine points that are 12 apart fit along a way of 116, but not so
        // that all keep their distance round the corners.
        let square = |near: f64, far: f64| rectangle(Rect::new(near, near, far, far));
        let ring = square(0.0, 30.0).difference(&square(1.0, 29.0));
        assert_eq!(Search::new().lowered(&ring, 29.9, 9, 0), 4);
        assert_eq!(Search::new().lowered(&ring, 15.0, 9, 0), 8);
    }

    #[test]
    fn nothing_is_said_without_work_or_of_many_or_below_what_is_enough() {
        let square = rectangle(Rect::new(0.0, 0.0, 1.0, 1.0));
        assert_eq!(Search { left: 0 }.lowered(&square, 1.0, 9, 0), 9);
        assert_eq!(Search::new().lowered(&square, 1.0, MOST_POINTS + 1, 0), MOST_POINTS + 1);
        assert_eq!(Search::new().lowered(&square, 1.0, 5, 5), 5);
        assert_eq!(Search::new().lowered(&square, 1.0, 9, 0), 4);
    }
}
