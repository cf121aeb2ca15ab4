//! Numbers and lengths as the language spoken writes them. Files do not come here: in them a point is a point.

use stickleaf_sheet::LengthUnit;

use crate::words::language::{Language, spoken};

/// A number with just so many decimals; nothing is less than nothing, so there is no `-0`.
pub fn figure(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let is_nothing = text.strip_prefix('-').is_some_and(|rest| rest.chars().all(|c| matches!(c, '0' | '.')));
    with_decimal_sign(if is_nothing { &text[1..] } else { &text })
}

/// A length with its unit: `1.4 mm`, in German `1,4 mm`.
pub fn length(unit: LengthUnit, mm: f64) -> String {
    with_decimal_sign(&unit.text(mm))
}

/// A length as a number in this unit, without the unit's name.
pub fn number(unit: LengthUnit, mm: f64) -> String {
    with_decimal_sign(&unit.number(mm))
}

/// A number that was written with a decimal point, as the language writes it.
pub fn with_decimal_sign(text: &str) -> String {
    match spoken() {
        Language::English => text.to_owned(),
        Language::German => text.replace('.', ","),
    }
}

/// What was typed, with a decimal point for the comma where the language has one: `1,125` is a little more than one.
/// A text that has both stays as it is, so that its reader can refuse it.
pub fn with_decimal_point(typed: &str) -> String {
    match spoken() {
        Language::German if !typed.contains('.') => typed.replace(',', "."),
        _ => typed.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::language::speak;

    #[test]
    fn a_decimal_sign_is_that_of_the_language() {
        let all = || [figure(2.25, 1), figure(-0.04, 1), length(LengthUnit::Millimetres, 1.4)];
        speak(Language::German);
        assert_eq!(all(), ["2,2", "0,0", "1,4 mm"]);
        assert_eq!([with_decimal_point("1,125"), with_decimal_point("1.125")], ["1.125", "1.125"]);
        speak(Language::English);
        assert_eq!(all(), ["2.2", "0.0", "1.4 mm"]);
        assert_eq!(with_decimal_point("1,125"), "1,125");
    }
}
