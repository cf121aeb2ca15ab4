//! Any bytes as a layout file: a layout that can be checked and comes back the same, or a named error.

#![no_main]

use libfuzzer_sys::fuzz_target;
use stickleaf_fuzz::assert_sound;
use stickleaf_sheet::{check, score};

/// Checking every pair of very many pieces takes longer than a fuzzer waits.
const MOST_PIECES: usize = 100;

fuzz_target!(|data: &[u8]| {
    let Ok(layout) = stickleaf_files::read_bytes(data) else { return };
    assert_eq!(layout.validate(), Ok(()), "what is read makes sense");
    layout.stickers.iter().for_each(|sticker| assert_sound(&sticker.outline));
    let text = stickleaf_files::write(&layout);
    let again = stickleaf_files::read(&text).expect("what is written can be read");
    assert_eq!(again, layout, "what is written reads back the same");
    if layout.pieces.len() <= MOST_PIECES {
        check(&layout);
        score(&layout);
    }
});
