//! What the page and its workers say to each other.
//!
//! A message is a JavaScript array: a JSON text, then the buffers that go along without being copied. Layouts travel
//! as the text of a layout file, the same as would be written to disk.

mod pictures;

pub use pictures::*;

use js_sys::{Array, ArrayBuffer, JsString};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};

/// What the page asks of a worker that searches.
#[derive(Debug, Serialize, Deserialize)]
pub enum Ask {
    /// Find places.
    Pack {
        /// The text of the layout file.
        layout: String,
        /// What for.
        aim: PackAim,
        /// Where chance starts.
        seed: u64,
        /// How many rounds; without a number, until told to stop or nothing is left to try.
        rounds: Option<u64>,
    },
    /// Find the empty room.
    Room {
        /// The text of the layout file.
        layout: String,
        /// Which state of the layout it is; comes back with the answer.
        revision: u64,
    },
    /// Find places for variants of a layout in turns, so that each has the same time.
    Compare {
        /// The variants that are this worker's.
        tasks: Vec<CompareTask>,
        /// What for.
        aim: PackAim,
        /// Where chance starts, for each.
        seed: u64,
        /// When each has had enough.
        enough: Enough,
    },
    /// Stop packing and hand over the best so far.
    Stop,
}

/// What packing is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PackAim {
    /// All wanted copies.
    Place,
    /// As many as fit.
    Fill,
    /// All of them, as large as possible.
    Grow,
    /// All of them, the smallest gap as large as possible.
    Even,
    /// All of them, on the lowest sheet.
    Shorten,
}

/// One variant to find places for.
#[derive(Debug, Serialize, Deserialize)]
pub struct CompareTask {
    /// The card that it is for; comes back with the answers.
    pub card: usize,
    /// The text of the layout file.
    pub layout: String,
}

/// When a search has had enough, if nothing is left to try before.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Enough {
    /// After so many milliseconds of its own.
    Milliseconds(f64),
    /// After so many rounds.
    Rounds(u64),
}

/// What a worker that searches answers.
#[derive(Debug, Serialize, Deserialize)]
pub enum Answer {
    /// How far packing is.
    Packing(PackNews),
    /// Packing has ended, and came so far.
    Packed(PackNews),
    /// How far the search for one variant is.
    Compared(CardNews),
    /// The empty room.
    Room(RoomFound),
    /// It could not be done; a sentence that says what to do.
    Refused(String),
}

/// How far the search for one variant is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardNews {
    /// The card that it is for.
    pub card: usize,
    /// How long it has searched, in milliseconds.
    pub used_ms: f64,
    /// Rounds done.
    pub round: u64,
    /// Whether it has ended.
    pub is_over: bool,
    /// Why it cannot be packed; a sentence that says what to do.
    pub refused: Option<String>,
    /// The best layout so far, if it is another one than was sent before.
    pub best: Option<CardBest>,
}

/// The best layout of a variant so far. It has passed the rule check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardBest {
    /// The text of the layout file.
    pub layout: String,
    /// What it amounts to.
    pub figures: Figures,
}

/// What a layout amounts to; lengths in millimetres. See `stickleaf_sheet::Summary`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Figures {
    /// Pieces on the sheet.
    pub placed: usize,
    /// Wanted copies without a place.
    pub missing: usize,
    /// The proven bound.
    pub ceiling: usize,
    /// Area inside the cut lines over the usable area, 0 to 1.
    pub density: f64,
    /// The smallest gap between two cut lines; nothing with fewer than two pieces.
    pub smallest_gap: Option<f64>,
    /// How large the largest dot is across that would still fit, if one would.
    pub largest_dot: Option<f64>,
}

/// How far packing is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PackNews {
    /// Rounds done.
    pub round: u64,
    /// Pieces in the best layout so far.
    pub placed: usize,
    /// How many wanted copies it lacks.
    pub missing: usize,
    /// The proven bound.
    pub ceiling: usize,
    /// Area inside the cut lines over the usable area, 0 to 1.
    pub density: f64,
    /// How much larger its stickers are than those given; 1 unless growing.
    pub scale: f64,
    /// Its smallest gap in millimetres, while evening.
    pub gap: Option<f64>,
    /// The height of its sheet in millimetres.
    pub height: f64,
    /// What it is doing, in plain words.
    pub doing: String,
    /// The text of the layout file, if it is better than the last one sent.
    pub layout: Option<String>,
}

/// What would still fit on a sheet.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct RoomFound {
    /// Which state of the layout it is about.
    pub revision: u64,
    /// Round cut lines that could all lie on the sheet together, the largest first.
    pub dots: Vec<RoomDot>,
    /// The least diameter that was looked for, in millimetres.
    pub least: f64,
    /// Stickers of which a copy would fit, each by itself, the best first.
    pub fits: Vec<RoomFit>,
}

/// A round cut line that would fit, in sheet millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RoomDot {
    /// Its middle, from the left.
    pub x: f64,
    /// Its middle, from the top.
    pub y: f64,
    /// How large it is across.
    pub diameter: f64,
}

/// A sticker of which a copy would fit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RoomFit {
    /// Its id.
    pub sticker: String,
    /// Where its own (0, 0) would lie, from the left in sheet millimetres.
    pub x: f64,
    /// Where its own (0, 0) would lie, from the top.
    pub y: f64,
    /// How it would be turned.
    pub degrees: f64,
    /// Whether it would be flipped.
    pub mirrored: bool,
    /// How large its drawing would be, as a share of its size; 1 for full size.
    pub scale: f64,
}

/// The message for something to say, and the buffers to hand over with it.
pub fn pack(message: &impl Serialize, buffers: &[ArrayBuffer]) -> Array {
    // Plain structs, numbers and texts always make JSON.
    let text = serde_json::to_string(message).unwrap_or_default();
    let message = Array::of1(&JsValue::from_str(&text));
    for buffer in buffers {
        message.push(buffer);
    }
    message
}

/// What a message says, and the buffers that came with it. Nothing if it is no message of ours.
pub fn unpack<T: DeserializeOwned>(data: &JsValue) -> Option<(T, Vec<ArrayBuffer>)> {
    let array: &Array = data.dyn_ref()?;
    let text: String = array.get(0).dyn_into::<JsString>().ok()?.into();
    let buffers = array.iter().skip(1).filter_map(|item| item.dyn_into().ok()).collect();
    Some((serde_json::from_str(&text).ok()?, buffers))
}
