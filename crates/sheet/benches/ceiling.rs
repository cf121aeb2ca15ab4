//! How long the ceiling takes: what the page pays when a count changes, and when every sticker is new.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use stickleaf_outline::{Outline, path, shapes};
use stickleaf_sheet::{Background, Layout, Memos, Sheet, Sticker, Turns, Wanted, Zone, ceiling};

/// A card to be filled with these, below a scalloped band and beside a moon if it is cut.
fn card(outlines: Vec<Outline>, turns: Turns, is_cut: bool) -> Layout {
    let scallops = "M0 0H105V19Q97.5 25 90 19Q82.5 25 75 19Q67.5 25 60 19Q52.5 25 45 19Q37.5 25 30 19Q22.5 25 15 19\
                    Q7.5 25 0 19Z";
    let moon = "M70 90A12 12 0 1 1 94 90A12 12 0 1 1 70 90Z";
    let zone = |data: &str| Zone::new("zone", path::parse(data).expect("sound path data"), 1.5);
    let zones = if is_cut { vec![zone(scallops), zone(moon)] } else { Vec::new() };
    let sticker = |(i, outline)| {
        let mut sticker = Sticker::new(format!("{i}"), "Sticker", outline);
        sticker.turns = turns.clone();
        sticker.wanted = Wanted::AtLeast(u32::from(i > 0));
        sticker
    };
    Layout {
        sheet: Sheet { corner_radius: 4.0, ..Sheet::default() },
        stickers: outlines.into_iter().enumerate().map(sticker).collect(),
        backgrounds: vec![Background { name: "zones".into(), zones, ..Background::default() }],
        background: Some("zones".into()),
        ..Layout::default()
    }
}

fn ceilings(criterion: &mut Criterion) {
    let blobs = || (0..16).map(|seed| shapes::blob(seed, 6.0 + seed as f64 / 2.0)).collect();
    let cases = [
        ("twelve discs", card(vec![shapes::disc(12.0, 180)], Turns::Any, false)),
        ("small discs", card(vec![shapes::disc(5.0, 180)], Turns::Any, true)),
        ("upright labels", card(vec![shapes::rectangle(37.0, 17.0)], Turns::None, true)),
        ("any blob", card(vec![shapes::blob(3, 12.0)], Turns::Any, true)),
        ("sixteen blobs", card(blobs(), Turns::Within(15.0), false)),
        ("sixteen blobs, cut", card(blobs(), Turns::Within(15.0), true)),
    ];
    for (name, layout) in &cases {
        criterion.bench_function(name, |bencher| bencher.iter(|| ceiling(black_box(layout))));
        criterion.bench_function(&format!("{name}, new"), |bencher| {
            bencher.iter(|| {
                let mut layout = layout.clone();
                layout.stickers.iter_mut().for_each(|sticker| sticker.memos = Memos::default());
                ceiling(black_box(&layout))
            });
        });
    }
}

criterion_group!(benches, ceilings);
criterion_main!(benches);
