//! Fields of a file that this version does not know: kept on reading, written back on writing.
//!
//! The parts of a layout that cannot carry anything themselves (sheet, rules, wanted, turns) let the part around them
//! do it: its [`Carried`] then holds an object under that part's own name, which no unknown field can have.

use serde_json::{Map, Value};
use stickleaf_sheet::Carried;

/// Unknown fields as they stand in a file.
pub(crate) type Fields = Map<String, Value>;

/// The fields as a layout carries them.
pub(crate) fn carried(fields: Fields) -> Carried {
    Carried(fields.into_iter().map(|(name, value)| (name, value.to_string())).collect())
}

/// The fields that a layout carries; a text that is no JSON becomes a JSON text.
pub(crate) fn fields(carried: &Carried) -> Fields {
    let value = |text: &String| serde_json::from_str(text).unwrap_or_else(|_| Value::from(text.as_str()));
    carried.0.iter().map(|(name, text)| (name.clone(), value(text))).collect()
}

/// Puts the unknown fields of a part among those of the part around it.
pub(crate) fn tuck(fields: &mut Fields, part: &str, inner: Fields) {
    if !inner.is_empty() {
        fields.insert(part.to_owned(), Value::Object(inner));
    }
}

/// Takes out what [`tuck`] put in.
pub(crate) fn untuck(fields: &mut Fields, part: &str) -> Fields {
    match fields.shift_remove(part) {
        Some(Value::Object(inner)) => inner,
        _ => Fields::new(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn what_is_carried_comes_back_in_order() {
        let Value::Object(unknown) = json!({"zeta": 1.5, "alpha": [null, {"deep": "text"}]}) else {
            unreachable!()
        };
        assert_eq!(fields(&carried(unknown.clone())), unknown);
        let mut outer = Fields::new();
        tuck(&mut outer, "sheet", unknown.clone());
        assert_eq!(untuck(&mut outer, "sheet"), unknown);
        assert!(outer.is_empty());
    }
}
