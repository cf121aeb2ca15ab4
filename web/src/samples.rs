//! What there is to begin with: the samples beside the page, and a tiny one in the page itself.

use js_sys::{ArrayBuffer, Uint8Array};
use leptos::prelude::*;
use leptos::task::spawn_local;
use serde::Deserialize;
use stickleaf_outline::{Placement, path};
use stickleaf_sheet::{Layout, Piece, STYLES, Sticker, Turns, Wanted};

use crate::browser::picture;
use crate::keeping;
use crate::state::Desk;
use crate::words;

/// Where the samples lie, beside the page.
const FOLDER: &str = "sample-layouts/";

/// A layout to begin with.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Sample {
    /// What it is called.
    pub name: String,
    /// Its layout file, in the samples' folder.
    pub file: String,
}

/// The samples that there are.
#[derive(Clone, Copy)]
pub struct Samples {
    /// All of them, the one that the page opens with first; filled once their list has arrived.
    pub list: RwSignal<Vec<Sample>>,
}

impl Samples {
    /// None yet.
    pub fn new() -> Samples {
        Samples { list: RwSignal::new(Vec::new()) }
    }
}

/// Fetches the list of samples, then does what follows.
pub fn fetch_list(samples: Samples, then: impl FnOnce() + 'static) {
    spawn_local(async move {
        if let Ok(answer) = gloo::net::http::Request::get(&format!("{FOLDER}index.json")).send().await
            && let Ok(list) = answer.json::<Vec<Sample>>().await
        {
            samples.list.set(list);
        }
        then();
    });
}

/// Begins with the first sample, or the built-in one if there is no other; there is nothing to take back.
pub fn begin(desk: Desk, samples: Samples) {
    let begun = desk.begun.get_untracked();
    spawn_local(async move {
        let first = samples.list.with_untracked(|list| list.first().cloned());
        let fetched = match &first {
            Some(sample) => fetch_layout(&url_of(sample)).await,
            None => None,
        };
        // Something may have been opened or brought in meanwhile.
        if desk.begun.get_untracked() != begun || !desk.is_expendable() {
            return desk.is_settled.set(true);
        }
        keeping::forget_pictures(desk);
        let (layout, base) = match (fetched, &first) {
            (Some(layout), Some(sample)) => (layout, folder_of(sample)),
            _ => (built_in(), String::new()),
        };
        let files = art_files(&layout);
        match desk.restore(layout) {
            Ok(()) => {
                desk.mark_untouched();
                lend_art(desk, base, files);
            }
            Err(error) => desk.say_error(error),
        }
    });
}

/// Opens the first sample, or the built-in one if there is no other; what was on the desk is kept.
pub fn open_first(desk: Desk, samples: Samples) {
    match samples.list.with_untracked(|list| list.first().cloned()) {
        Some(sample) => open(desk, sample),
        None => spawn_local(lay_out(desk, built_in(), String::new())),
    }
}

/// Opens a sample; what was on the desk is kept. If it cannot be had, the page says so and everything stays.
pub fn open(desk: Desk, sample: Sample) {
    spawn_local(async move {
        match fetch_layout(&url_of(&sample)).await {
            Some(layout) => lay_out(desk, layout, folder_of(&sample)).await,
            None => desk.say_trouble(words::sample_failed()),
        }
    });
}

fn url_of(sample: &Sample) -> String {
    format!("{FOLDER}{}", sample.file)
}

/// The folder that a sample's file lies in, with a slash at its end.
fn folder_of(sample: &Sample) -> String {
    let url = url_of(sample);
    url.rfind('/').map(|slash| url[..=slash].to_owned()).unwrap_or_default()
}

async fn fetch_layout(url: &str) -> Option<Layout> {
    let answer = gloo::net::http::Request::get(url).send().await.ok()?;
    stickleaf_files::read(&answer.text().await.ok()?).ok()
}

async fn lay_out(desk: Desk, layout: Layout, base: String) {
    let files = art_files(&layout);
    match keeping::begin_new(desk, words::open_sample(), layout).await {
        Ok(is_safe) => {
            desk.mark_untouched();
            if is_safe {
                keeping::forget_pictures(desk);
            }
            lend_art(desk, base, files);
        }
        Err(error) => desk.say_error(error),
    }
}

/// The picture files that a layout names.
pub fn art_files(layout: &Layout) -> Vec<String> {
    let of_stickers = layout.stickers.iter().filter_map(|sticker| Some(sticker.art.as_ref()?.file.clone()));
    let of_backgrounds = layout.backgrounds.iter().filter_map(|background| background.picture.clone());
    let mut files: Vec<String> = of_stickers.chain(of_backgrounds).collect();
    files.sort();
    files.dedup();
    files
}

/// Loads these pictures from a folder beside the page, each once.
pub fn lend_art(desk: Desk, base: String, files: Vec<String>) {
    for file in files {
        if !desk.pictures.is_new(&file) {
            continue;
        }
        let url = format!("{base}{file}");
        desk.lent.update(|lent| lent.push((file.clone(), base.clone())));
        spawn_local(async move {
            // A picture that does not come leaves its stickers with their outlines only.
            if let Ok(picture) = picture::load(&url).await {
                desk.pictures.put(file, picture);
            }
        });
    }
}

/// The bytes of a picture that came from beside the page.
pub async fn lent_bytes(desk: Desk, file: &str) -> Option<ArrayBuffer> {
    let is_named = |(name, _): &&(String, String)| name == file;
    let base =
        desk.lent.with_untracked(|lent| lent.iter().rev().find(is_named).map(|(_, base)| base.clone()))?;
    bytes_beside(&format!("{base}{file}")).await
}

/// The bytes of a file beside the page; nothing if it cannot be had.
pub async fn bytes_beside(address: &str) -> Option<ArrayBuffer> {
    let answer = gloo::net::http::Request::get(address).send().await.ok()?;
    let bytes = if answer.ok() { answer.binary().await.ok()? } else { return None };
    Some(Uint8Array::from(bytes.as_slice()).buffer())
}

/// A few plain shapes, so that the page is never empty.
pub fn built_in() -> Layout {
    let shapes = [
        ("pebble", "Pebble", "M-11 2C-12 -7 -4 -9 3 -8C11 -7 13 0 10 5C6 11 -10 10 -11 2Z", Turns::Any, 3),
        (
            "star",
            "Star",
            "M0 -11L3.2 -3.9L10.9 -3.1L5.2 2.1L6.8 9.7L0 5.8L-6.8 9.7L-5.2 2.1L-10.9 -3.1L-3.2 -3.9Z",
            Turns::Within(15.0),
            2,
        ),
        ("label", "Label", "M-14 -5H14A5 5 0 0 1 14 5H-14A5 5 0 0 1 -14 -5Z", Turns::None, 1),
        ("dot", "Dot", "M-5 0A5 5 0 1 1 5 0A5 5 0 1 1 -5 0Z", Turns::Any, 2),
    ];
    let mut layout = Layout { name: "Plain shapes".to_owned(), ..Layout::default() };
    for (id, name, data, turns, wanted) in shapes {
        let Ok(outline) = path::parse(data) else { continue };
        let mut sticker = Sticker::new(id, name, outline);
        sticker.turns = turns;
        sticker.wanted = Wanted::AtLeast(wanted);
        layout.stickers.push(sticker);
    }
    layout.backgrounds = STYLES.iter().map(|style| style.background(&layout.sheet, &layout.rules)).collect();
    layout.background = layout.backgrounds.get(1).map(|background| background.name.clone());
    let places = [
        ("pebble", 24.0, 44.0, 0.0),
        ("star", 55.0, 45.0, 8.0),
        ("label", 52.0, 72.0, 0.0),
        ("dot", 82.0, 42.0, 0.0),
        ("pebble", 30.0, 100.0, 200.0),
        ("star", 72.0, 104.0, -10.0),
    ];
    layout.pieces =
        places.map(|(id, x, y, turn)| Piece::new(id.into(), Placement::turned(x, y, turn))).to_vec();
    layout
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_built_in_layout_makes_sense_and_keeps_the_rules() {
        let layout = built_in();
        assert_eq!(layout.validate(), Ok(()));
        assert_eq!(layout.stickers.len(), 4);
        let broken: Vec<_> =
            stickleaf_sheet::check(&layout).into_iter().filter(|finding| finding.is_broken()).collect();
        assert_eq!(broken, []);
    }
}
