//! Working out a cut line once and sharing it.

use std::sync::{Arc, Mutex, PoisonError};

use stickleaf_outline::{Outline, border};

/// Remembers the last cut line made from an outline, so that checking, drawing and packing share one copy.
///
/// It never changes an answer: it only saves the work. Two memos always compare equal.
#[derive(Default)]
pub struct CutLineMemo(Mutex<Option<Entry>>);

#[derive(Clone)]
struct Entry {
    outline: Arc<Outline>,
    width: f64,
    cut_line: Arc<Outline>,
}

impl CutLineMemo {
    /// The outline grown by `width` millimetres: [`border`], remembered.
    pub fn cut_line(&self, outline: &Arc<Outline>, width: f64) -> Arc<Outline> {
        let mut slot = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(entry) = &*slot
            && Arc::ptr_eq(&entry.outline, outline)
            && entry.width == width
        {
            return entry.cut_line.clone();
        }
        let cut_line = Arc::new(border(outline, width));
        *slot = Some(Entry { outline: outline.clone(), width, cut_line: cut_line.clone() });
        cut_line
    }
}

impl Clone for CutLineMemo {
    fn clone(&self) -> CutLineMemo {
        CutLineMemo(Mutex::new(self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()))
    }
}

impl PartialEq for CutLineMemo {
    fn eq(&self, _: &CutLineMemo) -> bool {
        true
    }
}

impl std::fmt::Debug for CutLineMemo {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("CutLineMemo")
    }
}
