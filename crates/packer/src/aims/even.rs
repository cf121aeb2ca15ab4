//! Even: the level is the gap asked of any two pieces.

use stickleaf_sheet::Layout;

use crate::aims::ladder::Measure;
use crate::pack::Doing;
use crate::together::Growth;

/// All pieces as far apart as possible.
pub struct Even {
    given: Layout,
    /// The mean width of a piece in millimetres, roughly.
    size: f64,
}

impl Even {
    /// The measure for this layout.
    pub fn new(layout: &Layout) -> Even {
        let areas = layout.stickers.iter().map(|sticker| sticker.outline.area());
        let count = layout.stickers.len().max(1) as f64;
        Even { given: layout.clone(), size: (areas.sum::<f64>() / count).sqrt() }
    }
}

impl Measure for Even {
    const DOING: Doing = Doing::Spreading;
    const TELLS_GAP: bool = true;

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

    fn unit(&self, level: f64) -> f64 {
        level + self.size
    }

    /// What the given rules ask already grows once the level has caught up with it.
    fn growth(&self, level: f64) -> Option<Growth> {
        let beyond = |given: f64, share: f64| if level * share >= given { share } else { 0.0 };
        Some(Growth {
            sizes: vec![0.0; self.given.stickers.len()],
            spacing: beyond(self.given.rules.spacing, 1.0),
            margin: beyond(self.given.rules.margin, 0.5),
            clearances: self.given.zones().iter().map(|zone| beyond(zone.clearance, 0.5)).collect(),
        })
    }
}
