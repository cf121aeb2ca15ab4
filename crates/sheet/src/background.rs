//! A background style: what is printed on the sheet besides the stickers.

use std::sync::Arc;

use stickleaf_outline::Outline;

use crate::carried::Carried;

/// A style that the sheet can have: its zones and, if wanted, a picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Background {
    /// What the artist calls it; two backgrounds of a layout never share a name.
    pub name: String,
    /// The parts that stickers keep out of.
    pub zones: Vec<Zone>,
    /// The picture's file, beside the layout or in its bundle.
    pub picture: Option<String>,
    /// What its file says beyond that.
    pub carried: Carried,
}

/// A part of the sheet that stickers keep out of: a title band, a motif, a frame, a hole to hang it by.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// What the artist calls it.
    pub name: String,
    /// Its edge, in sheet millimetres. It may reach past the sheet.
    pub outline: Arc<Outline>,
    /// The path data that it was read from, written back as it was.
    pub path: Option<Arc<str>>,
    /// Least distance from a cut line to the zone, in millimetres.
    pub clearance: f64,
    /// What its file says beyond that.
    pub carried: Carried,
}

impl Zone {
    /// A zone with this edge and clearance.
    pub fn new(name: impl Into<String>, outline: Outline, clearance: f64) -> Zone {
        Zone {
            name: name.into(),
            outline: Arc::new(outline),
            path: None,
            clearance,
            carried: Carried::default(),
        }
    }
}
