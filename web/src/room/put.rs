//! Puts on the sheet what would fit there, as one undo step.

use kurbo::Point;
use leptos::prelude::*;
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::{DOT_SLACK, LengthUnit, MM_PER_INCH, Piece, Turns, Wanted, dot};

use crate::bring_in::unused_id;
use crate::messages::{RoomDot, RoomFit};
use crate::state::Desk;
use crate::words;

/// A diameter as one reads it at a glance, in millimetres: whole tenths of a millimetre, or hundredths of an inch, never
/// more than fits.
pub fn shown_diameter(unit: LengthUnit, mm: f64) -> f64 {
    let step = match unit {
        LengthUnit::Millimetres => 0.1,
        LengthUnit::Inches => 0.01 * MM_PER_INCH,
        LengthUnit::InchFractions => MM_PER_INCH / 64.0,
    };
    // What is a whole number of steps but for rounding stays so.
    (mm / step + 1e-6).floor() * step
}

/// Puts a round sticker as large as it is told on the tray, and a piece of it where it fits.
pub fn put_dot(desk: Desk, found: RoomDot) {
    let told = shown_diameter(desk.unit.get_untracked(), found.diameter);
    // So that its cut line is as large as told, even if drawn a little narrower.
    let diameter = found.diameter.min(told + DOT_SLACK);
    desk.change_or_say(words::step_put_dot(), |layout| {
        let count = layout.stickers.iter().filter(|sticker| sticker.name.starts_with(words::dot())).count();
        let name =
            if count == 0 { words::dot().to_owned() } else { format!("{} {}", words::dot(), count + 1) };
        let Some(mut sticker) = dot(unused_id(layout, words::dot()), name, diameter, &layout.rules) else {
            return;
        };
        sticker.wanted = Wanted::AtLeast(1);
        sticker.turns = Turns::Within(15.0);
        layout.pieces.push(Piece::new(sticker.id.clone(), Placement::at(found.x, found.y)));
        layout.stickers.push(sticker);
    });
    choose_last(desk);
}

/// Puts one more piece of a sticker where it fits at full size.
pub fn put_fit(desk: Desk, name: &str, fit: &RoomFit) {
    let turn = Turn::degrees(fit.degrees);
    let placement = Placement { at: Point::new(fit.x, fit.y), turn, mirrored: fit.mirrored };
    desk.change_or_say(&words::step_put(name), |layout| {
        if let Some(id) = layout.sticker(&fit.sticker).map(|sticker| sticker.id.clone()) {
            layout.pieces.push(Piece::new(id, placement));
        }
    });
    choose_last(desk);
}

fn choose_last(desk: Desk) {
    desk.act(|editor| {
        let last = editor.layout().pieces.len().saturating_sub(1);
        editor.select(vec![last]);
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_diameter_is_never_told_larger_than_it_is() {
        let told = |unit: LengthUnit, mm: f64| unit.text(shown_diameter(unit, mm));
        assert_eq!(told(LengthUnit::Millimetres, 9.2996), "9.2 mm");
        assert_eq!(told(LengthUnit::Millimetres, 9.3), "9.3 mm");
        assert_eq!(told(LengthUnit::Inches, 9.3), "0.36 in");
        assert_eq!(told(LengthUnit::Inches, 0.5 * MM_PER_INCH), "0.5 in");
    }
}
