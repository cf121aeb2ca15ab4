//! Closed outlines in millimetres: what a sticker's drawing becomes, and what a blade follows.
//!
//! The way through this crate: a picture's cover ([`Mask`]) falls into separate drawings ([`islands`]), each is traced
//! to a closed line within a stated tolerance ([`trace`]) and grown by the white border ([`border`]) to the *cut
//! line*. Parts that one border surrounds are taken together ([`joined`], [`bridged`]). Two cut lines on a sheet are
//! compared by [`gap`]; what would tear or not cut well is found by [`thin_part`] and [`tight_inner_corner`].
//!
//! Conventions everywhere: millimetres, x to the right, y **down**; angles in degrees, clockwise as seen. Pixels exist
//! in the mask of a picture only.
//!
//! This crate opens no file, reads no clock and knows nothing of sheets or rules. Every result is the same on every
//! platform, bit for bit, for the same input.
//!
//! ```
//! use stickleaf_outline::{border, gap, path, Placement};
//!
//! let square = path::parse("M-5 -5H5V5H-5Z")?;
//! let cut_line = border(&square, 1.5);
//! let left = cut_line.placed(&Placement::at(20.0, 20.0));
//! let right = cut_line.placed(&Placement::at(35.0, 20.0));
//! assert!((gap(&left, &right).distance - 2.0).abs() < 0.03);
//! # Ok::<(), path::PathError>(())
//! ```

mod border;
mod corners;
mod disc;
mod distance;
mod finish;
mod islands;
mod joining;
mod mask;
mod outline;
pub mod path;
mod pen;
mod placement;
mod plain;
mod region;
mod search;
pub mod shapes;
mod simplify;
mod smooth;
mod thickness;
mod trace;

pub use border::{BORDER_TOLERANCE, border};
pub use corners::{CORNER_SHARE, TightCorner, tight_inner_corner};
pub use disc::{Disc, depth, depth_beyond, inner_disc};
pub use distance::{Gap, gap, gap_within};
pub use finish::{FINISH_TOLERANCE, MovedOut, Radii, WideSpot, moved_out, rounded, widened};
pub use islands::{HALF_COVER, Island, Islands, MOST_SPECKS_LISTED, PixelBounds, islands};
pub use joining::{BRIDGE_WIDTH, SEAM_WIDTH, bridged, joined, sealed};
pub use mask::{Mask, MaskError};
pub use outline::{GRID, MOST_COORDINATE, Outline, OutlineError, ring_area};
pub use pen::Pen;
pub use placement::{Motion, Placement, Turn};
pub use plain::{LEAST_SIDE, MOST_SIDE, PlainShape, PlainShapeError};
pub use region::Region;
pub use simplify::thinned;
pub use smooth::smoothed;
pub use thickness::{ThinPart, WIDTH_TOLERANCE, thin_part};
pub use trace::{LEAST_DETAIL, MOST_TRACED_POINTS, TraceError, TraceOptions, USUAL_DETAIL, raw_ring, trace};
