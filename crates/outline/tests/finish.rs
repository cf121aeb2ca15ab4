//! What must be true of every finished line, tried on many.

use proptest::prelude::*;
use stickleaf_outline::{
    FINISH_TOLERANCE, Outline, Radii, Region, WideSpot, border, moved_out, rounded, shapes, thin_part,
    tight_inner_corner, widened,
};

/// Any of the sample shapes, in a size that stickers have.
fn outline() -> impl Strategy<Value = Outline> {
    prop_oneof![
        4 => (any::<u64>(), 4.0..20.0).prop_map(|(seed, radius)| shapes::blob(seed, radius)),
        1 => (3u32..12, 4.0..20.0, 0.2..0.9).prop_map(|(tips, outer, share)| shapes::star(tips, outer, outer * share)),
        1 => (2u32..7, 0.3..3.0).prop_map(|(teeth, tooth)| shapes::comb(teeth, tooth)),
        1 => (4.0..20.0).prop_map(shapes::crescent),
        1 => (6.0..20.0, 0.1..0.4).prop_map(|(side, share)| shapes::c(side, side * share)),
        1 => (3.0..8.0, 0.1..0.9, 0.1..9.0).prop_map(|(radius, share, length)| shapes::dumbbell(radius, radius * share, length)),
        1 => (2.0..20.0, 2.0..20.0).prop_map(|(width, height)| shapes::rectangle(width, height)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_finished_line_holds_the_border_and_has_no_sharp_corner(
        drawing in outline(),
        width in prop_oneof![Just(0.0), 0.2..2.0],
        inner in prop_oneof![Just(0.0), 0.2..1.5],
        outer in prop_oneof![Just(0.0), 0.2..2.5],
    ) {
        let line = border(&drawing, width);
        let soft = rounded(&line, width, Radii { inner, outer });
        let lost = Region::of(&line).difference(&Region::of(&soft)).area();
        prop_assert!(lost < 1e-9, "{lost}");
        if inner > 0.0 {
            // Only slits that reach to within rounding of a tip could be left.
            let corner = tight_inner_corner(&soft, inner - FINISH_TOLERANCE);
            prop_assert!(corner.is_none(), "{corner:?}");
        }
        if let Some(moved) = moved_out(&line, &soft) {
            prop_assert!(moved.most >= 0.0 && moved.area > 0.0);
            let grown = Region::of(&line).grown(moved.most + 0.01, 0.001);
            let beyond = Region::of(&soft).difference(&grown).area();
            prop_assert!(beyond < 1e-4, "{moved:?} {beyond}");
        }
    }

    #[test]
    fn outer_corners_are_reached_by_a_disc_from_inside(
        drawing in outline(),
        width in prop_oneof![Just(0.0), 0.2..2.0],
        outer in 0.2..2.5f64,
    ) {
        let line = border(&drawing, width);
        let soft = Region::of(&rounded(&line, width, Radii { inner: 0.0, outer }));
        let radius = outer - FINISH_TOLERANCE;
        let opened = soft.grown(-radius, 0.001).grown(radius + FINISH_TOLERANCE, 0.001);
        let left = soft.difference(&opened).area();
        prop_assert!(left < 1e-3, "{left}");
    }

    #[test]
    fn thickening_where_it_is_thin_makes_it_wider_there(drawing in outline(), width in 0.0..1.0f64) {
        let line = border(&drawing, width);
        let mut spots = Vec::new();
        let mut now = line.clone();
        // Each press of the button takes the thinnest part that is left; there are not many of them.
        for _ in 0..40 {
            let Some(thin) = thin_part(&now, 3.0) else { break };
            spots.push(WideSpot { at: thin.at, width: 3.0 });
            let next = widened(&line, width, &spots);
            prop_assert!(next.area() > now.area(), "{thin:?} stays");
            now = next;
        }
        prop_assert_eq!(thin_part(&now, 3.0), None);
        prop_assert!(Region::of(&line).difference(&Region::of(&now)).area() < 1e-9);
    }
}
