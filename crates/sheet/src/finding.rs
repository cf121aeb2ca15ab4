//! One broken rule or one warning: which rule, which pieces, by how much, and where.

use kurbo::Point;

use crate::layout::Layout;
use crate::sticker::StickerId;
use crate::units::LengthUnit;

/// What a layout is held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// Two pieces lie on each other.
    Overlap,
    /// Two cut lines are nearer than the spacing.
    Spacing,
    /// A cut line is nearer to the sheet's edge than the margin.
    Margin,
    /// A piece lies on a zone.
    Zone,
    /// A piece is nearer to a zone than its clearance.
    Clearance,
    /// A piece is turned as its sticker does not allow.
    Turn,
    /// The border is narrower than the print-to-cut error.
    Border,
    /// A part is too thin to peel well.
    ThinPart,
    /// An inward corner is too sharp for a blade.
    InnerCorner,
    /// The sticker is too small to handle.
    Size,
    /// The picture is too coarse at this size.
    Resolution,
    /// The sticker fits the small-parts cylinder.
    SmallPart,
    /// The sticker's drawing was not found any more when its picture was brought in again.
    Gone,
}

impl Rule {
    /// The rule's name in files and reports.
    pub fn name(self) -> &'static str {
        match self {
            Rule::Overlap => "overlap",
            Rule::Spacing => "spacing",
            Rule::Margin => "margin",
            Rule::Zone => "zone",
            Rule::Clearance => "clearance",
            Rule::Turn => "turn",
            Rule::Border => "border",
            Rule::ThinPart => "thin_part",
            Rule::InnerCorner => "inner_corner",
            Rule::Size => "size",
            Rule::Resolution => "resolution",
            Rule::SmallPart => "small_part",
            Rule::Gone => "gone",
        }
    }

    /// Whether breaking it spoils the sheet, or is only worth a look.
    pub fn severity(self) -> Severity {
        match self {
            Rule::Overlap | Rule::Spacing | Rule::Margin | Rule::Zone | Rule::Clearance => Severity::Broken,
            _ => Severity::Warning,
        }
    }
}

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// A hard rule does not hold; the sheet is not ready.
    Broken,
    /// The sheet can be made, but something may go wrong.
    Warning,
}

/// What a finding's numbers count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetres,
    /// Square millimetres.
    SquareMillimetres,
    /// Degrees.
    Degrees,
    /// Pixels to the inch.
    PixelsPerInch,
}

impl Unit {
    /// The unit's name in files and reports.
    pub fn name(self) -> &'static str {
        match self {
            Unit::Millimetres => "mm",
            Unit::SquareMillimetres => "mm2",
            Unit::Degrees => "deg",
            Unit::PixelsPerInch => "ppi",
        }
    }
}

/// Where to look, in sheet millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mark {
    /// A spot.
    Point(Point),
    /// The shortest way between two lines.
    Segment(Point, Point),
}

impl Mark {
    /// The spot, or the middle of the segment.
    pub fn middle(self) -> Point {
        match self {
            Mark::Point(point) => point,
            Mark::Segment(start, end) => start.midpoint(end),
        }
    }
}

/// One broken rule or one warning.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which rule.
    pub rule: Rule,
    /// Which pieces, by their position in the layout; for a warning about a sticker, all its copies.
    pub pieces: Vec<usize>,
    /// The sticker that a warning is about.
    pub sticker: Option<StickerId>,
    /// The zone that is too near.
    pub zone: Option<String>,
    /// What was measured. For pieces or zones lying on each other, the area they share.
    pub measured: f64,
    /// What is asked: a most for turns and shared areas, a least for everything else.
    pub limit: f64,
    /// What both numbers count.
    pub unit: Unit,
    /// Where; nothing if the sticker is not on the sheet.
    pub mark: Option<Mark>,
}

impl Finding {
    /// Whether it spoils the sheet.
    pub fn is_broken(&self) -> bool {
        self.rule.severity() == Severity::Broken
    }

    /// What was measured and what is asked as lengths, with as many decimals as it takes to tell them apart. Worth
    /// something only if both are lengths.
    pub fn lengths(&self, unit: LengthUnit) -> (String, String) {
        told_apart(unit, self.measured.max(0.0), self.limit)
    }

    /// The finding as a sentence in the artist's words, lengths in the unit asked for.
    pub fn sentence(&self, layout: &Layout, unit: LengthUnit) -> String {
        let piece = |i: usize| self.pieces.get(i).map_or_else(String::new, |&index| layout.piece_name(index));
        let zone = self.zone.as_deref().unwrap_or_default();
        let sticker = self.sticker.as_deref().unwrap_or_default();
        let sticker = layout.sticker(sticker).map_or(sticker, |sticker| &sticker.name);
        let (measured, limit) = self.lengths(unit);
        match self.rule {
            Rule::Overlap => {
                format!("{} and {} overlap by {:.2} mm²", piece(0), piece(1), self.measured)
            }
            Rule::Spacing => format!("{} is {measured} from {}; {limit} is asked", piece(0), piece(1)),
            Rule::Margin if self.measured < 0.0 => {
                format!("{} reaches {} past the sheet's edge", piece(0), unit.text(-self.measured))
            }
            Rule::Margin => format!("{} is {measured} from the sheet's edge; {limit} is asked", piece(0)),
            Rule::Zone => format!("{} covers {:.2} mm² of {zone}", piece(0), self.measured),
            Rule::Clearance => format!("{} is {measured} from {zone}; {limit} is asked", piece(0)),
            Rule::Turn => format!(
                "{} is turned {:.1}° further than its sticker allows; {:.1}° is the nearest allowed turn",
                piece(0),
                self.measured,
                self.limit
            ),
            Rule::Border => format!(
                "the border of {sticker} is {measured}; the cut may miss the print by {limit}, so it can clip the drawing"
            ),
            Rule::ThinPart => format!("{sticker} has a part only {measured} wide; under {limit} it may tear"),
            Rule::InnerCorner => format!(
                "{sticker} has an inward corner of radius {measured}; under {limit} a blade may tear it"
            ),
            Rule::Size => format!("{sticker} is {measured} across; under {limit} it is hard to handle"),
            Rule::Resolution => format!(
                "{sticker} has {:.0} pixels to the inch at this size; under {:.0} it prints soft",
                self.measured, self.limit
            ),
            Rule::SmallPart => format!(
                "{sticker} is a small part: {measured} wide, so it fits a cylinder of {limit}; not for children under three"
            ),
            Rule::Gone => format!(
                "the drawing of {sticker} is not in its picture any more; remove the sticker, give it other art, or keep it"
            ),
        }
    }
}

/// Both lengths as text, with as many decimals as it takes to tell them apart.
fn told_apart(unit: LengthUnit, measured: f64, limit: f64) -> (String, String) {
    let usual = (unit.text(measured), unit.text(limit));
    if usual.0 != usual.1 || measured == limit {
        return usual;
    }
    (unit.finer_text(measured), unit.text(limit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_just_below_its_limit_is_told_from_it() {
        let both = |unit, measured| told_apart(unit, measured, 2.0).0;
        assert_eq!(both(LengthUnit::Millimetres, 1.4), "1.4 mm");
        assert_eq!(both(LengthUnit::Millimetres, 1.997), "1.997 mm");
        assert_eq!(both(LengthUnit::Inches, 1.997), "0.07862 in");
        assert_eq!(both(LengthUnit::Millimetres, 2.0), "2 mm");
    }
}
