//! Everything that stays the same during a search: the sheet, its rules and zones, and the kinds of pieces.

use kurbo::{Point, Rect};
use stickleaf_sheet::{Layout, Sheet, Sticker, Turns};

use crate::body::Body;
use crate::shape::Shape;
use crate::turns::restful_turns;

/// What can lie on a sheet: a sticker, or a zone that is there already.
pub struct Kind {
    /// Its outline.
    pub shape: Shape,
    /// Which turns are allowed.
    pub turns: Turns,
    /// Whether it may be flipped.
    pub mirror: bool,
    /// A few turns worth trying first, in degrees.
    pub restful: Vec<f64>,
    /// How near others may come, in millimetres: a zone's clearance; nothing for stickers, which keep the spacing.
    pub clearance: Option<f64>,
}

impl Kind {
    /// Whether a piece may be turned a little from where it is. A disc may, but nothing would come of it.
    pub fn turns_freely(&self) -> bool {
        !self.shape.is_round && matches!(self.turns, Turns::Any | Turns::Within(_))
    }

    /// The allowed turn nearest to this one, in degrees.
    pub fn nearest_turn(&self, degrees: f64) -> f64 {
        match self.turns {
            Turns::None => 0.0,
            Turns::Any => degrees,
            _ => self.turns.nearest(stickleaf_outline::Turn::degrees(degrees)).to_signed_degrees(),
        }
    }
}

/// The sheet, the rules and the kinds: first one for each sticker in the layout's order, then one for each zone.
pub struct Ground {
    /// The card.
    pub sheet: Sheet,
    /// Least distance from a cut line to the sheet's edge.
    pub margin: f64,
    /// Least distance of two cut lines.
    pub spacing: f64,
    /// Stickers, then zones.
    pub kinds: Vec<Kind>,
    /// How many of the kinds are stickers.
    pub stickers: usize,
}

/// How far beyond the largest distance asked a field reaches, in millimetres.
const FIELD_PAD: f64 = 1.5;

impl Ground {
    /// The ground of a layout.
    pub fn new(layout: &Layout) -> Ground {
        let (sheet, rules) = (layout.sheet, layout.rules);
        let asked = layout.zones().iter().map(|zone| zone.clearance).fold(rules.spacing, f64::max);
        let pad = asked + FIELD_PAD;
        let of_sticker = |sticker: &Sticker| {
            let shape = Shape::new(sticker.cut_line(&rules), pad, None);
            let restful = restful_turns(&shape, &sticker.turns);
            Kind { shape, turns: sticker.turns.clone(), mirror: sticker.mirror, restful, clearance: None }
        };
        let mut kinds: Vec<Kind> = layout.stickers.iter().map(of_sticker).collect();
        let stickers = kinds.len();
        kinds.extend(layout.zones().iter().map(|zone| Kind {
            shape: Shape::new(zone.outline.clone(), pad, Some(sheet.bounds().inflate(pad, pad))),
            turns: Turns::None,
            mirror: false,
            restful: vec![0.0],
            clearance: Some(zone.clearance),
        }));
        Ground { sheet, margin: rules.margin, spacing: rules.spacing, kinds, stickers }
    }

    /// The bodies that nothing moves: the locked pieces, then the zones.
    pub fn held(&self, layout: &Layout) -> Vec<Body> {
        let locked = layout.pieces.iter().filter(|piece| piece.locked).filter_map(|piece| {
            let kind = layout.sticker_index(&piece.sticker)?;
            Some(Body::new(self, kind, &piece.placement, true))
        });
        let zones = (self.stickers..self.kinds.len())
            .map(|kind| Body::new(self, kind, &stickleaf_outline::Placement::at(0.0, 0.0), true));
        locked.chain(zones).collect()
    }

    /// The distance that two bodies keep, in millimetres.
    #[inline]
    pub fn need(&self, a: &Body, b: &Body) -> f64 {
        self.kinds[a.kind].clearance.or(self.kinds[b.kind].clearance).unwrap_or(self.spacing)
    }

    /// The sheet less its margin, without regard to round corners.
    pub fn inner(&self) -> Rect {
        self.sheet.bounds().inset(-self.margin)
    }

    /// The centre and radius of the circle that a point near a round corner must stay in, if it is near one.
    #[inline]
    pub fn corner_circle(&self, point: Point) -> Option<(Point, f64)> {
        let radius = self.sheet.corner_radius;
        if radius <= self.margin {
            return None;
        }
        let (right, bottom) = (self.sheet.width - radius, self.sheet.height - radius);
        let x = if point.x < radius { radius } else { right };
        let y = if point.y < radius { radius } else { bottom };
        let beyond_x = point.x < radius || point.x > right;
        let beyond_y = point.y < radius || point.y > bottom;
        (beyond_x && beyond_y).then(|| (Point::new(x, y), radius - self.margin))
    }
}
