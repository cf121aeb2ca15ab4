//! Roughing a layout in: blobs drawn by hand, plain shapes put on the sheet, drawings that take their place.

use kurbo::{Point, Vec2};
use proptest::prelude::*;
use stickleaf_editor::{
    BlobError, Editor, Input, Key, LEAST_BLOB, PointerKind, Press, Refusal, Stride, Tool,
};
use stickleaf_outline::{Outline, Placement, PlainShape, Turn, path};
use stickleaf_sheet::{DrawnSize, Layout, Piece, Sheet, Sticker, Turns, Wanted, check, redrawn};

/// An editor of an A6 card in a canvas that shows it at 4 px to the millimetre.
fn editor_of(layout: Layout) -> Editor {
    let mut editor = Editor::new(layout);
    editor.set_canvas_size(812.0, 648.0);
    assert_eq!(editor.view().scale, 4.0);
    editor
}

fn drawing() -> Editor {
    let mut editor = editor_of(Layout::default());
    editor.set_tool(Tool::DrawBlob);
    editor
}

fn down(editor: &mut Editor, id: u64, kind: PointerKind, at: Point) {
    let at = editor.view().to_canvas(at);
    editor.input(Input::Down(Press { id, kind, at, extend: false, pan: false, time_ms: 0.0 }));
}

fn slide(editor: &mut Editor, id: u64, at: Point) {
    let at = editor.view().to_canvas(at);
    editor.input(Input::Move { id, at, time_ms: 100.0 });
}

fn lift(editor: &mut Editor, id: u64, at: Point) {
    let at = editor.view().to_canvas(at);
    editor.input(Input::Up { id, at, time_ms: 900.0 });
}

/// Draws along these sheet points with one pointer.
fn draw(editor: &mut Editor, kind: PointerKind, points: &[Point]) {
    down(editor, 1, kind, points[0]);
    for &point in points {
        slide(editor, 1, point);
    }
    lift(editor, 1, points[points.len() - 1]);
}

/// Once round about (x, y).
fn round(x: f64, y: f64, radius: f64) -> Vec<Point> {
    let at = |i: u32| {
        let (sine, cosine) = libm::sincos(core::f64::consts::TAU * f64::from(i) / 48.0);
        Point::new(x + radius * cosine, y + radius * sine)
    };
    (0..=48).map(at).collect()
}

#[test]
fn a_closed_line_becomes_a_rough_sticker_where_it_was_drawn() {
    for kind in [PointerKind::Pen, PointerKind::Touch, PointerKind::Mouse] {
        let mut editor = drawing();
        draw(&mut editor, kind, &round(40.0, 60.0, 11.0));
        let layout = editor.layout().clone();
        let [sticker] = &layout.stickers[..] else { panic!("{:?}", layout.stickers) };
        assert_eq!((&*sticker.name, sticker.is_rough, sticker.wanted), ("Blob 1", true, Wanted::AtLeast(1)));
        assert!(sticker.art.is_none() && sticker.border.is_none(), "the layout's border");
        let size = sticker.outline.bounds().size();
        assert!((size.width - 22.0).abs() < 0.4 && (size.height - 22.0).abs() < 0.4, "{size:?}");
        let line = editor.lines()[0].bounds().center();
        assert!((line - Point::new(40.0, 60.0)).hypot2().sqrt() < 0.2, "{line:?}");
        assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), Some("Draw a blob"));
        assert_eq!(editor.tool(), Tool::DrawBlob, "the next one can be drawn");
        assert_eq!(editor.take_notice(), None);
        assert!(editor.undo());
        assert_eq!(*editor.layout(), Layout::default());
        assert!(!editor.can_undo(), "it was one step");
        assert!(editor.redo());
        assert_eq!(*editor.layout(), layout);
    }
}

#[test]
fn blobs_are_numbered_and_one_may_lie_on_another() {
    let mut editor = drawing();
    draw(&mut editor, PointerKind::Pen, &round(40.0, 60.0, 11.0));
    draw(&mut editor, PointerKind::Pen, &round(44.0, 62.0, 8.0));
    let names: Vec<&str> = editor.layout().stickers.iter().map(|sticker| &*sticker.name).collect();
    assert_eq!(names, ["Blob 1", "Blob 2"]);
    assert!(editor.findings().iter().any(stickleaf_sheet::Finding::is_broken));
    assert!(editor.undo());
    draw(&mut editor, PointerKind::Pen, &round(70.0, 120.0, 8.0));
    assert_eq!(&*editor.layout().stickers[1].id, "blob-2");
}

#[test]
fn what_is_no_blob_says_why_and_leaves_no_trace() {
    let slip = round(40.0, 60.0, LEAST_BLOB / 4.0);
    let arc: Vec<Point> = round(40.0, 60.0, 11.0).into_iter().take(20).collect();
    for (points, why) in [(slip, BlobError::TooSmall), (arc, BlobError::Open)] {
        let mut editor = drawing();
        draw(&mut editor, PointerKind::Pen, &points);
        assert_eq!(editor.take_notice(), Some(Refusal::Blob(why)));
        assert_eq!(*editor.layout(), Layout::default());
        assert!(!editor.can_undo());
    }
}

#[test]
fn a_tap_draws_nothing_and_says_nothing() {
    let mut editor = drawing();
    draw(&mut editor, PointerKind::Touch, &[Point::new(40.0, 60.0)]);
    assert_eq!((editor.take_notice(), editor.can_undo()), (None, false));
}

#[test]
fn escape_and_a_second_finger_cancel_without_a_trace() {
    let half: Vec<Point> = round(40.0, 60.0, 11.0).into_iter().take(40).collect();
    let begun = |kind| {
        let mut editor = drawing();
        down(&mut editor, 1, kind, half[0]);
        for &point in &half {
            slide(&mut editor, 1, point);
        }
        assert!(editor.sketch().is_some());
        editor
    };
    let mut escaped = begun(PointerKind::Pen);
    escaped.input(Input::Key { key: Key::Escape, stride: Stride::Plain, time_ms: 200.0 });
    let mut pinched = begun(PointerKind::Touch);
    down(&mut pinched, 2, PointerKind::Touch, Point::new(90.0, 90.0));
    let mut taken = begun(PointerKind::Touch);
    taken.input(Input::Cancel { id: 1 });
    for mut editor in [escaped, pinched, taken] {
        assert_eq!(editor.sketch(), None);
        lift(&mut editor, 2, Point::new(90.0, 90.0));
        lift(&mut editor, 1, half[0]);
        assert_eq!(*editor.layout(), Layout::default());
        assert!(!editor.can_undo());
        assert_eq!(editor.take_notice(), None);
        assert_eq!(editor.tool(), Tool::DrawBlob);
    }
}

#[test]
fn escape_puts_the_tool_away_once_nothing_is_being_drawn() {
    let mut editor = drawing();
    draw(&mut editor, PointerKind::Pen, &round(40.0, 60.0, 11.0));
    editor.input(Input::Key { key: Key::Escape, stride: Stride::Plain, time_ms: 200.0 });
    assert_eq!(editor.tool(), Tool::Move);
}

#[test]
fn the_palm_is_passed_over_while_the_pen_draws() {
    let mut editor = drawing();
    let line = round(40.0, 60.0, 11.0);
    down(&mut editor, 7, PointerKind::Touch, Point::new(60.0, 100.0));
    down(&mut editor, 1, PointerKind::Pen, line[0]);
    for (step, &point) in line.iter().enumerate() {
        slide(&mut editor, 1, point);
        slide(&mut editor, 7, Point::new(60.0, 100.0 + step as f64));
        if step == 20 {
            down(&mut editor, 8, PointerKind::Touch, Point::new(80.0, 110.0));
        }
    }
    lift(&mut editor, 1, line[0]);
    assert_eq!(editor.layout().stickers.len(), 1);
}

#[test]
fn fingers_that_only_look_do_not_draw() {
    let mut editor = drawing();
    editor.habits.fingers_only_look = true;
    draw(&mut editor, PointerKind::Touch, &round(40.0, 60.0, 11.0));
    assert!(editor.layout().stickers.is_empty());
}

fn heart(id: &str) -> Sticker {
    let mut heart = Sticker::new(id, "Heart", PlainShape::Heart.outline(20.0, 18.0).unwrap());
    heart.wanted = Wanted::Exactly(3);
    heart.turns = Turns::Any;
    heart.is_rough = true;
    heart
}

#[test]
fn a_plain_shape_comes_to_a_free_spot_in_one_step() {
    let mut editor = editor_of(Layout::default());
    for i in 0..6 {
        let piece = editor.add_sticker("Rough in Heart", heart(&format!("heart-{i}"))).unwrap();
        assert_eq!(piece, Some(i));
        assert_eq!(editor.selection(), [i]);
        assert!(
            !editor.findings().iter().any(stickleaf_sheet::Finding::is_broken),
            "{:?}",
            editor.findings()
        );
    }
    assert!(editor.undo());
    assert_eq!((editor.layout().stickers.len(), editor.layout().pieces.len()), (5, 5));
    assert!(editor.add_sticker("Rough in Heart", heart("heart-0")).is_err(), "the id is there already");
}

#[test]
fn where_there_is_no_free_spot_it_lies_on_the_tray_only() {
    let sheet = Sheet { width: 25.0, height: 25.0, ..Sheet::default() };
    let mut editor = Editor::new(Layout { sheet, ..Layout::default() });
    assert_eq!(editor.add_sticker("Rough in Heart", heart("heart")), Ok(None));
    assert_eq!((editor.layout().stickers.len(), editor.layout().pieces.len()), (1, 0));
    assert!(editor.undo() && editor.layout().stickers.is_empty());
}

#[test]
fn art_in_its_place_keeps_every_piece_about_its_middle_in_one_step() {
    let mut layout = Layout { stickers: vec![heart("heart")], ..Layout::default() };
    for (x, y, degrees, mirrored) in
        [(30.0, 30.0, 0.0, false), (70.0, 40.0, 123.0, false), (50.0, 100.0, 45.0, true)]
    {
        let placement = Placement { turn: Turn::degrees(degrees), mirrored, ..Placement::at(x, y) };
        layout.pieces.push(Piece { locked: mirrored, ..Piece::new("heart".into(), placement) });
    }
    let mut editor = editor_of(layout.clone());
    editor.select(vec![1]);
    let art = Sticker::new("drawing-1", "Crab", path::parse("M0 0H44V30H20V44H0Z").unwrap());
    editor
        .change("Replace Heart by art", |layout| {
            layout.stickers[0] = redrawn(&layout.stickers[0], &art, DrawnSize::True).unwrap();
        })
        .unwrap();
    assert_eq!(editor.layout().pieces, layout.pieces);
    assert_eq!(editor.selection(), [1]);
    for (piece, old) in layout.pieces.iter().enumerate() {
        let middle = |layout: &Layout| old.placement.apply(layout.stickers[0].outline.bounds().center());
        let apart: Vec2 = middle(&layout) - middle(editor.layout());
        assert!(apart.hypot2().sqrt() < 0.001, "piece {piece} is {apart:?} from its place");
    }
    assert_eq!(editor.findings(), check(editor.layout()));
    assert!(
        editor.findings().iter().any(stickleaf_sheet::Finding::is_broken),
        "it is too large for its places"
    );
    assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), Some("Replace Heart by art"));
    assert!(editor.undo());
    assert_eq!(*editor.layout(), layout);
}

/// Any line that a hand may draw: strokes, zigzags, loops on loops, also far beside the sheet.
fn scribble() -> impl Strategy<Value = Vec<Point>> {
    let point = prop_oneof![
        20 => (0.0..105.0, 0.0..148.0),
        1 => (-1e4..1e4, -1e4..1e4),
        1 => (prop::sample::select(vec![40.0, 50.0]), prop::sample::select(vec![60.0, 70.0])),
    ];
    let jumps = prop::collection::vec(point.prop_map(Point::from), 1..60);
    let steps = prop::collection::vec((-3.0..3.0, -3.0..3.0), 1..300).prop_map(|steps| {
        let mut at = Point::new(50.0, 70.0);
        steps
            .into_iter()
            .map(|(dx, dy)| {
                at += Vec2::new(dx, dy);
                at
            })
            .collect()
    });
    let rose = (1u32..9, 1u32..9, 3.0..30.0, 0.0..1.2).prop_map(|(petals, rounds, size, share)| {
        let at = |i: u32| {
            let angle = core::f64::consts::TAU * f64::from(rounds) * f64::from(i) / 200.0;
            let radius = size * (1.0 + share * libm::cos(angle * f64::from(petals) / 3.0));
            let (sine, cosine) = libm::sincos(angle);
            Point::new(50.0 + radius * cosine, 70.0 + radius * sine)
        };
        (0..=200).map(at).collect()
    });
    prop_oneof![jumps, steps, rose]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, ..ProptestConfig::default() })]

    #[test]
    fn any_scribble_is_a_sound_sticker_or_a_clear_refusal(points in scribble()) {
        let mut editor = drawing();
        draw(&mut editor, PointerKind::Pen, &points);
        let notice = editor.take_notice();
        let layout = editor.layout();
        prop_assert!(layout.validate().is_ok());
        let Some(sticker) = layout.stickers.first() else {
            // A line that never left its first point is a tap.
            let first = points[0];
            let is_tap = points.iter().all(|point| (*point - first).hypot2() < 1.1);
            prop_assert!(notice.is_some() || is_tap);
            prop_assert!(!editor.can_undo());
            return Ok(());
        };
        prop_assert_eq!(notice, None);
        let again = Outline::new(sticker.outline.points().iter().copied());
        prop_assert_eq!(again.as_ref(), Ok(&*sticker.outline), "it lies on the grid and does not cross itself");
        // No larger than what was drawn, but for the softness of the line, and lying there.
        let drawn = points.iter().fold(kurbo::Rect::from_points(points[0], points[0]), |all, &point| all.union_pt(point));
        let lies = sticker.outline.placed(&layout.pieces[0].placement).bounds();
        prop_assert!(drawn.inflate(1.0, 1.0).contains_rect(lies), "{:?} of {:?}", lies, drawn);
        let least = lies.width().min(lies.height());
        prop_assert!(least > LEAST_BLOB - 0.01, "{}", least);
        prop_assert!(editor.undo());
        prop_assert_eq!(editor.layout(), &Layout::default());
    }
}
