//! Shorten: the level is the height of the sheet, less being more.

use kurbo::Point;
use stickleaf_sheet::{Layout, placed_cut_lines};

use crate::aims::measure::{Asked, Asks, Measure, middles};
use crate::aims::rung::Rung;
use crate::answer::PARTS;
use crate::answer::is_sound;
use crate::pack::Doing;

/// How many times as tall as given the sheet may become, and how much taller it is made at a time.
const TALLEST: f64 = 20.0;
const EASIER: f64 = 1.3;

/// All pieces on the lowest sheet.
pub struct Shorten {
    given: Layout,
    lowest: f64,
    middles: Vec<Point>,
}

impl Shorten {
    /// The measure for this layout.
    pub fn new(layout: &Layout) -> Shorten {
        Shorten { lowest: up(lowest(layout)), middles: middles(layout), given: layout.clone() }
    }

    fn at_height(&self, height: f64) -> Layout {
        let mut layout = self.given.clone();
        layout.sheet.height = height;
        layout
    }
}

impl Measure for Shorten {
    const DOING: Doing = Doing::Lowering;

    fn first(&self) -> f64 {
        -self.given.sheet.height
    }

    fn easier(&self, level: f64) -> Option<f64> {
        let tallest = self.given.sheet.height * TALLEST;
        let height = (-level * EASIER).max(self.lowest * EASIER);
        (-level < tallest && height <= tallest).then_some(-up(height))
    }

    fn last(&self) -> f64 {
        -self.lowest
    }

    fn rounded(&self, level: f64) -> f64 {
        -up(-level)
    }

    fn layout_at(&self, level: f64) -> Option<Layout> {
        let layout = self.at_height(-level);
        layout.validate().is_ok().then_some(layout)
    }

    fn shown(&self, searched: &Layout) -> Layout {
        searched.clone()
    }

    /// Just below the lowest piece; a little further where round corners are in the way.
    fn reached(&self, searched: &Layout, level: f64) -> f64 {
        let bottom = placed_cut_lines(searched).iter().map(|line| line.bounds().y1).fold(0.0, f64::max);
        let (margin, radius) = (searched.rules.margin, searched.sheet.corner_radius);
        let below = [margin, margin.max(radius * 0.5), margin.max(radius)];
        let heights = below.map(|below| up((bottom + below).max(self.lowest)));
        let fits = |height: &&f64| {
            **height < -level
                && is_sound(&Layout { pieces: searched.pieces.clone(), ..self.at_height(**height) })
        };
        heights.iter().find(fits).map_or(level, |height| -height)
    }

    fn unit(&self, level: f64) -> f64 {
        -level
    }

    fn millimetres(&self) -> f64 {
        1.0
    }

    fn middles(&self) -> &[Point] {
        &self.middles
    }

    fn asks(&self, rung: &Rung) -> Asks {
        let rules = rung.layout.rules;
        let fixed = |least: f64| Asked { least, rate: 0.0 };
        Asks {
            between: fixed(rules.spacing),
            edge: [fixed(rules.margin); 2],
            zones: rung.layout.zones().iter().map(|zone| [fixed(zone.clearance); 2]).collect(),
            lowering: 1.0,
            growth: Vec::new(),
        }
    }
}

/// A height that no sheet with all pieces is below: that of zones that must not be cut, of the round corners, and that
/// which gives the pieces their area.
pub fn lowest(layout: &Layout) -> f64 {
    let (sheet, rules) = (layout.sheet, layout.rules);
    let inside = sheet.bounds().inset(-1e-6);
    let zones = layout.zones().iter().map(|zone| zone.outline.bounds());
    let whole = zones.filter(|zone| inside.contains_rect(*zone)).map(|zone| zone.y1).fold(0.0, f64::max);
    let inked = |sticker: &stickleaf_sheet::Sticker| {
        let count = layout.placed(&sticker.id).max(sticker.wanted.least() as usize);
        count as f64 * sticker.cut_line(&rules).area()
    };
    let area: f64 = layout.stickers.iter().map(inked).sum();
    let width = (sheet.width - 2.0 * rules.margin).max(1e-3);
    whole.max(2.0 * sheet.corner_radius).max(area / width + 2.0 * rules.margin)
}

/// The height rounded up to the grid of answers.
pub fn up(mm: f64) -> f64 {
    (mm * PARTS - 1e-5).ceil() / PARTS
}
