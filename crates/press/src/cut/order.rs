//! In which order lines are cut: inner before outer, and short ways between them.
//!
//! The way begins at the sheet's top left corner, visits where each line begins, and ends where the last one does. First
//! always to the nearest line left; then stretches of the way are turned round or put elsewhere as long as that shortens
//! it. Sources: the nearest neighbour rule; 2-opt, G. Croes, "A method for solving traveling-salesman problems", 1958;
//! Or-opt, I. Or, 1976. Lower bound: the smallest tree that joins all the places (R. Prim, 1957), which no way can
//! undercut, since a way is such a tree.

use kurbo::Point;

/// The longest stretch that is put elsewhere as a whole.
const LONGEST_MOVED: usize = 3;

/// A shortening below this is none, in millimetres: so that rounding cannot go round in circles.
const LEAST_GAIN: f64 = 1e-9;

/// The length of the way through these places in this order, from the corner on.
pub(crate) fn travel(starts: &[Point], order: impl IntoIterator<Item = usize>) -> f64 {
    let mut at = Point::ZERO;
    let mut sum = 0.0;
    for i in order {
        sum += away(at, starts[i]);
        at = starts[i];
    }
    sum
}

/// The length of the smallest tree that joins the corner and all the places: no way through them is shorter.
pub(crate) fn least_travel(starts: &[Point]) -> f64 {
    let mut near: Vec<f64> = starts.iter().map(|&start| away(Point::ZERO, start)).collect();
    let mut left: Vec<usize> = (0..starts.len()).collect();
    let mut sum = 0.0;
    while let Some(next) = (0..left.len()).min_by(|&a, &b| near[left[a]].total_cmp(&near[left[b]])) {
        let joined = left.swap_remove(next);
        sum += near[joined];
        for &other in &left {
            near[other] = near[other].min(away(starts[joined], starts[other]));
        }
    }
    sum
}

/// An order of short travel in which each pair of `before` keeps its order: the first of the two is cut earlier.
pub(crate) fn short_order(starts: &[Point], before: &[(usize, usize)]) -> Vec<usize> {
    let mut order = nearest_next(starts, before);
    let mut length = travel(starts, order.iter().copied());
    loop {
        let Some((better, shorter)) = improved(starts, before, &order, length) else { return order };
        (order, length) = (better, shorter);
    }
}

fn nearest_next(starts: &[Point], before: &[(usize, usize)]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..starts.len()).collect();
    let mut order = Vec::with_capacity(starts.len());
    let mut at = Point::ZERO;
    while !left.is_empty() {
        let is_free = |i: usize| !before.iter().any(|&(first, then)| then == i && left.contains(&first));
        let free = (0..left.len()).filter(|&slot| is_free(left[slot]));
        let nearest = free.min_by(|&a, &b| away(at, starts[left[a]]).total_cmp(&away(at, starts[left[b]])));
        // Lines that lie in a ring round each other cannot be; the first is as good as any.
        let next = left.remove(nearest.unwrap_or(0));
        at = starts[next];
        order.push(next);
    }
    order
}

/// The first change that shortens the way and keeps the pairs, with its length.
fn improved(
    starts: &[Point],
    before: &[(usize, usize)],
    order: &[usize],
    length: f64,
) -> Option<(Vec<usize>, f64)> {
    let count = order.len();
    let try_out = |changed: Vec<usize>| {
        let shorter = travel(starts, changed.iter().copied());
        let is_better = shorter < length - LEAST_GAIN && keeps(before, &changed);
        is_better.then_some((changed, shorter))
    };
    for from in 0..count {
        for to in from + 1..count {
            let mut turned = order.to_vec();
            turned[from..=to].reverse();
            if let Some(found) = try_out(turned) {
                return Some(found);
            }
        }
        for taken in 1..=LONGEST_MOVED.min(count - from) {
            let mut rest = order.to_vec();
            let stretch: Vec<usize> = rest.drain(from..from + taken).collect();
            for place in 0..=rest.len() {
                for is_turned in [false, true] {
                    let mut stretch = stretch.clone();
                    if is_turned {
                        stretch.reverse();
                    }
                    let mut moved = rest.clone();
                    moved.splice(place..place, stretch);
                    if let Some(found) = try_out(moved) {
                        return Some(found);
                    }
                }
            }
        }
    }
    None
}

fn keeps(before: &[(usize, usize)], order: &[usize]) -> bool {
    let place = |i: usize| order.iter().position(|&other| other == i);
    before.iter().all(|&(first, then)| place(first) < place(then))
}

fn away(a: Point, b: Point) -> f64 {
    (b - a).hypot2().sqrt()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn every_line_is_cut_once_and_the_way_is_bounded(
            places in prop::collection::vec((0.0..100.0, 0.0..150.0), 1..24),
            pairs in prop::collection::vec((0usize..24, 0usize..24), 0..4),
        ) {
            let starts: Vec<Point> = places.into_iter().map(Point::from).collect();
            let inside: Vec<(usize, usize)> =
                pairs.into_iter().filter(|&(a, b)| a < b && b < starts.len()).collect();
            let order = short_order(&starts, &inside);
            let mut sorted = order.clone();
            sorted.sort_unstable();
            prop_assert_eq!(sorted, (0..starts.len()).collect::<Vec<_>>());
            prop_assert!(keeps(&inside, &order));
            let length = travel(&starts, order);
            prop_assert!(length >= least_travel(&starts) - 1e-9);
            prop_assert!(length <= travel(&starts, nearest_next(&starts, &inside)) + 1e-9);
        }
    }

    #[test]
    fn places_in_a_row_are_visited_in_a_row() {
        let starts: Vec<Point> = [4.0, 1.0, 3.0, 2.0].map(|x| Point::new(x, 0.0)).to_vec();
        assert_eq!(short_order(&starts, &[]), [1, 3, 2, 0]);
        assert_eq!(least_travel(&starts), 4.0);
    }
}
