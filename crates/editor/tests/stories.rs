//! What hands do, told as lines of text, and what must have become of the sheet.
//!
//! A line is a list of deeds parted by semicolons. Places are sheet millimetres; the fitted view of a canvas of
//! 812 x 648 px shows them at 4 px to the millimetre, so 1 mm stays under every drag threshold but the mouse's.

use kurbo::{Point, Vec2};
use stickleaf_editor::{Editor, Input, Key, PointerKind, Press, Step, Stride, Tool};
use stickleaf_outline::{Placement, path};
use stickleaf_sheet::{Layout, Piece, Rule, Sticker, Turns, check};

/// Four pieces on an A6 card: an upright box at (20, 20), a free one at (50, 70), a locked one at (80, 70), and one
/// that turns up to 30 degrees at (50, 120).
fn editor() -> Editor {
    let mut layout = Layout::default();
    layout.rules.border = 0.0;
    for (id, turns) in [("upright", Turns::None), ("free", Turns::Any), ("some", Turns::Within(30.0))] {
        let mut sticker = Sticker::new(id, id, path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.turns = turns;
        layout.stickers.push(sticker);
    }
    let piece = |id: &str, x, y| Piece::new(id.into(), Placement::at(x, y));
    layout.pieces = vec![
        piece("upright", 20.0, 20.0),
        piece("free", 50.0, 70.0),
        Piece { locked: true, ..piece("free", 80.0, 70.0) },
        piece("some", 50.0, 120.0),
    ];
    let mut editor = Editor::new(layout);
    editor.set_canvas_size(812.0, 648.0);
    assert_eq!(editor.view().scale, 4.0);
    editor
}

/// Plays deeds such as `down 1 touch 50,70`, `move 1 60,70`, `up 1 60,70`, `cancel 1`, `wait 500`, `key undo`.
fn play(editor: &mut Editor, story: &str) {
    let mut time_ms = 0.0;
    for deed in story.split(';') {
        let words: Vec<&str> = deed.split_whitespace().collect();
        time_ms += 20.0;
        let id = || words[1].parse().unwrap();
        let place = |editor: &Editor, word: &str| {
            let (x, y) = word.split_once(',').unwrap();
            editor.view().to_canvas(Point::new(x.parse().unwrap(), y.parse().unwrap()))
        };
        let input = match words[0] {
            "down" => Input::Down(Press {
                id: id(),
                kind: match words[2] {
                    "touch" => PointerKind::Touch,
                    "pen" => PointerKind::Pen,
                    _ => PointerKind::Mouse,
                },
                at: place(editor, words[3]),
                extend: words.contains(&"extend"),
                pan: words.contains(&"pan"),
                time_ms,
            }),
            "move" => Input::Move { id: id(), at: place(editor, words[2]), time_ms },
            "up" => Input::Up { id: id(), at: place(editor, words[2]), time_ms },
            "cancel" => Input::Cancel { id: id() },
            "wait" => {
                time_ms += words[1].parse::<f64>().unwrap();
                continue;
            }
            "key" => {
                let key = match words[1] {
                    "undo" => Key::Undo,
                    "left" => Key::Left,
                    "right" => Key::Right,
                    "turn" => Key::TurnRight,
                    "escape" => Key::Escape,
                    "remove" => Key::Remove,
                    other => panic!("unknown key {other}"),
                };
                let stride = match words.get(2) {
                    Some(&"coarse") => Stride::Coarse,
                    Some(&"fine") => Stride::Fine,
                    _ => Stride::Plain,
                };
                Input::Key { key, stride, time_ms }
            }
            other => panic!("unknown deed {other}"),
        };
        editor.input(input);
    }
}

/// Where piece 0, 1 or any other is after a story.
struct Told {
    story: &'static str,
    piece: usize,
    at: (f64, f64),
    turn: f64,
    chosen: &'static [usize],
    undo: Option<&'static str>,
}

#[test]
fn stories_of_one_pointer() {
    let still = Told { story: "", piece: 1, at: (50.0, 70.0), turn: 0.0, chosen: &[], undo: None };
    let moved = Some("Move free 1");
    let stories = [
        // A tap chooses, and moves nothing, even if the finger rolls by 2 mm, that is 8 px.
        Told { story: "down 1 touch 50,70; move 1 51,71; up 1 52,70", chosen: &[1], ..still },
        // A finger beside a small piece still chooses it: 2.5 mm are 10 px.
        Told { story: "down 1 touch 57.5,70; up 1 57.5,70", chosen: &[1], ..still },
        Told { story: "down 1 mouse 57.5,70; up 1 57.5,70", chosen: &[], ..still },
        // A drag moves, chosen before or not, and counts as one step.
        Told {
            story: "down 1 touch 50,70; move 1 53,70; move 1 60,75; up 1 62.5,75",
            at: (62.5, 75.0),
            chosen: &[1],
            undo: moved,
            ..still
        },
        Told {
            story: "down 1 mouse 52,70; move 1 53,70; up 1 53,70",
            at: (51.0, 70.0),
            chosen: &[1],
            undo: moved,
            ..still
        },
        Told { story: "down 1 touch 52,70; move 1 53,70; up 1 53,70", chosen: &[1], ..still },
        // Back to where it was: nothing to take back.
        Told {
            story: "down 1 pen 50,70; move 1 60,70; move 1 50,70; up 1 50,70",
            chosen: &[1],
            undo: None,
            ..still
        },
        // Taken away by the system or given up by a key.
        Told { story: "down 1 touch 50,70; move 1 60,70; cancel 1", chosen: &[1], ..still },
        Told {
            story: "down 1 touch 50,70; move 1 60,70; key escape; move 1 90,90; up 1 90,90",
            chosen: &[1],
            ..still
        },
        Told { story: "down 1 touch 50,70; move 1 60,70; key undo; up 1 90,90", chosen: &[1], ..still },
        // A locked piece can be chosen, but stays.
        Told {
            story: "down 1 mouse 80,70; up 1 80,70; down 1 mouse 80,70; move 1 80,80; up 1 80,80",
            piece: 2,
            at: (80.0, 70.0),
            ..still
        },
        // Two taps choose two, and both move; a tap on one of them takes it out.
        Told {
            story: "down 1 mouse 50,70; up 1 50,70; down 1 mouse 20,20 extend; up 1 20,20; \
                    down 1 mouse 20,20; move 1 25,20; up 1 25,20",
            at: (55.0, 70.0),
            chosen: &[0, 1],
            undo: Some("Move 2 pieces"),
            ..still
        },
        Told {
            story: "down 1 mouse 50,70; up 1 50,70; down 1 mouse 20,20 extend; up 1 20,20; \
                    down 1 mouse 50,70 extend; up 1 50,70",
            chosen: &[0],
            ..still
        },
        // A box drawn with the mouse chooses what it touches.
        Told { story: "down 1 mouse 10,60; move 1 46,80; up 1 46,66", chosen: &[1], ..still },
        Told {
            story: "down 1 mouse 10,10; move 1 100,100; move 1 10,100; key escape; up 1 10,100",
            chosen: &[],
            ..still
        },
        // A tap on nothing chooses nothing.
        Told {
            story: "down 1 mouse 50,70; up 1 50,70; down 1 touch 80,20; up 1 80,20",
            chosen: &[],
            ..still
        },
        // Keys.
        Told {
            story: "down 1 mouse 50,70; up 1 50,70; key right; key right coarse; key left fine; key turn coarse",
            at: (51.49, 70.0),
            turn: 15.0,
            chosen: &[1],
            undo: moved,
            ..still
        },
        Told {
            story: "down 1 mouse 50,70; up 1 50,70; key right; wait 2000; key right; key undo",
            at: (50.5, 70.0),
            chosen: &[1],
            undo: moved,
            ..still
        },
        Told {
            story: "down 1 mouse 80,70; up 1 80,70; key right; key remove",
            piece: 2,
            at: (80.0, 70.0),
            chosen: &[2],
            ..still
        },
        // The pen's palm is passed over, whether it lands before or after the pen.
        Told {
            story: "down 1 pen 50,70; move 1 60,70; down 2 touch 70,90; move 2 80,120; up 1 60,70; up 2 80,120",
            at: (60.0, 70.0),
            chosen: &[1],
            undo: moved,
            ..still
        },
        Told {
            story: "down 2 touch 70,90; move 2 71,91; down 1 pen 50,70; move 1 60,70; move 2 9,9; up 1 60,70; up 2 9,9",
            at: (60.0, 70.0),
            chosen: &[1],
            undo: moved,
            ..still
        },
    ];
    for told in stories {
        let mut editor = editor();
        play(&mut editor, told.story);
        let placement = editor.layout().pieces[told.piece].placement;
        assert_eq!(placement.at, told.at.into(), "{}", told.story);
        assert_eq!(placement.turn.to_degrees(), told.turn, "{}", told.story);
        if told.piece == 1 || !told.chosen.is_empty() {
            assert_eq!(editor.selection(), told.chosen, "{}", told.story);
        }
        assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), told.undo, "{}", told.story);
        assert!(!editor.is_carrying() && !editor.is_busy(), "{}", told.story);
    }
}

#[test]
fn one_finger_on_nothing_pans_and_so_does_a_mouse_that_grips() {
    for story in [
        "down 1 touch 80,20; move 1 85,20; up 1 90,20",
        "down 1 mouse 50,70 pan; move 1 55,70; up 1 60,70",
        "down 1 touch 80,70; move 1 85,70; up 1 90,70",
    ] {
        let mut editor = editor();
        let before = editor.view().origin;
        // While panning, the sheet's point stays under the finger, so each place is counted in the view of its moment.
        play(&mut editor, story);
        assert!(editor.view().origin.x > before.x + 20.0, "{story}");
        assert_eq!(editor.view().origin.y, before.y, "{story}");
        assert_eq!(editor.layout(), self::editor().layout(), "{story}");
    }
}

#[test]
fn a_double_tap_beside_the_pieces_fits_the_sheet_and_one_on_a_piece_looks_at_it() {
    let mut editor = editor();
    let fitted = *editor.view();
    play(&mut editor, "down 1 touch 50,70; up 1 50,70; wait 100; down 1 touch 51,70; up 1 51,70");
    let near = editor.view().seen();
    assert_eq!(editor.selection(), [1]);
    assert!((near.center() - Point::new(50.0, 70.0)).hypot2() < 1e-18, "{near:?}");
    // The canvas is 812 x 648 px: its shorter side shows the 10 mm with some room.
    assert!((near.height() - 16.0).abs() < 1e-9, "{near:?}");
    // Once more on the same piece gives the whole sheet, and so do two taps beside the pieces.
    play(&mut editor, "down 1 touch 50,70; up 1 50,70; wait 100; down 1 touch 50,70; up 1 50,70");
    assert_eq!(*editor.view(), fitted);
    editor.zoom(2.0);
    play(&mut editor, "down 1 pen 60,90; up 1 60,90; wait 100; down 1 pen 60,90; up 1 60,90");
    assert_eq!(*editor.view(), fitted);
    assert!(editor.selection().is_empty());
    assert_eq!(editor.layout(), self::editor().layout());
}

#[test]
fn two_taps_far_apart_in_time_or_place_or_of_two_kinds_are_no_double_tap() {
    for story in [
        "down 1 touch 50,70; up 1 50,70; wait 400; down 1 touch 50,70; up 1 50,70",
        "down 1 touch 46,70; up 1 46,70; down 1 touch 54,70; up 1 54,70",
        "down 1 touch 50,70; up 1 50,70; down 1 pen 50,70; up 1 50,70",
        "down 1 touch 50,70; up 1 50,70; down 1 touch 20,20; up 1 20,20",
        "down 1 touch 50,70; up 1 50,70; down 1 touch 50,70; cancel 1",
        "down 1 mouse 50,70 extend; up 1 50,70; down 1 mouse 50,70 extend; up 1 50,70",
    ] {
        let mut editor = editor();
        let before = *editor.view();
        play(&mut editor, story);
        assert_eq!(*editor.view(), before, "{story}");
    }
}

#[test]
fn while_several_are_chosen_taps_add_and_leave_out_and_a_finger_draws_the_box() {
    let mut editor = editor();
    editor.set_tool(Tool::Choose);
    play(&mut editor, "down 1 touch 50,70; up 1 50,70; down 2 touch 80,70; up 2 80,70");
    assert_eq!(editor.selection(), [1, 2]);
    play(&mut editor, "down 1 touch 60,110; move 1 30,130; up 1 46,124");
    assert_eq!(editor.selection(), [1, 2, 3], "the box adds to what is chosen");
    play(&mut editor, "down 1 touch 80,70; up 1 80,70; down 1 touch 70,20; up 1 70,20");
    assert_eq!(
        editor.selection(),
        [1, 3],
        "a tap leaves a chosen one out, and one beside them changes nothing"
    );
    // A drag on one of them moves them all.
    play(&mut editor, "down 1 touch 50,70; move 1 60,75; up 1 60,75");
    assert_eq!(editor.layout().pieces[1].placement.at, Point::new(60.0, 75.0));
    assert_eq!(editor.layout().pieces[3].placement.at, Point::new(60.0, 125.0));
    assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), Some("Move 2 pieces"));
    // Escape first chooses nothing, then ends it.
    play(&mut editor, "key escape; key escape");
    assert!(editor.selection().is_empty());
    assert_eq!(editor.tool(), Tool::Move);
}

/// The mean of some pieces' places.
fn middle(editor: &Editor, pieces: &[usize]) -> Point {
    let sum: Vec2 = pieces.iter().map(|&piece| editor.layout().pieces[piece].placement.at.to_vec2()).sum();
    (sum / pieces.len() as f64).to_point()
}

#[test]
fn several_turn_together_about_their_middle_by_key_handle_and_two_fingers() {
    let start = editor();
    let (a, b) = (start.layout().pieces[1].placement.at, start.layout().pieces[3].placement.at);
    let turned = |editor: &Editor, degrees: f64| {
        let (a_now, b_now) = (editor.layout().pieces[1].placement, editor.layout().pieces[3].placement);
        let (sine, cosine) = libm::sincos(degrees.to_radians());
        let way = b - a;
        let expected = Vec2::new(way.x * cosine - way.y * sine, way.x * sine + way.y * cosine);
        assert!((b_now.at - a_now.at - expected).hypot2().sqrt() < 0.003, "{a_now:?} {b_now:?}");
        assert_eq!(a_now.turn.to_degrees(), degrees);
        // This one turns by 30 degrees at most, but goes round with the other all the same.
        assert_eq!(b_now.turn.to_degrees(), degrees.min(30.0));
    };
    let mut editor = start.clone();
    editor.select(vec![1, 3]);
    editor.turn_by(45.0);
    turned(&editor, 45.0);
    assert!((middle(&editor, &[1, 3]) - middle(&start, &[1, 3])).hypot2().sqrt() < 0.003);
    assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), Some("Turn 2 pieces"));

    let mut editor = start.clone();
    editor.habits.step = Step::Large;
    editor.select(vec![1, 3]);
    let handle = editor.turn_handle().expect("they may turn");
    assert_eq!((handle.piece, handle.about), (None, middle(&start, &[1, 3])));
    let about = editor.view().to_canvas(handle.about);
    let arm = handle.at - about;
    touch(&mut editor, 1, (handle.at.x, handle.at.y));
    slide(&mut editor, 1, (about.x - arm.y, about.y + arm.x));
    editor.input(Input::Up { id: 1, at: about + Vec2::new(-arm.y, arm.x), time_ms: 900.0 });
    turned(&editor, 90.0);

    // Each finger on another of the two, a quarter turn of the hand and 5 mm to the right.
    let mut editor = start.clone();
    editor.habits.step = Step::Large;
    editor.select(vec![1, 3]);
    let (first, second) = (editor.view().to_canvas(a), editor.view().to_canvas(b));
    touch(&mut editor, 1, (first.x, first.y));
    touch(&mut editor, 2, (second.x, second.y));
    // The fingers have strayed from where they are after the first small step.
    slide(&mut editor, 1, (first.x + 6.0, first.y));
    let (from, span) = (first.midpoint(second) + Vec2::new(3.0, 0.0), second - first - Vec2::new(6.0, 0.0));
    let across = Vec2::new(-span.y, span.x) / 2.0;
    let to = from + Vec2::new(20.0, 0.0);
    for (id, at) in [(1, to - across), (2, to + across)] {
        slide(&mut editor, id, (at.x, at.y));
    }
    for (id, at) in [(1, to - across), (2, to + across)] {
        editor.input(Input::Up { id, at, time_ms: 900.0 });
    }
    turned(&editor, 90.0);
    // The hand took hold 0.75 mm to the right of their middle, and a quarter turn about there carries that along.
    let moved = middle(&editor, &[1, 3]) - middle(&start, &[1, 3]);
    assert!((moved - Vec2::new(5.75, -0.75)).hypot2().sqrt() < 0.003, "{moved:?}");
    assert!(editor.undo() && !editor.can_undo());
}

#[test]
fn pieces_that_may_not_turn_do_not_go_round_either() {
    let mut editor = editor();
    editor.select(vec![0, 2]);
    editor.turn_by(45.0);
    assert_eq!(editor.layout(), self::editor().layout());
    assert_eq!(editor.turn_handle(), None);
}

fn touch(editor: &mut Editor, id: u64, at: (f64, f64)) {
    let kind = PointerKind::Touch;
    editor.input(Input::Down(Press { id, kind, at: at.into(), extend: false, pan: false, time_ms: 0.0 }));
}

fn slide(editor: &mut Editor, id: u64, at: (f64, f64)) {
    editor.input(Input::Move { id, at: at.into(), time_ms: 500.0 });
}

#[test]
fn a_second_finger_puts_the_piece_back_and_zooms() {
    let mut editor = editor();
    let at = editor.view().to_canvas(Point::new(50.0, 70.0));
    touch(&mut editor, 1, (at.x, at.y));
    slide(&mut editor, 1, (at.x + 40.0, at.y));
    assert!(editor.is_carrying());
    assert_eq!(editor.layout().pieces[1].placement.at, Point::new(60.0, 70.0));
    touch(&mut editor, 2, (at.x + 140.0, at.y));
    assert_eq!(editor.layout().pieces[1].placement.at, Point::new(50.0, 70.0));
    assert!(!editor.can_undo());
    let under_first = editor.view().to_sheet(at + Vec2::new(40.0, 0.0));
    slide(&mut editor, 2, (at.x + 160.0, at.y));
    slide(&mut editor, 2, (at.x + 240.0, at.y));
    // From the moment the fingers have strayed, the sheet's points stay under them.
    assert!((editor.view().scale / 4.0 - 200.0 / 120.0).abs() < 1e-9);
    let now = editor.view().to_sheet(at + Vec2::new(40.0, 0.0));
    assert!((now - under_first).hypot2() < 1e-12);
}

#[test]
fn two_fingers_on_the_chosen_piece_carry_and_turn_it() {
    let mut editor = editor();
    editor.select(vec![1]);
    let at = editor.view().to_canvas(Point::new(50.0, 70.0));
    touch(&mut editor, 1, (at.x - 15.0, at.y));
    touch(&mut editor, 2, (at.x + 15.0, at.y));
    // A quarter turn of the fingers about the piece's middle, then 10 mm to the right.
    slide(&mut editor, 2, (at.x + 15.0, at.y + 10.0));
    slide(&mut editor, 1, (at.x + 40.0, at.y - 15.0));
    slide(&mut editor, 2, (at.x + 40.0, at.y + 15.0));
    let view = *editor.view();
    for id in [1, 2] {
        editor.input(Input::Up { id, at: view.to_canvas(Point::ZERO), time_ms: 900.0 });
    }
    assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), Some("Turn free 1"));
    assert!(editor.undo());
    assert_eq!(editor.layout(), self::editor().layout());
}

#[test]
fn two_fingers_tap_to_undo_and_three_to_redo() {
    let mut editor = editor();
    editor.select(vec![1]);
    editor.nudge(3.0, 0.0);
    let tap = |editor: &mut Editor, fingers: u64| {
        for id in 0..fingers {
            touch(editor, id, (600.0 + 30.0 * id as f64, 100.0));
        }
        for id in 0..fingers {
            editor.input(Input::Up { id, at: (600.0 + 30.0 * id as f64, 100.0).into(), time_ms: 150.0 });
        }
    };
    let (there, view) = (editor.layout().clone(), *editor.view());
    tap(&mut editor, 2);
    assert_eq!(editor.layout(), self::editor().layout());
    tap(&mut editor, 3);
    assert_eq!(*editor.layout(), there);
    assert_eq!(*editor.view(), view);
}

#[test]
fn a_look_at_a_spot_has_it_in_the_middle_with_room_about_it() {
    let mut editor = editor();
    editor.look_at(Point::new(80.0, 70.0), 40.0);
    let seen = editor.view().seen();
    assert!((seen.center() - Point::new(80.0, 70.0)).hypot2() < 1e-18, "{seen:?}");
    // The canvas is 812 x 648 px: its shorter side shows the 40 mm.
    assert!((seen.height() - 40.0).abs() < 1e-9 && seen.width() > 40.0, "{seen:?}");
    // The closest look is 150 px to the millimetre.
    editor.look_at(Point::new(80.0, 70.0), 1e-6);
    assert_eq!(editor.view().scale, 150.0);
}

#[test]
fn a_look_at_nothing_changes_nothing() {
    let mut editor = editor();
    let (view, revision) = (*editor.view(), editor.revision());
    for (x, width) in [(f64::NAN, 40.0), (80.0, f64::NAN), (80.0, 0.0), (80.0, -1.0), (f64::INFINITY, 40.0)] {
        editor.look_at(Point::new(x, 70.0), width);
    }
    assert_eq!((*editor.view(), editor.revision()), (view, revision));
}

#[test]
fn keys_go_as_far_as_the_hand_is_set_to_and_with_shift_the_furthest() {
    for step in Step::ALL {
        let mut editor = editor();
        editor.habits.step = step;
        play(&mut editor, "down 1 mouse 50,70; up 1 50,70; key right; key turn; key right coarse");
        let placement = editor.layout().pieces[1].placement;
        let expected = (50.0 + step.length() + 1.0, step.degrees());
        assert!((placement.at.x - expected.0).abs() < 1e-9, "{step:?} gave {placement:?}");
        assert_eq!(placement.turn.to_degrees(), expected.1);
    }
    assert_eq!(Step::ALL.map(Step::next), [Step::Middle, Step::Large, Step::Small]);
}

#[test]
fn the_handle_turns_softly_snapped_and_only_as_far_as_allowed() {
    for (piece, fingers_deg, turn) in
        [(1, 43.0, 45.0), (1, 40.0, 40.0), (3, 20.0, 20.0), (3, 80.0, 30.0), (3, -200.0, 30.0)]
    {
        let mut editor = editor();
        editor.habits.step = Step::Large;
        editor.select(vec![piece]);
        let handle = editor.turn_handle().expect("a free piece has a handle");
        let about = editor.view().to_canvas(handle.about);
        let arm = handle.at - about;
        touch(&mut editor, 1, (handle.at.x, handle.at.y));
        let (sine, cosine) = libm::sincos(f64::to_radians(fingers_deg));
        let to = about + Vec2::new(arm.x * cosine - arm.y * sine, arm.x * sine + arm.y * cosine);
        slide(&mut editor, 1, (to.x, to.y));
        assert!(editor.is_turning());
        editor.input(Input::Up { id: 1, at: to, time_ms: 600.0 });
        let placement = editor.layout().pieces[piece].placement;
        assert!((placement.turn.to_degrees() - turn).abs() < 1e-3, "{fingers_deg} gave {placement:?}");
        assert_eq!(placement.at, self::editor().layout().pieces[piece].placement.at);
    }
}

#[test]
fn a_drawn_box_becomes_a_zone_of_my_zones() {
    let mut editor = editor();
    editor.set_tool(Tool::DrawZone);
    play(&mut editor, "down 1 pen 0,0; move 1 60,20; move 1 105,30; up 1 105,30");
    assert_eq!(editor.layout().background.as_deref(), Some("My zones"));
    let zone = &editor.layout().zones()[0];
    assert_eq!((zone.name.as_str(), zone.outline.area()), ("zone 1", 105.0 * 30.0));
    assert_eq!(editor.tool(), Tool::Move);
    assert!(editor.findings().iter().any(|finding| finding.rule == Rule::Zone));
    assert!(editor.undo());
    assert_eq!(editor.layout(), self::editor().layout());
}

#[test]
fn a_zone_that_leaves_no_room_is_refused_and_says_so() {
    let mut editor = editor();
    editor.set_tool(Tool::DrawZone);
    play(&mut editor, "down 1 mouse -5,-5; move 1 60,80; up 1 110,150");
    assert_eq!(editor.layout(), self::editor().layout());
    let notice = editor.take_notice().expect("the reason is told");
    assert!(notice.to_string().contains("usable part"), "{notice}");
    assert!(editor.take_notice().is_none());
}

#[test]
fn the_live_check_names_what_the_carried_piece_breaks() {
    let mut editor = editor();
    play(&mut editor, "down 1 mouse 50,70; move 1 55,70; move 1 69,70");
    // Box edges at 74 and 75: 1 mm is left where 2 mm are asked.
    let [finding] = editor.live_findings() else { panic!("{:?}", editor.live_findings()) };
    assert_eq!((finding.rule, finding.measured, finding.limit), (Rule::Spacing, 1.0, 2.0));
    assert_eq!(editor.score().smallest_gap, Some(1.0));
    assert!(editor.measures()[0].broken);
    play(&mut editor, "move 1 60,70");
    assert!(editor.live_findings().is_empty());
    let [measure] = editor.measures() else { panic!("{:?}", editor.measures()) };
    assert!(!measure.broken);
    assert_eq!((measure.measured, measure.limit), (10.0, 2.0));
    play(&mut editor, "up 1 60,70");
    assert_eq!(editor.findings(), check(editor.layout()));
}

#[test]
fn another_layout_begins_with_nothing_to_take_back_and_revisions_of_its_own() {
    let mut editor = editor();
    play(&mut editor, "down 1 touch 50,70; move 1 60,80; move 1 60,80; up 1 60,80");
    editor.select(vec![1]);
    assert!(editor.can_undo());
    let revisions = (editor.revision(), editor.layout_revision());

    let mut other = editor.layout().clone();
    other.sheet.height = 100.0;
    other.pieces.truncate(2);
    editor.begin(other.clone()).unwrap();
    assert_eq!(*editor.layout(), other);
    assert!(!editor.can_undo() && !editor.can_redo() && editor.selection().is_empty());
    assert!(editor.revision() > revisions.0 && editor.layout_revision() > revisions.1);
    // The canvas is as large as before, and the whole sheet is on it.
    assert_eq!((editor.view().canvas.width, editor.view().canvas.height), (812.0, 648.0));
    assert!(editor.view().seen().contains(Point::new(105.0, 100.0)));

    let before = editor.clone();
    other.sheet.width = -1.0;
    assert!(editor.begin(other).is_err());
    assert_eq!((editor.layout(), editor.revision()), (before.layout(), before.revision()));
}
