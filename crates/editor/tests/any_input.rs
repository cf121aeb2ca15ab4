//! Whatever a hand does: the layout stays valid, lines and findings belong to it, and every step can be taken back.

use kurbo::Point;
use proptest::prelude::*;
use stickleaf_editor::{Align, Editor, Input, Key, PointerKind, Press, SpaceOut, Stride, Tool};
use stickleaf_outline::{Placement, path};
use stickleaf_sheet::{
    Background, Finding, Layout, Piece, Sticker, Turns, Zone, check, check_pieces, placed_cut_lines, score,
    smallest_gap,
};

fn layout() -> Layout {
    let mut layout = Layout::default();
    let shapes = [
        ("crescent", "M0 -8A8 8 0 1 0 8 0A6 6 0 0 1 0 -8Z", Turns::Any),
        ("bar", "M-9 -3H9V3H-9Z", Turns::Within(20.0)),
        ("dot", "M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z", Turns::Only(vec![0.0, 90.0])),
    ];
    for (id, outline, turns) in shapes {
        let mut sticker = Sticker::new(id, id, path::parse(outline).unwrap());
        sticker.turns = turns;
        layout.stickers.push(sticker);
    }
    let piece = |id: &str, x, y| Piece::new(id.into(), Placement::at(x, y));
    layout.pieces = vec![
        piece("crescent", 25.0, 30.0),
        piece("bar", 60.0, 30.0),
        Piece { locked: true, ..piece("dot", 40.0, 60.0) },
        piece("dot", 52.0, 75.0),
        piece("crescent", 70.0, 100.0),
    ];
    let zone = |name: &str, data: &str| Zone::new(name, path::parse(data).unwrap(), 1.5);
    let zones = vec![zone("band", "M0 0H105V18H0Z"), zone("cloud", "M70 120L90 118L95 135L72 138Z")];
    layout.backgrounds = vec![
        Background { name: "Night".into(), zones, ..Background::default() },
        Background {
            name: "Day".into(),
            zones: vec![zone("sun", "M10 130H30V145H10Z")],
            ..Background::default()
        },
    ];
    layout.background = Some("Night".into());
    layout
}

fn place() -> impl Strategy<Value = Point> {
    let wild = prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(-1e300), Just(1e12)];
    // Mostly on the sheet, as it lies in the middle of 800 x 600 px, sometimes anywhere.
    let (x, y) =
        (prop_oneof![30 => 200.0..600.0, 1 => wild.clone()], prop_oneof![30 => 0.0..600.0, 1 => wild]);
    (x, y).prop_map(|(x, y)| Point::new(x, y))
}

fn key() -> impl Strategy<Value = Key> {
    use Key::*;
    prop::sample::select(vec![
        Left, Right, Up, Down, TurnLeft, TurnRight, Remove, Duplicate, ChooseAll, Undo, Redo, ZoomIn,
        ZoomOut, Fit, Escape,
    ])
}

fn input() -> impl Strategy<Value = Input> {
    let id = 0..3_u64;
    let kind = prop::sample::select(vec![
        PointerKind::Mouse,
        PointerKind::Pen,
        PointerKind::Touch,
        PointerKind::Touch,
    ]);
    let stride = prop::sample::select(vec![Stride::Fine, Stride::Plain, Stride::Coarse]);
    prop_oneof![
        4 => (id.clone(), kind, place(), any::<bool>(), prop::bool::weighted(0.1)).prop_map(
            |(id, kind, at, extend, pan)| Input::Down(Press { id, kind, at, extend, pan, time_ms: 0.0 })
        ),
        8 => (id.clone(), place()).prop_map(|(id, at)| Input::Move { id, at, time_ms: 100.0 }),
        4 => (id.clone(), place()).prop_map(|(id, at)| Input::Up { id, at, time_ms: 200.0 }),
        1 => id.prop_map(|id| Input::Cancel { id }),
        1 => (place(), -300.0..300.0, -300.0..300.0, any::<bool>())
            .prop_map(|(at, dx, dy, zoom)| Input::Wheel { at, dx, dy, zoom }),
        3 => (key(), stride, 0.0..2000.0).prop_map(|(key, stride, time_ms)| Input::Key { key, stride, time_ms }),
    ]
}

/// What a program may do besides passing on input.
#[derive(Clone, Debug)]
enum Deed {
    Input(Input),
    Tool(Tool),
    Fix(usize),
    FixAll,
    Align(Align),
    SpaceOut(SpaceOut),
    LookAt(usize),
    PlaceCopy,
    Lock(bool),
    Preview,
    EndPreview(bool),
    Change(f64),
    Resize(f64, f64),
    ChooseZone(usize),
    FitZone(usize, f64, f64),
    Style(usize),
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        40 => input().prop_map(Deed::Input),
        2 => prop::sample::select(vec![Tool::Move, Tool::Choose, Tool::DrawZone, Tool::DrawBlob]).prop_map(Deed::Tool),
        1 => (0..6_usize).prop_map(Deed::Fix),
        1 => Just(Deed::FixAll),
        1 => prop::sample::select(vec![Align::Left, Align::Centre, Align::Bottom]).prop_map(Deed::Align),
        1 => prop::sample::select(vec![SpaceOut::Across, SpaceOut::Down]).prop_map(Deed::SpaceOut),
        1 => (0..6_usize).prop_map(Deed::LookAt),
        1 => Just(Deed::PlaceCopy),
        1 => any::<bool>().prop_map(Deed::Lock),
        1 => Just(Deed::Preview),
        1 => any::<bool>().prop_map(Deed::EndPreview),
        1 => (-1.0..4.0).prop_map(Deed::Change),
        1 => (0.0..900.0, 0.0..900.0).prop_map(|(width, height)| Deed::Resize(width, height)),
        4 => (0..4_usize).prop_map(Deed::ChooseZone),
        1 => (0..4_usize, -20.0..200.0, -5.0..400.0).prop_map(|(zone, x, size)| Deed::FitZone(zone, x, size)),
        1 => (0..3_usize).prop_map(Deed::Style),
    ]
}

fn perform(editor: &mut Editor, deed: &Deed) {
    match *deed {
        Deed::Input(input) => editor.input(input),
        Deed::Tool(tool) => editor.set_tool(tool),
        Deed::Fix(finding) => {
            let _ = editor.fix(finding);
        }
        Deed::FixAll => {
            editor.fix_all();
        }
        Deed::Align(align) => editor.align(align),
        Deed::SpaceOut(way) => editor.space_out(way),
        Deed::LookAt(piece) => editor.look_at_piece(piece),
        Deed::PlaceCopy => {
            editor.place_copy("dot", None);
        }
        Deed::Lock(true) => editor.lock(),
        Deed::Lock(false) => editor.unlock(),
        Deed::Preview => editor.preview(vec![Piece::new("dot".into(), Placement::at(30.0, 30.0))]),
        Deed::EndPreview(keep) => editor.end_preview(keep),
        Deed::Change(spacing) => {
            let _ = editor.change("Spacing", |layout| layout.rules.spacing = spacing);
        }
        Deed::Resize(width, height) => editor.set_canvas_size(width, height),
        Deed::ChooseZone(zone) => editor.choose_zone(Some(zone)),
        Deed::FitZone(zone, x, size) => {
            editor.fit_zone(zone, kurbo::Rect::new(x, x, x + size, x + size));
        }
        Deed::Style(style) => {
            let _ = editor.change("Style", |layout| {
                layout.background = layout.backgrounds.get(style).map(|style| style.name.clone());
            });
        }
    }
}

fn sorted(findings: impl Iterator<Item = Finding>) -> Vec<String> {
    let mut texts: Vec<String> = findings.map(|finding| format!("{finding:?}")).collect();
    texts.sort();
    texts
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn layout_stays_valid_and_everything_belongs_to_it(deeds in prop::collection::vec(deed(), 1..60)) {
        let mut editor = Editor::new(layout());
        let mut seen = 0;
        for deed in &deeds {
            perform(&mut editor, deed);
            prop_assert!(editor.layout().validate().is_ok(), "{:?}", editor.layout().validate());
            prop_assert_eq!(editor.lines(), &placed_cut_lines(editor.layout())[..]);
            // Quick check and full check agree, whatever is in the hand.
            let hard = check_pieces(editor.layout(), editor.lines());
            let shown = editor.findings().iter().filter(|finding| finding.is_broken()).cloned();
            prop_assert_eq!(sorted(shown), sorted(hard.into_iter()));
            prop_assert_eq!(editor.score().smallest_gap, smallest_gap(editor.lines()));
            prop_assert!(editor.selection().iter().all(|&piece| piece < editor.layout().pieces.len()));
            prop_assert!(editor.chosen_zone().is_none_or(|zone| zone < editor.layout().zones().len()));
            prop_assert!(editor.chosen_zone().is_none() || editor.selection().is_empty());
            prop_assert!(editor.view().scale > 0.0 && editor.view().origin.is_finite());
            if !editor.is_carrying() {
                prop_assert_eq!(editor.findings(), &check(editor.layout())[..]);
            }
            if editor.layout_revision() != seen {
                seen = editor.layout_revision();
                prop_assert_eq!(editor.score(), &score(editor.layout()));
            }
            for piece in &editor.layout().pieces {
                let micrometres = piece.placement.at.x * 1000.0;
                prop_assert!((micrometres - micrometres.round()).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn undo_all_the_way_gives_the_layout_back(deeds in prop::collection::vec(deed(), 1..60)) {
        let mut editor = Editor::new(layout());
        for deed in &deeds {
            perform(&mut editor, deed);
        }
        editor.end_preview(false);
        for id in 0..3 {
            editor.input(Input::Cancel { id });
        }
        let there = editor.layout().clone();
        let mut steps = 0;
        while editor.undo() {
            steps += 1;
        }
        prop_assert_eq!(editor.layout(), &layout());
        for _ in 0..steps {
            prop_assert!(editor.redo());
        }
        prop_assert_eq!(editor.layout(), &there);
    }

    #[test]
    fn a_cancelled_gesture_leaves_no_trace(
        moves in prop::collection::vec((0..2_u64, 200.0..600.0, 0.0..600.0), 1..20),
        chosen in prop::collection::vec(0..5_usize, 0..3),
        start in (0..5_usize, -3.0..3.0),
    ) {
        let mut editor = Editor::new(layout());
        editor.select(chosen);
        let about = editor.lines()[start.0].centroid();
        let at = editor.view().to_canvas(about + kurbo::Vec2::new(start.1, start.1));
        let kind = PointerKind::Pen;
        editor.input(Input::Down(Press { id: 0, kind, at, extend: false, pan: false, time_ms: 0.0 }));
        for &(id, x, y) in &moves {
            editor.input(Input::Move { id, at: Point::new(x, y), time_ms: 50.0 });
        }
        editor.input(Input::Cancel { id: 0 });
        prop_assert_eq!(editor.layout(), &layout());
        prop_assert_eq!(editor.findings(), &check(&layout())[..]);
        prop_assert_eq!(editor.score(), &score(&layout()));
        prop_assert!(!editor.can_undo());
    }
}
