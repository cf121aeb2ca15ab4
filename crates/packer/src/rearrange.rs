//! Rearranging pieces that may lie in a few turns each.
//!
//! With the turns fixed, everything that two pieces have to say to each other is in one no-fit polygon, so what a place
//! costs is looked up instead of measured, a hundred times as fast. `lies` are the ways to lie and their polygons,
//! `board` and `boxes` are the pieces on the sheet, `moves` finds the cheapest place for one piece, `untangle` takes a
//! whole arrangement apart, and `linear` moves all pieces at once; `disturb` is for what does not come apart. `setting`
//! makes all this from a layout's ground, and `attempt` goes there and back for a search that knows bodies only. `rough` is
//! for detailed outlines, which `collapse` makes simple.

pub mod attempt;
pub mod board;
pub mod boxes;
mod collapse;
pub mod disturb;
pub mod lies;
pub mod linear;
pub mod moves;
pub mod rough;
pub mod setting;
pub mod untangle;
