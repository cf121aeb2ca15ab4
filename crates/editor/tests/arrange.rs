//! Pieces in line and evenly spaced.

use kurbo::Rect;
use proptest::prelude::*;
use stickleaf_editor::{Align, Editor, SpaceOut};
use stickleaf_outline::{Placement, path};
use stickleaf_sheet::{Layout, Piece, Sticker, Turns};

/// Bars of 20 x 4 mm and wedges by turns, anywhere on an A6 card and turned anyhow; some are locked.
fn any_editor() -> impl Strategy<Value = Editor> {
    let place = (0.0..105.0_f64, 0.0..148.0_f64, 0.0..360.0_f64, prop::bool::weighted(0.2));
    prop::collection::vec(place, 3..9).prop_map(|places| {
        let mut layout = Layout::default();
        layout.rules.border = 0.0;
        for (id, outline) in [("bar", "M-10 -2H10V2H-10Z"), ("wedge", "M-6 5L6 5L0 -7Z")] {
            let mut sticker = Sticker::new(id, id, path::parse(outline).unwrap());
            sticker.turns = Turns::Any;
            layout.stickers.push(sticker);
        }
        layout.pieces = places
            .iter()
            .enumerate()
            .map(|(index, &(x, y, turn, locked))| {
                let id = ["bar", "wedge"][index % 2];
                let placement =
                    Placement::turned((x * 1000.0).round() / 1000.0, (y * 1000.0).round() / 1000.0, turn);
                Piece { locked, ..Piece::new(id.into(), placement) }
            })
            .collect();
        // The last one is not chosen.
        let last = layout.pieces.len() - 1;
        let mut editor = Editor::new(layout);
        editor.select((0..last).collect());
        editor
    })
}

/// Places and lines are rounded to the micrometre.
const ROUNDING: f64 = 0.003;

fn bounds(editor: &Editor) -> Vec<Rect> {
    editor.selection().iter().map(|&piece| editor.lines()[piece].bounds()).collect()
}

fn span(bounds: impl IntoIterator<Item = Rect>) -> Option<Rect> {
    bounds.into_iter().reduce(|all, one| all.union(one))
}

fn stays(before: &Editor, after: &Editor) -> bool {
    let pieces = before.layout().pieces.iter().zip(&after.layout().pieces).enumerate();
    pieces.into_iter().all(|(index, (old, new))| {
        let is_free = !old.locked && before.selection().contains(&index);
        (is_free || old == new) && old.placement.turn == new.placement.turn
    })
}

proptest! {
    #[test]
    fn sides_come_in_line_and_nothing_else_moves(before in any_editor()) {
        let locked: Vec<Rect> = before.selection().iter().filter(|&&i| before.layout().pieces[i].locked)
            .map(|&i| before.lines()[i].bounds()).collect();
        let to = span(locked).or_else(|| span(bounds(&before))).unwrap();
        type Side = fn(Rect) -> f64;
        let sides: [(Align, Side); 6] = [
            (Align::Left, |r| r.x0), (Align::Centre, |r| r.center().x), (Align::Right, |r| r.x1),
            (Align::Top, |r| r.y0), (Align::Middle, |r| r.center().y), (Align::Bottom, |r| r.y1),
        ];
        for (align, side) in sides {
            let mut editor = before.clone();
            editor.align(align);
            prop_assert!(stays(&before, &editor));
            for (&piece, (old, new)) in before.selection().iter().zip(bounds(&before).iter().zip(bounds(&editor))) {
                if !before.layout().pieces[piece].locked && before.selection().len() > 1 {
                    prop_assert!((side(new) - side(to)).abs() <= ROUNDING, "{align:?}");
                }
                let is_across = matches!(align, Align::Left | Align::Centre | Align::Right);
                let kept = if is_across { new.y0 - old.y0 } else { new.x0 - old.x0 };
                prop_assert!(kept.abs() <= ROUNDING);
            }
            editor.undo();
            prop_assert_eq!(editor.layout(), before.layout());
            prop_assert!(!editor.can_undo());
        }
    }

    #[test]
    fn gaps_between_pieces_that_stay_become_equal(before in any_editor()) {
        type Ends = fn(Rect) -> (f64, f64);
        let ways: [(SpaceOut, Ends); 2] =
            [(SpaceOut::Across, |r| (r.x0, r.x1)), (SpaceOut::Down, |r| (r.y0, r.y1))];
        for (way, ends) in ways {
            let mut editor = before.clone();
            editor.space_out(way);
            prop_assert!(stays(&before, &editor));
            // In the order that they had.
            let mut order: Vec<usize> = (0..before.selection().len()).collect();
            let (old, new) = (bounds(&before), bounds(&editor));
            let middle = |i: &usize| (ends(old[*i]).0 + ends(old[*i]).1) / 2.0;
            order.sort_by(|a, b| middle(a).total_cmp(&middle(b)));
            if order.len() < 3 {
                prop_assert_eq!(editor.layout(), before.layout());
                continue;
            }
            prop_assert_eq!(old[order[0]], new[order[0]]);
            prop_assert_eq!(old[order[order.len() - 1]], new[order[order.len() - 1]]);
            let mut gap: Option<f64> = None;
            for pair in order.windows(2) {
                let here = ends(new[pair[1]]).0 - ends(new[pair[0]]).1;
                if let Some(gap) = gap {
                    prop_assert!((here - gap).abs() <= 2.0 * ROUNDING, "{way:?}: {here} beside {gap}");
                }
                let locked = before.layout().pieces[before.selection()[pair[1]]].locked;
                gap = (!locked).then_some(here);
            }
        }
    }
}

#[test]
fn one_alone_is_in_line_already() {
    let mut layout = Layout::default();
    layout.stickers.push(Sticker::new("bar", "Bar", path::parse("M-10 -2H10V2H-10Z").unwrap()));
    layout.pieces = vec![Piece::new("bar".into(), Placement::at(30.0, 30.0)); 2];
    layout.pieces[1].placement = Placement::at(60.0, 50.0);
    let mut editor = Editor::new(layout);
    editor.select(vec![0]);
    editor.align(Align::Right);
    assert!(!editor.can_undo());
    editor.select(vec![0, 1]);
    editor.space_out(SpaceOut::Across);
    assert!(!editor.can_undo(), "two have but one gap");
    editor.align(Align::Right);
    assert_eq!(editor.undo_label().map(ToString::to_string).as_deref(), Some("Align 2 pieces"));
}
