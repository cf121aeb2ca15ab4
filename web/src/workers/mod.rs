//! The workers' side: hears what the page asks, and answers.
//!
//! Workers run one of two programs. The *searching* one packs, compares and finds the empty room; it is small and starts at
//! once. The *picture* one reads pictures and makes new ones; with all that it needs to know of file formats it is the
//! largest part of the page, and comes when art comes in or a sheet goes out.

mod kept_pictures;
mod looking;
mod pages;
mod pressing;
mod scope;
mod searching;
mod unpacking;

use js_sys::ArrayBuffer;
use wasm_bindgen::JsValue;

use crate::messages::{Made, PictureAnswer, PictureAsk};
use kept_pictures::KeptPictures;
use scope::{hand_over, say};

/// Makes this worker answer what the page asks of the searching one.
///
/// Errors: the browser has no message channels.
pub fn start_searching() -> Result<(), JsValue> {
    scope::speak_as_the_page();
    searching::start()
}

/// Makes this worker answer what the page asks of the picture one.
pub fn start_pictures() {
    scope::speak_as_the_page();
    scope::listen(|ask, buffers| answer_pictures(ask, &buffers));
}

fn answer_pictures(ask: PictureAsk, buffers: &[ArrayBuffer]) {
    match ask {
        PictureAsk::Import { names, wishes } => {
            let found = names
                .iter()
                .zip(buffers)
                .map(|(name, buffer)| looking::look_at(name, buffer, &wishes))
                .collect();
            say(&PictureAnswer::Imported(found));
        }
        PictureAsk::Unpack => match unpacking::unpack(buffers) {
            Ok((unpacked, pictures)) => hand_over(&PictureAnswer::Unpacked(unpacked), &pictures),
            Err(why) => say(&PictureAnswer::Refused(why)),
        },
        PictureAsk::Ink { layout, pictures } => {
            let mut pictures = KeptPictures::new(pictures, buffers);
            match pressing::ink(&layout, &mut pictures) {
                Ok(coverage) => say(&PictureAnswer::Inked(coverage)),
                Err(why) => say(&PictureAnswer::Refused(why)),
            }
        }
        PictureAsk::Press { layout, pictures, order } => {
            let mut pictures = KeptPictures::new(pictures, buffers);
            hand_over_made(pressing::make(&layout, &mut pictures, &order));
        }
        PictureAsk::Pages { designs, stock, order } => {
            hand_over_made(pages::make(designs, buffers, &stock, order));
        }
    }
}

fn hand_over_made(made: Result<(Made, ArrayBuffer), String>) {
    match made {
        Ok((made, bytes)) => hand_over(&PictureAnswer::Pressed(made), &[bytes]),
        Err(why) => say(&PictureAnswer::Refused(why)),
    }
}
