//! Numbers, sizes and wishes as people type them.

use stickleaf_press::strip;
use stickleaf_sheet::{
    Correction, LengthUnit, MOST_LIGHTER, MOST_WARMER, SHEET_SIZES, Turns, Wanted, read_length,
};
use stickleaf_shop::page::PAGE_SIZES;
use stickleaf_shop::trial::CutOutcome;

use super::{TimedPart, TimedWord, TrialOutcome};

/// A card's width and height in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSize {
    /// Left to right.
    pub width: f64,
    /// Top to bottom.
    pub height: f64,
}

pub(super) fn positive(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() && value > 0.0 => Ok(value),
        _ => Err("give a number above 0".to_owned()),
    }
}

pub(super) fn not_negative(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() && value >= 0.0 => Ok(value),
        _ => Err("give a number of 0 or more".to_owned()),
    }
}

/// A radius as a layout file holds it.
pub(super) fn radius(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if (0.0..=100.0).contains(&value) => Ok(value),
        _ => Err("give a radius from 0 to 100 mm".to_owned()),
    }
}

pub(super) fn patch(text: &str) -> Result<Correction, String> {
    let advice = || "give two digits, each 1 to 5, as in 43".to_owned();
    text.parse().ok().and_then(strip::correction).ok_or_else(advice)
}

pub(super) fn lighter(text: &str) -> Result<f64, String> {
    shift(text, MOST_LIGHTER)
}

pub(super) fn warmer(text: &str) -> Result<f64, String> {
    shift(text, MOST_WARMER)
}

pub(super) fn shift(text: &str, most: f64) -> Result<f64, String> {
    let advice = || format!("give a number from -{most} to {most}, such as 0.02");
    text.parse::<f64>().ok().filter(|value| value.abs() <= most).ok_or_else(advice)
}

pub(super) fn seconds(text: &str) -> Result<f64, String> {
    // A longer wait than a day is a slip of the hand.
    positive(text)
        .ok()
        .filter(|value| *value <= 86_400.0)
        .ok_or_else(|| "give seconds, 0.1 to 86400".to_owned())
}

pub(super) fn sheet_size(text: &str) -> Result<SheetSize, String> {
    size(text, &SHEET_SIZES, "give a6, a5, or WIDTHxHEIGHT such as 100x150 (mm) or 4x6in")
}

pub(super) fn page_size(text: &str) -> Result<SheetSize, String> {
    size(
        text,
        &PAGE_SIZES,
        "give a5, a4, a3, letter, legal, or WIDTHxHEIGHT such as 210x297 (mm) or 8.5x11in",
    )
}

/// A size by its name, or as two lengths.
pub(super) fn size(text: &str, known: &[(&str, f64, f64)], advice: &str) -> Result<SheetSize, String> {
    let plain = |text: &str| text.to_lowercase().replace('×', "x").replace(' ', "");
    let wanted = plain(text);
    if let Some(&(_, width, height)) = known.iter().find(|(name, _, _)| plain(name) == wanted) {
        return Ok(SheetSize { width, height });
    }
    let advice = || advice.to_owned();
    let (width, height) = wanted.split_once('x').ok_or_else(advice)?;
    // In 4x6in the unit at the end counts for both.
    let unit = height.trim_start_matches(|c: char| c.is_ascii_digit() || ".,/".contains(c));
    let width = if width.ends_with(|c: char| c.is_ascii_digit()) {
        format!("{width}{unit}")
    } else {
        width.to_owned()
    };
    let length = |text: &str| {
        let mm = read_length(text, LengthUnit::Millimetres).map_err(|error| error.to_string())?;
        if mm > 0.0 { Ok(mm) } else { Err(advice()) }
    };
    Ok(SheetSize { width: length(&width)?, height: length(height)? })
}

pub(super) fn trial_outcome(text: &str) -> Result<TrialOutcome, String> {
    let advice = || "give SETTING=not-through, SETTING=clean or SETTING=too-deep".to_owned();
    let (setting, word) = text.rsplit_once('=').ok_or_else(advice)?;
    let outcome = match word.trim().to_lowercase().replace(['_', ' '], "-").as_str() {
        "not-through" => CutOutcome::NotThrough,
        "clean" => CutOutcome::Clean,
        "too-deep" => CutOutcome::TooDeep,
        _ => return Err(advice()),
    };
    Ok(TrialOutcome { setting: setting.trim().to_owned(), outcome })
}

pub(super) fn timed_part(text: &str) -> Result<TimedPart, String> {
    let advice = || "give LAYOUT:kiss=SECONDS, LAYOUT:through=SECONDS or LAYOUT:all=SECONDS".to_owned();
    let (rest, seconds) = text.rsplit_once('=').ok_or_else(advice)?;
    let (layout, word) = rest.rsplit_once(':').ok_or_else(advice)?;
    let what = match word {
        "all" => TimedWord::All,
        "kiss" => TimedWord::Kiss,
        "through" => TimedWord::Through,
        _ => return Err(advice()),
    };
    Ok(TimedPart { layout: layout.into(), what, seconds: positive(seconds)? })
}

pub(super) fn turns(text: &str) -> Result<Turns, String> {
    match text {
        "none" => Ok(Turns::None),
        "any" => Ok(Turns::Any),
        degrees => not_negative(degrees)
            .map(Turns::Within)
            .map_err(|_| "give none, any, or a number of degrees, 0 or more".to_owned()),
    }
}

pub(super) fn wanted(text: &str) -> Result<Wanted, String> {
    let (number, wanted): (_, fn(u32) -> Wanted) = match text.strip_suffix('+') {
        Some(number) => (number, Wanted::AtLeast),
        None => (text, Wanted::Exactly),
    };
    let advice = || "give a whole number such as 2, or 2+ for at least two".to_owned();
    // A number may have a plus sign in front, which means nothing here.
    let digits = number.chars().all(|c| c.is_ascii_digit());
    number.parse().ok().filter(|_| digits).map(wanted).ok_or_else(advice)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_are_read_as_people_write_them() {
        let size = |text| sheet_size(text).map(|size| (size.width, size.height));
        assert_eq!(size("a6"), Ok((105.0, 148.0)));
        assert_eq!(size("A5"), Ok((148.0, 210.0)));
        assert_eq!(size("100x150"), Ok((100.0, 150.0)));
        assert_eq!(size("100 × 150 mm"), Ok((100.0, 150.0)));
        assert_eq!(size("10x15cm"), Ok((100.0, 150.0)));
        assert_eq!(size("4x6in"), Ok((101.6, 152.399_999_999_999_98)));
        assert_eq!(size("2inx60mm"), Ok((50.8, 60.0)));
        for bad in ["", "b7", "100", "100x", "-5x10", "0x10", "nanx10", "1e9x5"] {
            assert!(size(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn pages_are_read_as_people_write_them() {
        let size = |text| page_size(text).map(|size| (size.width, size.height));
        assert_eq!(size("A4"), Ok((210.0, 297.0)));
        assert_eq!(size("letter"), Ok((215.9, 279.4)));
        assert_eq!(size("13x19in").map(|(width, _)| width), Ok(330.2));
        assert!(size("tabloids").is_err_and(|advice| advice.contains("letter")));
    }

    #[test]
    fn wishes_are_read() {
        assert_eq!(wanted("2"), Ok(Wanted::Exactly(2)));
        assert_eq!(wanted("0+"), Ok(Wanted::AtLeast(0)));
        assert_eq!(turns("7.5"), Ok(Turns::Within(7.5)));
        for bad in ["", "+", "-1", "+2", "2.5", "two"] {
            assert!(wanted(bad).is_err(), "{bad}");
        }
        assert!(turns("-3").is_err() && turns("some").is_err());
    }
}
