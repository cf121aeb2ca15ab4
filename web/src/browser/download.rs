//! Handing a file to the artist.

use js_sys::{Array, ArrayBuffer, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

use super::time;

/// How long the browser gets to begin a download before its content is let go, in milliseconds.
const GRACE_MS: u32 = 60_000;

/// Saves text under this name through the browser's own download.
///
/// Errors: the browser refused; then nothing was saved.
pub fn download(name: &str, media_type: &str, text: &str) -> Result<(), JsValue> {
    offer(name, media_type, &Uint8Array::from(text.as_bytes()))
}

/// Saves bytes under this name through the browser's own download.
///
/// Errors: the browser refused; then nothing was saved.
pub fn download_bytes(name: &str, media_type: &str, bytes: &ArrayBuffer) -> Result<(), JsValue> {
    offer(name, media_type, &Uint8Array::new(bytes))
}

fn offer(name: &str, media_type: &str, bytes: &Uint8Array) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(media_type);
    let parts = Array::of1(bytes);
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options)?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    link.click();
    time::after(GRACE_MS, move || {
        let _ = Url::revoke_object_url(&url);
    });
    Ok(())
}

/// A name that every file system takes: letters, digits and hyphens, nothing else; `sheet` if none are left.
pub fn file_stem(name: &str) -> String {
    let plain: String =
        name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    if words.is_empty() { "sheet".to_owned() } else { words.join("-") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_stems_are_plain() {
        assert_eq!(file_stem("Tide pool"), "tide-pool");
        assert_eq!(file_stem(" a/b: c? "), "a-b-c");
        assert_eq!(file_stem("…"), "sheet");
    }
}
