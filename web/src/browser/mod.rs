//! Thin wraps round what the browser offers, one a file. Nothing here knows the layout.

pub mod download;
pub mod files;
pub mod keep;
pub mod offline;
pub mod picture;
pub mod soon;
pub mod time;
pub mod worker_link;
