//! Pictures of layouts, one beside the other, as SVG in millimetres.

use std::fmt::Write;

use geo::Polygon;
use stickleaf_outline::Outline;
use stickleaf_sheet::Layout;

use crate::verify::placed;

/// One sheet of a picture.
#[derive(Clone, Debug, Default)]
pub struct Panel {
    /// What stands above it.
    pub title: String,
    /// The smaller line below the title.
    pub caption: String,
    /// The sheet's width and height.
    pub size: (f64, f64),
    /// Radius of the sheet's round corners.
    pub corner_radius: f64,
    /// What stickers keep out of.
    pub zones: Vec<Polygon>,
    /// The pieces, each with the number of its kind, which decides its colour.
    pub pieces: Vec<(Polygon, usize)>,
}

impl Panel {
    /// A layout as a panel, its cut lines drawn. Pieces that may not lie as they do are left out, all of them.
    pub fn of(layout: &Layout, title: impl Into<String>, caption: impl Into<String>) -> Panel {
        let lines = placed(layout, |sticker| sticker.cut_line(&layout.rules)).unwrap_or_default();
        let kinds = layout.pieces.iter().map(|piece| layout.sticker_index(&piece.sticker).unwrap_or(0));
        Panel {
            title: title.into(),
            caption: caption.into(),
            size: (layout.sheet.width, layout.sheet.height),
            corner_radius: layout.sheet.corner_radius,
            zones: layout.zones().iter().map(|zone| polygon(&zone.outline)).collect(),
            pieces: lines.into_iter().zip(kinds).collect(),
        }
    }
}

/// Round the sheets and between them.
const SPACE: f64 = 8.0;
/// Room for title and caption above a sheet.
const HEAD: f64 = 13.0;
/// Narrower sheets would not hold their title.
const NARROWEST: f64 = 70.0;

const DESK: &str = "#EDE8DF";
const PAPER: &str = "#FFFFFF";
const INK: &str = "#23262B";
const QUIET_INK: &str = "#5C6068";
const LINE: &str = "#CFC8BB";

/// Quiet fills on which ink reads well; neighbours in the list differ.
const FILLS: [&str; 12] = [
    "#BFD8CC", "#F0D3A8", "#C9D3E8", "#E9C3BD", "#DDE2B4", "#D8C8E2", "#BADBE0", "#F3DEC9", "#CBDDB8",
    "#E6CFDC", "#D9D3C5", "#AECBC0",
];

/// A picture of these sheets at the same scale, side by side, their tops in line.
pub fn svg(panels: &[Panel]) -> String {
    let room = |panel: &Panel| panel.size.0.max(NARROWEST);
    let width = SPACE + panels.iter().map(|panel| room(panel) + SPACE).sum::<f64>();
    let height = panels.iter().map(|panel| panel.size.1).fold(0.0, f64::max) + HEAD + 2.0 * SPACE;
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" \
         viewBox=\"0 0 {width:.3} {height:.3}\" font-family=\"system-ui, 'DejaVu Sans', sans-serif\">\n\
         <defs><pattern id=\"zone\" width=\"2\" height=\"2\" patternUnits=\"userSpaceOnUse\" \
         patternTransform=\"rotate(45)\"><path d=\"M0 0V2\" stroke=\"{LINE}\" stroke-width=\"0.8\"/></pattern></defs>\n\
         <rect width=\"100%\" height=\"100%\" fill=\"{DESK}\"/>\n"
    );
    let mut x = SPACE;
    for panel in panels {
        // Writing to a text cannot fail.
        let _ = write_panel(&mut text, panel, x);
        x += room(panel) + SPACE;
    }
    text.push_str("</svg>\n");
    text
}

fn write_panel(text: &mut String, panel: &Panel, x: f64) -> std::fmt::Result {
    let (width, height) = panel.size;
    let titles = [(&panel.title, 4.0, 4.2, INK), (&panel.caption, 9.0, 3.2, QUIET_INK)];
    writeln!(text, "<g transform=\"translate({x:.3} {SPACE})\">")?;
    for (words, y, size, colour) in titles {
        writeln!(text, "<text y=\"{y}\" font-size=\"{size}\" fill=\"{colour}\">{}</text>", escaped(words))?;
    }
    writeln!(
        text,
        "<g transform=\"translate(0 {HEAD})\" stroke-linejoin=\"round\">\n\
         <rect width=\"{width:.3}\" height=\"{height:.3}\" rx=\"{}\" fill=\"{PAPER}\" stroke=\"{LINE}\" \
         stroke-width=\"0.3\"/>",
        panel.corner_radius
    )?;
    for zone in &panel.zones {
        writeln!(text, "<path d=\"{}\" fill=\"url(#zone)\"/>", path(zone))?;
    }
    for (piece, kind) in &panel.pieces {
        let fill = FILLS[kind % FILLS.len()];
        let path = path(piece);
        writeln!(text, "<path d=\"{path}\" fill=\"{fill}\" stroke=\"{INK}\" stroke-width=\"0.2\"/>")?;
    }
    writeln!(text, "</g>\n</g>")
}

/// Path data of a polygon without holes, to the micrometre.
fn path(polygon: &Polygon) -> String {
    let corners = polygon.exterior().coords().skip(1);
    let list: Vec<String> = corners.map(|corner| format!("{:.3} {:.3}", corner.x, corner.y)).collect();
    format!("M{}Z", list.join("L"))
}

fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// An outline as a polygon.
pub fn polygon(outline: &Outline) -> Polygon {
    Polygon::new(outline.points().iter().map(|point| (point.x, point.y)).collect(), Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_stand_side_by_side_with_their_pieces() {
        let piece = Polygon::new(vec![(1.0, 1.0), (5.0, 1.0), (5.0, 4.5)].into(), Vec::new());
        let panel = |title: &str| Panel {
            title: title.into(),
            size: (100.0, 50.0),
            pieces: vec![(piece.clone(), 13)],
            ..Panel::default()
        };
        let text = svg(&[panel("ours & theirs"), panel("b")]);
        assert!(text.contains("width=\"224.000mm\" height=\"79.000mm\""), "{text}");
        assert!(text.contains("ours &amp; theirs"));
        assert_eq!(text.matches("M5.000 1.000L5.000 4.500L1.000 1.000Z").count(), 2, "{text}");
    }
}
