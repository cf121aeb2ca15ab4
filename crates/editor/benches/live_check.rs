//! What one move of a carried piece costs on a full sheet: 200 pieces of 200 points each.

mod full_sheet;

use criterion::{Criterion, criterion_group, criterion_main};
use full_sheet::{full_sheet, middle};
use stickleaf_editor::{Editor, Input, PointerKind, Press};

fn live_check(criterion: &mut Criterion) {
    let mut editor = Editor::new(full_sheet());
    let kind = PointerKind::Mouse;
    let down = editor.view().to_canvas(middle(110));
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
