//! Decoding pictures for the screen.

use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, HtmlImageElement, ImageBitmap, ImageBitmapOptions, ResizeQuality, Url};

use crate::pictures::Picture;

/// The longest side of a picture kept for the screen, in pixels: sharp enough on a tablet, 16 MB at most.
const MOST_SIDE_PX: f64 = 2048.0;

/// The picture at an address.
pub async fn load(url: &str) -> Result<Picture, JsValue> {
    let element: HtmlImageElement = document().create_element("img")?.unchecked_into();
    element.set_src(url);
    JsFuture::from(element.decode()).await?;
    Ok(Picture::element(element))
}

/// A drawing without pixels, from a file in memory.
pub async fn load_drawing(file: &Blob) -> Result<Picture, JsValue> {
    // The address stays valid as long as the page, because the browser may draw the picture again at another size.
    load(&Url::create_object_url_with_blob(file)?).await
}

/// A drawing without pixels, from bytes that do not say that they are one: the browser takes them for one only if told.
pub async fn load_drawing_of(bytes: &Blob) -> Result<Picture, JsValue> {
    load_drawing(&bytes.slice_with_f64_and_f64_and_content_type(0.0, bytes.size(), "image/svg+xml")?).await
}

/// A picture with pixels, decoded no larger than the screen needs if its own size is given.
pub async fn load_pixels(file: &Blob, size_px: Option<(f64, f64)>) -> Result<Picture, JsValue> {
    let (width_px, height_px) = size_px.unwrap_or_default();
    let shrink = (MOST_SIDE_PX / width_px.max(height_px).max(1.0)).min(1.0);
    let bitmap = if shrink < 1.0 {
        let options = ImageBitmapOptions::new();
        options.set_resize_width((width_px * shrink).round().max(1.0) as u32);
        options.set_resize_height((height_px * shrink).round().max(1.0) as u32);
        options.set_resize_quality(ResizeQuality::Medium);
        window().create_image_bitmap_with_blob_and_image_bitmap_options(file, &options)?
    } else {
        window().create_image_bitmap_with_blob(file)?
    };
    let bitmap: ImageBitmap = JsFuture::from(bitmap).await?.unchecked_into();
    let own_size = (f64::from(bitmap.width()), f64::from(bitmap.height()));
    let (width_px, height_px) = size_px.unwrap_or(own_size);
    Ok(Picture::bitmap(bitmap, width_px, height_px))
}
