//! Reading a length as people write it.

use thiserror::Error;

use crate::units::{LengthUnit, MM_PER_INCH};

/// Why a text is no length.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum LengthTextError {
    /// Nothing was typed.
    #[error("type a length, such as 2 or 1/8 in")]
    Empty,
    /// No number stands at its beginning.
    #[error("\"{0}\" is not a number; type a length such as 2, 2.5 mm or 1/8 in")]
    NotANumber(String),
    /// A unit that is not known.
    #[error("\"{0}\" is not a unit; use mm, cm, in or pt")]
    UnknownUnit(String),
    /// A comma that may part thousands or decimals.
    #[error("\"{0}\" can be read in two ways; write decimals with a point")]
    Ambiguous(String),
    /// A fraction by zero.
    #[error("\"{0}\" divides by zero")]
    DividesByZero(String),
}

/// The length in millimetres that a text means; a number without a unit counts in `unit`.
///
/// Understands `2`, `2.5`, `2,5`, `1/8`, `1 1/2`, followed by nothing or one of `mm`, `cm`, `in`, `inch`, `inches`,
/// `"`, `″`, `pt`. A minus sign is read, so that the caller can say what is wrong with a negative length. A comma
/// followed by exactly three digits, as in `1,234`, is refused, since it may part thousands.
///
/// A point is 1/72 in, as in ISO 32000.
pub fn read_length(text: &str, unit: LengthUnit) -> Result<f64, LengthTextError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(LengthTextError::Empty);
    }
    let is_numeric = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '-' | '+' | ' ' | '⁄');
    let split = text.find(|c| !is_numeric(c)).unwrap_or(text.len());
    let (number, unit_text) = text.split_at(split);
    let number = read_number(number.trim(), text)?;
    let mm_each = match unit_text.trim().to_lowercase().as_str() {
        "" => match unit {
            LengthUnit::Millimetres => 1.0,
            LengthUnit::Inches | LengthUnit::InchFractions => MM_PER_INCH,
        },
        "mm" => 1.0,
        "cm" => 10.0,
        "in" | "in." | "inch" | "inches" | "\"" | "″" | "”" | "''" => MM_PER_INCH,
        "pt" => MM_PER_INCH / 72.0,
        other => return Err(LengthTextError::UnknownUnit(other.to_owned())),
    };
    Ok(number * mm_each)
}

/// A whole number, a decimal, a fraction, or a whole number and a fraction.
fn read_number(number: &str, whole_text: &str) -> Result<f64, LengthTextError> {
    let not_a_number = || LengthTextError::NotANumber(whole_text.to_owned());
    let (sign, digits) = match number.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, number.strip_prefix('+').unwrap_or(number)),
    };
    let mut parts = digits.split_whitespace();
    let first = parts.next().ok_or_else(not_a_number)?;
    let value = match (parts.next(), parts.next()) {
        (None, _) if first.contains(['/', '⁄']) => fraction(first, whole_text)?,
        (None, _) => decimal(first, whole_text)?,
        (Some(second), None) if second.contains(['/', '⁄']) => {
            let whole: u32 = first.parse().map_err(|_| not_a_number())?;
            f64::from(whole) + fraction(second, whole_text)?
        }
        _ => return Err(not_a_number()),
    };
    Ok(sign * value)
}

fn fraction(text: &str, whole_text: &str) -> Result<f64, LengthTextError> {
    let not_a_number = || LengthTextError::NotANumber(whole_text.to_owned());
    let (over, under) = text.split_once(['/', '⁄']).ok_or_else(not_a_number)?;
    let over: u32 = over.parse().map_err(|_| not_a_number())?;
    let under: u32 = under.parse().map_err(|_| not_a_number())?;
    if under == 0 {
        return Err(LengthTextError::DividesByZero(whole_text.to_owned()));
    }
    Ok(f64::from(over) / f64::from(under))
}

fn decimal(text: &str, whole_text: &str) -> Result<f64, LengthTextError> {
    let not_a_number = || LengthTextError::NotANumber(whole_text.to_owned());
    if text.contains('.') && text.contains(',') {
        return Err(LengthTextError::Ambiguous(whole_text.to_owned()));
    }
    if let Some((before, after)) = text.split_once(',')
        && after.len() == 3
        && !before.is_empty()
        && before != "0"
    {
        return Err(LengthTextError::Ambiguous(whole_text.to_owned()));
    }
    let plain = text.replace(',', ".");
    if plain.contains(['-', '+', '/']) {
        return Err(not_a_number());
    }
    plain.parse::<f64>().ok().filter(|value| value.is_finite()).ok_or_else(not_a_number)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn mm(text: &str) -> f64 {
        read_length(text, LengthUnit::Millimetres).unwrap()
    }

    #[test]
    fn lengths_are_read_as_people_write_them() {
        assert_eq!(mm("2"), 2.0);
        assert_eq!(mm(" 2,5 "), 2.5);
        assert_eq!(mm("2.5 mm"), 2.5);
        assert_eq!(mm("2.5mm"), 2.5);
        assert_eq!(mm("1 cm"), 10.0);
        assert_eq!(mm("1/8 in"), 25.4 / 8.0);
        assert!((mm("1 1/2\"") - 38.1).abs() < 1e-12);
        assert_eq!(mm("0.5\""), 12.7);
        assert_eq!(mm("72 pt"), 25.4);
        assert_eq!(mm(".5"), 0.5);
        assert_eq!(mm("0,125"), 0.125);
        assert_eq!(mm("-3"), -3.0);
        assert_eq!(read_length("1/4", LengthUnit::Inches), Ok(6.35));
        assert_eq!(read_length("4 mm", LengthUnit::Inches), Ok(4.0));
    }

    #[test]
    fn what_is_no_length_is_refused_with_a_reason() {
        let refused = |text: &str| read_length(text, LengthUnit::Millimetres).unwrap_err();
        assert_eq!(refused("  "), LengthTextError::Empty);
        assert_eq!(refused("wide"), LengthTextError::NotANumber("wide".into()));
        assert_eq!(refused("mm"), LengthTextError::NotANumber("mm".into()));
        assert_eq!(refused("2 ells"), LengthTextError::UnknownUnit("ells".into()));
        assert_eq!(refused("1,234"), LengthTextError::Ambiguous("1,234".into()));
        assert_eq!(refused("1.234,5"), LengthTextError::Ambiguous("1.234,5".into()));
        assert_eq!(refused("1/0"), LengthTextError::DividesByZero("1/0".into()));
        assert!(matches!(refused("1 2"), LengthTextError::NotANumber(_)));
        assert!(matches!(refused("1-2"), LengthTextError::NotANumber(_)));
        assert!(matches!(refused("1/2/3"), LengthTextError::NotANumber(_)));
        assert!(matches!(refused("--1"), LengthTextError::NotANumber(_)));
    }

    proptest! {
        #[test]
        fn what_was_written_is_read_back(hundredths in 0_u32..100_000, inches: bool) {
            let unit = if inches { LengthUnit::Inches } else { LengthUnit::Millimetres };
            let length = f64::from(hundredths) / 100.0;
            let read = read_length(&unit.text(length), LengthUnit::Millimetres).unwrap();
            // An inch is written to a thousandth, so half a thousandth may be lost.
            let lost = if inches { 0.0128 } else { 1e-9 };
            prop_assert!((read - length).abs() <= lost);
        }

        #[test]
        fn no_text_makes_it_panic(text in "\\PC{0,12}") {
            let _ = read_length(&text, LengthUnit::Millimetres);
        }
    }
}
