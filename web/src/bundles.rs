//! Opening a bundle: a worker takes it apart, and what was in it becomes a project of its own.

use js_sys::{Array, ArrayBuffer};
use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_sheet::Layout;
use web_sys::File;

use crate::bring_in::unused_file_name;
use crate::browser::{files, picture};
use crate::messages::{PictureAnswer, PictureAsk, Unpacked, UnpackedPicture};
use crate::picture_work::ask_once;
use crate::state::{Desk, Place};
use crate::words::{self, Told};
use crate::{keeping, samples};

/// Opens a bundle. If it cannot be opened, the page says why, and what was open stays open.
pub async fn open(desk: Desk, file: File) {
    let name = file.name();
    let Ok(buffer) = files::buffer(&file).await else {
        return desk.say_trouble(words::could_not_read(&name));
    };
    let take = move |answer: PictureAnswer, buffers: Vec<ArrayBuffer>| match answer {
        PictureAnswer::Unpacked(unpacked) => {
            spawn_local(open_unpacked(desk, name.clone(), unpacked, buffers));
            true
        }
        PictureAnswer::Refused(why) => {
            desk.say_trouble(words::could_not_open(&name, &why));
            true
        }
        _ => false,
    };
    ask_once(desk, &PictureAsk::Unpack, &[buffer], take);
}

async fn open_unpacked(desk: Desk, name: String, unpacked: Unpacked, buffers: Vec<ArrayBuffer>) {
    match lay_out(desk, &unpacked, &buffers).await {
        Ok(missing) => {
            desk.place.set(Place::Desk);
            match (missing, unpacked.passed_over.len()) {
                (0, 0) => desk.say(words::opened(&name), None),
                (0, over) => desk.say_attention(words::opened_passing_over(&name, over), None),
                (missing, _) => desk.say_attention(words::opened_without(&name, missing), None),
            }
        }
        Err(why) => desk.say_trouble(words::could_not_open(&name, &why)),
    }
}

/// Puts the layout on the desk, and keeps and shows its pictures; gives how many it names that nobody has.
async fn lay_out(desk: Desk, bundle: &Unpacked, buffers: &[ArrayBuffer]) -> Result<usize, String> {
    let mut layout = stickleaf_files::read(&bundle.layout).map_err(|error| error.told())?;
    // If what is on the desk cannot be put away, it shares the desk with the bundle, and pictures go by their names.
    let rename = |picture: &UnpackedPicture| {
        let name = unused_file_name(desk, &picture.name);
        for file in art_files_mut(&mut layout).filter(|file| **file == picture.name) {
            file.clone_from(&name);
        }
        name
    };
    let names: Vec<String> = bundle.pictures.iter().map(rename).collect();
    let is_safe = keeping::begin_new(desk, words::open(), layout).await.map_err(|error| error.told())?;
    if is_safe {
        keeping::forget_pictures(desk);
    }
    for ((name, picture), buffer) in names.into_iter().zip(&bundle.pictures).zip(buffers) {
        take_picture(desk, name, picture.size_px, buffer).await;
    }
    let files = desk.peek(|editor| samples::art_files(editor.layout()));
    Ok(files.iter().filter(|file| !keeping::has_picture(desk, file)).count())
}

/// Keeps a picture of the bundle, and shows it, no larger than the screen needs.
async fn take_picture(desk: Desk, name: String, size_px: Option<(f64, f64)>, buffer: &ArrayBuffer) {
    let own = name.rsplit('/').next().unwrap_or(&name);
    let Ok(file) = File::new_with_buffer_source_sequence(&Array::of1(buffer), own) else { return };
    keeping::keep_picture(desk, name.clone(), file.clone(), size_px);
    let decoded = if files::ends_with(&file, ".svg") {
        picture::load_drawing_of(&file).await
    } else {
        picture::load_pixels(&file, size_px).await
    };
    // A picture that the browser cannot decode leaves its stickers with their outlines only.
    if let Ok(decoded) = decoded {
        desk.pictures.put(name, decoded);
        keeping::note_pictures(desk);
    }
}

fn art_files_mut(layout: &mut Layout) -> impl Iterator<Item = &mut String> {
    let of_stickers = layout.stickers.iter_mut().filter_map(|sticker| Some(&mut sticker.art.as_mut()?.file));
    let of_backgrounds = layout.backgrounds.iter_mut().filter_map(|background| background.picture.as_mut());
    of_stickers.chain(of_backgrounds)
}
