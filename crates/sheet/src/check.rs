//! The one rule check: everything that breaks a rule, and by how much.
//!
//! The canvas, the packer's last step, the command line and the export all come here.

use std::collections::HashMap;
use std::sync::Arc;

use kurbo::Point;
use stickleaf_outline::{Outline, Region, gap_within};

use crate::background::Zone;
use crate::finding::{Finding, Mark, Rule, Unit};
use crate::layout::Layout;
use crate::warnings::warnings;

/// How much a limit may be missed and still count as met, in millimetres.
///
/// Met exactly counts as met. Two outlines, each rounded to the micrometre grid, can come 1.4 micrometres nearer than
/// they were drawn; a blade or a printer shows nothing below fifty times that.
pub const RULE_TOLERANCE: f64 = 0.002;

/// With no distance asked, touching is fine, and only lines nearer than this many millimetres get the closer look
/// whether they overlap.
const CONTACT: f64 = 1e-9;

/// Everything that breaks a rule, then everything worth a warning.
///
/// Empty of [broken](Finding::is_broken) findings means that the sheet may be made. The order is that of the pieces.
///
/// Cost: near-neighbour pairs are measured edge by edge; the others by their boxes.
pub fn check(layout: &Layout) -> Vec<Finding> {
    let lines = placed_cut_lines(layout);
    let mut findings = check_pieces(layout, &lines);
    findings.extend(warnings(layout, &lines));
    findings
}

/// The cut line of every piece where it lies, in the order of the pieces.
///
/// A piece whose sticker is missing is a mistake of the caller: [`Layout::validate`] finds it first.
pub fn placed_cut_lines(layout: &Layout) -> Vec<Outline> {
    let mut cut_lines: HashMap<&str, Arc<Outline>> = HashMap::new();
    for sticker in &layout.stickers {
        cut_lines.entry(&sticker.id).or_insert_with(|| sticker.cut_line(&layout.rules));
    }
    layout.pieces.iter().map(|piece| cut_lines[&*piece.sticker].placed(&piece.placement)).collect()
}

/// The hard rules of all pieces, whose placed cut lines are given.
pub fn check_pieces(layout: &Layout, lines: &[Outline]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        findings.extend(margin_finding(layout, index, line));
        findings.extend(layout.zones().iter().filter_map(|zone| zone_finding(zone, index, line)));
        for (other, other_line) in lines.iter().enumerate().skip(index + 1) {
            findings.extend(pair_finding(layout, (index, line), (other, other_line)));
        }
    }
    findings
}

/// The hard rules of one piece against everything else: what [`check_pieces`] says of it.
///
/// For the piece under the hand: all other lines stay as they are, and only its own pairs are measured.
pub fn check_piece(layout: &Layout, lines: &[Outline], index: usize) -> Vec<Finding> {
    let line = &lines[index];
    let mut findings: Vec<Finding> = margin_finding(layout, index, line).into_iter().collect();
    findings.extend(layout.zones().iter().filter_map(|zone| zone_finding(zone, index, line)));
    for (other, other_line) in lines.iter().enumerate() {
        if other < index {
            findings.extend(pair_finding(layout, (other, other_line), (index, line)));
        } else if other > index {
            findings.extend(pair_finding(layout, (index, line), (other, other_line)));
        }
    }
    findings
}

fn pair_finding(layout: &Layout, a: (usize, &Outline), b: (usize, &Outline)) -> Option<Finding> {
    let spacing = layout.rules.spacing;
    let gap = gap_within(a.1, b.1, (spacing - RULE_TOLERANCE).max(CONTACT))?;
    let finding = |rule, measured, limit, unit, mark| Finding {
        rule,
        pieces: vec![a.0, b.0],
        sticker: None,
        zone: None,
        measured,
        limit,
        unit,
        mark: Some(mark),
    };
    if gap.distance == 0.0
        && let Some((area, at)) = shared_area(a.1, b.1)
    {
        return Some(finding(Rule::Overlap, area, 0.0, Unit::SquareMillimetres, Mark::Point(at)));
    }
    let (start, end) = gap.between;
    (gap.distance < spacing - RULE_TOLERANCE)
        .then(|| finding(Rule::Spacing, gap.distance, spacing, Unit::Millimetres, Mark::Segment(start, end)))
}

fn zone_finding(zone: &Zone, index: usize, line: &Outline) -> Option<Finding> {
    let gap = gap_within(line, &zone.outline, (zone.clearance - RULE_TOLERANCE).max(CONTACT))?;
    let finding = |rule, measured, limit, unit, mark| Finding {
        rule,
        pieces: vec![index],
        sticker: None,
        zone: Some(zone.name.clone()),
        measured,
        limit,
        unit,
        mark: Some(mark),
    };
    if gap.distance == 0.0
        && let Some((area, at)) = shared_area(line, &zone.outline)
    {
        return Some(finding(Rule::Zone, area, 0.0, Unit::SquareMillimetres, Mark::Point(at)));
    }
    let (start, end) = gap.between;
    (gap.distance < zone.clearance - RULE_TOLERANCE).then(|| {
        finding(Rule::Clearance, gap.distance, zone.clearance, Unit::Millimetres, Mark::Segment(start, end))
    })
}

fn margin_finding(layout: &Layout, index: usize, line: &Outline) -> Option<Finding> {
    let sheet = &layout.sheet;
    let inside = |point: &Point| sheet.distance_to_edge(*point);
    let nearest = line.points().iter().min_by(|a, b| inside(a).total_cmp(&inside(b)))?;
    let measured = inside(nearest);
    (measured < layout.rules.margin - RULE_TOLERANCE).then(|| Finding {
        rule: Rule::Margin,
        pieces: vec![index],
        sticker: None,
        zone: None,
        measured,
        limit: layout.rules.margin,
        unit: Unit::Millimetres,
        mark: Some(Mark::Segment(*nearest, sheet.nearest_on_edge(*nearest))),
    })
}

/// The area that two outlines share and a point in it, unless they merely touch within the tolerance.
fn shared_area(a: &Outline, b: &Outline) -> Option<(f64, Point)> {
    let (a_region, b_region) = (Region::of(a), Region::of(b));
    let shared = a_region.intersection(&b_region);
    // Two regions that reach less than the tolerance into each other no longer meet once each has lost half of it. Twice
    // that is room for rounding: what holds so large a disc need not be shrunk to know.
    if !shared.surely_holds_disc(RULE_TOLERANCE) {
        let less = -RULE_TOLERANCE / 2.0;
        let fine = RULE_TOLERANCE / 10.0;
        if a_region.grown(less, fine).intersection(&b_region.grown(less, fine)).is_empty() {
            return None;
        }
    }
    let largest = shared.outer_rings().into_iter().next();
    let at = largest.map_or(a.points()[0], |ring| ring.centroid());
    Some((shared.area(), at))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};

    use super::*;
    use crate::{Background, Piece, Rules, Sticker};

    /// Boxes of 10 x 10 mm without border, at these middles, on an A6 card.
    fn boxes(middles: &[(f64, f64)]) -> Layout {
        let square = path::parse("M-5 -5H5V5H-5Z").unwrap();
        let pieces = middles.iter().map(|&(x, y)| Piece::new("box".into(), Placement::at(x, y))).collect();
        Layout {
            rules: Rules { border: 0.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", square)],
            pieces,
            ..Layout::default()
        }
    }

    fn broken(layout: &Layout) -> Vec<Finding> {
        check(layout).into_iter().filter(Finding::is_broken).collect()
    }

    #[test]
    fn spacing_met_exactly_counts_as_met() {
        assert_eq!(broken(&boxes(&[(20.0, 20.0), (32.0, 20.0)])), []);
        let findings = broken(&boxes(&[(20.0, 20.0), (31.4, 20.0)]));
        assert_eq!(findings.len(), 1);
        assert_eq!((findings[0].rule, &findings[0].pieces[..]), (Rule::Spacing, &[0, 1][..]));
        assert!((findings[0].measured - 1.4).abs() < 1e-9 && findings[0].limit == 2.0);
    }

    #[test]
    fn finding_reads_as_a_sentence() {
        let layout = boxes(&[(20.0, 20.0), (31.4, 20.0)]);
        let sentence = broken(&layout)[0].sentence(&layout, crate::LengthUnit::Millimetres);
        assert_eq!(sentence, "Box 1 is 1.4 mm from Box 2; 2 mm is asked");
    }

    #[test]
    fn overlap_names_the_shared_area() {
        let findings = broken(&boxes(&[(20.0, 20.0), (28.0, 25.0)]));
        assert_eq!(findings[0].rule, Rule::Overlap);
        assert!((findings[0].measured - 10.0).abs() < 1e-6);
    }

    #[test]
    fn touching_is_no_overlap_where_no_spacing_is_asked() {
        let mut layout = boxes(&[(20.0, 20.0), (30.0, 20.0)]);
        layout.rules.spacing = 0.0;
        assert_eq!(broken(&layout), []);
        layout.pieces[1].placement.at.x = 29.9;
        assert_eq!(broken(&layout)[0].rule, Rule::Overlap);
    }

    #[test]
    fn margin_counts_round_corners() {
        // With sharp corners the box may lie 4 mm from both edges; in a corner of radius 4 mm that is still so, since
        // the middle of the arc is the box's corner. With radius 10 mm its corner is 10 - 6 sqrt 2 = 1.51 mm away.
        let mut layout = boxes(&[(9.0, 9.0)]);
        assert_eq!(broken(&layout), []);
        layout.sheet.corner_radius = 10.0;
        let findings = broken(&layout);
        assert_eq!(findings[0].rule, Rule::Margin);
        assert!((findings[0].measured - (10.0 - 6.0 * 2f64.sqrt())).abs() < 1e-9);
        layout.pieces[0].placement.at.x = 3.0;
        assert!(broken(&layout)[0].measured < 0.0);
    }

    #[test]
    fn zones_keep_their_own_clearance() {
        let mut layout = boxes(&[(50.0, 30.0)]);
        let band = path::parse("M0 0H105V22H0Z").unwrap();
        layout.backgrounds = vec![Background {
            name: "Band".into(),
            zones: vec![Zone::new("title", band, 3.0)],
            ..Default::default()
        }];
        assert_eq!(broken(&layout), []);
        layout.background = Some("Band".into());
        assert_eq!(broken(&layout), []);
        layout.pieces[0].placement.at.y = 29.0;
        assert_eq!((broken(&layout)[0].rule, broken(&layout)[0].measured), (Rule::Clearance, 2.0));
        layout.pieces[0].placement.at.y = 26.0;
        assert_eq!(broken(&layout)[0].rule, Rule::Zone);
        assert!((broken(&layout)[0].measured - 10.0).abs() < 1e-6);
    }

    #[test]
    fn one_piece_is_checked_as_the_whole_sheet_is() {
        let layout = boxes(&[(5.0, 20.0), (14.0, 25.0), (25.0, 20.0), (24.0, 12.0)]);
        let lines = placed_cut_lines(&layout);
        let all = check_pieces(&layout, &lines);
        for index in 0..lines.len() {
            let mut expected: Vec<_> = all.iter().filter(|f| f.pieces.contains(&index)).cloned().collect();
            let mut found = check_piece(&layout, &lines, index);
            let key = |f: &Finding| (f.rule, f.pieces.clone());
            expected.sort_by_key(key);
            found.sort_by_key(key);
            assert_eq!(found, expected);
        }
    }
}
