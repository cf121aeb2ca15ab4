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
}

impl LengthUnit {
    /// The length with its unit, for example `1.4 mm` or `0.055 in`.
    ///
    /// Two decimals of a millimetre, three of an inch; trailing zeros are left off.
    pub fn text(self, mm: f64) -> String {
        format!("{} {}", self.number(mm), self.symbol())
    }

    /// The length with its unit and two more decimals than [`text`](LengthUnit::text).
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
            LengthUnit::Inches => (mm / MM_PER_INCH, 3 + more_decimals),
        };
        let text = format!("{value:.decimals$}");
        let short = text.trim_end_matches('0').trim_end_matches('.');
        if short == "-0" { "0".to_owned() } else { short.to_owned() }
    }

    /// `mm` or `in`.
    pub fn symbol(self) -> &'static str {
        match self {
            LengthUnit::Millimetres => "mm",
            LengthUnit::Inches => "in",
        }
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
}
