//! From files to the desk: layouts are opened, pictures become stickers.

use std::sync::Arc;

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_sheet::{Layout, MM_PER_INCH, STYLES, Sticker};
use web_sys::File;

use crate::browser::{files, picture};
use crate::bundles;
use crate::job::Job;
use crate::keeping;
use crate::messages::{ImportWishes, Imported};
use crate::samples::art_files;
use crate::state::{Desk, Place};
use crate::words::{self, Told};

/// The longest specks that are left out unless another limit is set, in millimetres.
const SMALLEST_MM: f64 = stickleaf_art::USUAL_SMALLEST;

/// Opens layouts and placement files; gives pictures back to stickers that miss them; imports all other pictures.
pub fn take_files(desk: Desk, job: Job, files: Vec<File>) {
    spawn_local(async move {
        desk.notice.set(None);
        let mut pictures = Vec::new();
        for file in files {
            if files::ends_with(&file, ".json") {
                open(desk, &file).await;
            } else if files::ends_with(&file, ".stickleaf") {
                bundles::open(desk, file).await;
            } else if is_picture(&file) {
                pictures.push(file);
            } else {
                desk.say_trouble(words::unknown_kind(&file.name()));
            }
        }
        let mut to_import = Vec::new();
        for file in pictures {
            if !give_back(desk, &file).await {
                to_import.push(file);
            }
        }
        if !to_import.is_empty() {
            desk.place.set(Place::Desk);
            job.import(to_import, usual_wishes(desk));
        }
    });
}

/// How pictures are looked at unless the artist wishes otherwise.
pub fn usual_wishes(desk: Desk) -> ImportWishes {
    let border_mm = desk.peek(|editor| editor.layout().rules.border);
    ImportWishes { border_mm, smallest_mm: SMALLEST_MM, join: true, ..ImportWishes::default() }
}

fn is_picture(file: &File) -> bool {
    files::ends_with(file, ".png") || files::ends_with(file, ".svg") || file.type_().starts_with("image/")
}

async fn open(desk: Desk, file: &File) {
    let name = file.name();
    let Ok(text) = files::text(file).await else {
        return desk.say_trouble(words::could_not_read(&name));
    };
    let opened = match stickleaf_files::read(&text) {
        Ok(layout) => keeping::begin_new(desk, words::open(), layout).await.map_err(|error| error.told()),
        Err(error) => Err(error.told()),
    };
    match opened {
        Ok(_) => {
            desk.place.set(Place::Desk);
            desk.say(words::opened(&name), None);
        }
        Err(why) => desk.say_trouble(words::could_not_open(&name, &why)),
    }
}

/// True if stickers on the desk were waiting for a picture of this name, and it could be decoded.
async fn give_back(desk: Desk, file: &File) -> bool {
    let name = file.name();
    let is_named = |known: &String| known.rsplit('/').next() == Some(&name);
    let waiting: Vec<String> = desk
        .peek(|editor| art_files(editor.layout()))
        .into_iter()
        .filter(is_named)
        .filter(|known| desk.pictures.with_untracked(|pictures| !pictures.contains_key(known)))
        .collect();
    if waiting.is_empty() {
        return false;
    }
    let decoded = if files::ends_with(file, ".svg") {
        picture::load_drawing(file).await
    } else {
        picture::load_pixels(file, None).await
    };
    let Ok(decoded) = decoded else { return false };
    for known in waiting {
        desk.pictures.put(known.clone(), decoded.clone());
        keeping::keep_picture(desk, known, file.clone(), None);
    }
    desk.say(words::picture_is_back(&name), None);
    true
}

/// Puts the stickers that were found on the tray, as one undo step, and decodes their pictures for the screen.
///
/// An untouched sample makes room; its sheet and rules stay.
pub fn add_stickers(desk: Desk, found: Vec<Imported>, files: Vec<File>) {
    let mut stickers: Vec<Sticker> = Vec::new();
    let mut pictures = Vec::new();
    for (imported, source) in found.into_iter().zip(files) {
        let Ok(layout) = stickleaf_files::read(&imported.layout) else { continue };
        let is_taken = |name: &str| pictures.iter().any(|(file, ..): &(String, _, _)| file == name);
        let file = unused_file_name_but(desk, &imported.name, is_taken);
        for mut sticker in layout.stickers {
            if let Some(art) = &mut sticker.art {
                art.file.clone_from(&file);
            }
            stickers.push(sticker);
        }
        pictures.push((file, source, imported));
    }
    let count = stickers.len();
    let makes_room = desk.is_expendable();
    let added = desk.change(words::step_import(), |layout| {
        if makes_room {
            *layout = Layout { sheet: layout.sheet, rules: layout.rules, ..Layout::default() };
            layout.backgrounds =
                STYLES.iter().map(|style| style.background(&layout.sheet, &layout.rules)).collect();
        }
        for mut sticker in stickers {
            sticker.id = unused_id(layout, &sticker.name);
            layout.stickers.push(sticker);
        }
    });
    match added {
        Ok(()) => desk.say(words::added(count), None),
        Err(error) => desk.say_error(error),
    }
    for (file, source, imported) in pictures {
        take_picture(desk, file, source, imported);
    }
}

/// Takes the picture of what was found, under the name by which its stickers know it: to be kept, and to be shown.
pub fn take_picture(desk: Desk, file: String, source: File, imported: Imported) {
    desk.pictures.note_source(&source, &file);
    let size_px = size_px(&imported);
    keeping::keep_picture(desk, file.clone(), source.clone(), Some(size_px));
    spawn_local(show_picture(desk, file, source, imported.pixels.is_none(), size_px));
}

/// The size of a whole picture in pixels, or in CSS pixels if it is a drawing without pixels.
fn size_px(imported: &Imported) -> (f64, f64) {
    match imported.pixels {
        Some((width, height)) => (f64::from(width), f64::from(height)),
        None => {
            let px = 96.0 / MM_PER_INCH;
            (imported.drawn_mm.0 * px, imported.drawn_mm.1 * px)
        }
    }
}

async fn show_picture(desk: Desk, file: String, source: File, is_drawing: bool, size_px: (f64, f64)) {
    let decoded = if is_drawing {
        picture::load_drawing(&source).await.map(|drawing| drawing.sized(size_px.0, size_px.1))
    } else {
        picture::load_pixels(&source, Some(size_px)).await
    };
    // A picture that the browser cannot decode leaves its stickers with their outlines only.
    if let Ok(decoded) = decoded {
        desk.pictures.put(file, decoded);
        keeping::note_pictures(desk);
    }
}

/// The file's name, with a number in front if another picture has it already, or had it before stickers got parts of it.
pub fn unused_file_name(desk: Desk, name: &str) -> String {
    unused_file_name_but(desk, name, |_| false)
}

/// The same, and none that is taken otherwise.
pub fn unused_file_name_but(desk: Desk, name: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let is_cut_up = |name: &str| {
        let is_part = |sticker: &Sticker| {
            sticker.art.as_ref().is_some_and(|art| art.part.is_some() && art.picture() == name)
        };
        desk.peek(|editor| editor.layout().stickers.iter().any(is_part))
    };
    let is_used = |name: &str| {
        desk.pictures.with_untracked(|pictures| pictures.contains_key(name))
            || keeping::has_picture(desk, name)
            || is_cut_up(name)
            || is_taken(name)
    };
    let numbered = (2..).map(|number| format!("{number} {name}"));
    std::iter::once(name.to_owned()).chain(numbered).find(|name| !is_used(name)).unwrap_or_default()
}

/// An id made from a name that no sticker of the layout has.
pub fn unused_id(layout: &Layout, name: &str) -> Arc<str> {
    let stem = crate::browser::download::file_stem(name);
    let numbered = (2..).map(|number| format!("{stem}-{number}"));
    let id = std::iter::once(stem.clone()).chain(numbered).find(|id| layout.sticker(id).is_none());
    id.unwrap_or(stem).into()
}
