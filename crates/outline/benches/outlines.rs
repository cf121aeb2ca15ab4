//! How long the steps from a drawing to a checked cut line take.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use stickleaf_outline::{
    HALF_COVER, Mask, Outline, Placement, TraceOptions, border, bridged, gap, islands, joined, raw_ring,
    shapes, smoothed, thin_part, thinned, tight_inner_corner, trace,
};

/// A drawing 25 mm across at 600 pixels to the inch.
fn drawing() -> Mask {
    let shape = shapes::blob(7, 12.5).placed(&Placement::at(13.0, 13.0));
    Mask::drawn(&[shape], 614, 614, 25.4 / 600.0).expect("the sizes agree")
}

fn tracing(criterion: &mut Criterion) {
    let mask = drawing();
    let island = islands(&mask, HALF_COVER, 1.0).islands[0];
    let options = TraceOptions::default();
    criterion.bench_function("islands, 0.4 million pixels", |bencher| {
        bencher.iter(|| islands(black_box(&mask), HALF_COVER, 1.0));
    });
    criterion.bench_function("trace, 25 mm", |bencher| {
        bencher.iter(|| trace(black_box(&mask), &island, &options))
    });
    let raw = raw_ring(&mask, &island, HALF_COVER).expect("a blob is not ragged");
    criterion.bench_function("smooth, 25 mm", |bencher| bencher.iter(|| smoothed(black_box(&raw), 0.025)));
    criterion.bench_function("thin out, 25 mm", |bencher| bencher.iter(|| thinned(black_box(&raw), 0.025)));
}

fn checking(criterion: &mut Criterion) {
    let mask = drawing();
    let island = islands(&mask, HALF_COVER, 1.0).islands[0];
    let outline = trace(&mask, &island, &TraceOptions::default()).expect("a blob has an outline");
    criterion.bench_function("border", |bencher| bencher.iter(|| border(black_box(&outline), 1.5)));
    let cut_line = border(&outline, 1.5);
    let beside = cut_line.placed(&Placement::at(26.0, 3.0));
    criterion.bench_function("gap", |bencher| bencher.iter(|| gap(black_box(&cut_line), &beside)));
    criterion
        .bench_function("thin part, none", |bencher| bencher.iter(|| thin_part(black_box(&cut_line), 3.0)));
    let bell = border(&shapes::dumbbell(6.0, 0.5, 6.0), 1.0);
    criterion
        .bench_function("thin part, a neck", |bencher| bencher.iter(|| thin_part(black_box(&bell), 3.0)));
    criterion.bench_function("tight corner", |bencher| {
        bencher.iter(|| tight_inner_corner(black_box(&cut_line), 0.5));
    });
}

fn joining(criterion: &mut Criterion) {
    let place = |i: u8| {
        let (column, row) = (f64::from(i % 8), f64::from(i / 8));
        shapes::blob(u64::from(i), 5.0).placed(&Placement::at(9.0 * column, 9.0 * row))
    };
    let parts: Vec<Outline> = (0..64).map(place).collect();
    criterion
        .bench_function("which of 64 parts join", |bencher| bencher.iter(|| joined(black_box(&parts), 1.5)));
    criterion
        .bench_function("one line round 64 parts", |bencher| bencher.iter(|| bridged(black_box(&parts))));
}

criterion_group!(benches, tracing, checking, joining);
criterion_main!(benches);
