//! A sticker: a drawing with its outline, how many are wanted, how it may turn.

use std::sync::Arc;

use stickleaf_outline::{
    Disc, Outline, Radii, ThinPart, TightCorner, Turn, WideSpot, border, inner_disc, rounded, thin_part,
    tight_inner_corner, widened,
};

use crate::art::Art;
use crate::carried::Carried;
use crate::memo::Memos;
use crate::rules::Rules;

/// The short name by which pieces refer to their sticker; unique in a layout.
pub type StickerId = Arc<str>;

/// A drawing with its outline, border, how many are wanted and how it may turn.
#[derive(Clone, Debug, PartialEq)]
pub struct Sticker {
    /// Unique in the layout.
    pub id: StickerId,
    /// What the artist calls it.
    pub name: String,
    /// The line round the drawing, in its own millimetres; its (0, 0) is what a placement puts on the sheet.
    pub outline: Arc<Outline>,
    /// The path data that the outline was read from, written back as it was.
    pub path: Option<Arc<str>>,
    /// A border of its own in place of the rule's, in millimetres.
    pub border: Option<f64>,
    /// The smallest radii of its cut line, so that a blade can follow it; 0 where it may be sharp.
    pub radii: Radii,
    /// Spots at which its cut line is made wider than its border makes it.
    pub wide_spots: Vec<WideSpot>,
    /// How many copies are wanted.
    pub wanted: Wanted,
    /// Which turns are allowed.
    pub turns: Turns,
    /// Whether packing may flip it left to right.
    pub mirror: bool,
    /// The picture of it, if there is one.
    pub art: Option<Art>,
    /// Whether it only stands for a drawing that is still to be made.
    pub is_rough: bool,
    /// Whether its drawing was not found any more when its picture was brought in again.
    pub is_gone: bool,
    /// What its file says beyond that.
    pub carried: Carried,
    /// What has been worked out of its lines.
    pub memos: Memos,
}

impl Sticker {
    /// One copy wanted, upright, the rule's border, no picture.
    pub fn new(id: impl Into<StickerId>, name: impl Into<String>, outline: Outline) -> Sticker {
        Sticker {
            id: id.into(),
            name: name.into(),
            outline: Arc::new(outline),
            path: None,
            border: None,
            radii: Radii::default(),
            wide_spots: Vec::new(),
            wanted: Wanted::default(),
            turns: Turns::default(),
            mirror: false,
            art: None,
            is_rough: false,
            is_gone: false,
            carried: Carried::default(),
            memos: Memos::default(),
        }
    }

    /// The width of its white border in millimetres: its own, else the rule's.
    pub fn border_width(&self, rules: &Rules) -> f64 {
        self.border.unwrap_or(rules.border)
    }

    /// The line that the blade follows, in the sticker's own millimetres: the outline grown by the border, widened and
    /// rounded as the sticker asks. It is nowhere nearer to the outline than the border is wide.
    pub fn cut_line(&self, rules: &Rules) -> Arc<Outline> {
        let finish = Finish {
            border: self.border_width(rules),
            radii: self.radii,
            wide_spots: self.wide_spots.clone(),
        };
        self.memos.cut_line.get(&self.outline, finish, |finish| Arc::new(finish.cut_line(&self.outline)))
    }

    /// The same without rounding: what [`cut_line`](Sticker::cut_line) would be with radii of 0.
    pub fn sharp_line(&self, rules: &Rules) -> Outline {
        let border = self.border_width(rules);
        Finish { border, radii: Radii::default(), wide_spots: self.wide_spots.clone() }
            .cut_line(&self.outline)
    }

    /// The outline grown by the border alone.
    pub fn plain_line(&self, rules: &Rules) -> Outline {
        border(&self.outline, self.border_width(rules))
    }

    /// The part of its cut line that is too thin to peel well, if there is one; see [`thin_part`].
    pub fn thin_part(&self, rules: &Rules) -> Option<ThinPart> {
        let line = self.cut_line(rules);
        self.memos.thin_part.get(&line, rules.thinnest, |limit| thin_part(&line, *limit))
    }

    /// The inward corner of its cut line that is too sharp for a blade, if there is one; see [`tight_inner_corner`].
    pub fn tight_inner_corner(&self, rules: &Rules) -> Option<TightCorner> {
        let line = self.cut_line(rules);
        self.memos.inner_corner.get(&line, rules.inner_radius, |limit| tight_inner_corner(&line, *limit))
    }

    /// The radius of the largest disc inside its cut line, in millimetres; see [`inner_disc`].
    pub fn disc_radius(&self, rules: &Rules) -> f64 {
        self.inner_disc(rules).radius
    }

    /// The largest disc inside its cut line, in its own millimetres; see [`inner_disc`].
    pub fn inner_disc(&self, rules: &Rules) -> Disc {
        let line = self.cut_line(rules);
        self.memos.inner_disc.get(&line, 0.0, |_| inner_disc(&line))
    }
}

/// All that a cut line is made with, beside the outline.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Finish {
    border: f64,
    radii: Radii,
    wide_spots: Vec<WideSpot>,
}

impl Finish {
    fn cut_line(&self, outline: &Outline) -> Outline {
        let line = border(outline, self.border);
        rounded(&widened(&line, self.border, &self.wide_spots), self.border, self.radii)
    }
}

/// How many copies of a sticker are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// So many and no more.
    Exactly(u32),
    /// So many, and more where there is room.
    AtLeast(u32),
}

impl Wanted {
    /// The number that must be there.
    pub fn least(self) -> u32 {
        match self {
            Wanted::Exactly(count) | Wanted::AtLeast(count) => count,
        }
    }

    /// The number beyond which no more are wanted, if there is one.
    pub fn most(self) -> Option<u32> {
        match self {
            Wanted::Exactly(count) => Some(count),
            Wanted::AtLeast(_) => None,
        }
    }
}

impl Default for Wanted {
    fn default() -> Wanted {
        Wanted::Exactly(1)
    }
}

/// Which turns packing may give a piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Turns {
    /// Upright only.
    #[default]
    None,
    /// As it likes.
    Any,
    /// Up to so many degrees to either side.
    Within(f64),
    /// These turns in degrees and no others.
    Only(Vec<f64>),
}

/// How far a turn may be from an allowed one and still count as it, in degrees.
///
/// A millionth of a degree moves the rim of a 300 mm piece by 3 nanometres.
const TURN_TOLERANCE: f64 = 1e-6;

impl Turns {
    /// Whether a piece may lie like this.
    pub fn allow(&self, turn: Turn) -> bool {
        self.nearest(turn).distance_to(turn) <= TURN_TOLERANCE
    }

    /// The allowed turn nearest to this one; no turn at all if none is listed.
    pub fn nearest(&self, turn: Turn) -> Turn {
        match self {
            Turns::None => Turn::NONE,
            Turns::Any => turn,
            Turns::Within(degrees) => {
                if turn.distance_to(Turn::NONE) <= *degrees {
                    turn
                } else {
                    Turn::degrees(turn.to_signed_degrees().clamp(-degrees, *degrees))
                }
            }
            Turns::Only(list) => list
                .iter()
                .map(|&degrees| Turn::degrees(degrees))
                .min_by(|a, b| a.distance_to(turn).total_cmp(&b.distance_to(turn)))
                .unwrap_or(Turn::NONE),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_allow_what_they_name_and_find_the_nearest() {
        assert!(Turns::Any.allow(Turn::degrees(123.0)));
        assert!(!Turns::None.allow(Turn::degrees(1.0)));
        let tilt = Turns::Within(15.0);
        assert!(tilt.allow(Turn::degrees(-15.0)) && !tilt.allow(Turn::degrees(16.0)));
        assert_eq!(tilt.nearest(Turn::degrees(300.0)), Turn::degrees(345.0));
        let quarter = Turns::Only(vec![0.0, 90.0]);
        assert!(quarter.allow(Turn::degrees(90.0)) && !quarter.allow(Turn::degrees(45.0)));
        assert_eq!(quarter.nearest(Turn::degrees(350.0)), Turn::NONE);
    }
}
