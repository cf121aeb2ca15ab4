//! A judge of finished layouts that shares no code with the packer and the rule check.
//!
//! It puts pieces where the layout says by its own arithmetic and measures with the `geo` crate. It looks at cut lines, and
//! at drawings with the width of their border as well: between two drawings there is at least the spacing and both
//! borders, whoever worked out the cut lines.

use geo::algorithm::line_measures::{Distance, Euclidean};
use geo::{Area, BooleanOps, BoundingRect, Coord, Polygon};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, Sheet, Sticker, Turns};

/// By how much a distance may fall short: the documented tolerance of the rules, in millimetres.
pub const TOLERANCE: f64 = 0.002;

/// How exact the arithmetic is, in millimetres.
const ROUNDING: f64 = 1e-7;

/// A piece where it lies.
struct Lying<'a> {
    sticker: &'a Sticker,
    border: f64,
    drawing: Polygon,
    cut_line: Polygon,
}

/// What is wrong with the layout; nothing if it may be shown.
///
/// Free pieces must lie as their stickers allow; locked ones lie as they do.
pub fn faults(layout: &Layout) -> Vec<String> {
    faults_beyond(layout, TOLERANCE)
}

/// The same with distances that may fall short by so much.
pub fn faults_beyond(layout: &Layout, slack: f64) -> Vec<String> {
    let slack = slack + ROUNDING;
    let rules = &layout.rules;
    let pieces: Vec<Lying> =
        layout.pieces.iter().map(|piece| lying(layout, &piece.sticker, &piece.placement)).collect();
    let mut faults = Vec::new();
    for (index, (piece, one)) in layout.pieces.iter().zip(&pieces).enumerate() {
        if !piece.locked && !may_lie(one.sticker, &piece.placement) {
            faults.push(format!("piece {index} lies in a way that it may not: {:?}", piece.placement));
        }
        let lacking = rules.margin - inside(&layout.sheet, &one.cut_line);
        let lacking_drawing = rules.margin + one.border - inside(&layout.sheet, &one.drawing);
        if lacking.max(lacking_drawing) > slack {
            faults.push(format!("piece {index} is nearer to the edge by {lacking} or {lacking_drawing} mm"));
        }
        for zone in layout.zones() {
            let zone_line = ring(&zone.outline, &Placement::at(0.0, 0.0));
            let lacking = shortage(&one.cut_line, &zone_line, zone.clearance, slack);
            let lacking_drawing = shortage(&one.drawing, &zone_line, zone.clearance + one.border, slack);
            if lacking.max(lacking_drawing) > slack {
                faults.push(format!(
                    "piece {index} is nearer to {} by {lacking} or {lacking_drawing} mm",
                    zone.name
                ));
            }
        }
        for (other_index, other) in pieces.iter().enumerate().skip(index + 1) {
            let lacking = shortage(&one.cut_line, &other.cut_line, rules.spacing, slack);
            let borders = rules.spacing + one.border + other.border;
            let lacking_drawing = shortage(&one.drawing, &other.drawing, borders, slack);
            if lacking.max(lacking_drawing) > slack {
                faults.push(format!(
                    "pieces {index} and {other_index} are nearer by {lacking} or {lacking_drawing} mm"
                ));
            }
        }
    }
    faults
}

/// The smallest distance between two cut lines, if there are two.
pub fn smallest_gap(layout: &Layout) -> Option<f64> {
    let lines: Vec<Polygon> =
        layout.pieces.iter().map(|piece| lying(layout, &piece.sticker, &piece.placement).cut_line).collect();
    let pairs = (0..lines.len()).flat_map(|a| (0..a).map(move |b| (a, b)));
    pairs.map(|(a, b)| Euclidean.distance(&lines[a], &lines[b])).min_by(f64::total_cmp)
}

/// Whether a free piece may be turned and flipped like this.
pub fn may_lie(sticker: &Sticker, placement: &Placement) -> bool {
    let degrees = placement.turn.to_degrees();
    let off = |from: f64| {
        let apart = (degrees - from).rem_euclid(360.0);
        apart.min(360.0 - apart)
    };
    let may_turn = match &sticker.turns {
        Turns::None => degrees == 0.0,
        Turns::Any => true,
        Turns::Within(most) => off(0.0) <= most + 1e-9,
        Turns::Only(list) => list.iter().any(|&one| off(one) < 1e-9),
    };
    may_turn && (sticker.mirror || !placement.mirrored)
}

fn lying<'a>(layout: &'a Layout, id: &str, placement: &Placement) -> Lying<'a> {
    let sticker =
        layout.stickers.iter().find(|sticker| &*sticker.id == id).expect("a sticker for each piece");
    Lying {
        border: sticker.border.unwrap_or(layout.rules.border),
        drawing: ring(&sticker.outline, placement),
        cut_line: ring(&sticker.cut_line(&layout.rules), placement),
        sticker,
    }
}

/// The line flipped, turned clockwise as seen, y down, and put where it lies. Quarter turns round nothing.
fn ring(line: &Outline, placement: &Placement) -> Polygon {
    let degrees = placement.turn.to_degrees();
    let quarters = degrees / 90.0;
    let (sine, cosine) = if quarters == quarters.floor() {
        [(0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0)][quarters as usize % 4]
    } else {
        libm::sincos(degrees.to_radians())
    };
    let corner = |point: &kurbo::Point| {
        let x = if placement.mirrored { -point.x } else { point.x };
        Coord {
            x: placement.at.x + x * cosine - point.y * sine,
            y: placement.at.y + x * sine + point.y * cosine,
        }
    };
    Polygon::new(line.points().iter().map(corner).collect(), Vec::new())
}

/// How far the line keeps from the edge of the sheet; negative if it leaves it.
///
/// A sheet with round corners is all that lies within the corner radius of the rectangle of the arcs' middles.
fn inside(sheet: &Sheet, line: &Polygon) -> f64 {
    let r = sheet.corner_radius;
    let keeps = |at: &Coord| {
        let sides = at.x.min(at.y).min(sheet.width - at.x).min(sheet.height - at.y);
        let beyond_x = (r - at.x).max(at.x - (sheet.width - r));
        let beyond_y = (r - at.y).max(at.y - (sheet.height - r));
        if beyond_x > 0.0 && beyond_y > 0.0 { sides.min(r - libm::hypot(beyond_x, beyond_y)) } else { sides }
    };
    line.exterior().coords().map(keeps).fold(f64::INFINITY, f64::min)
}

/// By how much two lines are nearer than asked; where they reach into each other, at least that much.
///
/// Lines that reach into each other by no more than `slack` share no more than a ribbon of that width.
fn shortage(one: &Polygon, other: &Polygon, asked: f64, slack: f64) -> f64 {
    let (a, b) = (one.bounding_rect().expect("corners"), other.bounding_rect().expect("corners"));
    let across = (a.min().x - b.max().x).max(b.min().x - a.max().x);
    let down = (a.min().y - b.max().y).max(b.min().y - a.max().y);
    if across.max(down) >= asked {
        return 0.0;
    }
    let distance = Euclidean.distance(one, other);
    if distance > 0.0 || asked > slack {
        return asked - distance;
    }
    let perimeter = one.exterior().lines().map(|line| Euclidean.distance(line.start, line.end)).sum::<f64>();
    let deep = one.intersection(other).unsigned_area() > slack * perimeter;
    asked + if deep { f64::INFINITY } else { 0.0 }
}

mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Background, Piece, Rules, Zone};

    use super::*;

    /// Two boxes of 10 x 10 mm with a border of 1 mm, 2 mm apart, 4 mm from the edge and 1 mm from a post.
    fn boxes(x: f64, y: f64) -> Layout {
        let square = path::parse("M-5 -5H5V5H-5Z").unwrap();
        let post = Zone::new("post", path::parse("M50 0H60V100H50Z").unwrap(), 1.0);
        Layout {
            sheet: Sheet { width: 100.0, height: 100.0, corner_radius: 0.0, ..Sheet::default() },
            rules: Rules { spacing: 2.0, margin: 4.0, border: 1.0, ..Rules::default() },
            backgrounds: vec![Background { name: "post".into(), zones: vec![post], ..Background::default() }],
            background: Some("post".into()),
            stickers: vec![Sticker::new("box", "Box", square)],
            pieces: [(10.01, 10.01), (x, y)]
                .map(|(x, y)| Piece::new("box".into(), Placement::at(x, y)))
                .to_vec(),
            ..Layout::default()
        }
    }

    #[test]
    fn every_fault_is_seen() {
        let seen = |layout: &Layout| faults(layout).join("; ");
        // A cut line runs up to a hundredth of a millimetre too far out.
        assert_eq!(seen(&boxes(24.05, 10.01)), "");
        assert_eq!(seen(&boxes(42.98, 50.0)), "");
        assert!(seen(&boxes(23.9, 10.02)).starts_with("pieces 0 and 1"));
        assert!(seen(&boxes(10.01, 10.01)).starts_with("pieces 0 and 1"));
        assert!(seen(&boxes(43.01, 50.0)).starts_with("piece 1 is nearer to post"));
        assert!(seen(&boxes(55.0, 50.0)).starts_with("piece 1 is nearer to post"));
        assert!(seen(&boxes(20.0, 90.01)).starts_with("piece 1 is nearer to the edge"));
        let mut round = boxes(30.0, 80.0);
        round.sheet.corner_radius = 20.0;
        assert!(seen(&round).starts_with("piece 0 is nearer to the edge"));
        let mut turned = boxes(30.0, 80.0);
        turned.pieces[1].placement = Placement::turned(30.0, 80.0, 90.0);
        assert!(seen(&turned).starts_with("piece 1 lies in a way"));
        turned.pieces[1].locked = true;
        assert_eq!(seen(&turned), "");
    }

    #[test]
    fn touching_is_no_fault_where_nothing_is_asked() {
        let mut layout = boxes(20.01, 10.01);
        (layout.rules.border, layout.rules.spacing) = (0.0, 0.0);
        assert_eq!(faults(&layout), [""; 0]);
        layout.pieces[1].placement.at.x -= 0.001;
        assert_eq!(faults(&layout), [""; 0]);
        layout.pieces[1].placement.at.x -= 0.2;
        assert_eq!(faults(&layout).len(), 1);
        layout.pieces[1].placement = layout.pieces[0].placement;
        assert_eq!(faults(&layout).len(), 1);
    }
}
