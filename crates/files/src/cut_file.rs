//! Cut lines as SVG at true size: the kiss lines of the pieces, then the through line of the card.

use std::fmt::Write as _;

use stickleaf_outline::path;
use stickleaf_sheet::{Layout, Sheet};

use crate::number::Number;
use crate::piece_facts::piece_facts;

/// The cut lines of a valid layout as SVG, one user unit to the millimetre.
///
/// Kiss lines come first, in the order of the pieces, and the card's through line last: a card that is cut out early
/// shifts under the blade (common practice, no source). Each line is drawn once.
pub fn write(layout: &Layout) -> String {
    let (width, height) = (short(layout.sheet.width), short(layout.sheet.height));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n"
    );
    // Writing to a String cannot fail.
    let _ = writeln!(svg, "  <title>{}</title>", escaped(&layout.name));
    svg.push_str("  <g id=\"kiss-lines\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.1\">\n");
    for (index, facts) in piece_facts(layout).iter().enumerate() {
        let _ = writeln!(
            svg,
            "    <path id=\"piece-{}\" d=\"{}\"><title>{}</title></path>",
            index + 1,
            path::write_placed(facts.cut_line.points()),
            escaped(&facts.name)
        );
    }
    svg.push_str("  </g>\n  <g id=\"through-line\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.1\">\n");
    let _ = writeln!(svg, "    <path id=\"card\" d=\"{}\"/>", card(&layout.sheet));
    svg.push_str("  </g>\n</svg>\n");
    svg
}

/// The edge of the card as path data, clockwise as seen from the top left corner's end, true arcs in its corners.
pub(crate) fn card(sheet: &Sheet) -> String {
    let [w, h, r] = [sheet.width, sheet.height, sheet.corner_radius].map(short);
    if sheet.corner_radius <= 0.0 {
        return format!("M0 0H{w}V{h}H0Z");
    }
    let (x, y) = (short(sheet.width - sheet.corner_radius), short(sheet.height - sheet.corner_radius));
    format!(
        "M{r} 0H{x}A{r} {r} 0 0 1 {w} {r}V{y}A{r} {r} 0 0 1 {x} {h}H{r}A{r} {r} 0 0 1 0 {y}V{r}A{r} {r} 0 0 1 {r} 0Z"
    )
}

/// The length rounded to the micrometre, as short as it can be written.
fn short(mm: f64) -> String {
    Number::thousandths(mm).0.to_string()
}

/// The text as it may stand in XML: marks escaped, characters that XML forbids left out.
///
/// Source: Extensible Markup Language 1.0, sections 2.2 and 2.4.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use stickleaf_outline::Placement;
    use stickleaf_sheet::{Piece, Sticker};

    use super::*;

    #[test]
    fn the_card_has_the_area_of_a_rectangle_with_round_corners() {
        let sheet = Sheet { width: 100.0, height: 60.5, corner_radius: 10.0, resolution_ppi: 600.0 };
        let drawn = path::parse(&card(&sheet)).unwrap();
        assert!((drawn.area() - (6050.0 - (4.0 - PI) * 100.0)).abs() < 0.5, "{}", drawn.area());
        assert_eq!(card(&Sheet { corner_radius: 0.0, ..sheet }), "M0 0H100V60.5H0Z");
        assert_eq!(
            path::parse(&card(&Sheet { corner_radius: 30.25, ..sheet })).unwrap().bounds(),
            sheet.bounds()
        );
    }

    #[test]
    fn kiss_lines_come_before_the_through_line_and_names_are_escaped() {
        let layout = Layout {
            name: "<Fish> & \u{1}chips".into(),
            stickers: vec![Sticker::new("a", "A&B", path::parse("M-5 -5H5V5H-5Z").unwrap())],
            pieces: vec![Piece::new("a".into(), Placement::at(20.0, 20.0))],
            ..Layout::default()
        };
        let svg = write(&layout);
        assert!(svg.contains("width=\"105mm\" height=\"148mm\" viewBox=\"0 0 105 148\""));
        assert!(svg.contains("<title>&lt;Fish&gt; &amp; chips</title>"));
        assert!(svg.contains("<title>A&amp;B</title>"));
        assert!(svg.find("kiss-lines").unwrap() < svg.find("through-line").unwrap());
        assert_eq!(svg.matches("<path").count(), 2);
    }
}
