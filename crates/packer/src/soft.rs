//! Discs that give way: as springs that push where two come nearer than they may, all relaxed at once.
//!
//! Where the springs come to rest without any pressed, the discs keep every distance. Source of the method: W. Q. Huang,
//! Y. Xu, "Two personification strategies for solving circles packing problem", Science in China E 42, 1999.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::thinned;

use crate::body::Body;
use crate::descent::Descent;
use crate::ground::Ground;
use crate::separate::Outcome;

/// Pairs are looked up as long as no disc has moved by half of this share of the smallest diameter.
const SKIN: f64 = 0.5;
/// A stride, as a share of the smallest radius.
const STRIDE: f64 = 0.6;
/// Steps at most; after how many, and by which share, a step must gain.
const STEPS: usize = 800;
const EAGER: usize = 30;
const GAIN: f64 = 1e-5;
/// With less energy than this, in square millimetres, slow steps may still lead to rest.
const NEARLY: f64 = 0.01;
/// What is asked beyond the rules, in millimetres, so that rounding does no harm; and with how little energy, in square
/// millimetres, less than that is missing.
const FOR_ROUNDING: f64 = 0.000_3;
const RELAXED: f64 = 1e-9;
/// A spring against what does not move counts for two.
const WALL: f64 = 2.0;
/// How far the line of an obstacle may stray, in millimetres.
const TOLERANCE: f64 = 0.001;

/// Free round bodies on their way to where the springs rest.
pub struct Relaxing {
    springs: Springs,
    descent: Descent,
    steps: usize,
}

impl Relaxing {
    /// Begins with these bodies, all free ones of which must be round.
    pub fn new(ground: &Ground, bodies: &[Body]) -> Relaxing {
        let mut springs = Springs::new(ground, bodies);
        let values = bodies.iter().filter(|body| !body.held).flat_map(|body| [body.at.x, body.at.y]);
        let stride = STRIDE * springs.smallest;
        let descent =
            Descent::new(values.collect(), stride, &mut |at, slope| springs.energy(ground, at, slope));
        Relaxing { springs, descent, steps: 0 }
    }

    /// Works until at rest or until the budget is used up: open, or solved if nothing is pressed, or failed.
    pub fn work(&mut self, ground: &Ground, budget: &mut u64) -> Outcome {
        while *budget > 0 {
            if self.descent.energy <= RELAXED {
                return Outcome::Solved;
            }
            let Relaxing { springs, descent, steps } = self;
            let before = descent.energy;
            let moved = descent.step(&mut |at, slope| springs.energy(ground, at, slope));
            *steps += 1;
            *budget = budget.saturating_sub(std::mem::take(&mut springs.work).max(1));
            let is_slow = *steps > EAGER && before > NEARLY && before - descent.energy < GAIN * before;
            if !moved || is_slow || *steps >= STEPS {
                return if descent.energy <= RELAXED { Outcome::Solved } else { Outcome::Failed };
            }
        }
        Outcome::Open
    }

    /// The energy, in square millimetres.
    pub fn energy(&self) -> f64 {
        self.descent.energy
    }

    /// Puts the free bodies where the discs are.
    pub fn put(&self, ground: &Ground, bodies: &mut [Body]) {
        let free = bodies.iter_mut().filter(|body| !body.held);
        for (body, at) in free.zip(self.descent.values.chunks_exact(2)) {
            let (degrees, mirrored) = (body.degrees, body.mirrored);
            body.lie(ground, Point::new(at[0], at[1]), degrees, mirrored);
        }
    }
}

/// Everything that pushes discs.
pub struct Springs {
    /// For each disc its radius in millimetres, with what is asked for rounding.
    radii: Vec<f64>,
    smallest: f64,
    obstacles: Vec<Obstacle>,
    /// Pairs of discs that may come near each other while none moves far from where they were.
    pairs: Vec<(usize, usize)>,
    were: Vec<f64>,
    work: u64,
}

impl Springs {
    /// The springs between the free bodies, which must be round, and against the others and the edge.
    pub fn new(ground: &Ground, bodies: &[Body]) -> Springs {
        let free = bodies.iter().filter(|body| !body.held);
        let radii: Vec<f64> = free.map(|body| ground.kinds[body.kind].shape.reach + FOR_ROUNDING).collect();
        let held = bodies.iter().filter(|body| body.held);
        Springs {
            smallest: radii.iter().copied().fold(f64::INFINITY, f64::min),
            radii,
            obstacles: held.map(|body| Obstacle::new(ground, body)).collect(),
            pairs: Vec::new(),
            were: Vec::new(),
            work: 0,
        }
    }

    fn energy(&mut self, ground: &Ground, at: &[f64], slope: &mut [f64]) -> f64 {
        self.look_up_pairs(ground, at);
        slope.fill(0.0);
        let mut energy = 0.0;
        for &(i, j) in &self.pairs {
            let need = self.radii[i] + self.radii[j] + ground.spacing;
            let away = point(at, i) - point(at, j);
            let squared = away.hypot2();
            if squared < need * need {
                let length = squared.sqrt().max(1e-9);
                let lack = need - length;
                energy += lack * lack;
                push(slope, i, away * (2.0 * lack / length));
                push(slope, j, away * (-2.0 * lack / length));
            }
        }
        for (index, &radius) in self.radii.iter().enumerate() {
            each_wall(ground, &self.obstacles, point(at, index), radius, |lack, inward| {
                if lack > 0.0 {
                    energy += WALL * lack * lack;
                    push(slope, index, inward * (2.0 * WALL * lack));
                }
            });
        }
        let walls: usize = self.obstacles.iter().map(|obstacle| obstacle.line.len()).sum();
        self.work += (self.pairs.len() / 6 + self.radii.len() * (2 + walls / 4) / 3) as u64;
        energy
    }

    fn look_up_pairs(&mut self, ground: &Ground, at: &[f64]) {
        let skin = SKIN * 2.0 * self.smallest;
        let has_moved = |index: usize| {
            let way = point(at, index) - point(&self.were, index);
            way.hypot2() > 0.25 * skin * skin
        };
        let count = self.radii.len();
        if self.were.len() == at.len() && !(0..count).any(has_moved) {
            return;
        }
        self.pairs.clear();
        for i in 0..count {
            for j in i + 1..count {
                let near = self.radii[i] + self.radii[j] + ground.spacing + skin;
                if (point(at, i) - point(at, j)).hypot2() < near * near {
                    self.pairs.push((i, j));
                }
            }
        }
        self.were = at.to_vec();
        self.work += (count * count / 96) as u64;
    }
}

fn point(at: &[f64], index: usize) -> Point {
    Point::new(at[2 * index], at[2 * index + 1])
}

/// A push goes against the slope.
fn push(slope: &mut [f64], index: usize, push: Vec2) {
    slope[2 * index] -= push.x;
    slope[2 * index + 1] -= push.y;
}

/// For each free body by how many millimetres it lacks distance, all its lacks squared and added up.
pub fn pains(ground: &Ground, bodies: &[Body]) -> Vec<f64> {
    let springs = Springs::new(ground, bodies);
    let free: Vec<Point> = bodies.iter().filter(|body| !body.held).map(|body| body.at).collect();
    let mut pains = vec![0.0; free.len()];
    for (i, &a) in free.iter().enumerate() {
        for (j, &b) in free.iter().enumerate().skip(i + 1) {
            let need = springs.radii[i] + springs.radii[j] + ground.spacing;
            let lack = (need - (a - b).hypot2().sqrt()).max(0.0);
            pains[i] += lack * lack;
            pains[j] += lack * lack;
        }
        each_wall(ground, &springs.obstacles, a, springs.radii[i], |lack, _| {
            pains[i] += lack.max(0.0) * lack.max(0.0);
        });
    }
    pains
}

/// The lack of a disc at a point where it is largest, in millimetres; negative where there is room. The disc with this
/// position among the free bodies is itself not in its way.
pub fn worst_lack(ground: &Ground, bodies: &[Body], springs: &Springs, index: usize, at: Point) -> f64 {
    let radius = springs.radii[index];
    let mut worst = f64::NEG_INFINITY;
    let free = bodies.iter().filter(|body| !body.held).zip(&springs.radii).enumerate();
    for (_, (other, &other_radius)) in free.filter(|&(other, _)| other != index) {
        worst = worst.max(radius + other_radius + ground.spacing - (at - other.at).hypot2().sqrt());
    }
    each_wall(ground, &springs.obstacles, at, radius, |lack, _| worst = worst.max(lack));
    worst
}

/// What a disc lacks at each wall and which way it must go; more walls may be told than are near.
fn each_wall(
    ground: &Ground,
    obstacles: &[Obstacle],
    at: Point,
    radius: f64,
    mut tell: impl FnMut(f64, Vec2),
) {
    let inner = ground.inner();
    tell(inner.x0 + radius - at.x, Vec2::new(1.0, 0.0));
    tell(at.x + radius - inner.x1, Vec2::new(-1.0, 0.0));
    tell(inner.y0 + radius - at.y, Vec2::new(0.0, 1.0));
    tell(at.y + radius - inner.y1, Vec2::new(0.0, -1.0));
    if let Some((centre, room)) = ground.corner_circle(at) {
        let inward = centre - at;
        let length = inward.hypot2().sqrt();
        if length > 1e-9 {
            tell(length - (room - radius).max(0.0), inward / length);
        }
    }
    for obstacle in obstacles {
        if let Some((lack, outward)) = obstacle.lack(at, radius) {
            tell(lack, outward);
        }
    }
}

/// A held piece or a zone.
struct Obstacle {
    /// The corners of its line on the sheet, or one point in the middle of a disc.
    line: Vec<Point>,
    bounds: Rect,
    /// How far from the line others keep, in millimetres.
    need: f64,
}

impl Obstacle {
    fn new(ground: &Ground, body: &Body) -> Obstacle {
        let kind = &ground.kinds[body.kind];
        let need = kind.clearance.unwrap_or(ground.spacing);
        let (line, need) = if kind.shape.is_round {
            (vec![body.at], need + kind.shape.reach)
        } else {
            let corners: Vec<Point> =
                kind.shape.corners.iter().map(|&corner| body.to_sheet(corner)).collect();
            (thinned(&corners, TOLERANCE), need)
        };
        let bounds = line
            .iter()
            .map(|&point| Rect::from_points(point, point))
            .reduce(|a, b| a.union(b))
            .unwrap_or(Rect::ZERO);
        Obstacle { line, bounds, need }
    }

    /// What a disc lacks, and which way it gains; nothing where it is far away or has no way to tell.
    fn lack(&self, at: Point, radius: f64) -> Option<(f64, Vec2)> {
        let reach = self.need + radius;
        if !self.bounds.inflate(reach, reach).contains(at) {
            return None;
        }
        let mut nearest = self.line[0];
        let mut is_inside = false;
        for (index, &start) in self.line.iter().enumerate() {
            let end = self.line[(index + 1) % self.line.len()];
            let foot = foot(at, start, end);
            if (foot - at).hypot2() < (nearest - at).hypot2() {
                nearest = foot;
            }
            if (start.y > at.y) != (end.y > at.y) {
                let crossing = start.x + (at.y - start.y) / (end.y - start.y) * (end.x - start.x);
                is_inside ^= at.x < crossing;
            }
        }
        let away = at - nearest;
        let length = away.hypot2().sqrt();
        let sign = if is_inside { -1.0 } else { 1.0 };
        (length > 1e-9).then(|| (reach - sign * length, away * (sign / length)))
    }
}

/// The point of a segment nearest to a point.
fn foot(point: Point, start: Point, end: Point) -> Point {
    let along = end - start;
    let squared = along.hypot2();
    let share = if squared > 0.0 { ((point - start).dot(along) / squared).clamp(0.0, 1.0) } else { 0.0 };
    start + along * share
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Layout, Sheet, Sticker};

    use super::*;

    #[test]
    fn two_discs_on_one_spot_of_a_narrow_sheet_end_beside_each_other() {
        let mut dot = Sticker::new("dot", "Dot", path::parse("M-5 0A5 5 0 1 1 5 0A5 5 0 1 1 -5 0Z").unwrap());
        dot.border = Some(0.0);
        let mut layout = Layout { stickers: vec![dot], ..Layout::default() };
        (layout.rules.margin, layout.rules.spacing) = (2.0, 3.0);
        // 2 mm, a dot, 3 mm, a dot, 2 mm are 27 mm.
        for (width, expected) in [(27.1, Outcome::Solved), (26.9, Outcome::Failed)] {
            layout.sheet = Sheet { width, height: 14.01, corner_radius: 0.0, resolution_ppi: 600.0 };
            let ground = Ground::new(&layout);
            let place = |x: f64| Body::new(&ground, 0, &Placement::at(x, 7.0), false);
            let mut bodies = vec![place(12.0), place(12.5)];
            let mut relaxing = Relaxing::new(&ground, &bodies);
            assert_eq!(relaxing.work(&ground, &mut 10_000_000), expected, "{width}");
            relaxing.put(&ground, &mut bodies);
            let away = (bodies[0].at - bodies[1].at).hypot2().sqrt();
            assert_eq!(away > 13.0, expected == Outcome::Solved, "{away}");
            assert!((away - 13.0).abs() < 0.15, "{away}");
        }
    }
}
