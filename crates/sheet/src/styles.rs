//! Background styles made for a sheet: where a title, motifs, a frame or a scene would stand.

use kurbo::{Point, Rect};
use stickleaf_outline::{Outline, Pen};

use crate::background::{Background, Zone};
use crate::layout::Layout;
use crate::rules::Rules;
use crate::sheet::Sheet;

/// A kind of background whose zones can be worked out for any sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Nothing but a plain ground: no zones.
    Plain,
    /// A band for the title across the top.
    TitleBand,
    /// A title plate at the top and a round motif in each lower corner.
    TitleAndMotifs,
    /// A band along all four edges.
    Frame,
    /// A scene all over, with windows left free.
    SceneWithWindows,
}

/// The styles in the order of how much room they take.
pub const STYLES: [Style; 5] =
    [Style::Plain, Style::TitleBand, Style::TitleAndMotifs, Style::Frame, Style::SceneWithWindows];

/// How far the chords of a style's curves may stray, in millimetres: finer than a printer shows.
const CURVE_TOLERANCE: f64 = 0.01;

impl Style {
    /// What the style is called, and its background with it.
    pub fn name(self) -> &'static str {
        match self {
            Style::Plain => "Plain",
            Style::TitleBand => "Title band",
            Style::TitleAndMotifs => "Title and motifs",
            Style::Frame => "Frame",
            Style::SceneWithWindows => "Scene with windows",
        }
    }

    /// The background of this style for a sheet.
    ///
    /// Zones stay clear of each other and have half the spacing as their clearance. Their sizes are parts of the
    /// sheet's shorter or longer side, held to what can be printed: nothing is thinner than 3 mm (a choice of ours).
    pub fn background(self, sheet: &Sheet, rules: &Rules) -> Background {
        let clearance = rules.spacing / 2.0;
        let zone = |name: &str, outline: Option<Outline>| Some(Zone::new(name, outline?, clearance));
        let zones: Vec<Option<Zone>> = match self {
            Style::Plain => Vec::new(),
            Style::TitleBand => {
                let band = Rect::new(0.0, 0.0, sheet.width, title_height(sheet));
                vec![zone("title", rectangle(band))]
            }
            Style::TitleAndMotifs => title_and_motifs(sheet, rules)
                .into_iter()
                .map(|(name, outline)| zone(name, outline))
                .collect(),
            Style::Frame => {
                frame(sheet).into_iter().map(|(name, rect)| zone(name, rectangle(rect))).collect()
            }
            Style::SceneWithWindows => {
                scene(sheet).into_iter().map(|(name, rect)| zone(name, rectangle(rect))).collect()
            }
        };
        Background {
            name: self.name().to_owned(),
            zones: zones.into_iter().flatten().collect(),
            ..Background::default()
        }
    }

    /// The style that made this background for a sheet, if its zones are still as it made them.
    ///
    /// What the background is called does not matter, nor how its zones are written in a file.
    pub fn of(background: &Background, sheet: &Sheet, rules: &Rules) -> Option<Style> {
        let is_same =
            |made: &Zone, zone: &Zone| made.outline == zone.outline && made.clearance == zone.clearance;
        STYLES.into_iter().find(|style| {
            let made = style.background(sheet, rules).zones;
            made.len() == background.zones.len()
                && made.iter().zip(&background.zones).all(|(made, zone)| is_same(made, zone))
        })
    }
}

/// Makes the backgrounds of a layout anew that a style made for the sheet it had before, and zones keep their names where
/// there are as many as before; other backgrounds stay as they are.
///
/// `before` is that sheet and `rules` are the rules it had; the layout has its new sheet already.
pub fn refit_styles(layout: &mut Layout, before: &Sheet, rules: &Rules) {
    for background in &mut layout.backgrounds {
        if let Some(style) = Style::of(background, before, rules) {
            let mut zones = style.background(&layout.sheet, &layout.rules).zones;
            if zones.len() == background.zones.len() {
                for (zone, before) in zones.iter_mut().zip(&background.zones) {
                    zone.name.clone_from(&before.name);
                }
            }
            background.zones = zones;
        }
    }
}

/// An eighth of the height, but neither too thin for a title nor a waste.
fn title_height(sheet: &Sheet) -> f64 {
    let least = 14f64.min(sheet.height / 3.0);
    (sheet.height * 0.15).clamp(least, 32f64.max(least))
}

fn title_and_motifs(sheet: &Sheet, rules: &Rules) -> [(&'static str, Option<Outline>); 3] {
    let height = title_height(sheet);
    let (half, middle) = (sheet.width * 0.36, sheet.width / 2.0);
    let top = rules.margin.min(height / 3.0);
    let plate = Rect::new(middle - half, top, middle + half, height);
    let radius = sheet.width.min(sheet.height) * 0.2;
    let corner = |x: f64, inward: f64| quarter_disc(Point::new(x, sheet.height), radius, inward);
    [
        ("title", round_rectangle(plate, (plate.height() / 2.0).min(6.0))),
        ("left motif", corner(0.0, 1.0)),
        ("right motif", corner(sheet.width, -1.0)),
    ]
}

fn frame(sheet: &Sheet) -> [(&'static str, Rect); 4] {
    let band = (sheet.width.min(sheet.height) * 0.075).max(3.0);
    let (width, height) = (sheet.width, sheet.height);
    [
        ("top of the frame", Rect::new(0.0, 0.0, width, band)),
        ("right of the frame", Rect::new(width - band, band, width, height - band)),
        ("foot of the frame", Rect::new(0.0, height - band, width, height)),
        ("left of the frame", Rect::new(0.0, band, band, height - band)),
    ]
}

/// A title strip and bars that leave a large window above two smaller ones (or beside them on a wide sheet).
fn scene(sheet: &Sheet) -> Vec<(&'static str, Rect)> {
    let (width, height) = (sheet.width, sheet.height);
    let title = title_height(sheet);
    let bar = (width.min(height) * 0.055).max(3.0);
    let mut zones = vec![
        ("sky", Rect::new(0.0, 0.0, width, title)),
        ("ground", Rect::new(0.0, height - bar, width, height)),
        ("left side", Rect::new(0.0, title, bar, height - bar)),
        ("right side", Rect::new(width - bar, title, width, height - bar)),
    ];
    let (top, foot) = (title, height - bar);
    if height >= width {
        let y = top + (foot - top) * 0.56;
        zones.push(("ledge", Rect::new(bar, y, width - bar, y + bar)));
        zones.push(("post", Rect::new((width - bar) / 2.0, y + bar, (width + bar) / 2.0, foot)));
    } else {
        let x = bar + (width - 2.0 * bar) * 0.56;
        let y = (top + foot - bar) / 2.0;
        zones.push(("post", Rect::new(x, top, x + bar, foot)));
        zones.push(("ledge", Rect::new(x + bar, y, width - bar, y + bar)));
    }
    zones
}

fn rectangle(rect: Rect) -> Option<Outline> {
    Outline::new([
        Point::new(rect.x0, rect.y0),
        Point::new(rect.x1, rect.y0),
        Point::new(rect.x1, rect.y1),
        Point::new(rect.x0, rect.y1),
    ])
    .ok()
}

fn round_rectangle(rect: Rect, radius: f64) -> Option<Outline> {
    let mut pen = Pen::new(CURVE_TOLERANCE);
    let mut corner = |start: Point, end: Point| {
        pen.line_to(start);
        pen.arc_to(radius, radius, 0.0, false, true, end);
    };
    let Rect { x0, y0, x1, y1 } = rect;
    corner(Point::new(x1 - radius, y0), Point::new(x1, y0 + radius));
    corner(Point::new(x1, y1 - radius), Point::new(x1 - radius, y1));
    corner(Point::new(x0 + radius, y1), Point::new(x0, y1 - radius));
    corner(Point::new(x0, y0 + radius), Point::new(x0 + radius, y0));
    Outline::new(pen.finish().into_iter().next()?).ok()
}

/// The quarter of a disc that stands in a lower corner; `inward` is 1 for the left corner and -1 for the right one.
fn quarter_disc(corner: Point, radius: f64, inward: f64) -> Option<Outline> {
    let mut pen = Pen::new(CURVE_TOLERANCE);
    pen.move_to(corner);
    pen.line_to(Point::new(corner.x, corner.y - radius));
    pen.arc_to(radius, radius, 0.0, false, inward > 0.0, Point::new(corner.x + inward * radius, corner.y));
    Outline::new(pen.finish().into_iter().next()?).ok()
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::Region;

    use super::*;
    use crate::sheet::{SHEET_SIZES, usable_region};

    fn sheets() -> impl Iterator<Item = Sheet> {
        let sizes = SHEET_SIZES.iter().map(|&(_, width, height)| (width, height));
        let both = sizes.flat_map(|(width, height)| [(width, height), (height, width)]);
        both.chain([(50.0, 50.0), (40.0, 300.0), (300.0, 40.0)]).map(|(width, height)| Sheet {
            width,
            height,
            ..Sheet::default()
        })
    }

    #[test]
    fn every_style_leaves_a_usable_part_of_every_sheet() {
        for sheet in sheets() {
            let backgrounds: Vec<Background> =
                STYLES.iter().map(|style| style.background(&sheet, &Rules::default())).collect();
            for background in &backgrounds {
                let layout = Layout {
                    sheet,
                    backgrounds: backgrounds.clone(),
                    background: Some(background.name.clone()),
                    ..Layout::default()
                };
                assert_eq!(layout.validate(), Ok(()), "{} on {sheet:?}", background.name);
            }
        }
    }

    #[test]
    fn zones_lie_on_the_sheet_and_beside_each_other() {
        for sheet in sheets() {
            for style in STYLES {
                let zones = style.background(&sheet, &Rules::default()).zones;
                for (i, zone) in zones.iter().enumerate() {
                    let bounds = zone.outline.bounds();
                    assert!(
                        sheet.bounds().inflate(0.001, 0.001).union(bounds)
                            == sheet.bounds().inflate(0.001, 0.001)
                    );
                    for other in &zones[i + 1..] {
                        let shared = Region::of(&zone.outline).intersection(&Region::of(&other.outline));
                        assert!(shared.area() < 1e-6, "{} and {} of {}", zone.name, other.name, style.name());
                    }
                }
            }
        }
    }

    #[test]
    fn zone_counts_and_areas_are_those_of_the_drawing() {
        let sheet = Sheet::default();
        let zones = |style: Style| style.background(&sheet, &Rules::default()).zones;
        assert!(zones(Style::Plain).is_empty());
        assert!((zones(Style::TitleBand)[0].outline.area() - 105.0 * 148.0 * 0.15).abs() < 0.2);
        // A quarter disc of radius 21 mm.
        let motif = zones(Style::TitleAndMotifs)[1].outline.area();
        assert!((motif - core::f64::consts::PI * 441.0 / 4.0).abs() < 0.5);
        // The frame is the card less the opening.
        let band = 105.0 * 0.075;
        let frame: f64 = zones(Style::Frame).iter().map(|zone| zone.outline.area()).sum();
        let opening = (105.0 - 2.0 * band) * (148.0 - 2.0 * band);
        assert!((frame - (105.0 * 148.0 - opening)).abs() < 0.5);
    }

    #[test]
    fn a_style_knows_its_zones_until_one_is_changed() {
        let (sheet, rules) = (Sheet::default(), Rules::default());
        for style in STYLES {
            let mut background = style.background(&sheet, &rules);
            background.name = "My own".into();
            assert_eq!(Style::of(&background, &sheet, &rules), Some(style));
            let Some(zone) = background.zones.first_mut() else { continue };
            // A file that was read again remembers how its zones were written.
            zone.path = Some("M0 0H1V1Z".into());
            assert_eq!(Style::of(&background, &sheet, &rules), Some(style));
            background.zones[0].clearance += 0.5;
            assert_eq!(Style::of(&background, &sheet, &rules), None);
        }
    }

    #[test]
    fn only_untouched_styles_are_made_anew_for_another_sheet() {
        let (sheet, rules) = (Sheet::default(), Rules::default());
        let [frame, mut band, mut named] =
            [Style::Frame, Style::TitleBand, Style::TitleBand].map(|style| style.background(&sheet, &rules));
        band.zones[0].clearance += 0.5;
        named.zones[0].name = "headline".into();
        let mut layout = Layout {
            sheet: Sheet { width: 148.0, height: 210.0, ..sheet },
            backgrounds: vec![frame, band.clone(), named],
            ..Layout::default()
        };
        refit_styles(&mut layout, &sheet, &rules);
        assert_eq!(layout.backgrounds[0], Style::Frame.background(&layout.sheet, &rules));
        assert_eq!(layout.backgrounds[1], band);
        let [made, named] =
            [Style::TitleBand.background(&layout.sheet, &rules), layout.backgrounds[2].clone()];
        assert_eq!(named.zones[0].outline, made.zones[0].outline);
        assert_eq!(named.zones[0].name, "headline", "a name is the artist's");
    }

    #[test]
    fn a_richer_style_leaves_less_room() {
        let sheet = Sheet::default();
        let room = |style: Style| {
            let zones = style.background(&sheet, &Rules::default()).zones;
            usable_region(&sheet, &Rules::default(), &zones).area()
        };
        assert!(room(Style::Plain) > room(Style::TitleBand));
        assert!(room(Style::TitleBand) > room(Style::SceneWithWindows));
    }
}
