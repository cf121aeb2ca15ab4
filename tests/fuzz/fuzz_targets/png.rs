//! Any bytes behind a PNG's signature: sound outlines or a named error.

#![no_main]

use libfuzzer_sys::fuzz_target;
use stickleaf_art::{ImportOptions, import};
use stickleaf_fuzz::assert_sound;

/// PNG specification (W3C, ISO/IEC 15948), section 5.2.
const SIGNATURE: [u8; 8] = [0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a];

fuzz_target!(|data: &[u8]| {
    let bytes = [&SIGNATURE[..], data].concat();
    if let Ok(found) = import(&bytes, &ImportOptions::default()) {
        found.drawings.iter().for_each(|drawing| assert_sound(&drawing.outline));
    }
});
