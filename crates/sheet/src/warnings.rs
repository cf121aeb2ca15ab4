//! What can be made, but may go wrong: one warning for each sticker and reason.

use stickleaf_outline::{Outline, Placement};

use crate::art::Art;
use crate::finding::{Finding, Mark, Rule, Unit};
use crate::layout::Layout;
use crate::sticker::Sticker;
use crate::units::MM_PER_INCH;

/// The small-parts cylinder: 31.7 mm across and, at its deeper side, 57.1 mm deep.
///
/// Source: 16 CFR 1501.4 (US); EN 71-1 is the European kin.
const SMALL_PARTS: (f64, f64) = (31.7, 57.1);

/// Every warning of the layout, sticker by sticker, then turns piece by piece: what [`check`](crate::check) says after the
/// hard rules. The placed cut lines are given.
pub fn warnings(layout: &Layout, lines: &[Outline]) -> Vec<Finding> {
    let mut findings: Vec<Finding> =
        layout.stickers.iter().flat_map(|sticker| sticker_warnings(layout, sticker)).collect();
    findings.extend((0..lines.len()).filter_map(|index| turn_warning(layout, index)));
    findings
}

fn sticker_warnings(layout: &Layout, sticker: &Sticker) -> Vec<Finding> {
    let rules = &layout.rules;
    let line = sticker.cut_line(rules);
    let pieces: Vec<usize> =
        (0..layout.pieces.len()).filter(|&index| layout.pieces[index].sticker == sticker.id).collect();
    let first = pieces.first().map(|&index| layout.pieces[index].placement);
    let finding = |rule, measured, limit, unit, at: Option<kurbo::Point>| Finding {
        rule,
        pieces: pieces.clone(),
        sticker: Some(sticker.id.clone()),
        zone: None,
        measured,
        limit,
        unit,
        mark: first.map(|placement| Mark::Point(placement.apply(at.unwrap_or_else(|| line.centroid())))),
    };
    let mut findings = Vec::new();
    let border = sticker.border_width(rules);
    if border < rules.print_to_cut {
        findings.push(finding(Rule::Border, border, rules.print_to_cut, Unit::Millimetres, None));
    }
    let across = line.bounds().width().max(line.bounds().height());
    if across < rules.smallest {
        findings.push(finding(Rule::Size, across, rules.smallest, Unit::Millimetres, None));
    }
    if let Some(thin) = sticker.thin_part(rules) {
        findings.push(finding(Rule::ThinPart, thin.width, rules.thinnest, Unit::Millimetres, Some(thin.at)));
    }
    if let Some(corner) = sticker.tight_inner_corner(rules) {
        let limit = rules.inner_radius;
        findings.push(finding(Rule::InnerCorner, corner.radius, limit, Unit::Millimetres, Some(corner.at)));
    }
    if let Some(pixels_per_mm) = sticker.art.as_ref().and_then(Art::pixels_printed) {
        let ppi = pixels_per_mm * MM_PER_INCH;
        // Half a pixel to the inch is lost where a file counts whole pixels to the metre.
        if ppi < rules.least_ppi - 0.5 {
            findings.push(finding(Rule::Resolution, ppi, rules.least_ppi, Unit::PixelsPerInch, None));
        }
    }
    if let Some(width) = sticker.memos.small_part.get(&line, 0.0, |_| small_part_width(&line)) {
        findings.push(finding(Rule::SmallPart, width, SMALL_PARTS.0, Unit::Millimetres, None));
    }
    if sticker.is_gone {
        // None of its area was found in the picture.
        findings.push(finding(Rule::Gone, 0.0, sticker.outline.area(), Unit::SquareMillimetres, None));
    }
    findings
}

/// The width of the cut line, in a turn in which it goes into the small-parts cylinder standing; nothing if none is
/// found. Turns are tried in steps of five degrees, so a piece on the very limit may be missed.
fn small_part_width(line: &Outline) -> Option<f64> {
    (0..36)
        .map(|step| line.placed(&Placement::turned(0.0, 0.0, 5.0 * f64::from(step))).bounds())
        .filter(|bounds| bounds.width() <= SMALL_PARTS.0 && bounds.height() <= SMALL_PARTS.1)
        .map(|bounds| bounds.width())
        .min_by(f64::total_cmp)
}

fn turn_warning(layout: &Layout, index: usize) -> Option<Finding> {
    let piece = &layout.pieces[index];
    let turns = &layout.sticker(&piece.sticker)?.turns;
    let turn = piece.placement.turn;
    (!turns.allow(turn)).then(|| {
        let nearest = turns.nearest(turn);
        Finding {
            rule: Rule::Turn,
            pieces: vec![index],
            sticker: Some(piece.sticker.clone()),
            zone: None,
            measured: nearest.distance_to(turn),
            limit: nearest.to_signed_degrees(),
            unit: Unit::Degrees,
            mark: Some(Mark::Point(piece.placement.at)),
        }
    })
}

#[cfg(test)]
mod tests {
    use kurbo::Point;
    use stickleaf_outline::path;

    use super::*;
    use crate::{Piece, check};

    fn rules_found(change: impl Fn(&mut Sticker)) -> Vec<Rule> {
        let mut sticker = Sticker::new("s", "S", path::parse("M-20 -30H20V30H-20Z").unwrap());
        change(&mut sticker);
        let layout = Layout {
            stickers: vec![sticker],
            pieces: vec![Piece::new("s".into(), Placement::at(50.0, 70.0))],
            ..Layout::default()
        };
        check(&layout).iter().map(|finding| finding.rule).collect()
    }

    #[test]
    fn each_limit_warns_just_below_it_and_not_at_it() {
        let coarse = |pixels_per_mm: f64| Some(Art::new("a.png", Point::ZERO, Some(pixels_per_mm)));
        assert_eq!(rules_found(|_| ()), []);
        assert_eq!(rules_found(|s| s.border = Some(0.5)), []);
        assert_eq!(rules_found(|s| s.border = Some(0.4)), [Rule::Border]);
        assert_eq!(rules_found(|s| s.art = coarse(300.0 / 25.4)), []);
        assert_eq!(rules_found(|s| s.art = coarse(11.0)), [Rule::Resolution]);
        // Lines are sharp at any size.
        assert_eq!(rules_found(|s| s.art = coarse(3.0).map(|art| Art { file: "a.SVG".into(), ..art })), []);
        let tiny = |s: &mut Sticker| s.outline = path::parse("M-2 -2H2V2H-2Z").unwrap().into();
        assert_eq!(rules_found(tiny), [Rule::Size, Rule::SmallPart]);
        let shape = |text: &'static str| move |s: &mut Sticker| s.outline = path::parse(text).unwrap().into();
        assert_eq!(rules_found(shape("M-20 -30H20V30H-20V1H-10V-1H-20Z")), [Rule::InnerCorner]);
        let bare_neck = |s: &mut Sticker| {
            s.border = Some(0.5);
            s.outline = path::parse("M-20 -30H-5V-0.5H5V-30H20V30H5V0.5H-5V30H-20Z").unwrap().into();
        };
        assert_eq!(rules_found(bare_neck), [Rule::ThinPart, Rule::InnerCorner]);
    }

    #[test]
    fn a_turn_that_is_not_allowed_warns() {
        let layout = Layout {
            stickers: vec![Sticker::new("s", "S", path::parse("M-20 -30H20V30H-20Z").unwrap())],
            pieces: vec![Piece::new("s".into(), Placement::turned(50.0, 70.0, 10.0))],
            ..Layout::default()
        };
        let findings = check(&layout);
        assert_eq!((findings[0].rule, findings[0].measured), (Rule::Turn, 10.0));
    }
}
