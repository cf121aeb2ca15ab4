//! Any text, as the inside of an SVG and as the whole file: sound outlines or a named error.

#![no_main]

use libfuzzer_sys::fuzz_target;
use stickleaf_art::{ImportOptions, import};
use stickleaf_fuzz::assert_sound;

fuzz_target!(|text: &str| {
    let inside = format!(r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 72 72">{text}</svg>"#);
    for file in [text, &inside] {
        if let Ok(found) = import(file.as_bytes(), &ImportOptions::default()) {
            found.drawings.iter().for_each(|drawing| assert_sound(&drawing.outline));
        }
    }
});
