//! Whether these boxes fit into a rectangle: a search of all layouts, from the bottom up.
//!
//! Let all boxes be pushed down and to the left as far as they go, and be placed in the order of a rising *skyline*. In
//! its lowest valley, the leftmost of equals, one of three is so:
//!
//! - a box stands in the left corner;
//! - the strip beside the left wall is empty, up to the wall's height and, to the right, up to the next length of a row;
//! - the right wall is the lower one, a box that touches the left wall rests on it, and the whole valley below is empty.
//!
//! For if a box begins at the left wall, take the lowest of these. What it rests on is the valley's floor or the right
//! wall, or else a box that begins further to the right; that one leans on another, and so on to the left, always
//! below the first, until one begins at the wall and is lower still. The same chain shows that nothing lies below a
//! box that rests on the right wall. So each step has few ways to go on, and an empty corner is dear.
//!
//! A branch ends when the area that must stay empty exceeds what the boxes leave over. What must stay empty is counted
//! line by line across and down the room above the skyline: no line is filled better than by the fullest row.
//! Skylines that came to nothing are remembered, and not entered again with as many boxes left.
//!
//! Sources: B. S. Baker, E. G. Coffman, R. L. Rivest, "Orthogonal packings in two dimensions", SIAM Journal on
//! Computing 9, 1980, for layouts that are pushed down and to the left; the bound and the memory follow the usual
//! branch and bound for perfect packing, for example M. Kenmochi et al., "Exact algorithms for the two-dimensional strip
//! packing problem with and without rotations", European Journal of Operational Research 198, 2009.

use rustc_hash::FxHashMap;

use crate::page::colours::{Colours, Part};
use crate::page::pallet::Placed;
use crate::page::partition::{fullest, row_lengths};

/// Boxes of one size that may lie both ways round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Kind {
    pub width: i64,
    pub height: i64,
    /// How many have to fit.
    pub wanted: usize,
}

/// What shall fit where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Question {
    pub width: i64,
    pub height: i64,
    pub kinds: Vec<Kind>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Answer {
    /// They fit like this: the number of the kind, and where it lies.
    Placed(Vec<(usize, Placed)>),
    /// They do not fit; proved.
    Impossible,
    /// Not known: the steps did not suffice.
    OutOfSteps,
}

/// As many skylines are remembered.
const MOST_REMEMBERED: usize = 400_000;
/// More boxes are not searched for: each is a level of the recursion.
const MOST_BOXES: usize = 400;
/// As many lengths of rows are told apart.
const MOST_LENGTHS: usize = 20_000;

/// Looks for a layout of all boxes in at most so many steps.
pub(crate) fn place(question: &Question, steps: u64) -> Answer {
    place_counted(question, steps).0
}

/// The same, with the number of steps that it took.
pub(crate) fn place_counted(question: &Question, steps: u64) -> (Answer, u64) {
    // Layers of the search go up the longer side, so that the skyline is short.
    if question.width > question.height {
        let turned =
            Question { width: question.height, height: question.width, kinds: question.kinds.clone() };
        let (answer, used) = place_counted(&turned, steps);
        let answer = match answer {
            Answer::Placed(boxes) => {
                Answer::Placed(boxes.into_iter().map(|(kind, placed)| (kind, mirrored(placed))).collect())
            }
            other => other,
        };
        return (answer, used);
    }
    if question.kinds.iter().map(|kind| kind.wanted).sum::<usize>() > MOST_BOXES {
        return (Answer::OutOfSteps, 0);
    }
    let area: i64 = question.kinds.iter().map(|kind| kind.width * kind.height * kind.wanted as i64).sum();
    let spare = question.width * question.height - area;
    if spare < 0 {
        return (Answer::Impossible, 0);
    }
    let sides: Vec<i64> = question
        .kinds
        .iter()
        .filter(|kind| kind.wanted > 0)
        .flat_map(|kind| [kind.width, kind.height])
        .collect();
    let Some(lengths) = row_lengths(question.height, &sides, MOST_LENGTHS) else {
        return (Answer::OutOfSteps, 0);
    };
    let colours = match question.kinds[..] {
        [Kind { width, height, wanted }] => {
            Colours::new(question.width, question.height, (width, height), wanted)
        }
        _ => Some(Colours::default()),
    };
    let Some(colours) = colours else { return (Answer::Impossible, 0) };
    let mut search = Search {
        colours,
        width: question.width,
        height: question.height,
        ways: ways(&question.kinds),
        lengths,
        left: question.kinds.iter().map(|kind| kind.wanted).collect(),
        placed: Vec::new(),
        failed: FxHashMap::default(),
        steps_left: steps,
    };
    let answer = match search.go_on(&[Segment { x: 0, y: 0 }], spare) {
        Verdict::Found => Answer::Placed(search.placed),
        Verdict::Nothing => Answer::Impossible,
        Verdict::OutOfSteps => Answer::OutOfSteps,
    };
    (answer, steps - search.steps_left)
}

fn mirrored(placed: Placed) -> Placed {
    Placed { x: placed.y, y: placed.x, width: placed.height, height: placed.width }
}

/// A box as it may lie.
struct Way {
    kind: usize,
    width: i64,
    height: i64,
}

/// Both ways of all kinds, the largest boxes first.
fn ways(kinds: &[Kind]) -> Vec<Way> {
    let mut ways: Vec<Way> = Vec::new();
    for (kind, &Kind { width, height, .. }) in kinds.iter().enumerate() {
        ways.push(Way { kind, width, height });
        if width != height {
            ways.push(Way { kind, width: height, height: width });
        }
    }
    ways.sort_by_key(|way| std::cmp::Reverse(way.width * way.height));
    ways
}

/// A stretch of the skyline from `x` to where the next begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Segment {
    x: i64,
    y: i64,
}

enum Verdict {
    Found,
    Nothing,
    OutOfSteps,
}

struct Search {
    width: i64,
    height: i64,
    ways: Vec<Way>,
    lengths: Vec<i64>,
    /// How many of each kind have no place yet.
    left: Vec<usize>,
    placed: Vec<(usize, Placed)>,
    colours: Colours,
    /// Skylines, with the boxes left of all kinds but the first, and the fewest of the first that found no place.
    failed: FxHashMap<Box<[i64]>, usize>,
    steps_left: u64,
}

impl Search {
    /// Places what is left above the skyline, of which an area of `spare` may stay empty.
    fn go_on(&mut self, skyline: &[Segment], spare: i64) -> Verdict {
        if self.left.iter().all(|&left| left == 0) {
            return Verdict::Found;
        }
        if self.empty_at_least(skyline) > spare {
            return Verdict::Nothing;
        }
        let key = self.key(skyline);
        if self.failed.get(&key).is_some_and(|&left| left <= self.left[0]) {
            return Verdict::Nothing;
        }
        if self.steps_left == 0 {
            return Verdict::OutOfSteps;
        }
        self.steps_left -= 1;
        let valley = Valley::lowest(skyline, self.width, self.height);
        for way in 0..self.ways.len() {
            let Way { kind, width, height } = self.ways[way];
            if self.left[kind] == 0 || width > valley.width || valley.y + height > self.height {
                continue;
            }
            self.left[kind] -= 1;
            self.placed.push((kind, Placed { x: valley.x, y: valley.y, width, height }));
            let verdict = self.go_on(&self.raised(skyline, &valley, width, valley.y + height), spare);
            if !matches!(verdict, Verdict::Nothing) {
                return verdict;
            }
            self.placed.pop();
            self.left[kind] += 1;
        }
        for (width, level) in self.strips(&valley).into_iter().flatten() {
            let emptied = width * (level - valley.y);
            if emptied > spare {
                continue;
            }
            let part = Part { x: valley.x, y: valley.y, width, height: level - valley.y };
            if !self.colours.leave(part) {
                continue;
            }
            let verdict = self.go_on(&self.raised(skyline, &valley, width, level), spare - emptied);
            self.colours.take_back(part);
            if !matches!(verdict, Verdict::Nothing) {
                return verdict;
            }
        }
        if self.failed.len() < MOST_REMEMBERED {
            self.failed.insert(key, self.left[0]);
        }
        Verdict::Nothing
    }

    /// What stays empty if nothing stands in the valley's corner: how wide, and up to which height.
    fn strips(&self, valley: &Valley) -> [Option<(i64, i64)>; 2] {
        let next = self.lengths.partition_point(|&length| length <= valley.x);
        let end = self.lengths.get(next).map_or(i64::MAX, |&length| length).min(valley.x + valley.width);
        let beside_the_wall = (end - valley.x, valley.left_wall);
        let bridged = (valley.width, valley.right_wall);
        [Some(beside_the_wall), (valley.right_wall < valley.left_wall).then_some(bridged)]
    }

    fn key(&self, skyline: &[Segment]) -> Box<[i64]> {
        skyline
            .iter()
            .flat_map(|segment| [segment.x, segment.y])
            .chain(self.left[1..].iter().map(|&left| left as i64))
            .collect()
    }

    /// The skyline with the left end of the valley filled, so far to the right and up to this height.
    fn raised(&self, skyline: &[Segment], valley: &Valley, width: i64, y: i64) -> Vec<Segment> {
        let mut new = Vec::with_capacity(skyline.len() + 1);
        new.extend_from_slice(&skyline[..valley.index]);
        if new.last().is_none_or(|last| last.y != y) {
            new.push(Segment { x: valley.x, y });
        }
        let mut rest = &skyline[valley.index + 1..];
        if width < valley.width {
            new.push(Segment { x: valley.x + width, y: valley.y });
        } else if let [next, others @ ..] = rest
            && next.y == y
        {
            rest = others;
        }
        new.extend_from_slice(rest);
        new
    }

    /// An area above the skyline that stays empty whatever is placed there.
    fn empty_at_least(&self, skyline: &[Segment]) -> i64 {
        self.empty_in_columns(skyline).max(self.empty_in_rows(skyline))
    }

    fn empty_in_columns(&self, skyline: &[Segment]) -> i64 {
        let ends = skyline.iter().skip(1).map(|segment| segment.x).chain([self.width]);
        skyline
            .iter()
            .zip(ends)
            .map(|(segment, end)| (end - segment.x) * self.unfilled(self.height - segment.y))
            .sum()
    }

    /// Counts the free stretches between the walls of every valley, and of the wider ones above it.
    fn empty_in_rows(&self, skyline: &[Segment]) -> i64 {
        let mut empty = 0;
        let mut open = vec![Segment { x: 0, y: self.height }];
        for segment in skyline.iter().copied().chain([Segment { x: self.width, y: self.height }]) {
            let mut begin = segment.x;
            while let [.., outer, inner] = open[..]
                && inner.y < segment.y
            {
                let level = outer.y.min(segment.y);
                empty += self.unfilled(segment.x - inner.x) * (level - inner.y);
                begin = inner.x;
                open.pop();
            }
            if open.last().is_some_and(|last| last.y > segment.y) {
                open.push(Segment { x: begin, y: segment.y });
            }
        }
        empty
    }

    /// What the fullest row leaves of a length.
    fn unfilled(&self, length: i64) -> i64 {
        length - fullest(&self.lengths, length)
    }
}

/// The lowest stretch of the skyline, the leftmost of equals.
struct Valley {
    index: usize,
    x: i64,
    y: i64,
    width: i64,
    /// How high the skyline is to the left of it; the room's height at the room's edge.
    left_wall: i64,
    /// The same to the right of it.
    right_wall: i64,
}

impl Valley {
    fn lowest(skyline: &[Segment], width: i64, height: i64) -> Valley {
        let lowest = skyline.iter().enumerate().min_by_key(|(_, segment)| segment.y);
        let (index, &Segment { x, y }) = lowest.unwrap_or((0, &Segment { x: 0, y: 0 }));
        let end = skyline.get(index + 1).map_or(width, |next| next.x);
        let left_wall = index.checked_sub(1).map_or(height, |before| skyline[before].y);
        let right_wall = skyline.get(index + 1).map_or(height, |next| next.y);
        Valley { index, x, y, width: end - x, left_wall, right_wall }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn question(width: i64, height: i64, kinds: &[(i64, i64, usize)]) -> Question {
        let kind = |&(width, height, wanted): &(i64, i64, usize)| Kind { width, height, wanted };
        Question { width, height, kinds: kinds.iter().map(kind).collect() }
    }

    fn fits(width: i64, height: i64, kinds: &[(i64, i64, usize)]) -> bool {
        let question = question(width, height, kinds);
        match place(&question, 1_000_000) {
            Answer::Placed(boxes) => {
                for (number, kind) in question.kinds.iter().enumerate() {
                    let ours: Vec<Placed> =
                        boxes.iter().filter(|(of, _)| *of == number).map(|(_, placed)| *placed).collect();
                    assert_eq!(ours.len(), kind.wanted);
                    assert!(ours.iter().all(|b| [b.width, b.height] == [kind.width, kind.height]
                        || [b.height, b.width] == [kind.width, kind.height]));
                }
                for (i, (_, a)) in boxes.iter().enumerate() {
                    assert!(a.x >= 0 && a.y >= 0 && a.x + a.width <= width && a.y + a.height <= height);
                    assert!(boxes[..i].iter().all(|(_, b)| a.x + a.width <= b.x
                        || b.x + b.width <= a.x
                        || a.y + a.height <= b.y
                        || b.y + b.height <= a.y));
                }
                true
            }
            answer => {
                assert_eq!(answer, Answer::Impossible);
                false
            }
        }
    }

    #[test]
    fn it_finds_what_can_be_and_no_more() {
        assert!(fits(5, 5, &[(3, 2, 4)]) && !fits(5, 5, &[(3, 2, 5)]));
        assert!(fits(43, 26, &[(7, 3, 53)]), "published: 53, where five blocks hold 52");
        assert!(!fits(32, 22, &[(5, 4, 35)]), "published: 34");
    }

    #[test]
    fn a_box_may_bridge_an_empty_valley() {
        // Both tall boxes must stand at one side, with the long one on top of the lower: beneath it nothing fits.
        assert!(fits(7, 9, &[(2, 9, 1), (5, 4, 1), (1, 5, 1), (5, 5, 0)]));
        assert!(fits(10, 6, &[(3, 5, 1), (3, 2, 1), (7, 3, 1)]));
    }

    #[test]
    fn squares_of_many_sizes_make_a_square() {
        // The simple perfect squared rectangle of 33 x 32 by Z. Moroń, 1925: squares of 1, 4, 7, 8, 9, 10, 14, 15, 18.
        let squares: Vec<(i64, i64, usize)> =
            [18, 15, 14, 10, 9, 8, 7, 4, 1].map(|side| (side, side, 1)).to_vec();
        assert!(fits(33, 32, &squares));
        assert!(!fits(34, 31, &squares), "1056 of 1054 unit squares");
        assert!(!fits(48, 22, &squares));
    }

    #[test]
    fn steps_run_out_quietly() {
        assert_eq!(place(&question(61, 38, &[(10, 3, 77)]), 10), Answer::OutOfSteps);
        assert_eq!(place(&question(1000, 1000, &[(1, 1, 401)]), 10), Answer::OutOfSteps);
    }
}
