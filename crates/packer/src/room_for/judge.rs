//! The rule check with one piece more.

use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, RULE_TOLERANCE, check_piece};

use super::drawing::Drawing;
use crate::build::NOISE;

/// The rule check with one piece more.
pub struct Judge {
    /// The layout with rules so much stricter that nothing of the check's tolerance is used up.
    strict: Layout,
    /// The cut lines of all pieces.
    lines: Vec<Outline>,
}

impl Judge {
    /// The check of this layout, whose placed cut lines are given.
    pub fn new(layout: &Layout, lines: Vec<Outline>) -> Judge {
        let mut strict = layout.clone();
        let more = RULE_TOLERANCE - NOISE;
        strict.rules.spacing += more;
        strict.rules.margin += more;
        for zone in strict.backgrounds.iter_mut().flat_map(|background| &mut background.zones) {
            zone.clearance += more;
        }
        Judge { strict, lines }
    }

    /// Whether a drawing of this scale may lie there, and is large enough to handle.
    pub fn accepts(&mut self, drawing: &Drawing, placement: &Placement, scale: f64) -> bool {
        let (sticker, rules) = (drawing.sticker, &drawing.layout.rules);
        let line = if scale == 1.0 {
            sticker.cut_line(rules).placed(placement)
        } else {
            let Some(line) = drawing.cut_line(scale) else { return false };
            if line.bounds().width().max(line.bounds().height()) < rules.smallest {
                return false;
            }
            line.placed(placement)
        };
        let index = self.lines.len();
        self.lines.push(line);
        let is_sound = check_piece(&self.strict, &self.lines, index).is_empty();
        self.lines.pop();
        is_sound
    }
}
