//! What packing can aim for, each with its own way to go about it.
//!
//! `count` puts down as many as asked. The other aims are one loop, `ladder`, over attempts at a fixed size, gap or
//! height: `grow`, `even` and `shorten` say what its steps mean, `rung` makes a step ready, `engine` is how one
//! attempt is made, and `arranging` sees to those in a rough setting.

mod arranging;
mod climb;
mod count;
mod engine;
mod even;
mod grow;
mod ladder;
mod lowering;
mod measure;
mod rung;
mod shorten;
mod spread;
mod stand;
mod start;
mod strip;

use stickleaf_sheet::{Layout, StickerId, ceiling, check_pieces, placed_cut_lines};

use crate::ground::Ground;
use crate::pack::{Aim, PackError, PackOptions, Progress};

/// Points looked up in a round, roughly: five to thirty milliseconds, in the browser too.
pub const ROUND_WORK: u64 = 250_000;

/// A search with an aim, one round at a time. Its best layout keeps every hard rule whenever it is asked for.
pub trait Course: Send {
    /// Works for about [`ROUND_WORK`] points; does nothing once finished.
    fn round(&mut self);

    /// How far the search is. The number of rounds is left to the caller.
    fn progress(&self) -> Progress;

    /// The best layout so far.
    fn best(&self) -> &Layout;

    /// Stickers of which wanted copies have found no place yet, and how many.
    fn missing(&self) -> Vec<(StickerId, usize)>;
}

/// The course for an aim.
///
/// Errors: see [`PackError`].
pub fn course(layout: &Layout, options: &PackOptions) -> Result<Box<dyn Course>, PackError> {
    let seed = options.seed;
    layout.validate()?;
    if !matches!(options.aim, Aim::Place | Aim::Fill) {
        // Worked out once here, cut lines and areas are shared by all copies that are made of the layout.
        ceiling(layout);
    }
    Ok(match options.aim {
        Aim::Place | Aim::Fill => Box::new(count::Count::new(layout, options.aim, seed)?),
        Aim::Grow => Box::new(ladder::Ladder::new(layout, grow::Grow::new(layout), seed)?),
        Aim::Even => Box::new(ladder::Ladder::new(layout, even::Even::new(layout), seed)?),
        Aim::Shorten if strip::is_for(layout, &Ground::new(layout)) => {
            Box::new(strip::Strip::new(layout, &Ground::new(layout), seed)?)
        }
        Aim::Shorten => Box::new(ladder::Ladder::new(layout, shorten::Shorten::new(layout), seed)?),
    })
}

/// An error if locked pieces break a rule among themselves: they stay, so no layout round them can keep it.
fn refuse_broken_rules(locked: &Layout) -> Result<(), PackError> {
    match check_pieces(locked, &placed_cut_lines(locked)).first() {
        Some(finding) => Err(PackError::LockedPiecesBreakRules {
            finding: Box::new(finding.clone()),
            locked: Box::new(locked.clone()),
        }),
        None => Ok(()),
    }
}
