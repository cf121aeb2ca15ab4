//! The whole document: everything that is saved, undone, packed and checked.

use thiserror::Error;

use crate::background::{Background, Zone};
use crate::carried::Carried;
use crate::correction::Correction;
use crate::piece::Piece;
use crate::quantity::{Named, Quantity};
use crate::rules::Rules;
use crate::sheet::Sheet;
use crate::sticker::{Sticker, Turns};

/// A sheet with its rules, background styles, stickers and pieces. Cheap to clone: outlines are shared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layout {
    /// What the artist calls it.
    pub name: String,
    /// The card.
    pub sheet: Sheet,
    /// The limits.
    pub rules: Rules,
    /// The background styles to choose from.
    pub backgrounds: Vec<Background>,
    /// The name of the chosen one; nothing for plain ground.
    pub background: Option<String>,
    /// The drawings.
    pub stickers: Vec<Sticker>,
    /// The copies lying on the sheet, in drawing order.
    pub pieces: Vec<Piece>,
    /// How its colours are shifted on their way to the paper; nothing if nobody has said.
    pub correction: Option<Correction>,
    /// What its file says beyond that.
    pub carried: Carried,
}

/// Why a layout makes no sense.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum LayoutError {
    /// A length that must be more than zero is not.
    #[error("{what} is {value}; it must be a number above 0")]
    NotPositive {
        /// Which one.
        what: Quantity,
        /// What it is.
        value: f64,
    },
    /// A length that must not be negative is.
    #[error("{what} is {value}; it must be 0 or more")]
    Negative {
        /// Which one.
        what: Quantity,
        /// What it is.
        value: f64,
    },
    /// A share that is less than nothing or more than all.
    #[error("{what} is {value}; it must be between 0 and 1")]
    NoShare {
        /// Which one.
        what: Quantity,
        /// What it is.
        value: f64,
    },
    /// Round corners larger than the card.
    #[error(
        "the corner radius of {radius} mm is more than half of the sheet's shorter side, {half} mm; make it smaller"
    )]
    CornersTooRound {
        /// The radius.
        radius: f64,
        /// Half the shorter side.
        half: f64,
    },
    /// Margin and zones leave nothing.
    #[error(
        "margin and zones leave no usable part of the sheet; make the margin or the zones smaller, or the sheet larger"
    )]
    NoUsablePart,
    /// A piece of a sticker that is not there.
    #[error(
        "piece {index} is a copy of sticker \"{sticker}\", which is not in the list of stickers; add it or remove the piece"
    )]
    MissingSticker {
        /// Which piece, counted from 1.
        index: usize,
        /// The id it asks for.
        sticker: String,
    },
    /// A chosen background that is not there.
    #[error("the chosen background \"{name}\" is not in the list of backgrounds; choose one of them")]
    MissingBackground {
        /// The name asked for.
        name: String,
    },
    /// Two stickers or two backgrounds of one name.
    #[error("there are two {what} \"{name}\"; give each its own")]
    Twice {
        /// Whose.
        what: Named,
        /// The name.
        name: String,
    },
    /// A place or turn that is no finite number.
    #[error("the place of piece {index} is not a finite number; give plain millimetres and degrees")]
    PlaceNotFinite {
        /// Which piece, counted from 1.
        index: usize,
    },
}

impl Layout {
    /// The sticker with this id.
    pub fn sticker(&self, id: &str) -> Option<&Sticker> {
        self.stickers.iter().find(|sticker| &*sticker.id == id)
    }

    /// The position of the sticker with this id in the list.
    pub fn sticker_index(&self, id: &str) -> Option<usize> {
        self.stickers.iter().position(|sticker| &*sticker.id == id)
    }

    /// The chosen background; nothing for plain ground.
    pub fn chosen_background(&self) -> Option<&Background> {
        let name = self.background.as_deref()?;
        self.backgrounds.iter().find(|background| background.name == name)
    }

    /// The zones in force: those of the chosen background.
    pub fn zones(&self) -> &[Zone] {
        self.chosen_background().map_or(&[], |background| &background.zones)
    }

    /// The same to be changed; nothing if no background is chosen.
    pub fn zones_mut(&mut self) -> Option<&mut Vec<Zone>> {
        let name = self.background.as_deref()?;
        let chosen = self.backgrounds.iter_mut().find(|background| background.name == name);
        chosen.map(|background| &mut background.zones)
    }

    /// Which copy of its sticker a piece is, counted from 1 in the order of the pieces.
    pub fn copy_number(&self, piece: usize) -> usize {
        let id = &self.pieces[piece].sticker;
        1 + self.pieces[..piece].iter().filter(|other| other.sticker == *id).count()
    }

    /// What a piece is called: its sticker's name, and its copy number if there are several copies.
    pub fn piece_name(&self, piece: usize) -> String {
        let id = &self.pieces[piece].sticker;
        let name = self.sticker(id).map_or(&**id, |sticker| &sticker.name);
        let copy = self.copy_number(piece);
        if self.placed(id) == 1 {
            name.to_owned()
        } else if name.ends_with(|last: char| last.is_ascii_digit()) {
            format!("{name} no. {copy}")
        } else {
            format!("{name} {copy}")
        }
    }

    /// How many copies of a sticker lie on the sheet.
    pub fn placed(&self, id: &str) -> usize {
        self.pieces.iter().filter(|piece| &*piece.sticker == id).count()
    }

    /// The first reason why this layout makes no sense, if there is one.
    ///
    /// Checked when a file is read and after every change of sizes: numbers in range, names unique, every piece's
    /// sticker present, some usable part left. Broken rules are not looked at; see [`check`](crate::check).
    pub fn validate(&self) -> Result<(), LayoutError> {
        self.validate_numbers()?;
        self.validate_names()?;
        if crate::usable_region(&self.sheet, &self.rules, self.zones()).is_empty() {
            return Err(LayoutError::NoUsablePart);
        }
        Ok(())
    }

    fn validate_numbers(&self) -> Result<(), LayoutError> {
        let Sheet { width, height, corner_radius, resolution_ppi } = self.sheet;
        let sizes = [
            (Quantity::SheetWidth, width),
            (Quantity::SheetHeight, height),
            (Quantity::Resolution, resolution_ppi),
        ];
        for (what, value) in sizes {
            if !(value.is_finite() && value > 0.0) {
                return Err(LayoutError::NotPositive { what, value });
            }
        }
        let rules = self.rules;
        let lengths = [
            (Quantity::CornerRadius, corner_radius),
            (Quantity::Spacing, rules.spacing),
            (Quantity::Margin, rules.margin),
            (Quantity::Border, rules.border),
            (Quantity::PrintToCut, rules.print_to_cut),
            (Quantity::Thinnest, rules.thinnest),
            (Quantity::Smallest, rules.smallest),
            (Quantity::InnerRadius, rules.inner_radius),
            (Quantity::LeastResolution, rules.least_ppi),
        ];
        for (what, value) in lengths {
            not_negative(what, value)?;
        }
        let half = width.min(height) / 2.0;
        if corner_radius > half {
            return Err(LayoutError::CornersTooRound { radius: corner_radius, half });
        }
        for background in &self.backgrounds {
            let value = background.picture_opacity;
            if !(0.0..=1.0).contains(&value) {
                return Err(LayoutError::NoShare {
                    what: Quantity::OpacityOf(background.name.clone()),
                    value,
                });
            }
            for zone in &background.zones {
                not_negative(Quantity::ClearanceOf(zone.name.clone()), zone.clearance)?;
            }
        }
        for sticker in &self.stickers {
            if let Some(border) = sticker.border {
                not_negative(Quantity::BorderOf(sticker.id.to_string()), border)?;
            }
            if let Turns::Within(degrees) = sticker.turns {
                not_negative(Quantity::TurnOf(sticker.id.to_string()), degrees)?;
            }
        }
        Ok(())
    }

    fn validate_names(&self) -> Result<(), LayoutError> {
        let twice = |what, name: &str| Err(LayoutError::Twice { what, name: name.to_owned() });
        for (i, sticker) in self.stickers.iter().enumerate() {
            if self.stickers[..i].iter().any(|other| other.id == sticker.id) {
                return twice(Named::Stickers, &sticker.id);
            }
        }
        for (i, background) in self.backgrounds.iter().enumerate() {
            if self.backgrounds[..i].iter().any(|other| other.name == background.name) {
                return twice(Named::Backgrounds, &background.name);
            }
        }
        if let Some(name) = &self.background
            && self.chosen_background().is_none()
        {
            return Err(LayoutError::MissingBackground { name: name.clone() });
        }
        for (i, piece) in self.pieces.iter().enumerate() {
            let index = i + 1;
            if self.sticker(&piece.sticker).is_none() {
                return Err(LayoutError::MissingSticker { index, sticker: piece.sticker.to_string() });
            }
            if !piece.placement.at.is_finite() {
                return Err(LayoutError::PlaceNotFinite { index });
            }
        }
        Ok(())
    }
}

fn not_negative(what: Quantity, value: f64) -> Result<(), LayoutError> {
    if value.is_finite() && value >= 0.0 { Ok(()) } else { Err(LayoutError::Negative { what, value }) }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};

    use super::*;

    fn layout() -> Layout {
        let square = path::parse("M-5 -5H5V5H-5Z").unwrap();
        Layout {
            stickers: vec![Sticker::new("box", "Box", square)],
            pieces: vec![Piece::new("box".into(), Placement::at(20.0, 20.0))],
            ..Layout::default()
        }
    }

    #[test]
    fn a_sound_layout_is_valid() {
        assert_eq!(layout().validate(), Ok(()));
    }

    #[test]
    fn copies_are_numbered_where_there_are_several() {
        let mut layout = layout();
        assert_eq!(layout.piece_name(0), "Box");
        layout.pieces.push(layout.pieces[0].clone());
        assert_eq!(layout.piece_name(1), "Box 2");
        layout.stickers[0].name = "Box 7".into();
        assert_eq!(layout.piece_name(1), "Box 7 no. 2");
    }

    #[test]
    fn each_kind_of_nonsense_is_named() {
        let broken = |change: fn(&mut Layout)| {
            let mut layout = layout();
            change(&mut layout);
            layout.validate().unwrap_err().to_string()
        };
        assert!(broken(|l| l.sheet.width = -1.0).contains("width"));
        assert!(broken(|l| l.sheet.height = f64::NAN).contains("height"));
        assert!(broken(|l| l.rules.spacing = -1.0).contains("spacing"));
        assert!(broken(|l| l.sheet.corner_radius = 60.0).contains("corner radius"));
        assert!(broken(|l| l.rules.margin = 60.0).contains("no usable part"));
        assert!(broken(|l| l.pieces[0].sticker = "cat".into()).contains("\"cat\""));
        let faint =
            |opacity| Background { name: "Sky".into(), picture_opacity: opacity, ..Background::default() };
        let mut layout = layout();
        layout.backgrounds.push(faint(1.5));
        assert!(layout.validate().unwrap_err().to_string().contains("between 0 and 1"));
        layout.backgrounds = vec![faint(0.0)];
        assert_eq!(layout.validate(), Ok(()));
        assert!(broken(|l| l.background = Some("Sea".into())).contains("\"Sea\""));
        assert!(broken(|l| l.stickers.push(l.stickers[0].clone())).contains("two stickers"));
        assert!(broken(|l| l.pieces[0].placement.at.x = f64::INFINITY).contains("piece 1"));
    }
}
