//! How long packing takes: discs on a card, and thirty mixed stickers.

use criterion::{Criterion, criterion_group, criterion_main};
use stickleaf_outline::{path, shapes};
use stickleaf_packer::{Aim, PackOptions, Search, pack};
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted};

/// Discs of 15 mm on a 100 x 150 mm sheet, as many as fit.
fn discs() -> Layout {
    let disc = path::parse("M-7.5 0A7.5 7.5 0 1 1 7.5 0A7.5 7.5 0 1 1 -7.5 0Z").expect("a disc");
    let mut sticker = Sticker::new("disc", "Disc", disc);
    sticker.wanted = Wanted::AtLeast(0);
    Layout {
        sheet: Sheet { width: 100.0, height: 150.0, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin: 3.0, spacing: 2.0, ..Rules::default() },
        stickers: vec![sticker],
        ..Layout::default()
    }
}

/// Thirty stickers of six shapes, 12 to 24 mm across, on an A6 card.
fn mixed(wanted: Wanted) -> Layout {
    let sticker = |number: u64| {
        let size = 6.0 + (number * 7 % 5) as f64 * 1.2;
        let outline = match number % 6 {
            0 => shapes::star(5, size, size / 2.0),
            1 => shapes::disc(size * 0.8, 60),
            2 => shapes::rectangle(size * 2.0, size),
            3 => shapes::crescent(size),
            4 => shapes::l(size * 1.6),
            _ => shapes::blob(number, size),
        };
        let mut sticker = Sticker::new(format!("s{number}"), format!("Sticker {number}"), outline);
        sticker.wanted = wanted;
        sticker.turns = Turns::Any;
        sticker
    };
    Layout { stickers: (0..30).map(sticker).collect(), ..Layout::default() }
}

fn benches(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("pack");
    group.sample_size(10);
    let fill = |layout: &Layout, rounds| {
        let options = PackOptions { aim: Aim::Fill, seed: 1 };
        pack(layout, &options, Some(rounds), &mut |_| true).map(|packing| packing.layout.pieces.len())
    };
    let discs = discs();
    group.bench_function("fill with 15 mm discs, 30 rounds", |b| b.iter(|| fill(&discs, 30)));
    let exactly = mixed(Wanted::Exactly(1));
    let place = PackOptions { aim: Aim::Place, seed: 1 };
    group.bench_function("start a search for 30 mixed", |b| b.iter(|| Search::new(&exactly, &place).is_ok()));
    group.bench_function("place 30 mixed to the end", |b| {
        b.iter(|| pack(&exactly, &place, Some(200), &mut |_| true).map(|packing| packing.progress.placed));
    });
    let at_least = mixed(Wanted::AtLeast(1));
    group.bench_function("fill with 30 mixed, 50 rounds", |b| b.iter(|| fill(&at_least, 50)));
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);
