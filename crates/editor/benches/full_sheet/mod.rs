//! A sheet as full as one gets: 200 pieces of 200 points each, 2 mm or a little more apart.

use kurbo::Point;
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, Piece, Sheet, Sticker};

/// Pieces in a row.
const COLUMNS: i32 = 20;

/// From the middle of a piece to that of the next, in millimetres.
const PITCH: f64 = 13.5;

/// From the sheet's edge to the middle of the first piece, in millimetres.
const ROOM: f64 = 12.0;

/// A wavy ring of 200 points, about 11 mm across.
fn wavy_ring(kind: i32) -> Outline {
    let point = |i: i32| {
        let angle = f64::from(i) / 200.0 * core::f64::consts::TAU;
        let radius = 5.0 + 0.7 * libm::sin(f64::from(5 + kind % 5) * angle + f64::from(kind));
        Point::new(radius * libm::cos(angle), radius * libm::sin(angle))
    };
    Outline::new((0..200).map(point)).expect("a wavy ring does not cross itself")
}

/// The middle of a piece.
pub fn middle(piece: i32) -> Point {
    Point::new(ROOM + PITCH * f64::from(piece % COLUMNS), ROOM + PITCH * f64::from(piece / COLUMNS))
}

/// Ten rows of 20 pieces, five each of 40 stickers.
pub fn full_sheet() -> Layout {
    let size = |count: i32| 2.0 * ROOM + PITCH * f64::from(count - 1);
    let mut layout = Layout {
        sheet: Sheet { width: size(COLUMNS), height: size(200 / COLUMNS), ..Sheet::default() },
        ..Layout::default()
    };
    layout.rules.border = 0.0;
    let id = |kind: i32| format!("ring-{kind}");
    layout.stickers = (0..40).map(|kind| Sticker::new(&*id(kind), id(kind), wavy_ring(kind))).collect();
    let piece = |i: i32| {
        let Point { x, y } = middle(i);
        Piece::new((&*id(i % 40)).into(), Placement::at(x, y))
    };
    layout.pieces = (0..200).map(piece).collect();
    layout
}
