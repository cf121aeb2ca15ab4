//! Any picture: every drawing in it has a sound outline, or a named error says why not.

#![no_main]

use libfuzzer_sys::fuzz_target;
use stickleaf_fuzz::assert_sound;
use stickleaf_outline::{Mask, TraceOptions, islands, trace};

fuzz_target!(|data: &[u8]| {
    let [width, pixel, threshold, detail, cover @ ..] = data else { return };
    let width_px = u32::from(*width).max(1);
    let height_px = (cover.len() as u32 / width_px).min(255);
    // Pixels from a hundredth of a millimetre, 2540 to the inch, to five millimetres.
    let pixel = 0.01 + f64::from(*pixel) / 51.0;
    let cover = cover[..(width_px * height_px) as usize].to_vec();
    let Ok(mask) = Mask::new(width_px, height_px, pixel, cover) else { return };
    let options = TraceOptions { threshold: *threshold, detail: f64::from(*detail) / 100.0 };
    let found = islands(&mask, *threshold, 0.0);
    assert_eq!(found.speck_count, 0, "nothing is too small");
    for island in &found.islands {
        if let Ok(outline) = trace(&mask, island, &options) {
            assert_sound(&outline);
            let slack = options.detail.max(pixel);
            let bounds = outline.bounds().inflate(-slack, -slack);
            assert!(bounds.x0 >= -slack && bounds.x1 <= f64::from(width_px) * pixel + slack);
            assert!(bounds.y0 >= -slack && bounds.y1 <= f64::from(height_px) * pixel + slack);
        }
    }
});
