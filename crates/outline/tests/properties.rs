//! What must be true of every outline, tried on many.

use proptest::prelude::*;
use stickleaf_outline::{
    BORDER_TOLERANCE, HALF_COVER, Mask, Outline, Placement, TraceOptions, Turn, border, bridged, gap,
    islands, joined, raw_ring, shapes, thin_part, tight_inner_corner, trace,
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

fn placement() -> impl Strategy<Value = Placement> {
    (-50.0..50.0, -50.0..50.0, 0.0..360.0, any::<bool>()).prop_map(|(x, y, degrees, mirrored)| Placement {
        mirrored,
        turn: Turn::degrees(degrees),
        ..Placement::at(x, y)
    })
}

/// A mask of up to 20 by 20 pixels, mostly clear or opaque.
fn mask() -> impl Strategy<Value = Mask> {
    let cover = prop_oneof![3 => Just(0u8), 3 => Just(255u8), 2 => any::<u8>()];
    (1u32..20, 1u32..20, 0.01..1.0).prop_flat_map(move |(width, height, pixel)| {
        prop::collection::vec(cover.clone(), (width * height) as usize)
            .prop_map(move |cover| Mask::new(width, height, pixel, cover).unwrap())
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn moving_and_turning_keep_area_and_length(outline in outline(), placement in placement()) {
        let placed = outline.placed(&placement);
        prop_assert!((placed.area() - outline.area()).abs() < 1e-6);
        prop_assert!((placed.perimeter() - outline.perimeter()).abs() < 1e-6);
        let centre = placement.apply(outline.centroid());
        prop_assert!((placed.centroid() - centre).hypot2().sqrt() < 1e-6);
    }

    #[test]
    fn the_gap_is_the_same_both_ways_and_moves_along(a in outline(), b in outline(), at in placement(), both in placement()) {
        let b = b.placed(&at);
        let (there, back) = (gap(&a, &b), gap(&b, &a));
        prop_assert!((there.distance - back.distance).abs() < 1e-9);
        let apart = (there.between.1 - there.between.0).hypot2().sqrt();
        prop_assert!((apart - there.distance).abs() < 1e-9);
        let moved = gap(&a.placed(&both), &b.placed(&both));
        prop_assert!((moved.distance - there.distance).abs() < 1e-6);
    }

    #[test]
    fn every_point_of_a_border_lies_the_border_away(outline in outline(), width in 0.2..3.0) {
        let grown = border(&outline, width);
        for (a, b) in grown.edges() {
            for share in [0.0, 0.37, 0.5, 0.81] {
                let point = a.lerp(b, share);
                let apart = outline
                    .edges()
                    .map(|(start, end)| {
                        let along = end - start;
                        let t = ((point - start).dot(along) / along.hypot2()).clamp(0.0, 1.0);
                        (start + along * t - point).hypot2()
                    })
                    .fold(f64::INFINITY, f64::min)
                    .sqrt();
                prop_assert!(apart >= width && apart <= width + BORDER_TOLERANCE + 1e-9, "{} of {}", apart, width);
            }
        }
        prop_assert!(outline.points().iter().all(|&point| grown.contains(point)));
    }

    #[test]
    fn any_mask_falls_into_parts_that_hold_each_covered_pixel_once(mask in mask()) {
        let found = islands(&mask, HALF_COVER, 0.0);
        let covered = mask.cover().iter().filter(|&&cover| cover >= HALF_COVER).count() as u64;
        prop_assert_eq!(found.islands.iter().map(|island| island.covered_px).sum::<u64>(), covered);
        prop_assert_eq!(found.islands.len(), flooded(&mask));
    }

    #[test]
    fn any_part_of_any_mask_has_an_outline_near_its_raw_line(mask in mask(), detail in 0.002..1.0) {
        for island in islands(&mask, HALF_COVER, 0.0).islands {
            let raw = raw_ring(&mask, &island, HALF_COVER).unwrap();
            let outline = trace(&mask, &island, &TraceOptions { detail, ..TraceOptions::default() }).unwrap();
            let again = Outline::new(outline.points().iter().copied());
            prop_assert_eq!(again.as_ref(), Ok(&outline));
            for (points, line) in [(&raw[..], outline.points()), (outline.points(), &raw[..])] {
                for &point in points {
                    let near = (0..line.len()).map(|i| {
                        let (start, end) = (line[i], line[(i + 1) % line.len()]);
                        let along = end - start;
                        let t = ((point - start).dot(along) / along.hypot2().max(1e-30)).clamp(0.0, 1.0);
                        (start + along * t - point).hypot2()
                    });
                    let stray = near.fold(f64::INFINITY, f64::min).sqrt();
                    prop_assert!(stray <= detail, "{} of {}", stray, detail);
                }
            }
        }
    }

    #[test]
    fn joined_parts_make_one_line_round_all_of_them(seeds in prop::collection::vec((any::<u64>(), 0.0..40.0, 0.0..40.0), 1..6)) {
        let parts: Vec<Outline> =
            seeds.iter().map(|&(seed, x, y)| shapes::blob(seed, 4.0).placed(&Placement::at(x, y))).collect();
        for group in joined(&parts, 1.5) {
            let members: Vec<Outline> = group.iter().map(|&part| parts[part].clone()).collect();
            let whole = bridged(&members).unwrap();
            let cut_line = border(&whole, 0.01);
            for member in &members {
                prop_assert!(member.points().iter().all(|&point| cut_line.contains(point)));
            }
        }
    }

    #[test]
    fn a_border_leaves_no_part_thinner_than_itself(outline in outline()) {
        prop_assert_eq!(thin_part(&border(&outline, 1.5), 3.0), None);
    }

    #[test]
    fn faults_are_measured_below_the_limit_and_on_the_outline(outline in outline(), limit in 0.5..4.0) {
        let reach = outline.bounds().inflate(limit, limit);
        if let Some(thin) = thin_part(&outline, limit) {
            prop_assert!(thin.width >= 0.0 && thin.width < limit && reach.contains(thin.at));
        }
        if let Some(corner) = tight_inner_corner(&outline, limit) {
            prop_assert!(corner.radius >= 0.0 && corner.radius < limit && reach.contains(corner.at));
        }
    }
}

/// How many parts there are, found the slow way: fill one after the other, corner by corner.
fn flooded(mask: &Mask) -> usize {
    let (width, height) = (i64::from(mask.width_px()), i64::from(mask.height_px()));
    let mut seen = vec![false; (width * height) as usize];
    let mut parts = 0;
    for start in 0..width * height {
        let mut open = vec![(start % width, start / width)];
        let mut is_new = false;
        while let Some((x, y)) = open.pop() {
            let inside = (0..width).contains(&x) && (0..height).contains(&y);
            if !inside || mask.at(x, y) < HALF_COVER || seen[(y * width + x) as usize] {
                continue;
            }
            seen[(y * width + x) as usize] = true;
            is_new = true;
            open.extend((-1..=1).flat_map(|dy| (-1..=1).map(move |dx| (x + dx, y + dy))));
        }
        parts += usize::from(is_new);
    }
    parts
}
