//! Equal boxes in a rectangle, either way round: the problem below the page plan, in whole micrometres.

/// Equal boxes that shall lie in a rectangle, their sides along its sides, upright or turned by a quarter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Instance {
    pub(crate) width: i64,
    pub(crate) height: i64,
    pub(crate) box_width: i64,
    pub(crate) box_height: i64,
}

/// A box that lies in the rectangle: its top left corner, and whether it is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Laid {
    /// Which of the boxes it is, where there are several sizes.
    pub(crate) kind: usize,
    pub(crate) x: i64,
    pub(crate) y: i64,
    pub(crate) is_turned: bool,
}

impl Laid {
    /// The same with across and down exchanged.
    pub(crate) fn exchanged(&self) -> Laid {
        Laid { x: self.y, y: self.x, ..*self }
    }
}

impl Instance {
    /// Sheets of this size with this gap between them: a gap is as if room and sheets were larger by it.
    pub(crate) fn with_gap(room: (i64, i64), sheet: (i64, i64), gap: i64) -> Instance {
        Instance {
            width: room.0 + gap,
            height: room.1 + gap,
            box_width: sheet.0 + gap,
            box_height: sheet.1 + gap,
        }
    }

    /// Width and height of a box, upright or turned.
    pub(crate) fn sides(&self, is_turned: bool) -> (i64, i64) {
        let upright = (self.box_width, self.box_height);
        if is_turned { (upright.1, upright.0) } else { upright }
    }

    /// The area of a box.
    pub(crate) fn box_area(&self) -> i64 {
        self.box_width * self.box_height
    }

    /// The same boxes in a rectangle whose sides are sums of theirs: as many lie in it, because boxes can all be moved to
    /// the top and to the left until they touch, and then end at such sums.
    pub(crate) fn tightened(&self) -> Instance {
        let largest = |length| largest_sum(self.box_width, self.box_height, length);
        Instance { width: largest(self.width), height: largest(self.height), ..*self }
    }
}

/// All sums of any number of these sides that are no longer than `length`, in order, beginning with 0; nothing if there
/// are more than `most`.
pub(crate) fn sums(sides: &[i64], length: i64, most: usize) -> Option<Vec<i64>> {
    let mut sums = vec![0];
    for &side in sides {
        let mut more = Vec::new();
        for &sum in &sums {
            more.extend((1..=(length - sum) / side).map(|copies| sum + copies * side));
            if more.len() > 4 * most {
                return None;
            }
        }
        sums.extend(more);
        sums.sort_unstable();
        sums.dedup();
    }
    (sums.len() <= most).then_some(sums)
}

/// The largest sum of any number of the two sides that is no longer than `length`.
fn largest_sum(a: i64, b: i64, length: i64) -> i64 {
    (0..=length / a).map(|copies| copies * a + (length - copies * a) / b * b).max().unwrap_or(0)
}

#[cfg(test)]
impl Instance {
    /// Whether these boxes lie within the rectangle without overlapping.
    pub(crate) fn holds(&self, boxes: &[Laid]) -> bool {
        let rect = |laid: &Laid| {
            let (width, height) = self.sides(laid.is_turned);
            (laid.x, laid.y, laid.x + width, laid.y + height)
        };
        let rects: Vec<_> = boxes.iter().map(rect).collect();
        let is_inside = |&(x0, y0, x1, y1): &(i64, i64, i64, i64)| {
            x0 >= 0 && y0 >= 0 && x1 <= self.width && y1 <= self.height
        };
        let overlaps = |a: &(i64, i64, i64, i64), b: &(i64, i64, i64, i64)| {
            a.0 < b.2 && b.0 < a.2 && a.1 < b.3 && b.1 < a.3
        };
        rects.iter().all(is_inside)
            && rects.iter().enumerate().all(|(i, a)| rects[..i].iter().all(|b| !overlaps(a, b)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_complete_and_in_order() {
        let all = |a, b, length| sums(&[a, b], length, 100).unwrap();
        assert_eq!(all(5, 3, 14), [0, 3, 5, 6, 8, 9, 10, 11, 12, 13, 14]);
        assert_eq!(all(7, 7, 20), [0, 7, 14]);
        assert_eq!(all(30, 40, 20), [0]);
        assert_eq!(sums(&[1], 100, 100), None);
        assert_eq!(largest_sum(90, 55, 297), 290);
    }

    #[test]
    fn overlapping_boxes_and_boxes_outside_are_noticed() {
        let instance = Instance { width: 10, height: 6, box_width: 4, box_height: 3 };
        let at = |x, y, is_turned| Laid { kind: 0, x, y, is_turned };
        assert!(!instance.holds(&[at(0, 0, false), at(4, 0, false), at(0, 3, false), at(7, 2, true)]));
        assert!(instance.holds(&[at(0, 0, false), at(4, 0, false), at(4, 3, false)]));
        assert!(!instance.holds(&[at(0, 0, false), at(3, 2, false)]));
        assert!(!instance.holds(&[at(8, 0, false)]));
    }
}
