//! Where equal boxes in a rectangle can leave unit squares empty.
//!
//! Colour the unit squares along the diagonals with as many colours as a side of a box has units. Wherever a box lies,
//! it covers each colour equally often, so each colour has its own number of squares that stay empty. That holds for
//! both sides and for diagonals either way. Source: the argument of F. W. Barnes, "Packing the maximum number of m × n
//! tiles in a large p × q rectangle", Discrete Mathematics 26, 1979, kept up while boxes are placed.

/// As many units a side may have.
const LONGEST_SIDE: i64 = 256;

/// The squares of each colour that may still stay empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Colours(Vec<Colouring>);

#[derive(Clone, Debug, PartialEq, Eq)]
struct Colouring {
    side: i64,
    /// Which way the diagonals run: 1 or -1.
    slope: i64,
    left: Vec<i64>,
}

/// A part of the rectangle, in units.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Part {
    pub x: i64,
    pub y: i64,
    pub width: i64,
    pub height: i64,
}

impl Colours {
    /// What may stay empty if so many boxes are to lie in the rectangle; nothing comes back if they cannot.
    ///
    /// Sides of very many units have no colours, which forbids nothing.
    pub(crate) fn new(width: i64, height: i64, sides: (i64, i64), boxes: usize) -> Option<Colours> {
        let mut colourings = Vec::new();
        for (side, across) in [sides, (sides.1, sides.0)] {
            if side > LONGEST_SIDE {
                continue;
            }
            for slope in [1, -1] {
                let covered = vec![-(boxes as i64) * across; side as usize];
                let mut colouring = Colouring { side, slope, left: covered };
                colouring.add(Part { x: 0, y: 0, width, height }, 1);
                if colouring.left.iter().any(|&left| left < 0) {
                    return None;
                }
                colourings.push(colouring);
            }
        }
        Some(Colours(colourings))
    }

    /// Leaves a part empty, and says whether that may be. If not, nothing is changed.
    pub(crate) fn leave(&mut self, part: Part) -> bool {
        for (index, colouring) in self.0.iter_mut().enumerate() {
            if !colouring.add(part, -1) {
                for colouring in &mut self.0[..=index] {
                    colouring.add(part, 1);
                }
                return false;
            }
        }
        true
    }

    /// Takes back that a part was left empty.
    pub(crate) fn take_back(&mut self, part: Part) {
        for colouring in &mut self.0 {
            colouring.add(part, 1);
        }
    }
}

impl Colouring {
    /// Adds to the colours of a part, and says whether none of them is below zero.
    fn add(&mut self, part: Part, count: i64) -> bool {
        let mut least = 0;
        for x in part.x..part.x + part.width {
            let mut colour = (x + self.slope * part.y).rem_euclid(self.side);
            for _ in 0..part.height {
                let left = &mut self.left[colour as usize];
                *left += count;
                least = least.min(*left);
                colour += self.slope;
                if colour == self.side {
                    colour = 0;
                } else if colour < 0 {
                    colour = self.side - 1;
                }
            }
        }
        least >= 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_colour_has_its_own_empty_squares() {
        // Five 3 x 1 boxes in 4 x 4 leave one square empty: a corner, of the colour that is there once more.
        let colours = Colours::new(4, 4, (3, 1), 5).unwrap();
        let can_stay_empty = |x, y| colours.clone().leave(Part { x, y, width: 1, height: 1 });
        assert!(can_stay_empty(0, 0) && can_stay_empty(3, 3) && can_stay_empty(0, 3));
        assert!(!can_stay_empty(1, 0) && !can_stay_empty(1, 1) && !can_stay_empty(2, 1));
        assert_eq!(Colours::new(4, 4, (3, 1), 6), None);
        assert_eq!(Colours::new(6, 6, (4, 1), 9), None);
    }

    #[test]
    fn what_is_taken_back_or_refused_leaves_no_trace() {
        let before = Colours::new(43, 26, (7, 3), 52).unwrap();
        let mut after = before.clone();
        let part = Part { x: 40, y: 2, width: 1, height: 3 };
        assert!(after.leave(part));
        after.take_back(part);
        assert!(!after.leave(Part { x: 0, y: 0, width: 20, height: 20 }));
        assert_eq!(before, after);
    }
}
