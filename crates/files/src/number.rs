//! Numbers as people write them in a file.

use schemars::JsonSchema;
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::ser::{Serialize, Serializer};

// A number of a file. Written short: `105` rather than `105.0`, and never with more digits than tell it apart.
// Not a doc comment: it would describe every number without words of its own in the schema.
#[derive(Clone, Copy, Debug, PartialEq, JsonSchema)]
#[schemars(transparent, inline)]
pub(crate) struct Number(pub f64);

/// Whole numbers up to here are exact, and are written without a decimal point.
const MOST_WHOLE: f64 = 9_007_199_254_740_992.0;

impl Number {
    /// The number rounded to three decimals: whole micrometres, thousandths of a pixel or of a degree.
    pub(crate) fn thousandths(value: f64) -> Number {
        // Dividing gives the double nearest to the decimal number; adding zero tidies minus zero away.
        Number((value * 1000.0).round() / 1000.0 + 0.0)
    }
}

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.0.fract() == 0.0 && self.0.abs() <= MOST_WHOLE {
            serializer.serialize_i64(self.0 as i64)
        } else {
            serializer.serialize_f64(self.0)
        }
    }
}

impl<'de> Deserialize<'de> for Number {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Number, D::Error> {
        struct Reader;
        impl Visitor<'_> for Reader {
            type Value = Number;
            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a number")
            }
            fn visit_f64<E: de::Error>(self, value: f64) -> Result<Number, E> {
                Ok(Number(value))
            }
            fn visit_i64<E: de::Error>(self, value: i64) -> Result<Number, E> {
                Ok(Number(value as f64))
            }
            fn visit_u64<E: de::Error>(self, value: u64) -> Result<Number, E> {
                Ok(Number(value as f64))
            }
        }
        deserializer.deserialize_f64(Reader)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_short_and_read_back_exactly() {
        for (value, text) in [
            (105.0, "105"),
            (-0.0, "0"),
            (0.1 + 0.2, "0.30000000000000004"),
            (20.125, "20.125"),
            (1e300, "1e+300"),
            (1e15, "1000000000000000"),
        ] {
            let written = serde_json::to_string(&Number(value)).unwrap();
            assert_eq!(written, text);
            assert_eq!(serde_json::from_str::<Number>(&written).unwrap(), Number(value));
        }
        assert_eq!(serde_json::to_string(&Number::thousandths(0.1 + 0.2)).unwrap(), "0.3");
    }

    #[test]
    fn text_is_no_number() {
        let error = serde_json::from_str::<Number>("\"wide\"").unwrap_err().to_string();
        assert!(error.starts_with("invalid type: string \"wide\", expected a number"), "{error}");
    }
}
