//! New starts: pieces taken up and put down elsewhere.

use kurbo::Point;

use crate::body::Body;
use crate::ground::Ground;
use crate::random::Chance;
use crate::spots::{Tries, Weights, best_spot, lie_anywhere};

/// Spots tried for a piece that is put down anew.
pub const ENTRY: Tries = Tries { anywhere: 150, nearby: 0, refined: 4 };

/// Takes up the pieces round a random point and puts them down where they cost least.
///
/// Returns how many points were looked up.
pub fn disturb(ground: &Ground, bodies: &mut [Body], chance: &mut Chance) -> u64 {
    let sheet = ground.sheet;
    let middle = Point::new(chance.between(0.0, sheet.width), chance.between(0.0, sheet.height));
    let free: Vec<usize> = (0..bodies.len()).filter(|&index| !bodies[index].held).collect();
    let mut near = free.clone();
    near.sort_by(|&a, &b| (bodies[a].at - middle).hypot2().total_cmp(&(bodies[b].at - middle).hypot2()));
    near.truncate((free.len() / 4).clamp(1, 12));
    chance.shuffle(&mut near);
    let weights = Weights::new(bodies.len());
    let mut work = 0;
    for index in near {
        lie_anywhere(ground, &mut bodies[index], chance);
        let (spot, spent) = best_spot(ground, bodies, index, &weights, ENTRY, chance);
        work += spent;
        bodies[index].lie(ground, spot.at, spot.degrees, spot.mirrored);
    }
    work
}

/// Lets two pieces of different stickers change places, or puts one piece down anew; which is left to chance.
///
/// Returns how many points were looked up.
pub fn swap(ground: &Ground, bodies: &mut [Body], chance: &mut Chance) -> u64 {
    let free: Vec<usize> = (0..bodies.len()).filter(|&index| !bodies[index].held).collect();
    if free.is_empty() {
        return 0;
    }
    let one = free[chance.below(free.len())];
    let others: Vec<usize> = free.into_iter().filter(|&i| bodies[i].kind != bodies[one].kind).collect();
    if others.is_empty() || chance.below(3) == 0 {
        lie_anywhere(ground, &mut bodies[one], chance);
        let weights = Weights::new(bodies.len());
        let (spot, work) = best_spot(ground, bodies, one, &weights, ENTRY, chance);
        bodies[one].lie(ground, spot.at, spot.degrees, spot.mirrored);
        return work;
    }
    let other = others[chance.below(others.len())];
    for (index, at) in [(one, bodies[other].at), (other, bodies[one].at)] {
        let (degrees, mirrored) = (bodies[index].degrees, bodies[index].mirrored);
        bodies[index].lie(ground, at, degrees, mirrored);
    }
    1
}

/// Throws all pieces anywhere.
///
/// Returns how many points were looked up: none.
pub fn scatter(ground: &Ground, bodies: &mut [Body], chance: &mut Chance) -> u64 {
    for body in bodies.iter_mut().filter(|body| !body.held) {
        lie_anywhere(ground, body, chance);
    }
    0
}
