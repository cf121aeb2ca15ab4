//! The rectangles round the pieces, and which of them are near.

use kurbo::Rect;

/// The rectangles round the pieces, side by side for quick passes.
#[derive(Clone, Debug)]
pub struct Boxes {
    boxes: Vec<Rect>,
    across: Strips,
    down: Strips,
}

/// Which pieces reach into which strip of the plane: one bit for each piece and strip.
///
/// The pieces near a rectangle are those that reach into one of its strips across and into one of its strips down: a few
/// words of bits, however many pieces there are.
#[derive(Clone, Debug)]
struct Strips {
    origin: f64,
    per_strip: f64,
    words: usize,
    bits: Vec<u64>,
}

/// How many strips the room is cut into, each way. What lies beyond counts to the outermost ones.
const STRIPS: usize = 48;

impl Boxes {
    /// These rectangles, most of them within the room.
    pub fn new(room: Rect, boxes: Vec<Rect>) -> Boxes {
        let mut all = Boxes {
            across: Strips::new(room.x0, room.x1, boxes.len()),
            down: Strips::new(room.y0, room.y1, boxes.len()),
            boxes,
        };
        for index in 0..all.boxes.len() {
            all.toggle(index);
        }
        all
    }

    /// Puts another rectangle in the place of one.
    pub fn set(&mut self, index: usize, bounds: Rect) {
        self.toggle(index);
        self.boxes[index] = bounds;
        self.toggle(index);
    }

    /// Adds a rectangle behind the others.
    pub fn push(&mut self, bounds: Rect) {
        self.boxes.push(bounds);
        for strips in [&mut self.across, &mut self.down] {
            strips.hold(self.boxes.len());
        }
        self.toggle(self.boxes.len() - 1);
    }

    fn toggle(&mut self, index: usize) {
        let bounds = self.boxes[index];
        self.across.toggle(index, bounds.x0, bounds.x1);
        self.down.toggle(index, bounds.y0, bounds.y1);
    }

    /// Calls `on` with the position of every rectangle that meets this one, in order, until it says that it is enough.
    #[inline]
    pub fn near(&self, over: Rect, mut on: impl FnMut(usize) -> bool) {
        let (left, right) = self.across.range(over.x0, over.x1);
        let (top, bottom) = self.down.range(over.y0, over.y1);
        let words = self.across.words;
        for word in 0..words {
            let (mut across, mut down) = (0, 0);
            for strip in left..=right {
                across |= self.across.bits[strip * words + word];
            }
            for strip in top..=bottom {
                down |= self.down.bits[strip * words + word];
            }
            let mut both = across & down;
            while both != 0 {
                let index = word * 64 + both.trailing_zeros() as usize;
                both &= both - 1;
                let other = &self.boxes[index];
                let meets =
                    other.x0 < over.x1 && other.x1 > over.x0 && other.y0 < over.y1 && other.y1 > over.y0;
                if meets && on(index) {
                    return;
                }
            }
        }
    }
}

impl Strips {
    fn new(low: f64, high: f64, pieces: usize) -> Strips {
        let words = pieces.div_ceil(64);
        let per_strip = STRIPS as f64 / (high - low).max(1e-3);
        Strips { origin: low, per_strip, words, bits: vec![0; words * STRIPS] }
    }

    /// Makes room for so many pieces.
    fn hold(&mut self, pieces: usize) {
        if pieces <= 64 * self.words {
            return;
        }
        let words = pieces.div_ceil(64).max(2 * self.words);
        let mut bits = vec![0; words * STRIPS];
        for strip in 0..STRIPS {
            bits[strip * words..][..self.words]
                .copy_from_slice(&self.bits[strip * self.words..][..self.words]);
        }
        (self.words, self.bits) = (words, bits);
    }

    #[inline]
    fn range(&self, low: f64, high: f64) -> (usize, usize) {
        let last = STRIPS as f64 - 1.0;
        let strip = |at: f64| ((at - self.origin) * self.per_strip).clamp(0.0, last) as usize;
        (strip(low), strip(high))
    }

    fn toggle(&mut self, index: usize, low: f64, high: f64) {
        let (first, last) = self.range(low, high);
        for strip in first..=last {
            self.bits[strip * self.words + index / 64] ^= 1 << (index % 64);
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn near_are_those_that_meet(
            corners in proptest::collection::vec((-20.0..120.0f64, -20.0..120.0f64, 1.0..40.0f64), 1..150),
            moved in (0.0..100.0f64, 0.0..100.0f64),
        ) {
            let rect = |&(x, y, size): &(f64, f64, f64)| Rect::new(x, y, x + size, y + size / 2.0);
            let mut list: Vec<Rect> = corners.iter().map(rect).collect();
            let (first, added) = list.split_at(list.len() / 2 + 1);
            let mut boxes = Boxes::new(Rect::new(0.0, 0.0, 100.0, 100.0), first.to_vec());
            for rect in added {
                boxes.push(*rect);
            }
            list[0] = rect(&(moved.0, moved.1, 7.0));
            boxes.set(0, list[0]);
            for over in &list {
                let mut found = Vec::new();
                boxes.near(*over, |index| { found.push(index); false });
                let meets = |other: &Rect| other.x0 < over.x1 && other.x1 > over.x0 && other.y0 < over.y1 && other.y1 > over.y0;
                let expected: Vec<usize> = (0..list.len()).filter(|&i| meets(&list[i])).collect();
                prop_assert_eq!(found, expected);
            }
        }
    }
}
