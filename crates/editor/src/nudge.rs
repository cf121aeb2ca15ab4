//! Small steps: rounding, soft snapping, allowed turns.

use kurbo::Point;
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::{Sheet, Turns};

use crate::input::Step;

/// A turn that is nearer to a multiple of the step than this share of it snaps to it: a third of all turns do, so that
/// those between can still be held.
const SNAP_REACH: f64 = 1.0 / 6.0;

/// The place rounded to the micrometre, and not further off the sheet than its longer side, so that no piece is lost.
///
/// Anything but a finite number gives the sheet's corner.
pub(crate) fn kept_place(at: Point, sheet: &Sheet) -> Point {
    let far = sheet.width.max(sheet.height);
    let kept = |mm: f64, length: f64| {
        let mm = if mm.is_finite() { mm.clamp(-far, length + far) } else { 0.0 };
        // Dividing by 1000 gives the double nearest to the decimal number; adding zero tidies minus zero away.
        (mm * 1000.0).round() / 1000.0 + 0.0
    };
    Point::new(kept(at.x, sheet.width), kept(at.y, sheet.height))
}

/// The allowed turn nearest to this one, rounded to a thousandth of a degree where that is allowed too.
pub(crate) fn kept_turn(turn: Turn, turns: &Turns) -> Turn {
    let nearest = turns.nearest(turn);
    let rounded = Turn::degrees((nearest.to_degrees() * 1000.0).round() / 1000.0);
    if turns.allow(rounded) { rounded } else { nearest }
}

/// The turn drawn to the nearest multiple of the step if it is near to one.
pub(crate) fn softly_snapped(turn: Turn, step: Step) -> Turn {
    let multiple = (turn.to_degrees() / step.degrees()).round() * step.degrees();
    let snapped = Turn::degrees(multiple);
    if snapped.distance_to(turn) <= SNAP_REACH * step.degrees() { snapped } else { turn }
}

/// A placement turned by so many degrees about a point of the sheet, then shifted; its own turn is `turn`.
pub(crate) fn swung(placement: &Placement, about: Point, degrees: f64, turn: Turn) -> Placement {
    let frame = Placement { at: about, turn: Turn::degrees(degrees), mirrored: false };
    let at = frame.apply((placement.at - about).to_point());
    Placement { at, turn, ..*placement }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_whole_micrometres_and_not_lost() {
        let sheet = Sheet::default();
        assert_eq!(kept_place(Point::new(1.234_56, -0.000_1), &sheet), Point::new(1.235, 0.0));
        assert_eq!(kept_place(Point::new(1e9, f64::NAN), &sheet), Point::new(105.0 + 148.0, 0.0));
    }

    #[test]
    fn turns_snap_softly() {
        let snapped = |degrees| softly_snapped(Turn::degrees(degrees), Step::Large).to_degrees();
        assert_eq!(snapped(13.0), 15.0);
        assert_eq!(snapped(12.0), 12.0);
        assert_eq!(snapped(358.0), 0.0);
        assert_eq!(snapped(-16.0), 345.0);
        let by_five = |degrees| softly_snapped(Turn::degrees(degrees), Step::Middle).to_degrees();
        assert_eq!((by_five(20.8), by_five(21.0), by_five(24.2)), (20.0, 21.0, 25.0));
    }

    #[test]
    fn a_turn_that_is_not_allowed_goes_to_the_nearest() {
        let kept = |degrees, turns: &Turns| kept_turn(Turn::degrees(degrees), turns).to_degrees();
        assert_eq!(kept(40.0, &Turns::None), 0.0);
        assert_eq!(kept(40.0, &Turns::Within(15.0)), 15.0);
        assert_eq!(kept(80.0, &Turns::Only(vec![0.0, 90.0])), 90.0);
        assert_eq!(kept(33.333_333, &Turns::Any), 33.333);
        assert_eq!(kept(30.0, &Turns::Only(vec![100.0 / 3.0])), 100.0 / 3.0);
    }

    #[test]
    fn swinging_carries_a_place_round_a_point() {
        let placement = Placement::at(20.0, 10.0);
        let swung = swung(&placement, Point::new(10.0, 10.0), 90.0, Turn::degrees(90.0));
        assert_eq!(swung, Placement::turned(10.0, 20.0, 90.0));
    }
}
