//! The parts of the page, one a file. They read the desk, and ask it to change.

pub mod actions;
pub mod background;
pub mod drawer;
pub mod empty;
pub mod fields;
pub mod findings;
pub mod hand_bar;
pub mod import_dialog;
pub mod keys_dialog;
mod modal;
pub mod my_sheets;
pub mod not_saved_bar;
pub mod notice;
pub mod pieces;
pub mod press;
pub mod room;
pub mod save_mark;
pub mod sheet;
pub mod sticker;
pub mod tally;
pub mod thumbnail;
pub mod top_bar;
pub mod tray;
pub mod view_buttons;
pub mod ways;
