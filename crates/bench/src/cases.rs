//! The strip instances of a folder, and what packing one of them came to.

use std::fmt;
use std::path::Path;

use stickleaf_sheet::Layout;

use crate::instance::{self, Instance};
use crate::output;
use crate::published::{Published, published};
use crate::strip::{Strip, strip};
use crate::trouble::Trouble;
use crate::verify::strip_length;

/// An instance, and the layout that it makes.
pub struct Case {
    /// As it was read.
    pub instance: Instance,
    /// As a layout.
    pub strip: Strip,
    /// What has been published for it.
    pub published: Option<Published>,
}

/// What packing an instance came to.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// All pieces lie there soundly, at this density in per cent.
    Sound(f64),
    /// So many pieces have no place yet.
    Lacking(usize),
    /// The layout is not sound, for this reason.
    Invalid(String),
}

/// The instances that are asked for, in the order of their files.
pub fn cases(folder: &Path, only: &[String]) -> Result<Vec<Case>, Trouble> {
    let files = output::files(folder, "json")?;
    let mut cases = Vec::new();
    for path in files {
        let instance = instance::read(&output::read(&path)?)
            .map_err(|source| Trouble::Instance { path: path.clone(), source })?;
        let strip = strip(&instance).map_err(|source| Trouble::Strip { path: path.clone(), source })?;
        let figures = published(&instance.name);
        let is_same = |row: &Published| row.pieces == instance.pieces() && row.width == instance.width;
        if figures.is_some_and(|row| !is_same(&row)) {
            eprintln!(
                "{}: not compared, since the published instance of this name has other pieces or another width",
                instance.name
            );
        }
        cases.push(Case { published: figures.filter(is_same), instance, strip });
    }
    if cases.is_empty() {
        return Err(Trouble::NoInstances(folder.to_owned()));
    }
    let is_there = |name: &&String| cases.iter().any(|case| case.instance.name == **name);
    if let Some(name) = only.iter().find(|name| !is_there(name)) {
        let names: Vec<&str> = cases.iter().map(|case| case.instance.name.as_str()).collect();
        return Err(Trouble::NoSuch { name: name.clone(), there: names.join(", ") });
    }
    cases.retain(|case| only.is_empty() || only.contains(&case.instance.name));
    Ok(cases)
}

impl Case {
    /// What a packed layout of this instance is worth, by the second look.
    pub fn judge(&self, packed: &Layout) -> Verdict {
        let missing = self.instance.pieces().saturating_sub(packed.pieces.len());
        if missing > 0 {
            return Verdict::Lacking(missing);
        }
        match strip_length(packed) {
            Ok(length) => Verdict::Sound(self.density(self.strip.scale.back(length))),
            Err(fault) => Verdict::Invalid(fault.to_string()),
        }
    }

    /// The density in per cent on a strip of this length; both lengths and densities turn into each other by it.
    pub fn density(&self, length: f64) -> f64 {
        100.0 * self.instance.area() / (self.instance.width * length)
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Verdict::Sound(density) => write!(f, "{density:.2}"),
            Verdict::Lacking(count) => write!(f, "{count} missing"),
            Verdict::Invalid(fault) => write!(f, "INVALID: {fault}"),
        }
    }
}

/// How far down the pieces reach, in millimetres.
pub fn lowest(layout: &Layout) -> f64 {
    let ends = layout.pieces.iter().filter_map(|piece| {
        let outline = &layout.sticker(&piece.sticker)?.outline;
        Some(outline.placed(&piece.placement).bounds().y1)
    });
    ends.fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::Placement;
    use stickleaf_sheet::Piece;

    use super::*;
    use crate::instance::{read, tests::SMALL};

    #[test]
    fn a_packed_strip_is_judged_by_its_pieces_alone() {
        let instance = read(SMALL).unwrap();
        let strip = strip(&instance).unwrap();
        let case = Case { instance, strip, published: None };
        let mut packed = case.strip.layout.clone();
        assert_eq!(case.judge(&packed), Verdict::Lacking(3));
        // Two squares of 100 mm side by side and the L, 100 by 150 mm with its (0, 0) in the middle, below one of them.
        let piece = |sticker: &str, x, y| Piece::new(sticker.into(), Placement::at(x, y));
        packed.pieces =
            vec![piece("item-0", 50.0, 50.0), piece("item-0", 150.0, 50.0), piece("item-1", 50.0, 175.0)];
        // An area of 12 on a width of 4 and a length of 5.
        assert_eq!(case.judge(&packed), Verdict::Sound(60.0));
        packed.pieces[2] = piece("item-1", 50.0, 174.0);
        assert!(matches!(case.judge(&packed), Verdict::Invalid(_)));
    }
}
