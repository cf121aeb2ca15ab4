//! Crowded discs brought to rest again and again, each time with a few of them put down elsewhere.
//!
//! Basin hopping: what rests with less energy is where the next hop starts. After many hops without gain it starts
//! anew from nothing. Source: D. J. Wales, J. P. K. Doye, Journal of Physical Chemistry A 101, 1997; for discs, and
//! that one is best put into the emptiest place, W. Huang, T. Ye, "Quasi-physical global optimization method for solving
//! the equal circle packing problem", Science China Information Sciences 54, 2011.

use kurbo::Point;
use stickleaf_outline::Placement;

use crate::body::Body;
use crate::ground::Ground;
use crate::random::Chance;
use crate::separate::Outcome;
use crate::shake::scatter;
use crate::soft::{Relaxing, Springs, pains, worst_lack};
use crate::spots::lie_anywhere;

/// How much more is spent on hopping than on all other attempts at one more.
pub const SHARE: u64 = 3;
/// Hops without gain before a new start.
const PATIENCE: usize = 150;
/// Of so many that lack most one is put elsewhere; the emptiest of so many points is taken.
const WORST: usize = 8;
const POINTS: usize = 20;
/// A gain, in square millimetres.
const GAIN: f64 = 1e-6;
/// With no more energy than this, in square millimetres, springs may not tell whether the discs fit.
const NEARLY: f64 = 0.01;

/// The search for places of these bodies, all free ones of which are round.
pub struct Hopping {
    /// Of which kind one more is there.
    pub kind: usize,
    /// The bodies as they lie now.
    pub bodies: Vec<Body>,
    relaxing: Relaxing,
    /// Where hops start, and the energy there.
    rest: Option<(f64, Vec<Body>)>,
    idle: usize,
    least: f64,
}

/// What a hop came to.
pub enum Hop {
    /// The budget is used up.
    Open,
    /// Nothing is lacking but a trace.
    Solved,
    /// Less was lacking than ever before, and little.
    Nearer,
    /// Neither.
    Failed,
}

impl Hopping {
    /// Begins with these bodies and one more of this kind, put down anywhere; nothing if a free one is not round.
    pub fn new(ground: &Ground, mut bodies: Vec<Body>, kind: usize, chance: &mut Chance) -> Option<Hopping> {
        let mut one_more = Body::new(ground, kind, &Placement::at(0.0, 0.0), false);
        lie_anywhere(ground, &mut one_more, chance);
        bodies.insert(0, one_more);
        let is_round = |body: &Body| ground.kinds[body.kind].shape.is_round;
        bodies.iter().all(|body| body.held || is_round(body)).then(|| {
            let relaxing = Relaxing::new(ground, &bodies);
            Hopping { kind, bodies, relaxing, rest: None, idle: 0, least: f64::INFINITY }
        })
    }

    /// Works until a hop has come to an end or the budget is used up.
    pub fn work(&mut self, ground: &Ground, budget: &mut u64) -> Hop {
        let outcome = self.relaxing.work(ground, budget);
        if outcome == Outcome::Open {
            return Hop::Open;
        }
        self.relaxing.put(ground, &mut self.bodies);
        let energy = self.relaxing.energy();
        if self.rest.as_ref().is_none_or(|&(least, _)| energy < least - GAIN) {
            self.rest = Some((energy, self.bodies.clone()));
            self.idle = 0;
        } else {
            self.idle += 1;
        }
        let is_nearer = energy < self.least;
        self.least = self.least.min(energy);
        match outcome {
            Outcome::Solved => Hop::Solved,
            _ if is_nearer && energy <= NEARLY => Hop::Nearer,
            _ => Hop::Failed,
        }
    }

    /// Makes the next hop ready, or the next start. Returns what that cost, in points looked up.
    pub fn hop(&mut self, ground: &Ground, chance: &mut Chance) -> u64 {
        match &self.rest {
            Some((_, bodies)) if self.idle < PATIENCE => {
                self.bodies.clone_from(bodies);
                self.put_elsewhere(ground, chance);
            }
            _ => {
                (self.rest, self.idle) = (None, 0);
                scatter(ground, &mut self.bodies, chance);
            }
        }
        self.relaxing = Relaxing::new(ground, &self.bodies);
        (self.bodies.len() * POINTS) as u64
    }

    fn put_elsewhere(&mut self, ground: &Ground, chance: &mut Chance) {
        let free: Vec<usize> = (0..self.bodies.len()).filter(|&index| !self.bodies[index].held).collect();
        let pains = pains(ground, &self.bodies);
        let mut by_pain: Vec<usize> = (0..free.len()).collect();
        by_pain.sort_by(|&a, &b| pains[b].total_cmp(&pains[a]));
        let springs = Springs::new(ground, &self.bodies);
        for _ in 0..=chance.below(2) {
            let among = if chance.below(2) == 0 { WORST.min(free.len()) } else { free.len() };
            let one = by_pain[chance.below(among)];
            let other = chance.below(free.len());
            let at = if self.bodies[free[one]].kind == self.bodies[free[other]].kind {
                self.emptiest(ground, &springs, one, chance)
            } else {
                let at = self.bodies[free[other]].at;
                let place = self.bodies[free[one]].at;
                lie_at(ground, &mut self.bodies[free[other]], place);
                at
            };
            lie_at(ground, &mut self.bodies[free[one]], at);
        }
    }

    /// The emptiest of some points for a free body.
    fn emptiest(&self, ground: &Ground, springs: &Springs, one: usize, chance: &mut Chance) -> Point {
        let inner = ground.inner();
        let mut best = (f64::INFINITY, inner.center());
        for _ in 0..POINTS {
            let at = Point::new(chance.between(inner.x0, inner.x1), chance.between(inner.y0, inner.y1));
            let lack = worst_lack(ground, &self.bodies, springs, one, at);
            if lack < best.0 {
                best = (lack, at);
            }
        }
        best.1
    }
}

fn lie_at(ground: &Ground, body: &mut Body, at: Point) {
    let (degrees, mirrored) = (body.degrees, body.mirrored);
    body.lie(ground, at, degrees, mirrored);
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Background, Layout, Piece, Rules, Sheet, Sticker, Zone};

    use super::*;
    use crate::answer::{Place, assembled, keeps_rules_in_full};
    use crate::build::placement_on_grid;

    #[test]
    fn discs_come_to_rest_round_what_is_held() {
        let parsed = |data: &str| path::parse(data).unwrap();
        let mut locked = Piece::new("bar".into(), Placement::turned(18.0, 40.0, 30.0));
        locked.locked = true;
        let mut layout = Layout {
            sheet: Sheet { width: 60.0, height: 60.0, corner_radius: 15.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 2.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![
                Sticker::new("disc", "Disc", parsed("M-5 0A5 5 0 1 1 5 0A5 5 0 1 1 -5 0Z")),
                Sticker::new("bar", "Bar", parsed("M-6 -1H6V1H-6Z")),
            ],
            pieces: vec![locked],
            ..Layout::default()
        };
        let mut background = Background { name: "Corner".into(), ..Background::default() };
        background.zones.push(Zone::new("L", parsed("M30 0H60V30H50V10H30Z"), 3.0));
        layout.background = Some(background.name.clone());
        layout.backgrounds.push(background);
        assert_eq!(layout.zones().len(), 1);
        let ground = Ground::new(&layout);
        let mut bodies = ground.held(&layout);
        let mut chance = Chance::new(1);
        for _ in 0..8 {
            let mut disc = Body::new(&ground, 0, &Placement::at(0.0, 0.0), false);
            lie_anywhere(&ground, &mut disc, &mut chance);
            bodies.insert(0, disc);
        }
        let mut hopping = Hopping::new(&ground, bodies, 0, &mut chance).unwrap();
        let solved = (0..500).any(|_| {
            let is_solved = matches!(hopping.work(&ground, &mut u64::MAX.clone()), Hop::Solved);
            if !is_solved {
                hopping.hop(&ground, &mut chance);
            }
            is_solved
        });
        assert!(solved);
        let free = hopping.bodies.iter().filter(|body| !body.held);
        let places: Vec<Place> = free
            .map(|body| Place { sticker: body.kind, placement: placement_on_grid(&ground, body) })
            .collect();
        assert_eq!(places.len(), 9);
        assert!(keeps_rules_in_full(&assembled(&layout, &places)));
    }
}
