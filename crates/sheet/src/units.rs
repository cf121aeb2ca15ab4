//! How a length is written for people.

/// Millimetres in an inch: exact, by the international agreement of 1959.
pub const MM_PER_INCH: f64 = 25.4;

/// The unit that lengths are shown in. Inside, everything is millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres, shown to a tenth, or to a hundredth where it matters.
    #[default]
    Millimetres,
    /// Inches, shown to a thousandth.
    Inches,
    /// Inches in fractions, as a ruler divides them, shown to a sixty-fourth.
    InchFractions,
}

impl LengthUnit {
    /// The length with its unit, for example `1.4 mm` or `0.055 in`.
    ///
    /// Two decimals of a millimetre, three of an inch, or the nearest sixty-fourth; trailing zeros are left off.
    pub fn text(self, mm: f64) -> String {
        format!("{} {}", self.number(mm), self.symbol())
    }

    /// The length with its unit and two more decimals than [`text`](LengthUnit::text); five decimals of an inch where
    /// fractions are too coarse.
    pub fn finer_text(self, mm: f64) -> String {
        format!("{} {}", self.rounded(mm, 2), self.symbol())
    }

    /// The length as a number in this unit, without the unit's name.
    pub fn number(self, mm: f64) -> String {
        self.rounded(mm, 0)
    }

    fn rounded(self, mm: f64, more_decimals: usize) -> String {
        let (value, decimals) = match self {
            LengthUnit::Millimetres => (mm, 2 + more_decimals),
            LengthUnit::InchFractions if more_decimals == 0 => return fraction(mm / MM_PER_INCH),
            LengthUnit::Inches | LengthUnit::InchFractions => (mm / MM_PER_INCH, 3 + more_decimals),
        };
        let text = format!("{value:.decimals$}");
        let short = text.trim_end_matches('0').trim_end_matches('.');
        if short == "-0" { "0".to_owned() } else { short.to_owned() }
    }

    /// `mm` or `in`.
    pub fn symbol(self) -> &'static str {
        match self {
            LengthUnit::Millimetres => "mm",
            LengthUnit::Inches | LengthUnit::InchFractions => "in",
        }
    }
}

/// Into how many parts fractions divide an inch.
const PARTS: f64 = 64.0;

/// The nearest sixty-fourth, in lowest terms: `1 1/2`, `-3/64`, `0`.
fn fraction(inches: f64) -> String {
    let parts = (inches.abs() * PARTS).round();
    if parts > u32::MAX.into() {
        return format!("{inches:.0}");
    }
    let parts = parts as u32;
    let (whole, rest) = (parts / PARTS as u32, parts % PARTS as u32);
    let sign = if inches < 0.0 && parts > 0 { "-" } else { "" };
    // Halved as long as it can be: what divides 64 is a power of two.
    let halvings = rest.trailing_zeros().min(6);
    let (over, under) = (rest >> halvings, PARTS as u32 >> halvings);
    match (whole, over) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, over) => format!("{sign}{over}/{under}"),
        (whole, over) => format!("{sign}{whole} {over}/{under}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_as_people_write_them() {
        assert_eq!(LengthUnit::Millimetres.text(1.4), "1.4 mm");
        assert_eq!(LengthUnit::Millimetres.text(2.0), "2 mm");
        assert_eq!(LengthUnit::Millimetres.text(-0.001), "0 mm");
        assert_eq!(LengthUnit::Inches.text(25.4), "1 in");
        assert_eq!(LengthUnit::Inches.text(1.4), "0.055 in");
    }

    #[test]
    fn fractions_are_in_lowest_terms() {
        let shown = |inches: f64| LengthUnit::InchFractions.number(inches * MM_PER_INCH);
        let all = [1.5, 0.25, 3.0, -0.75, 0.0, -0.001, 5.0 / 64.0, 0.999].map(shown);
        assert_eq!(all, ["1 1/2", "1/4", "3", "-3/4", "0", "0", "5/64", "1"]);
        assert_eq!(LengthUnit::InchFractions.text(6.35), "1/4 in");
        assert_eq!(LengthUnit::InchFractions.finer_text(1.4), "0.05512 in");
        assert_eq!(shown(1e12), "1000000000000");
    }
}
