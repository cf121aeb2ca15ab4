//! Files that the artist chose or dropped.

use js_sys::ArrayBuffer;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, DragEvent, File, FileList, HtmlInputElement};

/// The files of a list.
fn listed(list: Option<FileList>) -> Vec<File> {
    let list = list.as_ref();
    let count = list.map_or(0, FileList::length);
    (0..count).filter_map(|i| list.and_then(|list| list.get(i))).collect()
}

/// The files chosen with an input, which is emptied so that the same file can be chosen again.
pub fn chosen(input: &HtmlInputElement) -> Vec<File> {
    let files = listed(input.files());
    input.set_value("");
    files
}

/// The files that were let go over the page.
pub fn dropped(event: &DragEvent) -> Vec<File> {
    listed(event.data_transfer().and_then(|transfer| transfer.files()))
}

/// Whether what is dragged over the page holds files.
pub fn holds_files(event: &DragEvent) -> bool {
    let types = event.data_transfer().map(|transfer| transfer.types());
    types.is_some_and(|types| types.includes(&JsValue::from_str("Files"), 0))
}

/// A file's content, ready to be handed to a worker without a copy.
pub async fn buffer(file: &Blob) -> Result<ArrayBuffer, JsValue> {
    Ok(JsFuture::from(file.array_buffer()).await?.unchecked_into())
}

/// A file's content as text; bytes that are not UTF-8 become replacement characters.
pub async fn text(file: &File) -> Result<String, JsValue> {
    Ok(JsFuture::from(file.text()).await?.as_string().unwrap_or_default())
}

/// Whether a file's name ends like this; large and small letters count as the same.
pub fn ends_with(file: &File, ending: &str) -> bool {
    file.name().to_lowercase().ends_with(ending)
}
