//! The rules as loose as the check takes them: what the bounds must allow.
//!
//! The check forgives [`RULE_TOLERANCE`], so a layout that passes may keep a little less than each distance asked for.
//! Where a distance of next to nothing is asked, it lets two lines reach into each other as long as nothing is left in
//! common once each has lost half of that tolerance. A bound that took the rules at their word would lie below such
//! layouts.

use crate::background::Zone;
use crate::check::RULE_TOLERANCE;
use crate::layout::Layout;

/// More than the polygon library moves a point by rounding, in millimetres: it computes in whole ten nanometres.
pub const GRAIN: f64 = 0.000_05;

/// How finely round corners are drawn when areas are measured, in millimetres.
pub const FINE: f64 = 0.001;

/// A part in a billion more than computed, so that a sum exactly at the limit is not lost to rounding.
pub const ROUNDING: f64 = 1.0 + 1e-9;

/// Half the least distance that two cut lines of a layout that passes the check keep, in millimetres.
///
/// Negative, down to half the tolerance, where lines may reach into each other.
pub fn half_spacing(layout: &Layout) -> f64 {
    least_distance(layout.rules.spacing) / 2.0
}

/// The least distance that a cut line keeps from the sheet's edge; down to minus the tolerance.
pub fn margin(layout: &Layout) -> f64 {
    layout.rules.margin - RULE_TOLERANCE
}

/// The least distance that a cut line keeps from a zone: negative if it may reach into it.
///
/// Then, what is left of both once each has lost half as much has nothing in common.
pub fn clearance(zone: &Zone) -> f64 {
    least_distance(zone.clearance)
}

fn least_distance(asked: f64) -> f64 {
    if asked > RULE_TOLERANCE { asked - RULE_TOLERANCE } else { -RULE_TOLERANCE - 2.0 * GRAIN }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_are_as_loose_as_the_check() {
        let mut layout = Layout::default();
        layout.rules.spacing = 2.0;
        assert_eq!(half_spacing(&layout), 0.999);
        layout.rules.spacing = 0.0;
        assert!(half_spacing(&layout) < -RULE_TOLERANCE / 2.0);
        layout.rules.margin = 0.0;
        assert_eq!(margin(&layout), -RULE_TOLERANCE);
    }
}
