//! Opening a bundle: a worker takes it apart, and what was in it becomes a project of its own.

use js_sys::{Array, ArrayBuffer};
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::File;

use crate::browser::{files, picture};
use crate::messages::{PictureAnswer, PictureAsk};
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
        PictureAnswer::Unpacked { layout, pictures } => {
            spawn_local(lay_out(desk, name.clone(), layout, pictures, buffers));
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

async fn lay_out(desk: Desk, name: String, layout: String, pictures: Vec<String>, buffers: Vec<ArrayBuffer>) {
    let opened = match stickleaf_files::read(&layout) {
        Ok(layout) => keeping::begin_new(desk, words::open(), layout).await.map_err(|error| error.told()),
        Err(error) => Err(error.told()),
    };
    match opened {
        Ok(is_safe) => {
            if is_safe {
                keeping::forget_pictures(desk);
            }
            for (name, buffer) in pictures.into_iter().zip(buffers) {
                take_picture(desk, name, &buffer).await;
            }
            desk.place.set(Place::Desk);
            let missing = missing_count(desk);
            if missing == 0 {
                desk.say(words::opened(&name), None);
            } else {
                desk.say_attention(words::opened_without(&name, missing), None);
            }
        }
        Err(why) => desk.say_trouble(words::could_not_open(&name, &why)),
    }
}

/// Keeps a picture of the bundle, and shows it.
async fn take_picture(desk: Desk, name: String, buffer: &ArrayBuffer) {
    let own = name.rsplit('/').next().unwrap_or(&name);
    let Ok(file) = File::new_with_buffer_source_sequence(&Array::of1(buffer), own) else { return };
    keeping::keep_picture(desk, name.clone(), file.clone(), None);
    let decoded = if files::ends_with(&file, ".svg") {
        picture::load_drawing_of(&file).await
    } else {
        picture::load_pixels(&file, None).await
    };
    // A picture that the browser cannot decode leaves its stickers with their outlines only.
    if let Ok(decoded) = decoded {
        desk.pictures.put(name, decoded);
        keeping::note_pictures(desk);
    }
}

/// How many pictures the layout names that nobody has.
fn missing_count(desk: Desk) -> usize {
    let files = desk.peek(|editor| samples::art_files(editor.layout()));
    files.iter().filter(|file| !keeping::has_picture(desk, file)).count()
}
