//! The guide as SVG at true size, one user unit to the millimetre.
//!
//! Every line is drawn twice, a pale one below a coloured one, so that it is seen on light paper and on dark art.

use std::fmt::Write as _;

use kurbo::{Affine, Point, Vec2};
use stickleaf_outline::{Outline, path};
use stickleaf_sheet::{Layout, placed_cut_lines};

use crate::cut::{escaped, number};
use crate::frame::card_edge;
use crate::guide::digits;
use crate::guide::parts::Parts;

/// The height of the numbers in millimetres, where the piece is large enough.
const NUMBER_HEIGHT: f64 = 3.2;

/// The most of a piece's shorter side that its number takes.
const NUMBER_SHARE: f64 = 0.35;

/// The guide of a layout as SVG. Names of stickers go along as titles, for programs that show them.
pub fn write(layout: &Layout, parts: Parts) -> String {
    let (width, height) = (number(layout.sheet.width), number(layout.sheet.height));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n"
    );
    // Writing to a String cannot fail.
    let _ = writeln!(svg, "  <title>{}</title>", escaped(&layout.name));
    let _ = writeln!(
        svg,
        "  <desc>A guide to draw on: {} of {width} x {height} mm. It is not to be printed or cut.</desc>",
        shown(parts)
    );
    if parts.zones {
        let zones = layout.zones().iter().map(|zone| (&*zone.name, path::write(zone.outline.points())));
        group(&mut svg, "zones", "fill=\"#8A6FB0\" fill-opacity=\"0.18\"", "#6B4E96", 0.2, zones);
    }
    if parts.margin {
        let region = layout.sheet.inset_region(layout.rules.margin);
        let rings = region.outer_rings();
        let margin = rings.iter().map(|ring| ("margin", path::write(ring.points())));
        group(&mut svg, "margin", "fill=\"none\" stroke-dasharray=\"1.2 1.2\"", "#5C6068", 0.12, margin);
    }
    let cut_lines = placed_cut_lines(layout);
    if parts.outlines {
        let outlines = layout.pieces.iter().filter_map(|piece| {
            let sticker = layout.sticker(&piece.sticker)?;
            Some((&*sticker.name, path::write(sticker.outline.placed(&piece.placement).points())))
        });
        group(&mut svg, "outlines", "fill=\"none\"", "#B5612A", 0.16, outlines);
    }
    if parts.cut_lines {
        let edge = [("card", path::write(&card_edge(&layout.sheet, 0.0)))];
        group(&mut svg, "card", "fill=\"none\"", "#23262B", 0.3, edge);
        let names: Vec<String> = (0..layout.pieces.len()).map(|piece| layout.piece_name(piece)).collect();
        let lines = names.iter().zip(&cut_lines).map(|(name, line)| (&**name, path::write(line.points())));
        group(&mut svg, "cut-lines", "fill=\"none\"", "#1F6B59", 0.22, lines);
    }
    if parts.numbers {
        let numbers = layout.pieces.iter().zip(&cut_lines).filter_map(|(piece, line)| {
            let index = layout.sticker_index(&piece.sticker)?;
            Some((&*layout.stickers[index].name, written(index + 1, line)))
        });
        group(
            &mut svg,
            "numbers",
            "fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\"",
            "#23262B",
            0.3,
            numbers,
        );
    }
    svg.push_str("</svg>\n");
    svg
}

/// The parts in words.
fn shown(parts: Parts) -> String {
    let all = [
        (parts.cut_lines, "cut lines"),
        (parts.outlines, "outlines"),
        (parts.numbers, "numbers of the stickers"),
        (parts.zones, "zones"),
        (parts.margin, "margin"),
    ];
    let words: Vec<&str> = all.into_iter().filter(|(is_shown, _)| *is_shown).map(|(_, word)| word).collect();
    if words.is_empty() { "nothing".to_owned() } else { words.join(", ") }
}

/// A group of titled lines, drawn pale first.
fn group<'a>(
    svg: &mut String,
    id: &str,
    how: &str,
    colour: &str,
    width: f64,
    lines: impl IntoIterator<Item = (&'a str, String)>,
) {
    let lines: Vec<(&str, String)> = lines.into_iter().collect();
    let _ = writeln!(svg, "  <g id=\"{id}\" {how}>");
    for (stroke, width, opacity) in [("#FFFFFF", width + 0.24, 0.7), (colour, width, 1.0)] {
        let _ = writeln!(
            svg,
            "    <g stroke=\"{stroke}\" stroke-opacity=\"{opacity}\" stroke-width=\"{width:.2}\">"
        );
        for (title, data) in &lines {
            let _ = writeln!(svg, "      <path d=\"{data}\"><title>{}</title></path>", escaped(title));
        }
        svg.push_str("    </g>\n");
    }
    svg.push_str("  </g>\n");
}

/// A number in strokes, in the middle of a piece.
fn written(value: usize, line: &Outline) -> String {
    let bounds = line.bounds();
    let height = NUMBER_HEIGHT.min(NUMBER_SHARE * bounds.width().min(bounds.height()));
    let scale = height / digits::HEIGHT;
    let size = Vec2::new(digits::width(value), digits::HEIGHT) * scale;
    let corner = bounds.center() - size / 2.0;
    let mut data = String::new();
    for (i, digit) in value.to_string().bytes().enumerate() {
        let at = Point::new(corner.x + i as f64 * digits::ADVANCE * scale, corner.y);
        let place = Affine::translate(at.to_vec2()) * Affine::scale(scale);
        let strokes = digits::STROKES[usize::from(digit - b'0')];
        if let Ok(strokes) = kurbo::BezPath::from_svg(strokes) {
            data.push_str(&(place * strokes).to_svg());
        }
    }
    data
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::Placement;
    use stickleaf_sheet::{Piece, Sticker};

    use super::*;

    fn layout() -> Layout {
        let outline = path::parse("M-8 -5H8V5H-8Z").unwrap();
        Layout {
            name: "Rain & sun".to_owned(),
            stickers: vec![Sticker::new("a", "A < B", outline)],
            pieces: vec![Piece::new("a".into(), Placement::at(30.0, 40.0))],
            ..Layout::default()
        }
    }

    #[test]
    fn it_is_true_size_and_names_what_it_shows() {
        let svg = write(&layout(), Parts::ALL);
        assert!(svg.contains("width=\"105mm\" height=\"148mm\" viewBox=\"0 0 105 148\""));
        assert!(svg.contains("<title>Rain &amp; sun</title>") && svg.contains("<title>A &lt; B</title>"));
        for group in ["margin", "outlines", "card", "cut-lines", "numbers"] {
            assert!(svg.contains(&format!("<g id=\"{group}\"")), "{group}");
        }
    }

    #[test]
    fn every_part_can_be_left_out() {
        let svg = write(&layout(), Parts::NONE);
        assert!(!svg.contains("<path") && svg.contains("nothing of 105 x 148 mm"));
        let svg = write(&layout(), Parts { numbers: true, ..Parts::NONE });
        assert!(svg.contains("id=\"numbers\"") && !svg.contains("cut-lines"));
    }
}
