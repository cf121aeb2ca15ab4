//! Names for things: by their content, or by chance.

use js_sys::{ArrayBuffer, Reflect, Uint8Array};
use leptos::prelude::window;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::Crypto;

/// A name that the same bytes always get and other bytes never: their SHA-256 in hexadecimal digits.
///
/// Nothing if the browser works none out, as for pages that came over an open connection.
pub async fn of_content(bytes: &ArrayBuffer) -> Option<String> {
    let crypto = crypto()?;
    if !Reflect::get(&crypto, &"subtle".into()).is_ok_and(|subtle| subtle.is_object()) {
        return None;
    }
    let promise = crypto.subtle().digest_with_str_and_buffer_source("SHA-256", bytes);
    let digest: ArrayBuffer = JsFuture::from(promise.ok()?).await.ok()?.unchecked_into();
    Some(hexadecimal(&Uint8Array::new(&digest).to_vec()))
}

/// A name that nothing else has: 32 hexadecimal digits by chance.
pub fn by_chance() -> String {
    let mut bytes = [0; 16];
    let is_drawn = crypto().is_some_and(|crypto| crypto.get_random_values_with_u8_array(&mut bytes).is_ok());
    if !is_drawn {
        // Every browser has it; two names in one millisecond are the worst that can happen.
        bytes[..8].copy_from_slice(&js_sys::Date::now().to_bits().to_be_bytes());
    }
    hexadecimal(&bytes)
}

fn crypto() -> Option<Crypto> {
    window().crypto().ok()
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_byte_has_two_digits() {
        assert_eq!(hexadecimal(&[0, 10, 255]), "000aff");
    }
}
