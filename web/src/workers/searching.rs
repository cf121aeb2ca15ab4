//! Packing, comparing and the empty room, in slices, so that the worker hears what the page says meanwhile.

use std::cell::RefCell;
use std::rc::Rc;

use wasm_bindgen::JsValue;

use super::scope::{listen, now_ms, say};
use crate::browser::soon::Soon;
use crate::compare::Rota;
use crate::messages::{Answer, Ask};
use crate::packing::{Packing, Step};

type Desk = Rc<RefCell<Option<Work>>>;

/// What goes on in slices.
enum Work {
    Packing(Box<Packing>),
    Comparing(Rota),
}

/// Listens for what the page asks.
///
/// Errors: the browser has no message channels.
pub fn start() -> Result<(), JsValue> {
    let desk: Desk = Rc::default();
    let packing = desk.clone();
    let slices = Soon::new(move || slice(&packing))?;
    listen(move |ask, _| answer(&desk, &slices, ask));
    Ok(())
}

fn answer(desk: &Desk, slices: &Soon, ask: Ask) {
    match ask {
        Ask::Pack { layout, aim, seed, rounds } => match Packing::new(&layout, aim, seed, rounds, now_ms()) {
            Ok(packing) => {
                *desk.borrow_mut() = Some(Work::Packing(Box::new(packing)));
                slices.call();
            }
            Err(why) => say(&Answer::Refused(why)),
        },
        Ask::Compare { tasks, aim, seed, enough } => {
            *desk.borrow_mut() = Some(Work::Comparing(Rota::new(tasks, aim, seed, enough)));
            slices.call();
        }
        Ask::Room { layout, revision } => say(&crate::room::look(&layout, revision)),
        Ask::Stop => match desk.borrow_mut().as_mut() {
            Some(Work::Packing(packing)) => packing.is_told_to_stop = true,
            Some(Work::Comparing(rota)) => rota.is_told_to_stop = true,
            None => {}
        },
    }
}

/// One slice of the work; whether there is more to do.
fn slice(desk: &Desk) -> bool {
    let mut slot = desk.borrow_mut();
    let packing = match slot.as_mut() {
        Some(Work::Packing(packing)) => packing,
        Some(Work::Comparing(rota)) => {
            if let Some(news) = rota.slice(now_ms) {
                say(&news);
            }
            return !rota.is_over();
        }
        None => return false,
    };
    match packing.slice(now_ms) {
        Step::Open(news) => {
            if let Some(news) = news {
                say(&news);
            }
            true
        }
        Step::Ended(last) => {
            *slot = None;
            say(&last);
            false
        }
    }
}
