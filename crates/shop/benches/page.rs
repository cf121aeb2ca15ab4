//! How long page plans take: sheets on ordinary paper, hard problems of the literature, several designs.

use criterion::{Criterion, criterion_group, criterion_main};
use stickleaf_shop::page::{Growing, Stock, WantedSheets, largest_sheets, plan, plan_several};

/// Without margin and gap, so that lengths are those of the literature.
fn bare(width: f64, height: f64) -> Stock {
    Stock { width, height, printer_margin: 0.0, reach: None, gap: 0.0 }
}

fn benches(criterion: &mut Criterion) {
    let letter = Stock { width: 215.9, height: 279.4, gap: 2.0, ..Stock::default() };
    let mut group = criterion.benchmark_group("page");
    group.sample_size(10);
    group.bench_function("two sheets on Letter", |b| b.iter(|| plan(&letter, 107.95, 165.1)));
    group.bench_function("business cards on A3", |b| b.iter(|| plan(&bare(420.0, 297.0), 90.0, 55.0)));
    // Published optima: 57, 99 and 147; see `tests/published_counts.rs`.
    for (length, width, a, c) in
        [(49.0, 28.0, 8.0, 3.0), (86.0, 52.0, 9.0, 5.0), (1600.0, 1230.0, 137.0, 95.0)]
    {
        let name = format!("{a} x {c} in {length} x {width}");
        group.bench_function(name, |b| b.iter(|| plan(&bare(length, width), a, c)));
    }
    group.bench_function("largest sheets on Letter", |b| {
        b.iter(|| largest_sheets(&letter, 107.95, 165.1, Growing::Both, 4));
    });
    let designs = [(105.0, 148.0, 30), (107.95, 165.1, 12), (74.0, 105.0, 25)]
        .map(|(width, height, count)| WantedSheets { width, height, count });
    group.bench_function("three sizes on A3", |b| b.iter(|| plan_several(&bare(420.0, 297.0), &designs)));
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);
