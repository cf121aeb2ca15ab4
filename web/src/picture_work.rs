//! Asking a worker for one thing that has to do with pictures, and what it needs for it.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::ArrayBuffer;
use web_sys::{ErrorEvent, MessageEvent};

use crate::browser::time;
use crate::browser::worker_link::{Program, WorkerLink};
use crate::keeping::Why;
use crate::messages::{DesignAsk, PictureAnswer, PictureAsk, pack, unpack};
use crate::samples::art_files;
use crate::state::Desk;
use crate::{keeping, words};

/// The layout on the desk as a worker needs it: its text, and the names and bytes of those of its pictures that are there.
pub struct Gathered {
    /// The text of the layout file.
    pub layout: String,
    /// The names by which the layout knows the pictures.
    pub pictures: Vec<String>,
    /// Their bytes, in the same order.
    pub buffers: Vec<ArrayBuffer>,
}

/// Gathers the layout as it is now. What is not there is missed by the worker, which says so.
pub async fn gather(desk: Desk) -> Gathered {
    let (layout, names) =
        desk.peek(|editor| (stickleaf_files::write(editor.layout()), art_files(editor.layout())));
    let (mut pictures, mut buffers) = (Vec::new(), Vec::new());
    for name in names {
        if let Some(bytes) = keeping::picture_bytes(desk, &name).await {
            pictures.push(name);
            buffers.push(bytes);
        }
    }
    Gathered { layout, pictures, buffers }
}

/// The layout on the desk and kept ones as a worker needs them to make something of pages that they share, each with how many sheets
/// of it are wanted, the desk's first; and the bytes of their pictures.
///
/// Errors: a kept one cannot be read from the device.
pub async fn gather_designs(
    desk: Desk,
    wanted: u64,
    others: Vec<(String, u64)>,
) -> Result<(Vec<DesignAsk>, Vec<ArrayBuffer>), Why> {
    let Gathered { layout, pictures, mut buffers } = gather(desk).await;
    let mut designs = vec![DesignAsk { layout, pictures, wanted }];
    for (id, wanted) in others {
        let (layout, found) = keeping::with_pictures(desk, &id).await?;
        let (pictures, bytes): (Vec<String>, Vec<ArrayBuffer>) = found.into_iter().unzip();
        designs.push(DesignAsk { layout, pictures, wanted });
        buffers.extend(bytes);
    }
    Ok((designs, buffers))
}

/// Asks once. `take` gets every answer and says whether it was the last one; the worker is ended then. If it fails the
/// page says so, and `take` is not called any more.
pub fn ask_once(
    desk: Desk,
    ask: &PictureAsk,
    buffers: &[ArrayBuffer],
    mut take: impl FnMut(PictureAnswer, Vec<ArrayBuffer>) -> bool + 'static,
) {
    let link: Rc<RefCell<Option<WorkerLink>>> = Rc::default();
    let end = {
        let link = link.clone();
        move || {
            // Dropped a moment later, since it is what is calling.
            let link = link.borrow_mut().take();
            time::after(0, move || drop(link));
        }
    };
    let end_on_error = end.clone();
    let on_message = move |event: MessageEvent| {
        if let Some((answer, buffers)) = unpack(&event.data())
            && take(answer, buffers)
        {
            end();
        }
    };
    let on_error = move |event: ErrorEvent| {
        desk.say_trouble(words::worker_failed(&event.message()));
        end_on_error();
    };
    let started = WorkerLink::start(Program::Pictures, on_message, on_error);
    match started.and_then(|link| link.post(&pack(ask, buffers), buffers).map(|()| link)) {
        Ok(started) => *link.borrow_mut() = Some(started),
        Err(error) => desk.say_trouble(words::worker_failed(&format!("{error:?}"))),
    }
}
