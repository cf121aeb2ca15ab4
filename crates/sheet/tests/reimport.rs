//! What must be true of every picture that is brought in again.

use kurbo::{Point, Vec2};
use proptest::prelude::*;
use stickleaf_outline::{Outline, Placement, shapes};
use stickleaf_sheet::{
    Art, Layout, MatchedBy, Piece, Rule, Sticker, StickerId, Turns, Wanted, check, reimport,
};

const PICTURE: &str = "art/creatures.png";

/// A drawing as it comes from import: its outline about its own middle, which lies at `at` in the picture.
fn drawing(name: &str, outline: Outline, at: (f64, f64), per_mm: f64) -> Sticker {
    let mut sticker = Sticker::new(name, name, outline);
    sticker.art = Some(Art::new(PICTURE, Point::new(-at.0, -at.1), Some(per_mm)));
    sticker
}

/// Three drawings of different shape.
fn three() -> Vec<Sticker> {
    vec![
        drawing("Crab", shapes::blob(3, 8.0), (20.0, 20.0), 10.0),
        drawing("Star", shapes::star(5, 8.0, 4.0), (50.0, 20.0), 10.0),
        drawing("Box", shapes::rectangle(12.0, 7.0), (80.0, 20.0), 10.0),
    ]
}

/// A layout with two copies of each.
fn layout(drawings: &[Sticker]) -> Layout {
    let mut layout = Layout { stickers: drawings.to_vec(), ..Layout::default() };
    for (index, sticker) in drawings.iter().enumerate() {
        for copy in 0..2u8 {
            let (x, y) = (20.0 + 30.0 * index as f64, 30.0 + 40.0 * f64::from(copy));
            layout
                .pieces
                .push(Piece::new(sticker.id.clone(), Placement::turned(x, y, 33.0 * f64::from(copy))));
        }
    }
    layout
}

fn id(layout: &Layout, name: &str) -> StickerId {
    let is_free = |id: &String| layout.sticker(id).is_none();
    (1..).map(|number| format!("{name}-{number}")).find(is_free).unwrap().into()
}

fn moved_in_picture(sticker: &Sticker, by: Vec2) -> Sticker {
    let mut moved = sticker.clone();
    moved.art.as_mut().unwrap().at -= by;
    moved
}

#[test]
fn the_same_picture_changes_nothing() {
    let (before, drawings) = (layout(&three()), three());
    let found = reimport(&before, PICTURE, &drawings);
    assert!(found.new.is_empty() && found.gone.is_empty());
    assert!(found.matched.iter().all(|one| one.is_unchanged() && one.by == MatchedBy::Place));
    let mut after = before.clone();
    found.apply(&mut after, &drawings, |_| true, id);
    assert_eq!(after, before);
}

#[test]
fn stickers_of_other_pictures_are_left_alone() {
    let mut before = layout(&three());
    before.stickers[1].art.as_mut().unwrap().file = "other.png".into();
    let found = reimport(&before, PICTURE, &three());
    assert_eq!(found.matched.iter().map(|one| one.sticker).collect::<Vec<_>>(), [0, 2]);
    assert_eq!((found.new, found.gone), (vec![1], vec![]));
}

#[test]
fn a_changed_drawing_keeps_all_but_its_outline_and_lies_as_in_the_picture() {
    let mut before = layout(&three());
    before.stickers[2].wanted = Wanted::Exactly(7);
    before.stickers[2].turns = Turns::Within(20.0);
    before.stickers[2].name = "Chest".into();
    before.stickers[2].border = Some(1.1);
    let mut drawings = three();
    // The box got longer to the right by four millimetres, so its middle moved by two.
    drawings[2] = drawing("Box", shapes::rectangle(16.0, 7.0), (82.0, 20.0), 10.0);
    let found = reimport(&before, PICTURE, &drawings);
    let box_now = &found.matched[2];
    assert!((box_now.area_before, box_now.area_after) == (84.0, 112.0));
    assert!((box_now.area_moved - 28.0).abs() < 1e-6, "{}", box_now.area_moved);
    let new = &box_now.after;
    assert_eq!(new.outline.bounds(), kurbo::Rect::new(-6.0, -3.5, 10.0, 3.5));
    let old = &before.stickers[2];
    assert_eq!((&new.id, &new.name, new.wanted), (&old.id, &old.name, old.wanted));
    assert_eq!((&new.turns, new.border), (&old.turns, old.border));
    assert_eq!(new.art.as_ref().unwrap().at, old.art.as_ref().unwrap().at);
    let mut after = before.clone();
    found.apply(&mut after, &drawings, |_| true, id);
    assert_eq!(after.pieces, before.pieces);
}

#[test]
fn what_is_gone_is_kept_and_flagged_and_what_is_new_is_only_taken_if_wanted() {
    let before = layout(&three());
    let mut drawings = three();
    drawings[0] = drawing("Fish", shapes::dumbbell(5.0, 2.0, 9.0), (20.0, 70.0), 10.0);
    let found = reimport(&before, PICTURE, &drawings);
    assert_eq!((&found.new[..], &found.gone[..]), (&[0][..], &[0][..]));
    for wanted in [false, true] {
        let mut after = before.clone();
        found.apply(&mut after, &drawings, |_| wanted, id);
        assert_eq!(after.pieces, before.pieces);
        assert_eq!(after.stickers.len(), 3 + usize::from(wanted));
        assert!(after.stickers[0].is_gone && after.stickers[0].outline == before.stickers[0].outline);
        let flagged: Vec<_> =
            check(&after).into_iter().filter(|finding| finding.rule == Rule::Gone).collect();
        assert_eq!(flagged.len(), 1);
        assert_eq!(flagged[0].pieces, [0, 1]);
        // Back in the picture, it is not gone any more.
        let back = reimport(&after, PICTURE, &three());
        assert!(!back.matched[0].after.is_gone);
    }
}

#[test]
fn drawings_that_changed_places_are_told_by_their_shapes() {
    let before = layout(&three());
    let mut drawings = three();
    let by = Vec2::new(30.0, 0.0);
    drawings[0] = moved_in_picture(&drawings[0], by);
    drawings[1] = moved_in_picture(&drawings[1], -by);
    let found = reimport(&before, PICTURE, &drawings);
    assert!(found.new.is_empty() && found.gone.is_empty());
    assert!(found.matched.iter().all(|one| one.sticker == one.drawing && one.is_unchanged()), "{found:?}");
}

#[test]
fn equal_drawings_stay_in_their_places_and_a_new_one_does_not_push_in() {
    let star =
        |number: u8, x: f64| drawing(&format!("s{number}"), shapes::star(5, 6.0, 3.0), (x, 20.0), 10.0);
    let before = layout(&[star(1, 20.0), star(2, 40.0), star(3, 60.0)]);
    // The second is taken out, the third gets a hat, and another star comes along.
    let hat = shapes::star(5, 6.6, 3.0);
    let drawings = [star(1, 20.0), drawing("hat", hat, (60.0, 20.0), 10.0), star(4, 80.0)];
    let found = reimport(&before, PICTURE, &drawings);
    let pairs: Vec<_> = found.matched.iter().map(|one| (one.sticker, one.drawing)).collect();
    assert_eq!(pairs[0], (0, 0));
    assert!(pairs.contains(&(2, 1)), "{pairs:?}");
    assert_eq!(found.matched.len() + found.gone.len(), 3);
}

#[test]
fn copies_of_a_sticker_follow_their_drawing_together() {
    let mut stickers = three();
    let mut copy = stickers[1].clone();
    copy.id = "star-again".into();
    stickers.push(copy);
    let before = layout(&stickers);
    let mut drawings = three();
    drawings[1] = drawing("Star", shapes::star(5, 9.0, 4.0), (50.0, 20.0), 10.0);
    let found = reimport(&before, PICTURE, &drawings);
    assert_eq!(found.gone, [0usize; 0]);
    assert_eq!(found.matched[1].after.outline, found.matched[3].after.outline);
}

#[test]
fn a_layout_whose_stickers_were_made_larger_keeps_their_size() {
    let grown: Vec<Sticker> = three()
        .into_iter()
        .map(|sticker| {
            let art = sticker.art.clone().unwrap();
            let points = sticker.outline.points().iter().map(|&point| (point.to_vec2() * 1.25).to_point());
            let mut large = Sticker::new(sticker.id.clone(), &*sticker.name, Outline::new(points).unwrap());
            large.art =
                Some(Art { at: (art.at.to_vec2() * 1.25).to_point(), pixels_per_mm: Some(8.0), ..art });
            large
        })
        .collect();
    let found = reimport(&layout(&grown), PICTURE, &three());
    assert_eq!(found.matched.len(), 3);
    assert!(found.matched.iter().all(|one| one.is_unchanged()), "{found:?}");
    let art = found.matched[0].after.art.as_ref().unwrap();
    assert!((art.pixels_per_mm.unwrap() - 8.0).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// On a larger canvas every drawing lies further on by the same; none of them is new or gone for it.
    #[test]
    fn a_shift_of_the_whole_picture_is_none_of_its_drawings(
        seeds in proptest::collection::vec(any::<u64>(), 4..9),
        dx in -200.0..200.0f64,
        dy in -200.0..200.0f64,
    ) {
        let at = |index: usize| (20.0 + 30.0 * (index % 3) as f64, 20.0 + 30.0 * (index / 3) as f64);
        let drawings: Vec<Sticker> = seeds
            .iter()
            .enumerate()
            .map(|(index, &seed)| drawing(&format!("d{index}"), shapes::blob(seed, 9.0), at(index), 10.0))
            .collect();
        let before = layout(&drawings);
        let grid = |mm: f64| (mm * 1000.0).round() / 1000.0;
        let by = Vec2::new(grid(dx), grid(dy));
        let moved: Vec<Sticker> = drawings.iter().map(|one| moved_in_picture(one, by)).collect();
        let found = reimport(&before, PICTURE, &moved);
        prop_assert!(found.new.is_empty() && found.gone.is_empty());
        for one in &found.matched {
            prop_assert!(one.is_unchanged() && one.sticker == one.drawing);
        }
    }

    /// Whatever the new picture holds, each sticker and each drawing is accounted for once, and no piece moves.
    #[test]
    fn every_sticker_and_every_drawing_is_accounted_for(
        old in proptest::collection::vec((any::<u64>(), 10.0..90.0f64, 10.0..90.0f64), 1..6),
        new in proptest::collection::vec((any::<u64>(), 10.0..90.0f64, 10.0..90.0f64), 0..6),
        share in 0usize..6,
    ) {
        let make = |list: &[(u64, f64, f64)]| -> Vec<Sticker> {
            list.iter()
                .enumerate()
                .map(|(index, &(seed, x, y))| {
                    drawing(&format!("d{index}"), shapes::blob(seed, 7.0), (x.round(), y.round()), 10.0)
                })
                .collect()
        };
        let before = layout(&make(&old));
        // Some drawings are the same as before.
        let drawings = make(&old.iter().take(share).chain(&new).copied().collect::<Vec<_>>());
        let found = reimport(&before, PICTURE, &drawings);
        let mut stickers: Vec<usize> = found.matched.iter().map(|one| one.sticker).chain(found.gone.clone()).collect();
        stickers.sort_unstable();
        prop_assert_eq!(stickers, (0..old.len()).collect::<Vec<_>>());
        for drawing in 0..drawings.len() {
            let is_matched = found.matched.iter().any(|one| one.drawing == drawing);
            prop_assert_eq!(found.new.contains(&drawing), !is_matched);
        }
        for one in &found.matched {
            prop_assert!(one.area_moved >= 0.0 && one.area_moved <= one.area_before + one.area_after);
            prop_assert!((one.after.outline.area() - one.area_after).abs() < 1e-6);
        }
        let mut after = before.clone();
        found.apply(&mut after, &drawings, |_| true, id);
        prop_assert_eq!(after.validate(), Ok(()));
        prop_assert_eq!(&after.pieces, &before.pieces);
    }
}
