//! Moving pieces by hand: knows fingers and pens, not browsers.
//!
//! An [`Editor`] holds a layout, what is chosen on it, how it is looked at, and every step taken so far. A program
//! passes it what the hand does as [`Input`] and draws what it finds: [`Editor::layout`], [`Editor::lines`],
//! [`Editor::findings`], [`Editor::measures`].
//!
//! Invariants: one gesture is one undo step, and a gesture that is taken away leaves no trace; the layout is always a
//! valid one; the cut lines are always those of the layout. Breaking a rule is no error here: the piece goes where the
//! hand puts it, and the findings say what is wrong with that.
//!
//! No clock is read and no browser type known: times come with the input, in milliseconds; places on the canvas are in
//! pixels, on the sheet in millimetres.
//!
//! ```
//! use kurbo::Point;
//! use stickleaf_editor::{Editor, Input, PointerKind, Press};
//! use stickleaf_outline::{path, Placement};
//! use stickleaf_sheet::{Layout, Piece, Sticker};
//!
//! let mut layout = Layout::default();
//! layout.stickers.push(Sticker::new("dot", "Dot", path::parse("M-5 -5H5V5H-5Z")?));
//! layout.pieces.push(Piece::new("dot".into(), Placement::at(50.0, 70.0)));
//! let mut editor = Editor::new(layout);
//!
//! let at = editor.view().to_canvas(Point::new(50.0, 70.0));
//! let to = editor.view().to_canvas(Point::new(60.0, 70.0));
//! let kind = PointerKind::Pen;
//! editor.input(Input::Down(Press { id: 1, kind, at, extend: false, pan: false, time_ms: 0.0 }));
//! editor.input(Input::Move { id: 1, at: to, time_ms: 200.0 });
//! editor.input(Input::Up { id: 1, at: to, time_ms: 250.0 });
//! assert_eq!(editor.layout().pieces[0].placement.at, Point::new(60.0, 70.0));
//! assert_eq!(editor.undo_label().map(ToString::to_string), Some("Move Dot".to_owned()));
//! # Ok::<(), path::PathError>(())
//! ```

mod act;
mod arrange;
mod blob;
mod boxed;
mod document;
mod editor;
mod free_spot;
mod gaps;
mod gesture;
mod history;
mod hit;
mod input;
mod label;
mod measure;
mod mend;
mod names;
mod nudge;
mod pieces;
mod refusal;
mod rough;
mod shortest;
mod sketch;
mod tap;
mod view;
mod zones;

pub use arrange::{Align, SpaceOut};
pub use blob::{BlobError, LEAST_BLOB};
pub use editor::Editor;
pub use gesture::Resting;
pub use history::MOST_STEPS;
pub use hit::TurnHandle;
pub use input::{Habits, Input, Key, PointerKind, Press, Step, Stride, Tool};
pub use label::{Label, Work, Worked, ZoneWork};
pub use measure::Measure;
pub use mend::{FIX_REACH, Fix, MendedAll, NoFix};
pub use names::Names;
pub use refusal::Refusal;
pub use sketch::Sketch;
pub use view::View;
pub use zones::{ZoneGrip, ZoneHandle};
