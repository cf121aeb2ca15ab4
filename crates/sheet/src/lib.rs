//! The document and its laws: a sheet, the stickers wanted on it, the pieces that lie on it, and the one rule check.
//!
//! Start reading at [`Layout`], then [`check`]. Everything here is plain data and functions of it: no file is opened,
//! no clock read, nothing printed.
//!
//! Conventions everywhere: millimetres, x to the right, y down, the sheet's top left corner at (0, 0); angles in
//! degrees, clockwise as seen. A number in another unit says so in its name.
//!
//! Breaking a rule is a [`Finding`], not an error: a layout that breaks rules can be opened, drawn, saved and mended.
//! A [`LayoutError`] is something that makes no sense at all, such as a piece of a sticker that does not exist.

mod again;
mod art;
mod background;
mod carried;
mod ceiling;
mod check;
mod correction;
mod finding;
mod finishing;
mod layout;
mod length_text;
mod memo;
mod merge;
mod piece;
mod quantity;
mod redraw;
mod reimport;
mod room;
mod rules;
mod score;
mod sheet;
mod sticker;
mod styles;
mod summary;
mod units;
mod variants;
mod warnings;

pub use art::{Art, Part};
pub use background::{Background, Zone};
pub use carried::Carried;
pub use ceiling::{Ceiling, CeilingReason, ceiling, ceiling_with_reason, has_strays};
pub use check::{RULE_TOLERANCE, check, check_piece, check_pieces, placed_cut_lines};
pub use correction::{Correction, MOST_LIGHTER, MOST_WARMER};
pub use finding::{Finding, Mark, Rule, Severity, Unit};
pub use finishing::{moved_by_finish, thickened, thickened_all};
pub use layout::{Layout, LayoutError};
pub use length_text::{LengthTextError, read_length};
pub use memo::Memos;
pub use merge::{MOST_MERGED_GAP, MergeError, Merged, merged};
pub use piece::Piece;
pub use quantity::{Named, Quantity};
pub use redraw::{DrawnSize, redrawn, resized, scaled};
pub use reimport::{Matched, MatchedBy, PLACE_SHARE, Reimport, SHAPE_SHARE, reimport};
pub use room::{
    DOT_SLACK, EmptyRoom, LEAST_DOT, ROOM_TOLERANCE, RoomChart, dot, empty_room, empty_room_beside,
    room_chart,
};
pub use rules::Rules;
pub use score::{Score, score, score_from, score_with, smallest_gap};
pub use sheet::{SHEET_SIZES, Sheet, usable_region};
pub use sticker::{Sticker, StickerId, Turns, Wanted};
pub use styles::{STYLES, Style, refit_styles};
pub use summary::{Summary, summary, summary_with};
pub use units::{LengthUnit, MM_PER_INCH};
pub use variants::{Change, Remark, Subject, Variant, is_same_task, usual_changes, variant, variants};
pub use warnings::warnings;
