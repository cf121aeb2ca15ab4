//! A round sticker for a disc of empty room.

use stickleaf_outline::{BORDER_TOLERANCE, path};

use crate::rules::Rules;
use crate::sticker::{Sticker, StickerId};

/// The outline of a dot is drawn to a thousandth of a millimetre, so that its file reads well.
const PARTS: f64 = 1000.0;

/// The border takes this share of a dot's radius at most; the rest is for the drawing.
const MOST_BORDER_SHARE: f64 = 0.5;

/// How much narrower the cut line of a dot may be than its circle, in millimetres across.
pub const DOT_SLACK: f64 = 0.026;

/// A round sticker about its own (0, 0), whose cut line lies within a circle of this diameter in millimetres and is
/// narrower by less than [`DOT_SLACK`].
///
/// It has the rule's border, or half its radius if that is less. One copy is wanted, upright. Nothing comes back for a
/// diameter below 0.1 mm or one beyond what an outline can be.
pub fn dot(
    id: impl Into<StickerId>,
    name: impl Into<String>,
    diameter: f64,
    rules: &Rules,
) -> Option<Sticker> {
    if diameter.is_nan() || diameter < 0.1 {
        return None;
    }
    let radius = diameter / 2.0;
    let own = (rules.border > radius * MOST_BORDER_SHARE).then_some(radius * MOST_BORDER_SHARE);
    let border = own.unwrap_or(rules.border);
    // A cut line may run outside the exact border by the tolerance, an outline without a border is the cut line itself.
    let spare = if border > 0.0 { BORDER_TOLERANCE } else { 0.0 };
    let r = ((radius - border - spare) * PARTS).floor() / PARTS;
    // Chords have their ends on the circle, rounded to the grid: half its diagonal further out at most.
    let r = if border > 0.0 { r } else { r - 1.0 / PARTS };
    let data = format!("M-{r} 0A{r} {r} 0 1 1 {r} 0A{r} {r} 0 1 1 -{r} 0Z");
    let mut sticker = Sticker::new(id, name, path::parse(&data).ok()?);
    sticker.path = Some(data.into());
    sticker.border = own;
    Some(sticker)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cut_line_fills_its_circle_from_within() {
        for diameter in [1.0, 2.5, 6.0, 8.0, 9.2, 14.347, 40.0, 97.0] {
            for border in [0.0, 0.8, 1.5] {
                let rules = Rules { border, ..Rules::default() };
                let sticker = dot("d", "Dot", diameter, &rules).unwrap();
                for point in sticker.cut_line(&rules).points() {
                    let apart = point.to_vec2().hypot2().sqrt() - diameter / 2.0;
                    assert!(
                        apart <= 0.0 && apart > -DOT_SLACK / 2.0,
                        "{apart} for {diameter} with border {border}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_dot_too_small_for_the_border_gets_a_narrower_one() {
        let rules = Rules::default();
        assert_eq!(dot("d", "Dot", 8.0, &rules).unwrap().border, None);
        assert_eq!(dot("d", "Dot", 4.0, &rules).unwrap().border, Some(1.0));
        assert_eq!(dot("d", "Dot", 0.0, &rules), None);
        assert_eq!(dot("d", "Dot", f64::NAN, &rules), None);
    }
}
