//! Thin wraps round what the browser offers, one a file. Nothing here knows the layout.

pub mod digest;
pub mod download;
pub mod files;
pub mod keep;
pub mod offline;
pub mod picture;
pub mod share;
pub mod soon;
pub mod storage;
pub mod tab_talk;
pub mod time;
pub mod web_lock;
pub mod worker_link;
