//! How long a whole sheet of artwork takes to read.

use std::fs;
use std::hint::black_box;
use std::path::Path;

use criterion::{Criterion, criterion_group, criterion_main};
use stickleaf_art::{ImportOptions, Progress, import, read_png};
use stickleaf_outline::{HALF_COVER, Mask, Outline, Placement, TraceOptions, islands, shapes, trace};

/// Pixels across and down: a sheet of 4.25 by 6.5 inches at 1000 pixels to the inch.
const SIZE_PX: (u32, u32) = (4250, 6500);
const PIXEL: f64 = 0.0254;

/// Thirty drawings in five columns and six rows, soft at their edges.
fn sheet_of_drawings() -> Mask {
    let place = |i: u8| {
        let (column, row) = (f64::from(i % 5), f64::from(i / 5));
        shapes::blob(u64::from(i), 10.0).placed(&Placement::at(11.0 + 21.4 * column, 14.0 + 27.0 * row))
    };
    let outlines: Vec<Outline> = (0..30).map(place).collect();
    Mask::drawn(&outlines, SIZE_PX.0, SIZE_PX.1, PIXEL).expect("the sizes agree")
}

/// The mask as a PNG with colours that change from pixel to pixel, as painted artwork has.
fn png_of(mask: &Mask) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, mask.width_px(), mask.height_px());
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_compression(png::Compression::Fast);
    let mut pixels = Vec::with_capacity(mask.cover().len() * 4);
    for (i, &alpha) in mask.cover().iter().enumerate() {
        let shade = if alpha == 0 { 0 } else { (i * 7 % 64) as u8 };
        pixels.extend([shade, 128 + shade, 255 - shade, alpha]);
    }
    let written = encoder.write_header().and_then(|mut writer| writer.write_image_data(&pixels));
    written.expect("writing to memory succeeds");
    bytes
}

fn whole_sheet(criterion: &mut Criterion) {
    let mask = sheet_of_drawings();
    let bytes = png_of(&mask);
    let mut group = criterion.benchmark_group("27.6 million pixels, 30 drawings");
    group.sample_size(10);
    group.bench_function("decode", |bencher| {
        bencher.iter(|| read_png(black_box(&bytes), &mut Progress::new(&mut |_| true)));
    });
    group.bench_function("islands", |bencher| bencher.iter(|| islands(black_box(&mask), HALF_COVER, 1.0)));
    let found = islands(&mask, HALF_COVER, 1.0);
    group.bench_function("trace", |bencher| {
        bencher.iter(|| {
            let options = TraceOptions::default();
            found.islands.iter().map(|island| trace(&mask, island, &options)).collect::<Vec<_>>()
        });
    });
    group.bench_function("import", |bencher| {
        bencher.iter(|| import(black_box(&bytes), &ImportOptions::default()));
    });
    group.finish();
}

fn sample_layout(criterion: &mut Criterion) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-layouts/rooftop-night");
    let mut group = criterion.benchmark_group("rooftop night");
    group.sample_size(10);
    for file in ["rooftop-night.svg", "rooftop-night.png"] {
        let bytes = fs::read(folder.join(file)).expect("the sample layouts lie beside the crates");
        group.bench_function(file, |bencher| {
            bencher.iter(|| import(black_box(&bytes), &ImportOptions::default()));
        });
    }
    group.finish();
}

criterion_group!(benches, whole_sheet, sample_layout);
criterion_main!(benches);
