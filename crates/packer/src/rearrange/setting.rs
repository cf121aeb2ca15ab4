//! What the search for places needs, made from a layout's ground.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::{Placement, Turn, ring_area};
use stickleaf_sheet::Turns;

use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::rearrange::board::{Board, Spot};
use crate::rearrange::lies::{Form, Lies};

/// Ways to lie for every kind, and boards on which bodies lie in one of them.
pub struct Setting {
    /// The ways to lie: first the forms of the stickers in their order, then one form for each held body and round corner.
    pub lies: Lies,
    /// For each form, the point of the sticker's own coordinates that counts as its centre.
    centres: Vec<Vec2>,
    /// The held pieces, zones and round corners, and the distances kept from them.
    held: Vec<(Spot, f64)>,
    /// For each of these that is no round corner, its kind.
    held_kinds: Vec<usize>,
}

/// Rings are told from a centre on this grid, in parts of a millimetre, so that they keep every micrometre exactly.
const GRID: f64 = 1000.0;
/// The chords of a round corner stray from its arc by less than this, in millimetres.
const ARC_TOLERANCE: f64 = 0.005;

impl Setting {
    /// The setting of a ground with these held bodies. A sticker that turns freely gets the turns given for it.
    pub fn new(ground: &Ground, held: &[Body], free_turns: impl Fn(&Kind) -> Vec<f64>) -> Setting {
        Setting::with_rings(ground, held, free_turns, 0.0, |ring| ring.to_vec())
    }

    /// The same with other rings in place of the true ones, and gaps of up to `reach` millimetres if that is more than
    /// what is asked.
    pub fn with_rings(
        ground: &Ground,
        held: &[Body],
        free_turns: impl Fn(&Kind) -> Vec<f64>,
        reach: f64,
        ring_for: impl Fn(&[Point]) -> Vec<Point>,
    ) -> Setting {
        let mut forms = Vec::new();
        let mut centres = Vec::new();
        let mut add = |ring: &[Point], turns: Vec<f64>, mirror: bool| {
            let centre = middle(ring);
            let mut ring: Vec<Point> = ring_for(ring).iter().map(|&point| point - centre).collect();
            if ring_area(&ring) < 0.0 {
                ring.reverse();
            }
            forms.push(Form { ring, turns, mirror });
            centres.push(centre);
        };
        for kind in &ground.kinds[..ground.stickers] {
            let turns = if kind.turns_freely() { free_turns(kind) } else { fixed_turns(&kind.turns) };
            add(kind.shape.line.points(), turns, kind.mirror);
        }
        let mut needs = Vec::new();
        for body in held {
            let line = ground.kinds[body.kind].shape.line.placed(&body.placement(ground));
            add(line.points(), vec![0.0], false);
            needs.push(ground.kinds[body.kind].clearance.unwrap_or(ground.spacing));
        }
        for ring in round_corners(ground) {
            add(&ring, vec![0.0], false);
            needs.push(ground.margin);
        }
        let reach = needs.iter().copied().fold(ground.spacing.max(reach), f64::max);
        let lies = Lies::new(&forms, reach);
        let kinds = held.iter().map(|body| body.kind).collect();
        let held = needs.into_iter().enumerate().map(|(index, need)| {
            let form = ground.stickers + index;
            (Spot { lie: lies.of_form[form].start, at: centres[form].to_point() }, need)
        });
        Setting { held: held.collect(), held_kinds: kinds, lies, centres }
    }

    /// A board of this room with these free pieces, and all that is held.
    pub fn board(&self, room: Rect, spacing: f64, free: Vec<Spot>) -> Board {
        let count = free.len();
        let mut needs = vec![spacing; count];
        needs.extend(self.held.iter().map(|(_, need)| need));
        let mut spots = free;
        spots.extend(self.held.iter().map(|(spot, _)| spot));
        Board::new(&self.lies, room, spots, count, needs)
    }

    /// A board with these free pieces, and all that is held, under the rules that the ground has now.
    pub fn board_on(&self, ground: &Ground, free: Vec<Spot>) -> Board {
        let count = free.len();
        let clearance = |&kind: &usize| ground.kinds[kind].clearance.unwrap_or(ground.spacing);
        let mut needs = vec![ground.spacing; count];
        needs.extend(self.held_kinds.iter().map(clearance));
        needs.resize(count + self.held.len(), ground.margin);
        let mut spots = free;
        spots.extend(self.held.iter().map(|(spot, _)| spot));
        Board::new(&self.lies, ground.inner(), spots, count, needs)
    }

    /// The way to lie of a sticker that is nearest to this turn, at this placement.
    pub fn spot(&self, sticker: usize, placement: &Placement) -> Spot {
        let away = |lie: &usize| {
            let other = &self.lies.list[*lie];
            let turn = (other.degrees - placement.turn.to_degrees()).rem_euclid(360.0);
            (other.mirrored != placement.mirrored, turn.min(360.0 - turn))
        };
        let order = |a: &usize, b: &usize| {
            let (a, b) = (away(a), away(b));
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        };
        let lie = self.lies.of_form[sticker].clone().min_by(order).expect("every sticker lies in some way");
        Spot { lie, at: placement.apply(self.centres[sticker].to_point()) }
    }

    /// Which sticker lies there, and where its own (0, 0) is.
    pub fn placement(&self, spot: Spot) -> (usize, Placement) {
        let lie = &self.lies.list[spot.lie];
        let mut placement =
            Placement { at: Point::ORIGIN, turn: Turn::degrees(lie.degrees), mirrored: lie.mirrored };
        let centre = placement.apply(self.centres[lie.form].to_point());
        placement.at = spot.at - centre.to_vec2();
        (lie.form, placement)
    }
}

/// The turns of a sticker that lies in some turns only, in degrees; of a round one, its rest.
pub fn fixed_turns(turns: &Turns) -> Vec<f64> {
    match turns {
        Turns::Only(list) if !list.is_empty() => list.clone(),
        _ => vec![0.0],
    }
}

fn middle(ring: &[Point]) -> Vec2 {
    let mut bounds = Rect::from_points(ring[0], ring[0]);
    for point in ring {
        bounds = bounds.union_pt(*point);
    }
    let rounded = |mm: f64| (mm * GRID).round() / GRID;
    Vec2::new(rounded(bounds.center().x), rounded(bounds.center().y))
}

/// What a round corner takes away from the sheet, for each corner; nothing if the margin is wider than that.
///
/// The arc's corners lie on the true arc and its chords inside the sheet, so a little too much is taken away.
fn round_corners(ground: &Ground) -> Vec<Vec<Point>> {
    let (radius, sheet) = (ground.sheet.corner_radius, ground.sheet);
    if radius <= ground.margin {
        return Vec::new();
    }
    let step = 2.0 * libm::acos(1.0 - (ARC_TOLERANCE / radius).min(0.5));
    let count = (core::f64::consts::FRAC_PI_2 / step).ceil().max(2.0) as u32;
    let corner = |x: f64, y: f64, sign_x: f64, sign_y: f64| {
        let centre = Point::new(x - sign_x * radius, y - sign_y * radius);
        let mut ring = vec![Point::new(x, y)];
        for i in 0..=count {
            let (sine, cosine) = libm::sincos(f64::from(i) * core::f64::consts::FRAC_PI_2 / f64::from(count));
            ring.push(centre + Vec2::new(sign_x * radius * cosine, sign_y * radius * sine));
        }
        ring
    };
    let (width, height) = (sheet.width, sheet.height);
    vec![
        corner(0.0, 0.0, -1.0, -1.0),
        corner(width, 0.0, 1.0, -1.0),
        corner(width, height, 1.0, 1.0),
        corner(0.0, height, -1.0, 1.0),
    ]
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{path, shapes};
    use stickleaf_sheet::{Background, Layout, Rules, Sheet, Sticker, Zone};

    use super::*;

    fn setting(corner_radius: f64) -> (Ground, Setting) {
        let mut l = Sticker::new("l", "L", shapes::l(20.0));
        (l.turns, l.mirror) = (Turns::Only(vec![0.0, 90.0, 180.0, 270.0]), true);
        let zone = Zone::new("hole", path::parse("M30 30H40V40H30Z").unwrap(), 3.0);
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 80.0, height: 60.0, corner_radius, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![l],
            backgrounds: vec![Background {
                name: "holed".into(),
                zones: vec![zone],
                ..Background::default()
            }],
            background: Some("holed".into()),
            ..Layout::default()
        });
        let held = ground.held(&Layout::default());
        let setting = Setting::new(&ground, &held, |_| Vec::new());
        (ground, setting)
    }

    #[test]
    fn a_placement_is_a_spot_and_back() {
        let (_, setting) = setting(0.0);
        let placement = Placement { mirrored: true, ..Placement::turned(33.3, 21.7, 270.0) };
        let (sticker, back) = setting.placement(setting.spot(0, &placement));
        assert_eq!((sticker, back.turn, back.mirrored), (0, placement.turn, true));
        assert!((back.at - placement.at).hypot2() < 1e-20);
    }

    #[test]
    fn zones_and_round_corners_are_in_the_way() {
        let (ground, setting) = setting(12.0);
        let lack = |x: f64, y: f64| {
            let spot = setting.spot(0, &Placement::at(x, y));
            setting.board(ground.inner(), 2.0, vec![spot]).most_lacking(&setting.lies)
        };
        let (bounds, hole) = (setting.lies.list[0].bounds, 3.0);
        let half = bounds.width() / 2.0;
        let middle = Point::new(half, half) - ground.kinds[0].shape.line.bounds().center().to_vec2();
        // Against the top edge in the middle nothing is wrong; in the corner the corner of the L is too near the arc.
        assert_eq!(lack(middle.x + 25.0, middle.y + 4.0), 0.0);
        assert!(lack(middle.x + 4.0, middle.y + 4.0) > 2.0);
        // 2 mm to the left of the zone, which asks for 3.
        let left = lack(middle.x + 28.0 - 2.0 * half, middle.y + 25.0);
        assert!((left - (hole - 2.0)).abs() < 1e-6, "{left}");
    }
}
