//! The entry: a layout and an aim in, a fuller layout out.

use stickleaf_sheet::{Finding, Layout, LayoutError, LengthUnit, StickerId};
use thiserror::Error;

use crate::search::Search;

/// What packing aims for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// These, all of them: every wanted copy and no more.
    Place,
    /// As many as fit: wanted copies first, then further copies of stickers of which more are welcome.
    Fill,
    /// All of them, as large as possible: every outline is scaled about its (0, 0) by one common scale.
    ///
    /// The border keeps its width, and a sticker's picture goes along with its outline. A sticker of which a piece is
    /// locked keeps its size, since locked pieces stay exactly as they are. If the pieces do not all fit as they are,
    /// the scale falls below 1.
    Grow,
    /// All of them, the smallest gap of two pieces as large as possible.
    ///
    /// Pieces keep half of that gap from the sheet's edge and from zones where that is more than the rules ask, so that
    /// each has its share of the room. The rules of the layout stay what they are.
    Even,
    /// All of them, on the lowest sheet: only its height changes, and zones stay where they are.
    ///
    /// If the pieces do not all fit on the sheet as it is, it becomes taller. A zone that lies wholly above the bottom
    /// edge is never cut off; of one that reaches the bottom edge, a part may be.
    Shorten,
}

/// How to pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PackOptions {
    /// What to aim for.
    pub aim: Aim,
    /// Where chance starts; another seed searches another way.
    pub seed: u64,
}

/// How far a search is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// Rounds done so far.
    pub round: u64,
    /// Pieces in the best layout so far.
    pub placed: usize,
    /// Copies that must be there.
    pub wanted: usize,
    /// No layout under these rules holds more; see [`stickleaf_sheet::ceiling`].
    pub ceiling: usize,
    /// Area inside the cut lines over the usable area of the sheet, 0 to 1.
    pub density: f64,
    /// The height of the best layout's sheet, in millimetres.
    pub height: f64,
    /// How much larger the best layout's stickers are than those given; 1 unless growing.
    pub scale: f64,
    /// The smallest gap of the best layout in millimetres; known while evening only, and with two pieces or more.
    pub gap: Option<f64>,
    /// What the last round did.
    pub doing: Doing,
    /// Nothing more to try: all wanted copies lie there under [`Aim::Place`], or the count meets the ceiling, or scale,
    /// gap or height have not become better for very long; or it is proved that not all wanted copies fit, and what
    /// else could be placed has been or has failed for some time.
    pub finished: bool,
}

/// What a round of the search does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Nothing yet.
    Starting,
    /// Putting piece after piece into free spots.
    Placing,
    /// Pushing pieces that lie too close away from each other.
    Separating,
    /// Looking for room for one more.
    Adding,
    /// Evening out the gaps.
    Settling,
    /// Making all pieces larger.
    Growing,
    /// Moving pieces further away from each other.
    Spreading,
    /// Making do with less height.
    Lowering,
}

impl Doing {
    /// The same in plain words.
    pub fn text(self) -> &'static str {
        match self {
            Doing::Starting => "getting ready",
            Doing::Placing => "putting pieces into free spots",
            Doing::Separating => "pushing crowded pieces apart",
            Doing::Adding => "looking for room for one more",
            Doing::Settling => "evening out the gaps",
            Doing::Growing => "growing all pieces",
            Doing::Spreading => "spreading pieces out",
            Doing::Lowering => "lowering the sheet",
        }
    }
}

/// Why nothing can be packed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PackError {
    /// No copies are asked for.
    #[error(
        "no copies are wanted; say how many of each sticker there should be, or fill with stickers of which more are welcome"
    )]
    NothingToPlace,
    /// Locked pieces stay, so no layout round them can keep the rules.
    #[error(
        "{}, and locked pieces stay where they are; unlock or move one of them",
        finding.sentence(locked, LengthUnit::Millimetres)
    )]
    LockedPiecesBreakRules {
        /// The first broken rule.
        finding: Box<Finding>,
        /// The layout that it is about: the one given with nothing but its locked pieces.
        locked: Box<Layout>,
    },
    /// The layout makes no sense.
    #[error(transparent)]
    Layout(#[from] LayoutError),
}

/// What packing comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Packing {
    /// The best layout found. It keeps every hard rule. Its sheet or its stickers have the size reached, if the aim is
    /// to change that.
    pub layout: Layout,
    /// How far the search came.
    pub progress: Progress,
    /// Stickers of which wanted copies found no place, and how many.
    pub missing: Vec<(StickerId, usize)>,
}

/// The best layout found in so many rounds, or until `go_on` says no, or until nothing is left to try.
///
/// `go_on` is asked after each round, some milliseconds apart. Without a number of rounds it must say no some day: a
/// search that has neither met the ceiling nor is proved to be in vain never ends by itself.
///
/// Locked pieces stay where they are. Free pieces are placed anew; a sound layout that already meets the aim comes back
/// as it is. Given a layout that keeps the rules, the answer never holds fewer wanted copies, nor fewer pieces with as
/// many wanted copies. [`Aim::Grow`], [`Aim::Even`] and [`Aim::Shorten`] take what lies on the sheet as wanted too.
///
/// Errors: see [`PackError`]. Wanted copies that find no place are no error; they are named in [`Packing::missing`].
pub fn pack(
    layout: &Layout,
    options: &PackOptions,
    rounds: Option<u64>,
    go_on: &mut dyn FnMut(&Progress) -> bool,
) -> Result<Packing, PackError> {
    let mut search = Search::new(layout, options)?;
    let mut progress = search.progress();
    while !progress.finished && rounds.is_none_or(|rounds| progress.round < rounds) {
        progress = search.round();
        if !go_on(&progress) {
            break;
        }
    }
    Ok(Packing { layout: search.best(), progress, missing: search.missing() })
}
