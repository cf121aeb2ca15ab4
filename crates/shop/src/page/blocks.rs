//! Plans of blocks: a rectangle is cut in two, or into five whose inner one lies between four others like a pinwheel's,
//! and each part again, until one grid fills it. Nearly always the best plan there is, and always a good one.
//!
//! Source: R. Morabito, S. Morales, "A simple and effective recursive procedure for the manufacturer's pallet loading
//! problem", Journal of the Operational Research Society 49 (1998). Cuts are tried at the sums of the boxes' sides only,
//! which loses nothing (J. C. Herz, IBM Journal of Research and Development 16, 1972).

use crate::page::instance::{Instance, Laid, sums};

/// How many ways of cutting into five are looked at in all. Where that is not enough, the later and larger rectangles
/// are only cut in two, but for the whole one.
const MOST_LOOKS: u64 = 150_000_000;

/// How many sums of sides there may be each way, so that the tables stay small.
const MOST_SUMS: usize = 220;

/// How a rectangle is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    /// By one grid of boxes, turned or not.
    Grid(bool),
    /// Cut at this sum from the left.
    Across(u16),
    /// Cut at this sum from the top.
    Down(u16),
    /// Cut into five, at these two sums from the left and two from the top.
    Five([u16; 4]),
}

/// The plan of blocks with the most boxes that was found.
pub(crate) fn blocks(instance: &Instance) -> Vec<Laid> {
    let sides = [instance.box_width, instance.box_height];
    let across = sums(&sides, instance.width, MOST_SUMS);
    let down = sums(&sides, instance.height, MOST_SUMS);
    let Some((across, down)) = across.zip(down) else { return best_grid(instance) };
    let mut table = Table::new(*instance, across, down);
    table.fill();
    let whole = (table.across.len() - 1, table.down.len() - 1);
    let mut boxes = Vec::new();
    table.lay(whole, (0, 0), &mut boxes);
    boxes
}

/// The better of the two grids.
fn best_grid(instance: &Instance) -> Vec<Laid> {
    let [upright, turned] = [false, true].map(|is_turned| {
        let mut boxes = Vec::new();
        grid(instance, (instance.width, instance.height), is_turned, (0, 0), &mut boxes);
        boxes
    });
    if turned.len() > upright.len() { turned } else { upright }
}

/// Fills a rectangle of this size at this place with one grid.
fn grid(instance: &Instance, size: (i64, i64), is_turned: bool, at: (i64, i64), boxes: &mut Vec<Laid>) {
    let (width, height) = instance.sides(is_turned);
    for row in 0..size.1 / height {
        for column in 0..size.0 / width {
            boxes.push(Laid { kind: 0, x: at.0 + column * width, y: at.1 + row * height, is_turned });
        }
    }
}

/// The best known for every rectangle whose sides are sums.
struct Table {
    instance: Instance,
    across: Vec<i64>,
    down: Vec<i64>,
    /// What is left of a sum less another one: the largest sum in it.
    across_left: Left,
    down_left: Left,
    /// For each width and height, in the order of the sums: how many boxes, and how.
    best: Vec<(u32, Way)>,
    looks: u64,
}

impl Table {
    fn new(instance: Instance, across: Vec<i64>, down: Vec<i64>) -> Table {
        let best = vec![(0, Way::Grid(false)); across.len() * down.len()];
        let (across_left, down_left) = (Left::of(&across), Left::of(&down));
        Table { instance, across, down, across_left, down_left, best, looks: 0 }
    }

    fn count(&self, across: usize, down: usize) -> u32 {
        self.best[across * self.down.len() + down].0
    }

    /// Smaller rectangles first, since larger ones are made of them.
    fn fill(&mut self) {
        let last = (self.across.len() - 1, self.down.len() - 1);
        for across in 1..=last.0 {
            for down in 1..=last.1 {
                let size = (self.across[across], self.down[down]);
                let most = (size.0 * size.1 / self.instance.box_area()) as u32;
                let mut best = self.grid_of(size);
                if best.0 < most {
                    self.cut_in_two(across, down, &mut best);
                }
                let may_look = self.looks < MOST_LOOKS || (across, down) == last;
                if best.0 < most && may_look {
                    self.cut_into_five(across, down, most, &mut best);
                }
                self.best[across * self.down.len() + down] = best;
            }
        }
    }

    fn grid_of(&self, size: (i64, i64)) -> (u32, Way) {
        let count = |is_turned| {
            let (width, height) = self.instance.sides(is_turned);
            ((size.0 / width) * (size.1 / height)) as u32
        };
        let (upright, turned) = (count(false), count(true));
        if turned > upright { (turned, Way::Grid(true)) } else { (upright, Way::Grid(false)) }
    }

    fn cut_in_two(&self, across: usize, down: usize, best: &mut (u32, Way)) {
        for cut in 1..across {
            let count = self.count(cut, down) + self.count(self.across_left.after(across, cut), down);
            if count > best.0 {
                *best = (count, Way::Across(cut as u16));
            }
        }
        for cut in 1..down {
            let count = self.count(across, cut) + self.count(across, self.down_left.after(down, cut));
            if count > best.0 {
                *best = (count, Way::Down(cut as u16));
            }
        }
    }

    fn cut_into_five(&mut self, across: usize, down: usize, most: u32, best: &mut (u32, Way)) {
        for x1 in 1..across {
            let right_of_1 = self.across_left.after(across, x1);
            for x2 in x1 + 1..across {
                let right_of_2 = self.across_left.after(across, x2);
                let middle = self.across_left.after(x2, x1);
                self.looks += (down * down / 2) as u64;
                for y1 in 1..down {
                    let upper_right = self.count(right_of_1, y1);
                    let below_1 = self.down_left.after(down, y1);
                    let lower_right = self.count(right_of_2, below_1);
                    for y2 in y1 + 1..down {
                        let count = self.count(x1, y2)
                            + upper_right
                            + lower_right
                            + self.count(x2, self.down_left.after(down, y2))
                            + self.count(middle, self.down_left.after(y2, y1));
                        if count > best.0 {
                            *best = (count, Way::Five([x1, x2, y1, y2].map(|cut| cut as u16)));
                            if count == most {
                                return;
                            }
                        }
                    }
                }
            }
        }
    }

    /// Lays the boxes of a rectangle whose top left corner is at this place.
    fn lay(&self, (across, down): (usize, usize), at: (i64, i64), boxes: &mut Vec<Laid>) {
        let x = |cut: u16| at.0 + self.across[usize::from(cut)];
        let y = |cut: u16| at.1 + self.down[usize::from(cut)];
        match self.best[across * self.down.len() + down].1 {
            Way::Grid(is_turned) => {
                grid(&self.instance, (self.across[across], self.down[down]), is_turned, at, boxes);
            }
            Way::Across(cut) => {
                self.lay((cut.into(), down), at, boxes);
                self.lay((self.across_left.after(across, cut.into()), down), (x(cut), at.1), boxes);
            }
            Way::Down(cut) => {
                self.lay((across, cut.into()), at, boxes);
                self.lay((across, self.down_left.after(down, cut.into())), (at.0, y(cut)), boxes);
            }
            Way::Five([x1, x2, y1, y2]) => {
                let across_after = |cut: u16| self.across_left.after(across, cut.into());
                let down_after = |cut: u16| self.down_left.after(down, cut.into());
                self.lay((x1.into(), y2.into()), at, boxes);
                self.lay((across_after(x1), y1.into()), (x(x1), at.1), boxes);
                self.lay((across_after(x2), down_after(y1)), (x(x2), y(y1)), boxes);
                self.lay((x2.into(), down_after(y2)), (at.0, y(y2)), boxes);
                let middle = (
                    self.across_left.after(x2.into(), x1.into()),
                    self.down_left.after(y2.into(), y1.into()),
                );
                self.lay(middle, (x(x1), y(y1)), boxes);
            }
        }
    }
}

/// For two sums: the largest sum that is no longer than their difference.
struct Left {
    count: usize,
    largest: Vec<u16>,
}

impl Left {
    fn of(sums: &[i64]) -> Left {
        let count = sums.len();
        let mut largest = vec![0; count * count];
        for (i, &whole) in sums.iter().enumerate() {
            for (j, &part) in sums[..=i].iter().enumerate() {
                let left = whole - part;
                largest[i * count + j] = (sums.partition_point(|&sum| sum <= left) - 1) as u16;
            }
        }
        Left { count, largest }
    }

    /// What is left of one sum after another, smaller one, both by their number.
    fn after(&self, whole: usize, part: usize) -> usize {
        usize::from(self.largest[whole * self.count + part])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(width: i64, height: i64, box_width: i64, box_height: i64) -> usize {
        let instance = Instance { width, height, box_width, box_height };
        let boxes = blocks(&instance);
        assert!(instance.holds(&boxes), "{instance:?}");
        boxes.len()
    }

    /// Published best plans of five blocks, cut again and again. Source: the table of identical rectangles in a rectangle
    /// in the literature on pallet loading (Dowsland 1984; Nelissen 1995; Morabito and Morales 1998; Birgin, Lobato and
    /// Morabito 2010), instances from memory, the counts recomputed by an independent program.
    #[test]
    fn it_finds_the_published_plans_of_five_blocks() {
        for (width, height, a, b, expected) in [
            (14, 10, 3, 2, 23),
            (22, 16, 5, 3, 23),
            (34, 23, 5, 4, 38),
            (43, 26, 7, 3, 52),
            (49, 28, 8, 3, 56),
            (57, 34, 7, 4, 68),
            (86, 82, 15, 11, 42),
        ] {
            assert_eq!(count(width, height, a, b), expected, "{width} x {height} of {a} x {b}");
        }
    }

    #[test]
    fn small_and_empty_rectangles_are_no_trouble() {
        assert_eq!(count(10, 10, 11, 3), 0);
        assert_eq!(count(11, 3, 11, 3), 1);
        assert_eq!(count(3, 11, 11, 3), 1);
    }
}
