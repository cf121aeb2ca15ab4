//! The published values in `data/`; `data/SOURCES.md` says where each comes from.

use std::path::Path;

use kurbo::Point;
use serde_json::Value;

/// The JSON file of this name in `data/`.
///
/// Panics, since a test cannot go on, if it is not there or is not JSON.
pub fn read(name: &str) -> Value {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name);
    let text = std::fs::read_to_string(&file)
        .unwrap_or_else(|error| panic!("cannot read {}: {error}", file.display()));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{} is not JSON: {error}", file.display()))
}

/// The number under this key.
pub fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap_or_else(|| panic!("no number \"{key}\" in {value}"))
}

/// The whole number under this key.
pub fn count(value: &Value, key: &str) -> usize {
    value[key].as_u64().unwrap_or_else(|| panic!("no whole number \"{key}\" in {value}")) as usize
}

/// The text under this key.
pub fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key].as_str().unwrap_or_else(|| panic!("no text \"{key}\" in {value}"))
}

/// The list under this key.
pub fn list<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key].as_array().unwrap_or_else(|| panic!("no list \"{key}\" in {value}"))
}

/// A point written as a pair of numbers.
pub fn point(pair: &Value) -> Point {
    let coordinate = |i: usize| pair[i].as_f64().unwrap_or_else(|| panic!("{pair} is no pair of numbers"));
    Point::new(coordinate(0), coordinate(1))
}

/// Points written as pairs of numbers.
pub fn points(pairs: &Value) -> Vec<Point> {
    pairs.as_array().unwrap_or_else(|| panic!("{pairs} is no list of points")).iter().map(point).collect()
}
