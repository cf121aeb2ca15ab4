//! Free spots: mending a finding, one copy more, sliding along a neighbour.

use kurbo::Point;
use stickleaf_editor::{Editor, Habits, Input, MendedAll, NoFix, PointerKind, Press};
use stickleaf_outline::{Placement, path};
use stickleaf_sheet::{Finding, Layout, Piece, Rule, Sheet, Sticker, Turns};

/// Boxes of 10 mm at these places on a card of 60 x 60 mm with a margin of 4 mm and a spacing of 2 mm.
fn boxes(places: &[(f64, f64)]) -> Layout {
    let mut layout = Layout {
        sheet: Sheet { width: 60.0, height: 60.0, corner_radius: 0.0, ..Sheet::default() },
        ..Layout::default()
    };
    layout.rules.border = 0.0;
    layout.stickers = vec![Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap())];
    layout.pieces = places.iter().map(|&(x, y)| Piece::new("box".into(), Placement::at(x, y))).collect();
    layout
}

fn broken(editor: &Editor) -> usize {
    editor.findings().iter().filter(|finding| finding.is_broken()).count()
}

#[test]
fn a_piece_too_near_is_pushed_just_as_far_as_is_missing() {
    let mut editor = Editor::new(boxes(&[(20.0, 30.0), (31.4, 30.0)]));
    assert_eq!(editor.findings()[0].rule, Rule::Spacing);
    let fix = editor.proposed_fix(0).expect("there is room");
    // 1.4 mm are there, 2 mm are asked, and a micrometre is added against rounding.
    assert!((fix.distance - 0.6).abs() < 0.003, "{fix:?}");
    assert_eq!(editor.fix(0), Ok(()));
    assert_eq!(broken(&editor), 0);
    assert!(editor.undo());
    assert_eq!(*editor.layout(), boxes(&[(20.0, 30.0), (31.4, 30.0)]));
}

#[test]
fn a_piece_past_the_edge_and_one_on_another_are_mended() {
    for places in [&[(7.0, 53.5)][..], &[(30.0, 30.0), (33.0, 32.0)], &[(30.0, 30.0), (30.0, 30.0)]] {
        let mut editor = Editor::new(boxes(places));
        assert!(broken(&editor) > 0);
        assert_eq!(editor.fix(0), Ok(()), "{places:?}");
        assert_eq!(broken(&editor), 0, "{places:?}");
    }
}

#[test]
fn where_there_is_no_room_nothing_is_mended() {
    let full: Vec<(f64, f64)> =
        (0..16).map(|i| (9.0 + 12.0 * f64::from(i % 4), 9.0 + 12.0 * f64::from(i / 4))).collect();
    let mut layout = boxes(&full);
    layout.pieces.push(Piece::new("box".into(), Placement::at(27.0, 27.0)));
    let mut editor = Editor::new(layout);
    let before = editor.layout().clone();
    assert!(broken(&editor) > 0);
    assert_eq!(editor.fix(0), Err(NoFix::NoRoom));
    assert_eq!(*editor.layout(), before);
}

#[test]
fn a_locked_piece_is_not_the_one_that_is_pushed() {
    let mut layout = boxes(&[(20.0, 30.0), (31.4, 30.0)]);
    layout.pieces[1].locked = true;
    assert_eq!(Editor::new(layout.clone()).proposed_fix(0).unwrap().piece, 0);
    layout.pieces[0].locked = true;
    assert_eq!(Editor::new(layout).proposed_fix(0), Err(NoFix::Locked));
}

#[test]
fn a_turn_that_is_not_allowed_is_turned_to_the_nearest() {
    let mut layout = boxes(&[(30.0, 30.0)]);
    layout.stickers[0].turns = Turns::Within(10.0);
    layout.pieces[0].placement = Placement::turned(30.0, 30.0, 350.0 - 5.0);
    let mut editor = Editor::new(layout);
    let turn = editor.findings().iter().position(|finding| finding.rule == Rule::Turn).unwrap();
    assert_eq!(editor.fix(turn), Ok(()));
    assert_eq!(editor.layout().pieces[0].placement.turn.to_degrees(), 350.0);
}

#[test]
fn all_that_can_be_mended_is_mended_in_one_step() {
    let mut layout = boxes(&[(20.0, 30.0), (21.0, 30.0), (22.0, 31.0), (45.0, 6.0), (57.0, 57.0)]);
    layout.pieces[4].locked = true;
    let mut editor = Editor::new(layout.clone());
    assert_eq!(editor.fix_all(), MendedAll { moved: 3, left: 1 }, "the locked piece stays past the edge");
    assert_eq!(editor.findings()[0].pieces, [4]);
    assert_eq!(editor.selection().len(), 3);
    assert!(editor.undo());
    assert_eq!(*editor.layout(), layout);
    assert!(!editor.can_undo());
}

#[test]
fn copies_come_to_free_spots_until_the_sheet_is_full() {
    let mut editor = Editor::new(boxes(&[]));
    let first = editor.place_copy("box", None).unwrap();
    assert_eq!(editor.layout().pieces[first].placement.at, Point::new(30.0, 30.0));
    for _ in 0..6 {
        editor.place_copy("box", None).unwrap();
        assert_eq!(broken(&editor), 0);
    }
    assert_eq!(editor.place_copy("no such sticker", None), None);
    // A copy beyond what fits still comes, and the findings say what is wrong with it.
    for _ in 0..16 {
        editor.place_copy("box", Some(Point::new(12.0, 12.0))).unwrap();
    }
    assert!(broken(&editor) > 0);
}

#[test]
fn a_duplicate_lies_free_and_is_chosen() {
    let mut layout = boxes(&[(20.0, 30.0)]);
    layout.pieces[0].locked = true;
    let mut editor = Editor::new(layout);
    editor.select(vec![0]);
    editor.duplicate();
    assert_eq!(editor.selection(), [1]);
    assert!(!editor.layout().pieces[1].locked);
    assert_eq!(broken(&editor), 0);
    assert_eq!(editor.score().smallest_gap, Some(2.0));
}

#[test]
fn a_sticking_piece_slides_along_its_neighbour() {
    let mut editor = Editor::new(boxes(&[(20.0, 30.0), (45.0, 30.0)]));
    editor.habits = Habits { stick: true, ..Habits::default() };
    let view = *editor.view();
    let kind = PointerKind::Mouse;
    let at = view.to_canvas(Point::new(45.0, 30.0));
    editor.input(Input::Down(Press { id: 1, kind, at, extend: false, pan: false, time_ms: 0.0 }));
    // Half a millimetre too near: held at the spacing. Two millimetres too near: it follows the hand.
    editor.input(Input::Move { id: 1, at: view.to_canvas(Point::new(31.5, 33.0)), time_ms: 0.0 });
    let held = editor.layout().pieces[1].placement.at;
    assert!((held - Point::new(32.0, 33.0)).hypot2().sqrt() < 0.003, "{held:?}");
    assert!(editor.live_findings().is_empty());
    let there = Point::new(30.0, 33.0);
    editor.input(Input::Move { id: 1, at: view.to_canvas(there), time_ms: 0.0 });
    assert!((editor.layout().pieces[1].placement.at - there).hypot2().sqrt() < 0.001);
    assert!(editor.live_findings().iter().any(Finding::is_broken));
}
