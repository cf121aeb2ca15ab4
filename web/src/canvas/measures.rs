//! Distances drawn between two cut lines: thickness and writing first, colour last.

use std::cmp::Ordering;

use kurbo::{Point, Rect, Vec2};
use stickleaf_editor::{Measure, View};
use stickleaf_sheet::{LengthUnit, Mark, Rule, Unit};
use web_sys::CanvasRenderingContext2d;

use super::labels::Labels;
use super::layer::{stroke_edged, trace_circle};
use super::palette::{ACCENT_ON_PAPER, BROKEN_ON_PAPER, EDGE, Palette};
use crate::words;

/// A line shorter than this gets its ends from outside, pointing at it, in pixels.
const SHORT_PX: f64 = 26.0;

/// How long such an end is, in pixels.
const TAIL_PX: f64 = 15.0;

/// The size of a barb, in pixels.
const BARB_PX: f64 = 6.5;

/// Draws one distance, without its label. The context is in pixels.
pub fn draw(context: &CanvasRenderingContext2d, view: &View, measure: &Measure) {
    match measure.mark {
        Mark::Point(at) => clash(context, view.to_canvas(at)),
        Mark::Segment(start, end) => {
            let (start, end) = (view.to_canvas(start), view.to_canvas(end));
            if measure.broken { barbed(context, start, end) } else { round(context, start, end) }
        }
    }
}

/// Writes the label of a distance beside it. The context is in pixels.
pub fn write(labels: &mut Labels, view: &View, measure: &Measure, unit: LengthUnit, palette: &Palette) {
    let side = match measure.mark {
        Mark::Point(_) => Vec2::new(0.0, -1.0),
        Mark::Segment(start, end) => upward_across(end - start),
    };
    let colour = if measure.broken { &palette.broken } else { &palette.ink };
    let middle = view.to_canvas(measure.mark.middle());
    labels.write(&text(measure, unit), middle, side, colour, measure.broken);
}

/// The worse distance first: what lies on something else is worst, the more the worse, then what is missing most; what
/// breaks no rule is least.
pub fn order_by_badness(a: &Measure, b: &Measure) -> Ordering {
    let badness = |measure: &Measure| match (measure.broken, measure.rule) {
        (false, _) => (0, 0.0),
        (true, Rule::Overlap | Rule::Zone) => (2, measure.measured),
        (true, _) => (1, measure.limit - measure.measured),
    };
    let ((kind_a, much_a), (kind_b, much_b)) = (badness(a), badness(b));
    kind_b.cmp(&kind_a).then(much_b.total_cmp(&much_a))
}

/// The place that labels keep away from, so that the mark stays in sight; in pixels.
pub fn spot(view: &View, measure: &Measure) -> Rect {
    Rect::from_center_size(view.to_canvas(measure.mark.middle()), (22.0, 22.0))
}

/// What is written beside a distance: what it is, and, if that is not enough, what is asked.
pub fn text(measure: &Measure, unit: LengthUnit) -> String {
    let length = |mm: f64| words::length(unit, mm);
    match (measure.rule, measure.unit) {
        (Rule::Overlap, _) => words::overlap(measure.measured),
        (Rule::Zone, _) => words::on_a_zone(measure.measured),
        (Rule::Margin, _) if measure.measured < 0.0 => words::past_the_edge(&length(-measure.measured)),
        (_, Unit::Millimetres) if measure.broken => {
            words::too_little(&length(measure.measured), &length(measure.limit))
        }
        _ => length(measure.measured),
    }
}

/// A fine distance: thin, with round ends.
fn round(context: &CanvasRenderingContext2d, start: Point, end: Point) {
    line(context, start, end);
    context.set_line_cap("round");
    stroke_edged(context, ACCENT_ON_PAPER, 1.5, EDGE, 1.5);
    for point in [start, end] {
        trace_circle(context, point, 3.0);
        context.set_fill_style_str(ACCENT_ON_PAPER);
        context.fill();
        context.set_stroke_style_str(EDGE);
        context.set_line_width(1.0);
        context.stroke();
    }
}

/// A broken distance: thick, with barbs. Where there is no room between, the barbs point at it from outside.
fn barbed(context: &CanvasRenderingContext2d, start: Point, end: Point) {
    let way = end - start;
    let length = way.hypot2().sqrt();
    let along = if length > 0.0 { way / length } else { Vec2::new(1.0, 0.0) };
    let is_short = length < SHORT_PX;
    context.set_line_cap("round");
    context.set_line_join("round");
    context.begin_path();
    context.move_to(start.x, start.y);
    context.line_to(end.x, end.y);
    for (tip, out) in [(start, -along), (end, along)] {
        // From outside the barb opens away from the distance, from inside into it.
        let open = if is_short { out } else { -out };
        let across = Vec2::new(-open.y, open.x);
        for wing in [across, -across] {
            let far = tip + open * BARB_PX + wing * (BARB_PX * 0.8);
            context.move_to(far.x, far.y);
            context.line_to(tip.x, tip.y);
        }
        if is_short {
            let tail = tip + out * TAIL_PX;
            context.move_to(tip.x, tip.y);
            context.line_to(tail.x, tail.y);
        }
    }
    stroke_edged(context, BROKEN_ON_PAPER, 3.0, EDGE, 1.5);
}

/// Two things on each other: a ring with a cross.
fn clash(context: &CanvasRenderingContext2d, middle: Point) {
    trace_circle(context, middle, 10.0);
    let arm = 4.5;
    context.move_to(middle.x - arm, middle.y - arm);
    context.line_to(middle.x + arm, middle.y + arm);
    context.move_to(middle.x - arm, middle.y + arm);
    context.line_to(middle.x + arm, middle.y - arm);
    context.set_line_cap("round");
    stroke_edged(context, BROKEN_ON_PAPER, 3.0, EDGE, 1.5);
}

fn line(context: &CanvasRenderingContext2d, start: Point, end: Point) {
    context.begin_path();
    context.move_to(start.x, start.y);
    context.line_to(end.x, end.y);
}

/// The side of a line on which the hand does not lie: the one that points up more.
fn upward_across(way: Vec2) -> Vec2 {
    let length = way.hypot2().sqrt();
    if length == 0.0 {
        return Vec2::new(0.0, -1.0);
    }
    let across = Vec2::new(-way.y, way.x) / length;
    if across.y > 0.0 || (across.y == 0.0 && across.x < 0.0) { -across } else { across }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn measure(rule: Rule, broken: bool, measured: f64) -> Measure {
        let mark = Mark::Point(Point::ZERO);
        Measure { rule, broken, mark, measured, limit: 2.0, unit: Unit::Millimetres, pieces: vec![0] }
    }

    #[test]
    fn what_lies_on_something_is_worse_than_what_is_near_it() {
        let order = [
            measure(Rule::Overlap, true, 7.5),
            measure(Rule::Zone, true, 0.1),
            measure(Rule::Margin, true, -0.5),
            measure(Rule::Spacing, true, 1.4),
            measure(Rule::Spacing, false, 1.0),
        ];
        assert!(order.windows(2).all(|pair| order_by_badness(&pair[0], &pair[1]) == Ordering::Less));
    }

    #[test]
    fn a_broken_distance_says_what_is_asked() {
        let mm = LengthUnit::Millimetres;
        assert_eq!(text(&measure(Rule::Spacing, true, 1.4), mm), "1.4 mm, 2 mm asked");
        assert_eq!(text(&measure(Rule::Spacing, false, 2.6), mm), "2.6 mm");
        assert_eq!(text(&measure(Rule::Margin, true, -0.5), mm), "0.5 mm past the edge");
        assert_eq!(text(&measure(Rule::Spacing, false, 25.4), LengthUnit::Inches), "1 in");
    }
}
