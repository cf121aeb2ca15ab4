//! A strip packing instance as others publish it: pieces, how many of each, how they may turn, and the strip's width.
//!
//! The format is described in this crate's `README.md`.

use serde::Deserialize;
use thiserror::Error;

/// Pieces that all have to lie on a strip of fixed width, as short a part of it as possible.
///
/// Lengths are in the instance's own units, y up, turns counterclockwise, as the literature has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Instance {
    /// What the literature calls it.
    pub name: String,
    /// The width of the strip.
    pub width: f64,
    /// The different pieces.
    pub items: Vec<Item>,
}

/// One kind of piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// How many copies there are; all of them must be placed.
    pub demand: u32,
    /// The turns it may have, in degrees, counterclockwise.
    pub turns: Vec<f64>,
    /// Its corners in order; the last joins the first.
    pub ring: Vec<(f64, f64)>,
}

/// Why a text is no instance.
#[derive(Debug, Error)]
pub enum InstanceError {
    /// Not JSON, or a field is missing or of another kind.
    #[error("{place}: {source}; the format is described in crates/bench/README.md")]
    Format {
        /// The path to the field.
        place: String,
        /// What the reader says.
        source: serde_json::Error,
    },
    /// The strip has no width.
    #[error("strip_height is {0}; give the width of the strip as a number above 0")]
    Width(f64),
    /// There is nothing to pack.
    #[error("the instance has no pieces; list at least one item with a demand of 1 or more")]
    Empty,
    /// A kind of piece that cannot be used.
    #[error("item {id}: {what}")]
    Item {
        /// Its id in the file.
        id: u64,
        /// What about it, and what to do.
        what: String,
    },
    /// A total in the file is not that of its pieces.
    #[error("{field} says {said}, but the pieces come to {found}; the file is damaged, so make it again")]
    Total {
        /// Which total.
        field: &'static str,
        /// What the file says.
        said: f64,
        /// What the pieces come to.
        found: f64,
    },
}

#[derive(Deserialize)]
struct InstanceFile {
    name: String,
    strip_height: f64,
    n_pieces: Option<u64>,
    total_piece_area: Option<f64>,
    items: Vec<ItemFile>,
}

#[derive(Deserialize)]
struct ItemFile {
    id: u64,
    demand: u32,
    allowed_orientations: Vec<f64>,
    shape: ShapeFile,
}

#[derive(Deserialize)]
struct ShapeFile {
    data: Vec<(f64, f64)>,
}

impl Instance {
    /// How many pieces there are, copies counted.
    pub fn pieces(&self) -> usize {
        self.items.iter().map(|item| item.demand as usize).sum()
    }

    /// The area of all pieces, copies counted.
    pub fn area(&self) -> f64 {
        self.items.iter().map(|item| f64::from(item.demand) * ring_area(&item.ring)).sum()
    }
}

/// The instance that a JSON text describes.
///
/// The first corner may be repeated at the end of a ring. Totals that the file states must be those of its pieces.
/// Whether rings cross themselves is seen later, when outlines are made of them.
pub fn read(text: &str) -> Result<Instance, InstanceError> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let file: InstanceFile = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        InstanceError::Format { place: error.path().to_string(), source: error.into_inner() }
    })?;
    if !(file.strip_height.is_finite() && file.strip_height > 0.0) {
        return Err(InstanceError::Width(file.strip_height));
    }
    let items = file.items.into_iter().map(item).collect::<Result<Vec<Item>, InstanceError>>()?;
    let instance = Instance { name: file.name, width: file.strip_height, items };
    if instance.pieces() == 0 {
        return Err(InstanceError::Empty);
    }
    let totals = [
        ("n_pieces", file.n_pieces.map(|count| count as f64), instance.pieces() as f64),
        ("total_piece_area", file.total_piece_area, instance.area()),
    ];
    for (field, said, found) in totals {
        if let Some(said) = said
            && (said - found).abs() > 1e-6 * found
        {
            return Err(InstanceError::Total { field, said, found });
        }
    }
    Ok(instance)
}

fn item(file: ItemFile) -> Result<Item, InstanceError> {
    let ItemFile { id, demand, allowed_orientations: turns, shape } = file;
    let refused = |what: &str| Err(InstanceError::Item { id, what: what.to_owned() });
    if turns.is_empty() {
        return refused("allowed_orientations is empty; list the turns in degrees, [0] for none");
    }
    let mut ring = shape.data;
    if ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    if ring.len() < 3 || ring_area(&ring) == 0.0 {
        return refused("the outline has no area; give at least three corners that are not on one line");
    }
    Ok(Item { demand, turns, ring })
}

/// The area inside a ring that does not cross itself, whichever way it runs.
pub fn ring_area(ring: &[(f64, f64)]) -> f64 {
    let next = |i: usize| ring[(i + 1) % ring.len()];
    let cross = |i: usize| ring[i].0 * next(i).1 - next(i).0 * ring[i].1;
    (0..ring.len()).map(cross).sum::<f64>().abs() / 2.0
}

#[cfg(test)]
pub mod tests {
    use super::*;

    /// Two squares and an L on a strip 4 wide: they fill 4 by 3 but for nothing.
    pub const SMALL: &str = r#"{
        "name": "small", "strip_height": 4, "n_pieces": 3, "total_piece_area": 12.0,
        "items": [
            {"id": 0, "demand": 2, "allowed_orientations": [0],
             "shape": {"data": [[0, 0], [2, 0], [2, 2], [0, 2], [0, 0]]}},
            {"id": 1, "demand": 1, "allowed_orientations": [0, 90],
             "shape": {"data": [[0, 0], [3, 0], [3, 1], [1, 1], [1, 2], [0, 2]]}}
        ]}"#;

    #[test]
    fn pieces_turns_and_totals_are_read() {
        let instance = read(SMALL).unwrap();
        assert_eq!((instance.name.as_str(), instance.width, instance.pieces()), ("small", 4.0, 3));
        assert_eq!(instance.area(), 12.0);
        assert_eq!(instance.items[0].ring.len(), 4);
        assert_eq!(instance.items[1].turns, [0.0, 90.0]);
    }

    #[test]
    fn what_is_wrong_is_named() {
        for (from, to, named) in [
            ("\"demand\": 2", "\"demand\": -2", "items[0].demand"),
            ("\"strip_height\": 4", "\"strip_height\": 0", "strip_height"),
            ("\"n_pieces\": 3", "\"n_pieces\": 4", "n_pieces"),
            ("12.0", "12.5", "total_piece_area"),
            ("[0, 90]", "[]", "item 1"),
            ("[[0, 0], [2, 0], [2, 2], [0, 2], [0, 0]]", "[[0, 0], [2, 0], [4, 0]]", "item 0"),
            ("{\n        \"name\"", "[\"name\"", "line 1"),
        ] {
            assert!(SMALL.contains(from), "{from}");
            let error = read(&SMALL.replace(from, to)).unwrap_err().to_string();
            assert!(error.contains(named), "{named}: {error}");
        }
    }
}
