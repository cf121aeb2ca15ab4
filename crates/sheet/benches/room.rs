//! How long the search for empty room takes: a hundred pieces on a card, and a bare one.

use criterion::{Criterion, criterion_group, criterion_main};
use kurbo::Point;
use stickleaf_outline::{Outline, Placement, shapes};
use stickleaf_sheet::{Layout, Piece, Rules, Sheet, Sticker, empty_room};

/// A hundred pieces with a hundred corners each, in crooked rows on an A5 card.
fn crowded() -> Layout {
    let lobed = |seed: u64| {
        let blob = shapes::blob(seed, 7.0);
        let every_other = (0..100).map(|i| blob.points()[i * 9 / 5]);
        Sticker::new(format!("s{seed}"), "S", Outline::new(every_other).expect("still a simple ring"))
    };
    let piece = |number: u32| {
        let (column, row) = (f64::from(number % 10), f64::from(number / 10));
        let at =
            Point::new(11.0 + 14.0 * column + 1.5 * (row % 2.0), 14.0 + 20.0 * row + 2.0 * (column % 3.0));
        let placement = Placement::turned(at.x, at.y, 37.0 * f64::from(number));
        Piece::new(format!("s{}", number % 10).into(), placement)
    };
    Layout {
        sheet: Sheet { width: 148.0, height: 210.0, ..Sheet::default() },
        rules: Rules { border: 0.0, ..Rules::default() },
        stickers: (0..10).map(lobed).collect(),
        pieces: (0..100).map(piece).collect(),
        ..Layout::default()
    }
}

fn benches(criterion: &mut Criterion) {
    let crowded = crowded();
    assert_eq!(empty_room(&crowded, 10, 2.0).discs.len(), 10);
    let mut group = criterion.benchmark_group("room");
    group.bench_function("ten discs of 2 mm or more among a hundred pieces", |b| {
        b.iter(|| empty_room(&crowded, 10, 2.0));
    });
    group.bench_function("discs of 8 mm or more among a hundred pieces", |b| {
        b.iter(|| empty_room(&crowded, 10, 8.0))
    });
    let bare = Layout::default();
    group.bench_function("ten discs on a bare card", |b| b.iter(|| empty_room(&bare, 10, 8.0)));
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);
