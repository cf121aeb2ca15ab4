//! Working something out once and sharing it.

use std::sync::{Arc, Mutex, PoisonError};

use stickleaf_outline::{Disc, Outline, ThinPart, TightCorner};

use crate::ceiling::{Grown, PolygonsRound};
use crate::sticker::Finish;

/// What has been worked out of a sticker's lines, so that checking, drawing and packing share it.
///
/// It never changes an answer: it only saves the work. Two of them always compare equal.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Memos {
    /// The cut line, by outline and what it is made with.
    pub(crate) cut_line: Memo<Arc<Outline>, Finish>,
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

/// The last value worked out from a line and something else, in most cases a number.
pub(crate) struct Memo<V, K = f64>(Mutex<Option<Entry<V, K>>>);

#[derive(Clone)]
struct Entry<V, K> {
    line: Arc<Outline>,
    key: K,
    value: V,
}

impl<V: Clone, K: PartialEq> Memo<V, K> {
    /// The value for this very line and key: the one remembered, else worked out now.
    pub(crate) fn get(&self, line: &Arc<Outline>, key: K, work: impl FnOnce(&K) -> V) -> V {
        let mut slot = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(entry) = &*slot
            && Arc::ptr_eq(&entry.line, line)
            && entry.key == key
        {
            return entry.value.clone();
        }
        let value = work(&key);
        *slot = Some(Entry { line: line.clone(), key, value: value.clone() });
        value
    }
}

impl<V, K> Default for Memo<V, K> {
    fn default() -> Memo<V, K> {
        Memo(Mutex::new(None))
    }
}

impl<V: Clone, K: Clone> Clone for Memo<V, K> {
    fn clone(&self) -> Memo<V, K> {
        Memo(Mutex::new(self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()))
    }
}

impl<V, K> PartialEq for Memo<V, K> {
    fn eq(&self, _: &Memo<V, K>) -> bool {
        true
    }
}

impl<V, K> std::fmt::Debug for Memo<V, K> {
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
        assert_eq!(memo.get(&square, 1.0, |_| 10), 10);
        assert_eq!(memo.get(&square, 1.0, |_| 11), 10);
        assert_eq!(memo.clone().get(&square, 1.0, |_| 12), 10);
        assert_eq!(memo.get(&square, 2.0, |_| 13), 13);
        assert_eq!(memo.get(&same_shape, 2.0, |_| 14), 14);
    }
}
