//! Even: the level is the gap asked of any two pieces.

use kurbo::Point;
use stickleaf_sheet::{Layout, placed_cut_lines, smallest_gap};

use crate::aims::measure::{Asked, Asks, Measure, middles};
use crate::aims::rung::Rung;
use crate::answer::keeps_rules_in_full;
use crate::pack::Doing;

/// All pieces as far apart as possible.
pub struct Even {
    given: Layout,
    /// The mean width of a piece in millimetres, roughly.
    size: f64,
    middles: Vec<Point>,
}

impl Even {
    /// The measure for this layout.
    pub fn new(layout: &Layout) -> Even {
        let areas = layout.stickers.iter().map(|sticker| sticker.outline.area());
        let count = layout.stickers.len().max(1) as f64;
        Even { given: layout.clone(), middles: middles(layout), size: (areas.sum::<f64>() / count).sqrt() }
    }
}

impl Measure for Even {
    const DOING: Doing = Doing::Spreading;
    const TELLS_GAP: bool = true;
    const SETTLES_FIRST: bool = true;
    const ARRANGES: bool = true;

    fn first(&self) -> f64 {
        self.given.rules.spacing
    }

    fn easier(&self, _level: f64) -> Option<f64> {
        None
    }

    fn last(&self) -> f64 {
        self.given.sheet.width + self.given.sheet.height
    }

    /// A piece owns half of the gap all round, so that much it also keeps from margin and zones.
    fn layout_at(&self, level: f64) -> Option<Layout> {
        let mut layout = self.given.clone();
        let half = level / 2.0;
        layout.rules.spacing = layout.rules.spacing.max(level);
        layout.rules.margin = layout.rules.margin.max(half);
        for zone in layout.backgrounds.iter_mut().flat_map(|background| &mut background.zones) {
            zone.clearance = zone.clearance.max(half);
        }
        layout.validate().is_ok().then_some(layout)
    }

    fn shown(&self, searched: &Layout) -> Layout {
        Layout { pieces: searched.pieces.clone(), ..self.given.clone() }
    }

    /// The smallest gap there is, as long as it leaves each piece its half.
    fn reached(&self, searched: &Layout, level: f64) -> f64 {
        let gap = smallest_gap(&placed_cut_lines(searched)).unwrap_or(level);
        let fits = |gap: &f64| {
            let layout = self.layout_at(*gap);
            layout.is_some_and(|layout| {
                keeps_rules_in_full(&Layout { pieces: searched.pieces.clone(), ..layout })
            })
        };
        let between = (1..8).map(|part| level + (gap - level) * f64::from(8 - part) / 8.0);
        std::iter::once(gap).chain(between).filter(|gap| *gap > level).find(fits).unwrap_or(level)
    }

    fn unit(&self, level: f64) -> f64 {
        level + self.size
    }

    fn millimetres(&self) -> f64 {
        1.0
    }

    fn middles(&self) -> &[Point] {
        &self.middles
    }

    fn asks(&self, rung: &Rung) -> Asks {
        let half = Asked { least: rung.level / 2.0, rate: 0.5 };
        let given = |least: f64| [Asked { least, rate: 0.0 }, half];
        Asks {
            between: Asked { least: rung.level, rate: 1.0 },
            edge: given(self.given.rules.margin),
            zones: self.given.zones().iter().map(|zone| given(zone.clearance)).collect(),
            ..Asks::default()
        }
    }
}
