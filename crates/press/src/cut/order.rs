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
    while let Some(better) = improved(starts, before, &order) {
        order = better;
    }
    order
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

/// The first change that shortens the way and keeps the pairs.
///
/// What a change saves is told by the ends of the stretch that it moves. Cost: the square of the number of places.
fn improved(starts: &[Point], before: &[(usize, usize)], order: &[usize]) -> Option<Vec<usize>> {
    let count = order.len();
    // Where the way is at a place of the order; before the first it is at the corner, and behind the last it has ended.
    let at = |place: Option<usize>| place.map_or(Point::ZERO, |place| starts[order[place]]);
    let next = |place: usize| order.get(place).map(|&start| starts[start]);
    let keeps_pairs = |changed: &Vec<usize>| keeps(before, changed);
    for from in 0..count {
        let enter = at(from.checked_sub(1));
        let first = at(Some(from));
        for to in from + 1..count {
            let (last, leave) = (at(Some(to)), next(to + 1));
            let saved = away(enter, first) + hop(last, leave) - away(enter, last) - hop(first, leave);
            if saved > LEAST_GAIN {
                let mut turned = order.to_vec();
                turned[from..=to].reverse();
                if let Some(found) = Some(turned).filter(keeps_pairs) {
                    return Some(found);
                }
            }
        }
        for taken in 1..=LONGEST_MOVED.min(count - from) {
            let (last, leave) = (at(Some(from + taken - 1)), next(from + taken));
            let saved = away(enter, first) + hop(last, leave) - hop(enter, leave);
            // A place among those that stay, as a place of the order.
            let among = |place: usize| if place < from { place } else { place + taken };
            for place in 0..=count - taken {
                let (enter, leave) = (at(place.checked_sub(1).map(among)), next(among(place)));
                for (head, tail, is_turned) in [(first, last, false), (last, first, true)] {
                    let added = away(enter, head) + hop(tail, leave) - hop(enter, leave);
                    if saved - added > LEAST_GAIN
                        && let Some(found) =
                            Some(moved(order, from, taken, place, is_turned)).filter(keeps_pairs)
                    {
                        return Some(found);
                    }
                }
            }
        }
    }
    None
}

/// The order with a stretch put elsewhere: at this place among those that stay, turned round if so wished.
fn moved(order: &[usize], from: usize, taken: usize, place: usize, is_turned: bool) -> Vec<usize> {
    let mut rest = order.to_vec();
    let mut stretch: Vec<usize> = rest.drain(from..from + taken).collect();
    if is_turned {
        stretch.reverse();
    }
    rest.splice(place..place, stretch);
    rest
}

/// The way to a place, if there is one.
fn hop(from: Point, to: Option<Point>) -> f64 {
    to.map_or(0.0, |to| away(from, to))
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

    proptest! {
        #[test]
        fn what_a_change_saves_is_what_the_way_becomes_shorter_by(
            places in prop::collection::vec((0.0..100.0, 0.0..150.0), 2..16), seed in any::<u64>(),
        ) {
            let starts: Vec<Point> = places.into_iter().map(Point::from).collect();
            // An order by chance: every start is drawn where the seed says.
            let mut order: Vec<usize> = (0..starts.len()).collect();
            order.sort_by_key(|&i| (seed.rotate_left(i as u32 * 7) ^ seed).wrapping_mul(i as u64 + 1));
            let length = |order: &[usize]| travel(&starts, order.iter().copied());
            let mut steps = 0;
            while let Some(better) = improved(&starts, &[], &order) {
                prop_assert!(length(&better) < length(&order) - LEAST_GAIN / 2.0);
                order = better;
                steps += 1;
                prop_assert!(steps < 10_000, "it comes to an end");
            }
            // No turned stretch is left that would shorten it.
            for from in 0..order.len() {
                for to in from + 1..order.len() {
                    let mut turned = order.clone();
                    turned[from..=to].reverse();
                    prop_assert!(length(&turned) > length(&order) - 1e-6);
                }
            }
        }
    }

    #[test]
    fn places_in_a_row_are_visited_in_a_row() {
        let starts: Vec<Point> = [4.0, 1.0, 3.0, 2.0].map(|x| Point::new(x, 0.0)).to_vec();
        assert_eq!(short_order(&starts, &[]), [1, 3, 2, 0]);
        assert_eq!(least_travel(&starts), 4.0);
    }
}
