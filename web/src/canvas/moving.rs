//! The moving layer: chosen pieces, their handle, distances, and what the hand draws.

use std::collections::BTreeMap;

use kurbo::{Point, Rect, Vec2};
use stickleaf_editor::{Editor, Measure, Sketch, TurnHandle};
use stickleaf_outline::{Outline, Turn};
use stickleaf_sheet::{LengthUnit, Rule};
use web_sys::CanvasRenderingContext2d;

use super::flash::{self, Flash};
use super::glide::Shown;
use super::labels::Labels;
use super::layer::{Layer, stroke_edged, trace, trace_circle, trace_points};
use super::palette::{ACCENT_ON_PAPER, BROKEN_ON_PAPER, EDGE, Palette};
use super::shapes::Shapes;
use super::still::{draw_piece, hatch};
use super::{measures, palette, room, zone};
use crate::messages::RoomDot;
use crate::pictures::Picture;

/// With more broken rules than this, only those of the chosen pieces are written out; of several chosen ones, the worst.
const MOST_LABELS: usize = 6;

/// A piece smaller than this would vanish under a label, in pixels.
const SMALL_PIECE_PX: f64 = 110.0;

/// The radius of the handle for turning, in pixels. What a finger can take hold of is larger.
const HANDLE_PX: f64 = 12.0;

/// The hatching of what lies on something else.
const BROKEN_HATCH: &str = "rgba(164, 38, 29, 0.75)";

/// What is drawn.
pub struct MovingScene<'a> {
    pub editor: &'a Editor,
    pub palette: &'a Palette,
    pub pictures: &'a BTreeMap<String, Picture>,
    pub shown: &'a [Shown],
    pub unit: LengthUnit,
    /// Dots that would fit, while that is shown.
    pub room: &'a [RoomDot],
    /// What lights up, and when it is drawn.
    pub flash: Option<(&'a Flash, f64)>,
}

/// Draws the moving layer afresh.
pub fn draw(layer: &Layer, scene: &MovingScene, shapes: &mut Shapes) {
    layer.clear();
    let editor = scene.editor;
    // A carried piece takes up or sets free room that has not been looked at yet.
    if !editor.is_carrying() {
        room::draw(&layer.context, editor.view(), scene.room, scene.unit);
    }
    zone::draw(layer, editor, scene.palette, scene.unit);
    chosen_pieces(layer, scene, shapes);
    chosen_outlines(layer, scene);
    if let Some((flash, now_ms)) = scene.flash {
        flash::draw(layer, editor, flash, now_ms);
    }
    layer.in_pixels();
    let is_single = |handle: &TurnHandle| handle.piece.is_some();
    let handle = editor
        .turn_handle()
        .filter(|handle| !editor.is_carrying() || (editor.is_turning() && is_single(handle)));
    // While packing, distances would only flicker.
    if !editor.is_previewing() {
        distances(layer, scene, handle);
    }
    layer.in_pixels();
    if let Some(handle) = &handle {
        turn_handle(&layer.context, handle, scene.palette);
    }
    hand_drawing(layer, scene);
}

fn chosen_pieces(layer: &Layer, scene: &MovingScene, shapes: &mut Shapes) {
    let (editor, context) = (scene.editor, &layer.context);
    let seen = editor.view().seen();
    let lift_px = if editor.is_carrying() { 10.0 } else { 5.0 };
    for &piece in editor.selection() {
        let Some(shown) = scene.shown.get(piece) else { continue };
        // The shadow of the whole shape first, so that the picture itself is drawn without one.
        layer.in_millimetres(editor.view());
        trace(context, &editor.lines()[piece]);
        context.save();
        context.set_shadow_color("rgba(30, 26, 18, 0.42)");
        context.set_shadow_blur(2.0 * lift_px * layer.ratio);
        context.set_shadow_offset_y(lift_px * 0.6 * layer.ratio);
        context.set_fill_style_str(palette::WHITE);
        context.fill();
        context.restore();
        draw_piece(layer, editor.layout(), editor.view(), scene.pictures, shapes, (piece, shown, seen));
    }
}

/// The cut line of chosen pieces: drawn solid where all is well, dashed and thicker where a rule is broken.
fn chosen_outlines(layer: &Layer, scene: &MovingScene) {
    let editor = scene.editor;
    for &piece in editor.selection() {
        let is_broken = editor.live_findings().iter().any(|finding| finding.pieces.contains(&piece));
        outline(layer, scene, &editor.lines()[piece], is_broken);
    }
}

fn outline(layer: &Layer, scene: &MovingScene, line: &Outline, is_broken: bool) {
    let px = 1.0 / scene.editor.view().scale;
    let context = &layer.context;
    layer.in_millimetres(scene.editor.view());
    trace(context, line);
    context.set_line_join("round");
    context.set_stroke_style_str(EDGE);
    context.set_line_width(5.0 * px);
    context.stroke();
    let (colour, width) = if is_broken { (BROKEN_ON_PAPER, 2.5) } else { (ACCENT_ON_PAPER, 2.0) };
    let dashes = [7.0 * px, 4.0 * px];
    dash(context, if is_broken { &dashes } else { &[] });
    context.set_stroke_style_str(colour);
    context.set_line_width(width * px);
    context.stroke();
    dash(context, &[]);
}

/// All broken distances of the sheet, and those of the pieces in the hand written out.
fn distances(layer: &Layer, scene: &MovingScene, handle: Option<TurnHandle>) {
    let editor = scene.editor;
    let context = &layer.context;
    let view = editor.view();
    let own = editor.measures();
    let others: Vec<Measure> = editor
        .findings()
        .iter()
        .filter(|finding| finding.is_broken())
        .filter_map(Measure::of)
        .filter(|measure| !own.iter().any(|shown| shown.rule == measure.rule && shown.mark == measure.mark))
        .collect();
    for measure in own {
        shared_area(layer, editor, measure);
    }
    layer.in_pixels();
    // Marks first, so that no mark covers a label.
    for measure in others.iter().chain(own) {
        measures::draw(context, view, measure);
    }
    let mut written: Vec<&Measure> = if !own.is_empty() {
        own.iter().collect()
    } else if others.len() <= MOST_LABELS {
        others.iter().collect()
    } else {
        Vec::new()
    };
    // Where there is no room for all, it is the least bad that are left out; the list of findings has them all.
    written.sort_by(|a, b| measures::order_by_badness(a, b));
    if !matches!(editor.selection(), [_]) {
        written.truncate(MOST_LABELS);
    }
    let mut taken: Vec<Rect> = written.iter().map(|measure| measures::spot(view, measure)).collect();
    taken.extend(handle.map(|handle| Rect::from_center_size(handle.at, (44.0, 44.0))));
    taken.extend(editor.selection().iter().filter_map(|&piece| small_piece(editor, piece)));
    let mut labels = Labels::new(context, scene.palette, view.canvas, taken);
    if let Some((handle, piece)) =
        handle.and_then(|handle| Some((handle, handle.piece?))).filter(|_| editor.is_turning())
    {
        let turn = editor.layout().pieces[piece].placement.turn.to_signed_degrees();
        let outward = unit(handle.at - handle.foot);
        labels.write(&degrees(turn), handle.at + outward * HANDLE_PX, outward, &scene.palette.ink, false);
    }
    for measure in written {
        measures::write(&mut labels, view, measure, scene.unit, scene.palette);
    }
}

/// Where a chosen piece lies in pixels, if it is so small that a label would cover it.
fn small_piece(editor: &Editor, piece: usize) -> Option<Rect> {
    let bounds = editor.lines()[piece].bounds();
    let view = editor.view();
    let seen =
        Rect::from_points(view.to_canvas(bounds.origin()), view.to_canvas(Point::new(bounds.x1, bounds.y1)));
    (seen.width().max(seen.height()) < SMALL_PIECE_PX).then_some(seen)
}

/// Hatches what two pieces, or a piece and a zone, have in common.
fn shared_area(layer: &Layer, editor: &Editor, measure: &Measure) {
    let context = &layer.context;
    let view = editor.view();
    let lines = editor.lines();
    let zones = editor.layout().zones().iter().map(|zone| &*zone.outline);
    let others: Vec<&Outline> = match (measure.rule, &measure.pieces[..]) {
        (Rule::Overlap, &[_, other]) => vec![&lines[other]],
        (Rule::Zone, _) => zones.collect(),
        _ => return,
    };
    for other in others {
        let both = lines[measure.pieces[0]].bounds().intersect(other.bounds());
        context.save();
        layer.in_millimetres(view);
        trace(context, &lines[measure.pieces[0]]);
        context.clip();
        trace(context, other);
        context.clip();
        hatch(layer, view, both.intersect(view.seen()), BROKEN_HATCH, 6.0);
        context.restore();
    }
}

fn unit(way: Vec2) -> Vec2 {
    let length = way.hypot2().sqrt();
    if length > 0.0 { way / length } else { Vec2::new(0.0, -1.0) }
}

/// A turn as it is written: whole degrees where they are whole, else to a tenth.
fn degrees(turn: f64) -> String {
    let tenths = (turn * 10.0).round() / 10.0;
    format!("{}°", tenths + 0.0)
}

/// A round handle on a stalk, with an arrow that goes round.
fn turn_handle(context: &CanvasRenderingContext2d, handle: &TurnHandle, colours: &Palette) {
    let way = handle.at - handle.foot;
    let length = way.hypot2().sqrt().max(1.0);
    let end = handle.at - way * (HANDLE_PX / length);
    context.begin_path();
    context.move_to(handle.foot.x, handle.foot.y);
    context.line_to(end.x, end.y);
    stroke_edged(context, ACCENT_ON_PAPER, 1.75, EDGE, 1.25);
    trace_circle(context, handle.at, HANDLE_PX);
    context.save();
    context.set_shadow_color("rgba(30, 26, 18, 0.3)");
    context.set_shadow_blur(6.0);
    context.set_shadow_offset_y(1.0);
    context.set_fill_style_str(&colours.panel);
    context.fill();
    context.restore();
    context.set_stroke_style_str(&colours.accent);
    context.set_line_width(1.75);
    context.stroke();
    arrow_round(context, handle.at);
}

/// Three quarters of a circle that end in an arrow.
fn arrow_round(context: &CanvasRenderingContext2d, middle: Point) {
    let radius = 5.0;
    context.set_line_cap("round");
    context.set_line_join("round");
    context.begin_path();
    let quarter = core::f64::consts::FRAC_PI_2;
    let _ = context.arc(middle.x, middle.y, radius, -0.4 * quarter, 2.7 * quarter);
    context.stroke();
    // The arrow's tip lies where the arc began, and points against it.
    let (sine, cosine) = Turn::degrees(-0.4 * 90.0).sine_cosine();
    let tip = middle + Vec2::new(cosine, sine) * radius;
    context.begin_path();
    context.move_to(tip.x - 3.6, tip.y + 0.2);
    context.line_to(tip.x + 0.4, tip.y - 0.4);
    context.line_to(tip.x + 1.2, tip.y + 3.4);
    context.stroke();
}

/// The box that chooses, or the zone or blob that is drawn.
fn hand_drawing(layer: &Layer, scene: &MovingScene) {
    let context = &layer.context;
    let px = 1.0 / scene.editor.view().scale;
    layer.in_millimetres(scene.editor.view());
    context.begin_path();
    match (scene.editor.choosing_box(), scene.editor.sketch()) {
        (Some(chosen), _) | (None, Some(Sketch::Box(chosen))) => {
            context.rect(chosen.x0, chosen.y0, chosen.width(), chosen.height());
        }
        (None, Some(Sketch::Loop(path) | Sketch::Blob(path))) => trace_points(context, &path),
        (None, None) => return,
    }
    context.set_fill_style_str("rgba(31, 107, 89, 0.10)");
    context.fill();
    dash(context, &[6.0 * px, 4.0 * px]);
    stroke_edged(context, ACCENT_ON_PAPER, 1.5 * px, EDGE, px);
    dash(context, &[]);
}

/// Dashes of these lengths from here on; none for unbroken lines.
pub fn dash(context: &CanvasRenderingContext2d, lengths: &[f64]) {
    let list: js_sys::Array = lengths.iter().map(|&length| wasm_bindgen::JsValue::from_f64(length)).collect();
    // Lengths that are finite and not negative are never refused.
    let _ = context.set_line_dash(&list);
}
