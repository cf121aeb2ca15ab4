//! Zones under the hand: what taps, drags, handles and keys make of them.

use kurbo::{Point, Rect, Vec2};
use stickleaf_editor::{Editor, Input, Key, PointerKind, Press, Stride, Tool, ZoneGrip};
use stickleaf_outline::{Placement, path};
use stickleaf_sheet::{Background, Layout, Piece, Rule, Sticker, Zone};

/// A box at (50, 70) on an A6 card with a band across the top and a small zone at the foot; 4 px to the millimetre.
fn editor() -> Editor {
    let mut layout = Layout::default();
    layout.rules.border = 0.0;
    layout.stickers.push(Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap()));
    layout.pieces.push(Piece::new("box".into(), Placement::at(50.0, 70.0)));
    let zone = |name: &str, data: &str| Zone::new(name, path::parse(data).unwrap(), 1.5);
    let zones = vec![zone("band", "M0 0H105V20H0Z"), zone("moon", "M40 110H60V130H40Z")];
    layout.backgrounds.push(Background { name: "Night".into(), zones, ..Background::default() });
    layout.background = Some("Night".into());
    let mut editor = Editor::new(layout);
    editor.set_canvas_size(812.0, 648.0);
    assert_eq!(editor.view().scale, 4.0);
    editor
}

fn pixel(editor: &Editor, x: f64, y: f64) -> Point {
    editor.view().to_canvas(Point::new(x, y))
}

fn down(editor: &mut Editor, at: Point) {
    editor.input(Input::Down(Press {
        id: 1,
        kind: PointerKind::Touch,
        at,
        extend: false,
        pan: false,
        time_ms: 0.0,
    }));
}

fn tap(editor: &mut Editor, x: f64, y: f64) {
    let at = pixel(editor, x, y);
    down(editor, at);
    editor.input(Input::Up { id: 1, at, time_ms: 500.0 });
}

/// Drags by so many millimetres and leaves the finger down.
fn pull(editor: &mut Editor, from: Point, by: Vec2) -> Point {
    let to = from + by * editor.view().scale;
    down(editor, from);
    editor.input(Input::Move { id: 1, at: from.midpoint(to), time_ms: 100.0 });
    editor.input(Input::Move { id: 1, at: to, time_ms: 200.0 });
    to
}

fn drag(editor: &mut Editor, from: Point, by: Vec2) {
    let to = pull(editor, from, by);
    editor.input(Input::Up { id: 1, at: to, time_ms: 600.0 });
}

fn bounds(editor: &Editor, zone: usize) -> Rect {
    editor.layout().zones()[zone].outline.bounds()
}

fn undo_label(editor: &Editor) -> String {
    editor.undo_label().map(ToString::to_string).unwrap_or_default()
}

#[test]
fn a_tap_chooses_a_zone_and_only_a_chosen_one_follows_the_finger() {
    let mut editor = editor();
    let from = pixel(&editor, 50.0, 120.0);
    drag(&mut editor, from, Vec2::new(10.0, 0.0));
    assert_eq!(bounds(&editor, 1), Rect::new(40.0, 110.0, 60.0, 130.0), "the finger looked around");
    editor.fit();
    tap(&mut editor, 50.0, 120.0);
    assert_eq!((editor.chosen_zone(), editor.selection()), (Some(1), &[][..]));
    let from = pixel(&editor, 50.0, 120.0);
    drag(&mut editor, from, Vec2::new(10.0, -5.0));
    assert_eq!(bounds(&editor, 1), Rect::new(50.0, 105.0, 70.0, 125.0));
    assert_eq!(undo_label(&editor), "Move zone moon");
    assert!(editor.undo());
    assert_eq!(bounds(&editor, 1), Rect::new(40.0, 110.0, 60.0, 130.0));
    assert!(!editor.can_undo(), "one gesture, one step");
    tap(&mut editor, 20.0, 90.0);
    assert_eq!(editor.chosen_zone(), None);
    tap(&mut editor, 50.0, 120.0);
    tap(&mut editor, 50.0, 70.0);
    assert_eq!((editor.chosen_zone(), editor.selection()), (None, &[0][..]), "a piece or a zone, never both");
}

#[test]
fn rules_are_checked_while_a_zone_is_carried_and_a_lost_finger_leaves_no_trace() {
    let mut editor = editor();
    let before = editor.layout().clone();
    tap(&mut editor, 50.0, 120.0);
    let from = pixel(&editor, 50.0, 120.0);
    pull(&mut editor, from, Vec2::new(0.0, -40.0));
    let rules: Vec<Rule> = editor.findings().iter().map(|finding| finding.rule).collect();
    assert!(rules.contains(&Rule::Zone), "{rules:?}");
    assert!(editor.is_carrying() && editor.is_carrying_zone() && editor.zone_handles().is_empty());
    editor.input(Input::Cancel { id: 1 });
    assert_eq!(editor.layout(), &before);
    assert!(!editor.findings().iter().any(|finding| finding.rule == Rule::Zone));
    assert!(!editor.can_undo());
}

#[test]
fn corners_size_a_zone_and_sides_stay_where_they_are() {
    let mut editor = editor();
    editor.choose_zone(Some(1));
    let handle = |editor: &Editor, across, down| {
        let grip = ZoneGrip { across, down };
        editor.zone_handles().into_iter().find(|handle| handle.grip == grip).unwrap().at
    };
    let from = handle(&editor, 1, -1);
    drag(&mut editor, from, Vec2::new(5.0, -3.0));
    assert_eq!(bounds(&editor, 1), Rect::new(40.0, 107.0, 65.0, 130.0));
    assert_eq!(undo_label(&editor), "Size zone moon");
    assert_eq!(editor.chosen_zone(), Some(1), "it stays chosen");
    editor.choose_zone(Some(0));
    let from = handle(&editor, 0, 1);
    drag(&mut editor, from, Vec2::new(30.0, 4.0));
    assert_eq!(bounds(&editor, 0), Rect::new(0.0, 0.0, 105.0, 24.0));
}

#[test]
fn a_zone_that_would_take_the_whole_card_stops_before() {
    let mut editor = editor();
    editor.choose_zone(Some(0));
    let foot = editor.zone_handles().into_iter().find(|handle| handle.grip.down == 1).unwrap().at;
    drag(&mut editor, foot, Vec2::new(0.0, 128.0));
    assert_eq!(editor.layout().validate(), Ok(()));
    assert!(!editor.fit_zone(0, Rect::new(0.0, 0.0, 105.0, 148.0)));
    assert!(editor.take_notice().is_some(), "it says why");
}

#[test]
fn keys_move_size_double_and_remove_the_chosen_zone() {
    let mut editor = editor();
    editor.choose_zone(Some(1));
    let key = |editor: &mut Editor, key, stride, time_ms| editor.input(Input::Key { key, stride, time_ms });
    key(&mut editor, Key::Right, Stride::Plain, 0.0);
    key(&mut editor, Key::Right, Stride::Plain, 100.0);
    key(&mut editor, Key::Up, Stride::Coarse, 200.0);
    assert_eq!(bounds(&editor, 1), Rect::new(41.0, 109.0, 61.0, 129.0));
    key(&mut editor, Key::TurnRight, Stride::Coarse, 300.0);
    assert_eq!(bounds(&editor, 1), Rect::new(41.0, 109.0, 62.0, 130.0));
    editor.undo();
    editor.undo();
    assert!(!editor.can_undo(), "quick steps of one kind are one");
    editor.choose_zone(Some(1));
    key(&mut editor, Key::Duplicate, Stride::Plain, 2000.0);
    assert_eq!((editor.layout().zones().len(), editor.chosen_zone()), (3, Some(2)));
    assert_eq!(editor.layout().zones()[2].name, "zone 1");
    key(&mut editor, Key::Remove, Stride::Plain, 3000.0);
    assert_eq!((editor.layout().zones().len(), editor.chosen_zone()), (2, None));
    assert_eq!(undo_label(&editor), "Remove zone zone 1");
    editor.choose_zone(Some(0));
    key(&mut editor, Key::Escape, Stride::Plain, 4000.0);
    assert_eq!(editor.chosen_zone(), None);
}

#[test]
fn a_drawn_zone_is_chosen_and_another_style_has_other_zones() {
    let mut editor = editor();
    editor.set_tool(Tool::DrawZone);
    let from = pixel(&editor, 70.0, 40.0);
    drag(&mut editor, from, Vec2::new(20.0, 15.0));
    assert_eq!((editor.chosen_zone(), editor.tool()), (Some(2), Tool::Move));
    assert_eq!(editor.zone_handles().len(), 4);
    editor.change("Style", |layout| layout.background = None).unwrap();
    assert_eq!(editor.chosen_zone(), None);
}
