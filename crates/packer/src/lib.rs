//! Finds places for stickers: these, all of them ([`Aim::Place`]), as many as fit ([`Aim::Fill`]), or all of them as
//! large ([`Aim::Grow`]), as far apart ([`Aim::Even`]) or on as low a sheet as possible ([`Aim::Shorten`]).
//!
//! Start reading at [`pack`]; [`Search`] is the same work cut into rounds, for a caller who has other things to do
//! meanwhile. Locked pieces stay where they are; all others may move.
//!
//! What comes back always passes [`stickleaf_sheet::check_pieces`] with every turn allowed, whenever the search is
//! stopped. The same layout, seed and number of rounds give the same answer on every platform, bit for bit.
//!
//! This crate opens no file, reads no clock and draws chance from the seed only.
//!
//! The way through the crate: `search` is the door, `aims` decides what is tried next: `aims/count` for the number of
//! pieces, `aims/ladder` step by step for a size, a gap or a height, `aims/strip` for a height if all stickers lie in a
//! few turns only. `lattice` lays rows of one sticker, `build` puts piece after piece into free spots (`meeting`) among
//! what is `laid` already, `shake` takes pieces up again, `settle` evens out the gaps; `proof` says what is in vain.
//! Two searches take a crowded layout apart: `separate` pushes and turns pieces freely, `rearrange` looks places up in
//! no-fit polygons, much faster, but in a few turns only; detailed outlines it arranges roughly, for `separate` to go
//! on from there. Round stickers alone have a third one: `hop`, which lets them push each other like springs (`soft`,
//! down a slope by `descent`). What they leave undone by a hair, `squeeze` and `fit` mend by moving all pieces at once.
//! They stand on `ground` (what stays the same), `body` (a piece that moves), `overlap` and `contact` (rough measures
//! by `field` and `discs`), `polish` (the true lines) and `push` (moving everything at once). `answer` rounds, puts
//! together and checks; nothing is shown that did not pass there.
//!
//! ```
//! use stickleaf_outline::path;
//! use stickleaf_packer::{Aim, PackOptions, pack};
//! use stickleaf_sheet::{Layout, Sticker, Wanted};
//!
//! let mut crab = Sticker::new("crab", "Crab", path::parse("M-10 -6H10V6H-10Z")?);
//! crab.wanted = Wanted::Exactly(4);
//! let layout = Layout { stickers: vec![crab], ..Layout::default() };
//! let options = PackOptions { aim: Aim::Place, seed: 1 };
//! let packing = pack(&layout, &options, Some(50), &mut |_| true)?;
//! assert_eq!(packing.layout.pieces.len(), 4);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod aims;
mod answer;
mod body;
mod build;
mod contact;
mod descent;
mod discs;
mod field;
mod fit;
mod goal;
mod ground;
mod hop;
mod laid;
mod lattice;
mod linear;
mod meeting;
mod moves;
mod overlap;
mod pack;
mod polish;
#[doc(hidden)]
pub mod probe;
mod proof;
mod push;
mod random;
mod rearrange;
mod room;
mod room_for;
mod search;
mod separate;
mod settle;
mod shake;
mod shape;
mod soft;
mod spots;
mod squeeze;
mod stretches;
mod touch;
mod turns;

pub use pack::{Aim, Doing, PackError, PackOptions, Packing, Progress, pack};
pub use room_for::{Fit, LEAST_SCALE, room_for};
pub use search::Search;
