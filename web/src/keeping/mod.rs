//! Work is safe on the device: every change is kept as a project, with its pictures and its earlier states.
//!
//! Start reading at `keeper.rs` for what is known, then at `autosave.rs` for when something is written. `store.rs` is
//! the only file that knows how it lies on the device; `thinning.rs`, `names.rs` and `save_state.rs` decide, and know no
//! browser.
//!
//! Two promises. A change is on the device half a second after it was made. And nothing is ever overwritten by an older
//! state: one tab alone keeps a project (`two_tabs.rs`), and a write that finds another revision than it relies on
//! writes nothing.

mod art;
mod autosave;
mod earlier_visit;
mod keeper;
mod names;
mod opening;
mod project_list;
mod records;
mod save_state;
mod start;
mod store;
mod thinning;
mod two_tabs;
mod versions;
mod when;

pub use art::{has_picture, keep_picture, note_pictures, picture_bytes, with_pictures};
pub use autosave::{save, save_at_once};
pub use keeper::Keeping;
pub use opening::{begin_new, forget_pictures, open};
pub use project_list::{begin_like_this, delete, duplicate, list, rename, start_empty, undo_delete};
pub use records::{Occasion, Project, Version};
pub use save_state::{SaveState, Why};
pub use start::start;
pub use two_tabs::{keep_a_copy, take_over};
pub use versions::{go_back, keep_version, versions};
pub use when::when;
