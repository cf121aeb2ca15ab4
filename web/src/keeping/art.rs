//! The pictures of a project: onto the device when they come in, and back onto the desk when it is opened.

use js_sys::ArrayBuffer;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;
use web_sys::{Blob, File};

use super::autosave::save_soon;
use super::keeper::WaitingPicture;
use super::records::{Art, ArtPlace, KeptPicture};
use super::save_state::Why;
use super::store::Store;
use crate::browser::{digest, files, picture, time};
use crate::canvas::Miniature;
use crate::correction;
use crate::pictures::Picture;
use crate::samples::{art_files, bytes_beside, lend_art, lent_bytes};
use crate::state::Desk;
use crate::words;

/// Keeps a picture that came in under the name by which the layout knows it.
///
/// `size_px` is that of the whole picture, in CSS pixels for a drawing without pixels; nothing to believe the file.
pub fn keep_picture(desk: Desk, name: String, bytes: File, size_px: Option<(f64, f64)>) {
    let is_drawing = files::ends_with(&bytes, ".svg");
    let picture = WaitingPicture { name, bytes, size_px, is_drawing };
    desk.keeping.waiting.update_value(|waiting| waiting.push(picture));
    desk.keeping.note_art();
    save_soon(desk);
}

/// Whether a picture of this name belongs to what is on the desk.
pub fn has_picture(desk: Desk, name: &str) -> bool {
    desk.keeping.art.with_value(|art| art.contains_key(name))
        || desk.keeping.waiting.with_value(|waiting| waiting.iter().any(|picture| picture.name == name))
}

/// The bytes of a picture that belongs to what is on the desk: from the device, from memory where it waits to be kept, or
/// from beside the page. Nothing if it is nowhere to be had.
pub async fn picture_bytes(desk: Desk, name: &str) -> Option<ArrayBuffer> {
    let keeping = desk.keeping;
    let is_named = |picture: &&WaitingPicture| picture.name == name;
    let waiting = keeping.waiting.with_value(|waiting| waiting.iter().rev().find(is_named).cloned());
    if let Some(picture) = waiting {
        return files::buffer(&picture.bytes).await.ok();
    }
    if let Some(kept) = keeping.art.with_value(|art| art.get(name).cloned()) {
        let bytes = keeping.store().await.ok()?.picture(&kept.key).await.ok()??;
        return files::buffer(&bytes).await.ok();
    }
    lent_bytes(desk, name).await
}

/// The layout of a kept project, as the text of its file, and those of its pictures that are there: names and bytes.
///
/// Errors: the project cannot be read from the device.
pub async fn with_pictures(desk: Desk, id: &str) -> Result<(String, Vec<(String, ArrayBuffer)>), Why> {
    let store = desk.keeping.store().await?;
    let (project, text) = store.load(id).await?.ok_or(Why::Failed)?;
    let layout = correction::read_kept(&text, project.changed_ms).map_err(|_| Why::Failed)?;
    let mut pictures = Vec::new();
    for file in art_files(&layout) {
        let place = project.art.iter().find(|art| art.file == file).map(|art| &art.place);
        let bytes = match place {
            Some(ArtPlace::Kept(kept)) => match store.picture(&kept.key).await {
                Ok(Some(bytes)) => files::buffer(&bytes).await.ok(),
                _ => None,
            },
            Some(ArtPlace::Lent(folder)) => bytes_beside(&format!("{folder}{file}")).await,
            None => None,
        };
        pictures.extend(bytes.map(|bytes| (file, bytes)));
    }
    Ok((stickleaf_files::write(&layout), pictures))
}

/// Notes that a picture has come that the project's small picture does not show yet.
pub fn note_pictures(desk: Desk) {
    desk.keeping.miniature.update_value(Miniature::forget_pictures);
    desk.keeping.note_art();
    save_soon(desk);
}

/// Puts the pictures that wait onto the device. Those that do not get there go on waiting.
pub(super) async fn put_waiting(desk: Desk, store: &Store) -> Result<(), Why> {
    let keeping = desk.keeping;
    let mut result = Ok(());
    for waiting in keeping.waiting.get_value() {
        let WaitingPicture { name, bytes, size_px, is_drawing } = waiting.clone();
        if let Ok(buffer) = files::buffer(&bytes).await {
            let key = digest::of_content(&buffer).await.unwrap_or_else(digest::by_chance);
            // Bytes in hand, and not the file they came from, which may change or go.
            let parts = js_sys::Array::of1(&buffer);
            let Ok(own) = Blob::new_with_buffer_source_sequence(&parts) else { continue };
            if let Err(why) = store.put_picture(&key, &own, time::date_ms()).await {
                result = Err(why);
                continue;
            }
            keeping.art.update_value(|art| {
                art.insert(name, KeptPicture { key, size_px, is_drawing });
            });
        } else {
            // It was moved away meanwhile, and cannot be read any more.
            desk.say_attention(words::picture_not_kept(&name), None);
        }
        keeping.waiting.update_value(|all| all.retain(|other| !other.is_same(&waiting)));
        keeping.note_art();
    }
    result
}

/// Brings the pictures of a state back, those of them that these files name.
pub(super) fn bring_back(desk: Desk, art: Vec<Art>, files: &[String]) {
    for Art { file, place } in art.into_iter().filter(|art| files.contains(&art.file)) {
        match place {
            ArtPlace::Lent(folder) => lend_art(desk, folder, vec![file]),
            ArtPlace::Kept(kept) => {
                let is_known = desk.keeping.art.with_value(|art| art.get(&file) == Some(&kept));
                let is_shown = desk.pictures.with_untracked(|pictures| pictures.contains_key(&file));
                desk.keeping.art.update_value(|art| drop(art.insert(file.clone(), kept.clone())));
                if !(is_known && is_shown) {
                    spawn_local(show(desk, file, kept));
                }
            }
        }
    }
}

/// A picture that is not there any more, or cannot be decoded, leaves its stickers with their outlines only.
async fn show(desk: Desk, file: String, kept: KeptPicture) {
    let Ok(store) = desk.keeping.store().await else { return };
    let Ok(Some(bytes)) = store.picture(&kept.key).await else { return };
    let Ok(picture) = decode(bytes, &kept).await else { return };
    // Meanwhile another project may lie on the desk.
    if desk.keeping.art.with_value(|art| art.get(&file) == Some(&kept)) {
        desk.pictures.put(file, picture);
        desk.keeping.miniature.update_value(Miniature::forget_pictures);
    }
}

async fn decode(bytes: Blob, kept: &KeptPicture) -> Result<Picture, JsValue> {
    if !kept.is_drawing {
        return picture::load_pixels(&bytes, kept.size_px).await;
    }
    let drawing = picture::load_drawing_of(&bytes).await?;
    Ok(match kept.size_px {
        Some((width_px, height_px)) => drawing.sized(width_px, height_px),
        None => drawing,
    })
}
