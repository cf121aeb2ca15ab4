//! Undo and redo by whole snapshots.

use stickleaf_sheet::Layout;

use crate::label::Label;

/// How many steps are kept; the oldest go first.
///
/// A snapshot shares its outlines with the others: a layout of 200 pieces takes some 30 kB.
pub const MOST_STEPS: usize = 1000;

/// The layouts before and after the present one.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Step>,
    future: Vec<Step>,
}

/// A layout to go back to, and what was done since, as the artist would say it.
#[derive(Clone, Debug)]
struct Step {
    label: Label,
    layout: Layout,
}

impl History {
    /// Remembers the layout as it was before a change. What was undone before can no longer be done again.
    pub fn remember(&mut self, label: impl Into<Label>, before: Layout) {
        self.future.clear();
        if self.past.len() == MOST_STEPS {
            self.past.remove(0);
        }
        self.past.push(Step { label: label.into(), layout: before });
    }

    /// The layout before the last change, given the present one; nothing if there was no change.
    pub fn undo(&mut self, present: &Layout) -> Option<Layout> {
        let step = self.past.pop()?;
        self.future.push(Step { label: step.label, layout: present.clone() });
        Some(step.layout)
    }

    /// The layout that was last undone, given the present one; nothing if none was.
    pub fn redo(&mut self, present: &Layout) -> Option<Layout> {
        let step = self.future.pop()?;
        self.past.push(Step { label: step.label, layout: present.clone() });
        Some(step.layout)
    }

    /// What undo would take back.
    pub fn undo_label(&self) -> Option<&Label> {
        self.past.last().map(|step| &step.label)
    }

    /// What redo would do again.
    pub fn redo_label(&self) -> Option<&Label> {
        self.future.last().map(|step| &step.label)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(name: &str) -> Layout {
        Layout { name: name.to_owned(), ..Layout::default() }
    }

    #[test]
    fn undo_and_redo_walk_the_same_way() {
        let mut history = History::default();
        history.remember("First", named("a"));
        history.remember("Second", named("b"));
        assert_eq!(history.undo_label(), Some(&"Second".into()));
        assert_eq!(history.undo(&named("c")).unwrap().name, "b");
        assert_eq!(history.undo(&named("b")).unwrap().name, "a");
        assert!(history.undo(&named("a")).is_none());
        assert_eq!(history.redo_label(), Some(&"First".into()));
        assert_eq!(history.redo(&named("a")).unwrap().name, "b");
        assert_eq!(history.redo(&named("b")).unwrap().name, "c");
        assert!(history.redo(&named("c")).is_none());
    }

    #[test]
    fn a_change_after_undo_forgets_what_was_undone() {
        let mut history = History::default();
        history.remember("First", named("a"));
        history.undo(&named("b"));
        history.remember("Other", named("a"));
        assert_eq!(history.redo_label(), None);
        assert_eq!(history.undo_label(), Some(&"Other".into()));
    }

    #[test]
    fn the_oldest_steps_go_first() {
        let mut history = History::default();
        for i in 0..MOST_STEPS + 1 {
            history.remember(&*i.to_string(), named("x"));
        }
        assert_eq!(history.past.len(), MOST_STEPS);
        assert_eq!(history.past[0].label, "1".into());
    }
}
