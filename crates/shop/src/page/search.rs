//! The exact search: whether these boxes lie in the rectangle, answered by going through all plans that differ.
//!
//! Boxes are laid from the top down and from the left. What is laid makes a skyline, the first free height in every column;
//! at its first, leftmost place either a box begins, upright or turned, or the place stays empty for good. What stays
//! empty is counted, and no plan may waste more than the whole area less that of the boxes.
//!
//! Three facts keep it short. A plan can be pushed up and to the left until every box touches others: so columns begin at
//! sums of sides only, and a box begins only at the height where another one ends (J. C. Herz 1972, as in `blocks.rs`).
//! What no sum of sides fills, in a valley of the skyline or below a step of it, stays empty whatever is done. And how the
//! rest can be filled depends on the skyline alone: one below which no more boxes were asked for in vain is not searched
//! again, nor is its mirror image.

use rustc_hash::FxHashMap;

use crate::page::instance::{Laid, sums};

/// With more columns than this the search would not come to an end.
const MOST_COLUMNS: usize = 1000;

/// Boxes of one size, and how many of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Kind {
    pub(crate) width: i64,
    pub(crate) height: i64,
    pub(crate) count: usize,
}

impl Kind {
    fn sides(&self, is_turned: bool) -> (i64, i64) {
        if is_turned { (self.height, self.width) } else { (self.width, self.height) }
    }

    fn on_its_side(&self) -> Kind {
        Kind { width: self.height, height: self.width, count: self.count }
    }
}

/// What the search ended with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Answer {
    /// This plan.
    Found(Vec<Laid>),
    /// There is none.
    Impossible,
    /// The steps were used up before it was known.
    Unknown,
}

/// Whether all these boxes lie in a rectangle of this width and height. `steps` is how many places may be looked at, and
/// what is left of that.
pub(crate) fn lie(size: (i64, i64), kinds: &[Kind], steps: &mut u64) -> Answer {
    if size.0 > size.1 {
        // A short skyline has fewer shapes than a long one.
        let kinds: Vec<Kind> = kinds.iter().map(Kind::on_its_side).collect();
        return match lie((size.1, size.0), &kinds, steps) {
            Answer::Found(boxes) => Answer::Found(boxes.iter().map(Laid::exchanged).collect()),
            other => other,
        };
    }
    let sides: Vec<i64> =
        kinds.iter().filter(|kind| kind.count > 0).flat_map(|kind| [kind.width, kind.height]).collect();
    let Some(shorter) = sides.iter().copied().min() else { return Answer::Found(Vec::new()) };
    let (Some(columns), Some(fillable)) =
        (sums(&sides, size.0, MOST_COLUMNS), sums(&sides, size.1, 4 * MOST_COLUMNS))
    else {
        return Answer::Unknown;
    };
    let (width, height) = (columns.last().copied().unwrap_or(0), fillable.last().copied().unwrap_or(0));
    let area: i64 = kinds.iter().map(|kind| kind.width * kind.height * kind.count as i64).sum();
    let most_waste = width * height - area;
    if most_waste < 0 {
        return Answer::Impossible;
    }
    let missing = kinds.iter().map(|kind| kind.count).collect();
    let mut search = Search {
        kinds,
        height,
        shorter,
        columns,
        fillable,
        most_waste,
        missing,
        vain: FxHashMap::default(),
        boxes: Vec::new(),
        steps,
    };
    let mut skyline = vec![0; search.columns.len() - 1];
    match search.go_on(&mut skyline, 0) {
        Some(true) => Answer::Found(search.boxes),
        Some(false) => Answer::Impossible,
        None => Answer::Unknown,
    }
}

struct Search<'a> {
    kinds: &'a [Kind],
    height: i64,
    /// The shortest side of a box.
    shorter: i64,
    /// Where columns begin, and at the end where the last one ends.
    columns: Vec<i64>,
    /// The lengths up to the height that boxes can fill.
    fillable: Vec<i64>,
    most_waste: i64,
    /// How many boxes of each kind are still to be laid.
    missing: Vec<usize>,
    /// Skylines below which so many boxes of each kind were looked for in vain.
    vain: FxHashMap<Vec<Step>, Vec<Vec<usize>>>,
    boxes: Vec<Laid>,
    steps: &'a mut u64,
}

impl Search<'_> {
    /// Whether the rest can be laid; nothing if the steps are used up. The skyline is left as it was unless it can.
    fn go_on(&mut self, skyline: &mut [i64], waste: i64) -> Option<bool> {
        if self.missing.iter().all(|&count| count == 0) {
            return Some(true);
        }
        if *self.steps == 0 {
            return None;
        }
        *self.steps -= 1;
        let steps = self.steps_of(skyline);
        if waste + self.bound_to_be_wasted(&steps) > self.most_waste {
            return Some(false);
        }
        // What fits below a skyline fits below its mirror image.
        let key = steps.clone().min(mirrored(&steps));
        if self.vain.get(&key).is_some_and(|vain| vain.iter().any(|vain| is_at_most(vain, &self.missing))) {
            return Some(false);
        }
        let Some(place) = Place::first(skyline, self.height) else { return Some(false) };
        for kind in 0..self.kinds.len() {
            let is_square = self.kinds[kind].width == self.kinds[kind].height;
            for is_turned in [false, true].into_iter().take(if is_square { 1 } else { 2 }) {
                if self.missing[kind] > 0 && self.lay(skyline, waste, &place, kind, is_turned)? {
                    return Some(true);
                }
            }
        }
        if self.leave(skyline, waste, &place)? {
            return Some(true);
        }
        let vain = self.vain.entry(key).or_default();
        vain.retain(|other| !is_at_most(&self.missing, other));
        vain.push(self.missing.clone());
        Some(false)
    }

    fn steps_of(&self, skyline: &[i64]) -> Vec<Step> {
        let mut steps: Vec<Step> = Vec::with_capacity(16);
        for (column, &level) in self.columns.windows(2).zip(skyline) {
            let width = column[1] - column[0];
            match steps.last_mut() {
                Some(last) if last.level == level => last.width += width,
                _ => steps.push(Step { width, level }),
            }
        }
        steps
    }

    /// What stays empty whatever is done: below every step of the skyline what no sum of sides fills down to the bottom, or
    /// in a valley, if that is more, what none fills between its walls.
    fn bound_to_be_wasted(&self, steps: &[Step]) -> i64 {
        let mut wasted = 0;
        for (i, &Step { width, level }) in steps.iter().enumerate() {
            let left = if i == 0 { self.height } else { steps[i - 1].level };
            let right = steps.get(i + 1).map_or(self.height, |step| step.level);
            let depth = left.min(right) - level;
            let between = if depth > 0 { depth * self.unfilled(width) } else { 0 };
            wasted += between.max(width * self.unfilled(self.height - level));
        }
        wasted
    }

    /// What is left of a length, at most the height, after the largest sum of sides in it.
    fn unfilled(&self, length: i64) -> i64 {
        length - self.fillable[self.fillable.partition_point(|&sum| sum <= length) - 1]
    }

    /// Begins a box at the place, if it fits there, and goes on.
    fn lay(
        &mut self,
        skyline: &mut [i64],
        waste: i64,
        place: &Place,
        kind: usize,
        is_turned: bool,
    ) -> Option<bool> {
        let (width, height) = self.kinds[kind].sides(is_turned);
        // It begins at a sum, and so it ends at one, where a column begins.
        let end = self.columns[place.from] + width;
        if end > self.columns[place.to] || place.level + height > self.height {
            return Some(false);
        }
        let to = place.from + self.columns[place.from..].partition_point(|&start| start < end);
        self.boxes.push(Laid { kind, x: self.columns[place.from], y: place.level, is_turned });
        self.missing[kind] -= 1;
        skyline[place.from..to].fill(place.level + height);
        let found = self.go_on(skyline, waste)?;
        if !found {
            skyline[place.from..to].fill(place.level);
            self.missing[kind] += 1;
            self.boxes.pop();
        }
        Some(found)
    }

    /// Leaves the place empty up to the next height where a box may begin, and goes on.
    fn leave(&mut self, skyline: &mut [i64], waste: i64, place: &Place) -> Option<bool> {
        let width = self.columns[place.to] - self.columns[place.from];
        // Where no box can begin between the neighbours, all of it is empty up to the lower one of them.
        let (to, level) = if width < self.shorter {
            (place.to, place.lower_wall(skyline, self.height))
        } else {
            (place.from + 1, place.next_level(skyline, self.shorter, self.height))
        };
        let wasted = (self.columns[to] - self.columns[place.from]) * (level - place.level);
        if waste + wasted > self.most_waste {
            return Some(false);
        }
        skyline[place.from..to].fill(level);
        let found = self.go_on(skyline, waste + wasted)?;
        if !found {
            skyline[place.from..to].fill(place.level);
        }
        Some(found)
    }
}

/// Whether no number is larger than the one in its place.
fn is_at_most(some: &[usize], others: &[usize]) -> bool {
    some.iter().zip(others).all(|(some, other)| some <= other)
}

/// The first free place: the leftmost of the highest columns, and how far they reach.
struct Place {
    from: usize,
    to: usize,
    level: i64,
}

impl Place {
    /// Nothing if all columns are full.
    fn first(skyline: &[i64], height: i64) -> Option<Place> {
        let level = *skyline.iter().min()?;
        let from = skyline.iter().position(|&column| column == level)?;
        let reach = skyline[from..].iter().take_while(|&&column| column == level).count();
        (level < height).then_some(Place { from, to: from + reach, level })
    }

    /// The height of the lower neighbour; the rectangle's sides are as high as it is.
    fn lower_wall(&self, skyline: &[i64], height: i64) -> i64 {
        let left = if self.from == 0 { height } else { skyline[self.from - 1] };
        let right = skyline.get(self.to).copied().unwrap_or(height);
        left.min(right)
    }

    /// The next height at which a box can begin here: where a box ends that is there already, or one that could still
    /// begin beside this place.
    fn next_level(&self, skyline: &[i64], shorter: i64, height: i64) -> i64 {
        let there = skyline.iter().copied().filter(|&column| column > self.level).min();
        let coming = self.level + shorter;
        there.map_or(coming, |there| there.min(coming)).min(height)
    }
}

/// A stretch of the skyline at one height.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
struct Step {
    width: i64,
    level: i64,
}

fn mirrored(steps: &[Step]) -> Vec<Step> {
    steps.iter().rev().copied().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::instance::Instance;

    fn search(width: i64, height: i64, a: i64, b: i64, count: usize) -> Answer {
        let instance = Instance { width, height, box_width: a, box_height: b };
        let mut steps = 20_000_000;
        let answer = lie((width, height), &[Kind { width: a, height: b, count }], &mut steps);
        println!("{width} x {height} of {a} x {b}, {count}: {} steps", 20_000_000 - steps);
        if let Answer::Found(boxes) = &answer {
            assert!(instance.holds(boxes));
            assert_eq!(boxes.len(), count);
        }
        answer
    }

    /// Published optimal counts and the proof that one more is impossible where areas allow it. Source as in `blocks.rs`.
    #[test]
    fn it_finds_and_refutes_published_counts() {
        for (width, height, a, b, most) in [
            (14, 10, 3, 2, 23),
            (32, 22, 5, 4, 34),
            (34, 23, 5, 4, 38),
            (37, 30, 8, 3, 45),
            (43, 26, 7, 3, 53),
        ] {
            assert!(
                matches!(search(width, height, a, b, most), Answer::Found(_)),
                "{width} {height} {a} {b}"
            );
            assert_eq!(search(width, height, a, b, most + 1), Answer::Impossible);
        }
    }

    #[test]
    fn it_agrees_with_trying_every_cell() {
        for (width, height) in (1..=7).flat_map(|width| (1..=width).map(move |height| (width, height))) {
            for (a, b) in [(2, 1), (3, 2), (3, 1), (2, 2), (5, 2)] {
                if width * height > 20 {
                    continue;
                }
                let most = by_cells(0, 0, (width, height), &[(a, b), (b, a)]);
                assert!(matches!(search(width, height, a, b, most), Answer::Found(_)));
                assert_eq!(
                    search(width, height, a, b, most + 1),
                    Answer::Impossible,
                    "{width} {height} {a} {b}"
                );
            }
        }
    }

    /// The most boxes beside those that cover these cells, on a grid of unit cells, by plain trial.
    fn by_cells(cells: u64, from: i64, size: (i64, i64), boxes: &[(i64, i64)]) -> usize {
        let mut best = 0;
        for at in from..size.0 * size.1 {
            for &(a, b) in boxes {
                let (x, y) = (at % size.0, at / size.0);
                let own = (0..a * b).fold(0_u64, |own, i| own | 1 << ((y + i / a) * size.0 + x + i % a));
                if x + a <= size.0 && y + b <= size.1 && cells & own == 0 {
                    best = best.max(1 + by_cells(cells | own, at + 1, size, boxes));
                }
            }
        }
        best
    }

    #[test]
    fn steps_that_run_out_leave_it_unknown() {
        let kind = Kind { width: 13, height: 8, count: 96 };
        assert_eq!(lie((141, 71), &[kind], &mut 10), Answer::Unknown);
    }

    #[test]
    fn boxes_of_several_sizes_tile_a_square() {
        // Nine squares of nine sizes tile 33 x 32: the smallest tiling of its kind. Source: Z. Moron, 1925.
        let squares = [18, 15, 14, 10, 9, 8, 7, 4, 1];
        let kinds = squares.map(|side| Kind { width: side, height: side, count: 1 });
        let Answer::Found(boxes) = lie((33, 32), &kinds, &mut 1_000_000) else { panic!("they tile it") };
        assert_eq!(boxes.len(), 9);
        assert_eq!(lie((33, 31), &kinds, &mut 1_000_000), Answer::Impossible);
    }
}
