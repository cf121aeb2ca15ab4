//! Working something out once and sharing it.

use std::sync::{Arc, Mutex, PoisonError};

use stickleaf_outline::{Disc, Outline, ThinPart, TightCorner};

use crate::ceiling::{Grown, PolygonsRound};

/// What has been worked out of a sticker's lines, so that checking, drawing and packing share it.
///
/// It never changes an answer: it only saves the work. Two of them always compare equal.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Memos {
    /// The cut line, by outline and border width.
    pub(crate) cut_line: Memo<Arc<Outline>>,
    /// The thinnest part, by cut line and limit.
    pub(crate) thin_part: Memo<Option<ThinPart>>,
    /// The sharpest inner corner, by cut line and limit.
    pub(crate) inner_corner: Memo<Option<TightCorner>>,
    /// The width in the small-parts cylinder, by cut line.
    pub(crate) small_part: Memo<Option<f64>>,
    /// The largest disc inside, by cut line.
    pub(crate) inner_disc: Memo<Disc>,
    /// What is known of it when grown, by cut line and distance.
    pub(crate) grown: Memo<Arc<Grown>>,
    /// What discs do not sweep of it when grown, by cut line and distance.
    pub(crate) unswept: Memo<f64>,
    /// The polygons round it when grown, by cut line and distance.
    pub(crate) polygons: Memo<PolygonsRound>,
}

/// The last value worked out from a line and a number.
pub(crate) struct Memo<V>(Mutex<Option<Entry<V>>>);

#[derive(Clone)]
struct Entry<V> {
    line: Arc<Outline>,
    number: f64,
    value: V,
}

impl<V: Clone> Memo<V> {
    /// The value for this very line and number: the one remembered, else worked out now.
    pub(crate) fn get(&self, line: &Arc<Outline>, number: f64, work: impl FnOnce() -> V) -> V {
        let mut slot = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(entry) = &*slot
            && Arc::ptr_eq(&entry.line, line)
            && entry.number == number
        {
            return entry.value.clone();
        }
        let value = work();
        *slot = Some(Entry { line: line.clone(), number, value: value.clone() });
        value
    }
}

impl<V> Default for Memo<V> {
    fn default() -> Memo<V> {
        Memo(Mutex::new(None))
    }
}

impl<V: Clone> Clone for Memo<V> {
    fn clone(&self) -> Memo<V> {
        Memo(Mutex::new(self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()))
    }
}

impl<V> PartialEq for Memo<V> {
    fn eq(&self, _: &Memo<V>) -> bool {
        true
    }
}

impl<V> std::fmt::Debug for Memo<V> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Memo")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_line_or_number_is_worked_out_anew() {
        let square = Arc::new(stickleaf_outline::shapes::square(4.0));
        let same_shape = Arc::new(stickleaf_outline::shapes::square(4.0));
        let memo = Memo::default();
        assert_eq!(memo.get(&square, 1.0, || 10), 10);
        assert_eq!(memo.get(&square, 1.0, || 11), 10);
        assert_eq!(memo.clone().get(&square, 1.0, || 12), 10);
        assert_eq!(memo.get(&square, 2.0, || 13), 13);
        assert_eq!(memo.get(&same_shape, 2.0, || 14), 14);
    }
}
