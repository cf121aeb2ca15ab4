//! What mends a finding moves the piece no further than it must: held against a plain search of a grid of places.

use kurbo::Vec2;
use proptest::prelude::*;
use stickleaf_editor::{Editor, FIX_REACH, NoFix};
use stickleaf_outline::{Outline, Placement, gap_within, path};
use stickleaf_sheet::{
    Background, Finding, Layout, Piece, Rule, Sheet, Sticker, Turns, Zone, check_piece, placed_cut_lines,
};

/// How far the places of the plain search are apart, in millimetres.
const GRID: f64 = 0.75;

/// What the search of the editor may be longer than the shortest move, in millimetres.
const LONGER: f64 = 0.025;

/// A small card with a zone, on it a box, a bar, a wedge and an arch by turns, anywhere.
fn any_layout() -> impl Strategy<Value = Layout> {
    let place = (0.0..60.0_f64, 0.0..50.0_f64, 0.0..360.0_f64, any::<bool>());
    let pieces = prop::collection::vec(place, 2..8);
    (pieces, prop::sample::select(vec![0.0, 0.5, 2.0]), 0.0..4.0_f64).prop_map(|(pieces, spacing, margin)| {
        let mut layout = Layout {
            sheet: Sheet { width: 60.0, height: 50.0, corner_radius: 6.0, ..Sheet::default() },
            ..Layout::default()
        };
        (layout.rules.spacing, layout.rules.margin, layout.rules.border) = (spacing, margin, 0.0);
        let shapes = [
            ("box", "M-5 -5H5V5H-5Z", Turns::Any),
            ("bar", "M-10 -2H10V2H-10Z", Turns::Only(vec![0.0, 90.0])),
            ("wedge", "M-6 5L6 5L0 -7Z", Turns::Within(40.0)),
            ("arch", "M-8 6V-6H8V6H4V-2H-4V6Z", Turns::Any),
        ];
        layout.stickers = shapes
            .iter()
            .map(|(id, outline, turns)| {
                let mut sticker = Sticker::new(*id, *id, path::parse(outline).unwrap());
                sticker.turns = turns.clone();
                sticker
            })
            .collect();
        let zone = Zone::new("title", path::parse("M0 0H60V8H0Z").unwrap(), spacing);
        layout.backgrounds =
            vec![Background { name: "Band".into(), zones: vec![zone], ..Background::default() }];
        layout.background = Some("Band".into());
        layout.pieces = pieces
            .iter()
            .enumerate()
            .map(|(index, &(x, y, turn, locked))| {
                let placement = Placement::turned(x.round(), y.round(), turn.round());
                let id = shapes[index % shapes.len()].0;
                Piece { locked: locked && index > 0, ..Piece::new(id.into(), placement) }
            })
            .collect();
        layout
    })
}

/// Whether a finding is about where a piece lies, and not about its drawing.
fn is_of_the_place(finding: &Finding) -> bool {
    finding.is_broken() || finding.rule == Rule::Turn
}

/// Whether a piece touches another or a zone. Where no distance is asked that breaks no rule, but no piece is put so.
fn touches(layout: &Layout, lines: &[Outline], piece: usize) -> bool {
    let others = lines.iter().enumerate().filter(|&(other, _)| other != piece).map(|(_, line)| line);
    let zones = layout.zones().iter().map(|zone| &*zone.outline);
    others.chain(zones).any(|other| gap_within(&lines[piece], other, 1e-9).is_some())
}

/// The shortest way on the grid by which one of these pieces comes free, in millimetres.
fn shortest_on_grid(layout: &Layout, pieces: &[usize]) -> Option<f64> {
    let steps = (FIX_REACH / GRID) as i32;
    let mut shortest = f64::INFINITY;
    let mut moved = layout.clone();
    for &piece in pieces.iter().filter(|&&piece| !layout.pieces[piece].locked) {
        let old = layout.pieces[piece].placement;
        let sticker = layout.sticker(&layout.pieces[piece].sticker).unwrap();
        let turn = sticker.turns.nearest(old.turn);
        let cut_line = sticker.cut_line(&layout.rules);
        let mut lines = placed_cut_lines(layout);
        for (column, row) in
            (-steps..=steps).flat_map(|row| (-steps..=steps).map(move |column| (column, row)))
        {
            let by = Vec2::new(f64::from(column), f64::from(row)) * GRID;
            let length = by.hypot2().sqrt();
            if length > FIX_REACH || length >= shortest {
                continue;
            }
            let placement = Placement { at: old.at + by, turn, ..old };
            moved.pieces[piece].placement = placement;
            lines[piece] = cut_line.placed(&placement);
            if check_piece(&moved, &lines, piece).is_empty() && !touches(&moved, &lines, piece) {
                shortest = length;
            }
        }
        moved.pieces[piece] = layout.pieces[piece].clone();
    }
    shortest.is_finite().then_some(shortest)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn mending_moves_no_further_than_a_grid_of_places_does(layout in any_layout()) {
        let editor = Editor::new(layout.clone());
        // Where no distance is asked the search may run out of looks before it is settled, as the docs say.
        let may_be_left_open = layout.rules.spacing == 0.0;
        for (index, finding) in editor.findings().iter().enumerate() {
            let on_grid = shortest_on_grid(&layout, &finding.pieces);
            let by_moving = is_of_the_place(finding);
            match editor.proposed_fix(index) {
                Ok(fix) => {
                    prop_assert!(by_moving);
                    let is_short = on_grid.is_none_or(|grid| fix.distance <= grid + LONGER);
                    prop_assert!(is_short || may_be_left_open, "{fix:?}, {on_grid:?}");
                    let mut mended = editor.clone();
                    prop_assert_eq!(mended.fix(index), Ok(()));
                    let about = |finding: &&Finding| {
                        is_of_the_place(finding) && finding.pieces.contains(&fix.piece)
                    };
                    prop_assert_eq!(mended.findings().iter().find(about), None);
                    prop_assert_eq!(mended.selection(), [fix.piece]);
                    prop_assert!(mended.undo() && !mended.can_undo());
                    prop_assert_eq!(mended.layout(), &layout);
                }
                Err(NoFix::NoRoom) => prop_assert!(on_grid.is_none() || may_be_left_open, "{finding:?}"),
                Err(NoFix::Locked) => {
                    prop_assert!(finding.pieces.iter().all(|&piece| layout.pieces[piece].locked));
                }
                Err(NoFix::NotByMoving) => prop_assert!(!by_moving),
            }
        }
    }

    #[test]
    fn mending_all_breaks_nothing_new(layout in any_layout()) {
        let mut editor = Editor::new(layout.clone());
        let broken = |editor: &Editor| editor.findings().iter().filter(|finding| finding.is_broken()).count();
        let before = broken(&editor);
        let mended = editor.fix_all();
        prop_assert_eq!(mended.left, broken(&editor));
        prop_assert!(mended.left <= before);
        let moved = (0..layout.pieces.len()).filter(|&i| layout.pieces[i] != editor.layout().pieces[i]);
        let moved: Vec<usize> = moved.collect();
        prop_assert_eq!(mended.moved, moved.len());
        for &piece in &moved {
            prop_assert!(!layout.pieces[piece].locked);
            let about = |finding: &&Finding| finding.is_broken() && finding.pieces.contains(&piece);
            prop_assert_eq!(editor.findings().iter().find(about), None);
        }
    }
}
