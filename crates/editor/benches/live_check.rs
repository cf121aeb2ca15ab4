//! What one move of a carried piece costs on a full sheet: 200 pieces of 200 points each.

use criterion::{Criterion, criterion_group, criterion_main};
use kurbo::Point;
use stickleaf_editor::{Editor, Input, PointerKind, Press};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, Piece, Sheet, Sticker};

/// A wavy ring of 200 points, about 12 mm across.
fn wavy_ring() -> Outline {
    let point = |i: i32| {
        let angle = f64::from(i) / 200.0 * core::f64::consts::TAU;
        let radius = 5.0 + 0.8 * libm::sin(9.0 * angle);
        Point::new(radius * libm::cos(angle), radius * libm::sin(angle))
    };
    Outline::new((0..200).map(point)).expect("a wavy ring does not cross itself")
}

/// 14 rows of 15 pieces less ten, 13.5 mm apart: about 2 mm of gap each.
fn full_sheet() -> Layout {
    let mut layout =
        Layout { sheet: Sheet { width: 215.0, height: 200.0, ..Sheet::default() }, ..Layout::default() };
    layout.rules.border = 0.0;
    layout.stickers = vec![Sticker::new("ring", "Ring", wavy_ring())];
    let place = |i: i32| Placement::at(13.0 + 13.5 * f64::from(i % 15), 12.0 + 13.5 * f64::from(i / 15));
    layout.pieces = (0..200).map(|i| Piece::new("ring".into(), place(i))).collect();
    layout
}

fn live_check(criterion: &mut Criterion) {
    let mut editor = Editor::new(full_sheet());
    let kind = PointerKind::Mouse;
    let at = |editor: &Editor, x, y| editor.view().to_canvas(Point::new(x, y));
    let down = at(&editor, 13.0 + 13.5 * 7.0, 12.0 + 13.5 * 6.0);
    editor.input(Input::Down(Press { id: 1, kind, at: down, extend: false, pan: false, time_ms: 0.0 }));
    let mut step = 0;
    let mut wander = |reach: f64| {
        step = (step + 1) % 64;
        let angle = f64::from(step) / 64.0 * core::f64::consts::TAU;
        down + kurbo::Vec2::new(libm::cos(angle), libm::sin(angle)) * reach
    };
    // Within its place: too near to a neighbour now and then.
    criterion.bench_function("carry a piece within its place", |bencher| {
        bencher.iter(|| editor.input(Input::Move { id: 1, at: wander(4.0), time_ms: 0.0 }));
    });
    // All over the sheet: on top of others most of the time.
    criterion.bench_function("carry a piece across others", |bencher| {
        bencher.iter(|| editor.input(Input::Move { id: 1, at: wander(60.0), time_ms: 0.0 }));
    });
    criterion.bench_function("lift and let go", |bencher| {
        bencher.iter(|| {
            editor.input(Input::Move { id: 1, at: down, time_ms: 0.0 });
            editor.input(Input::Up { id: 1, at: down, time_ms: 0.0 });
            editor.input(Input::Down(Press {
                id: 1,
                kind,
                at: down,
                extend: false,
                pan: false,
                time_ms: 0.0,
            }));
            editor.input(Input::Move { id: 1, at: wander(30.0), time_ms: 0.0 });
        });
    });
}

criterion_group!(benches, live_check);
criterion_main!(benches);
