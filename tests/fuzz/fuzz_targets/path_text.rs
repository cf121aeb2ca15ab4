//! Any text as path data: a sound outline that comes back the same, or a named error.

#![no_main]

use libfuzzer_sys::fuzz_target;
use stickleaf_fuzz::assert_sound;
use stickleaf_outline::path;

fuzz_target!(|text: &str| {
    let Ok(outline) = path::parse(text) else { return };
    assert_sound(&outline);
    let written = path::write(outline.points());
    assert_eq!(path::parse(&written).as_ref(), Ok(&outline), "what is written reads back the same");
});
