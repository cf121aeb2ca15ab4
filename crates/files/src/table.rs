//! The placement as a table for spreadsheets: one row for each piece.

use csv::Writer;
use stickleaf_sheet::Layout;

use crate::number::Number;
use crate::piece_facts::{PieceFacts, piece_facts, pixels};

/// The first row.
const HEADINGS: [&str; 19] = [
    "sticker",
    "name",
    "copy",
    "x_mm",
    "y_mm",
    "turn_deg",
    "mirrored",
    "locked",
    "x_px",
    "y_px",
    "centre_x_mm",
    "centre_y_mm",
    "centre_x_px",
    "centre_y_px",
    "left_mm",
    "top_mm",
    "width_mm",
    "height_mm",
    "area_mm2",
];

/// The table of a valid layout's pieces as comma-separated values (RFC 4180), in the order of the pieces.
///
/// `x` and `y` are where the outline's own (0, 0) lies; centre, left, top, width, height and area are those of the cut
/// line. Numbers have a dot and at most three decimals. A text that a spreadsheet would take for a formula gets an
/// apostrophe in front.
pub fn write(layout: &Layout) -> String {
    let mut table = Writer::from_writer(Vec::new());
    // Writing to memory cannot fail, and every row is as long as the first.
    let _ = table.write_record(HEADINGS);
    for (piece, facts) in layout.pieces.iter().zip(piece_facts(layout)) {
        let _ = table.write_record(row(layout, piece.locked, &facts));
    }
    String::from_utf8(table.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn row(layout: &Layout, locked: bool, facts: &PieceFacts) -> [String; HEADINGS.len()] {
    let number = |value: f64| Number::thousandths(value).0.to_string();
    let px = |mm: f64| number(pixels(layout, mm));
    let (at, centre, bounds) = (facts.placement.at, facts.centre, facts.bounds);
    let yes = |value: bool| if value { "yes" } else { "no" }.to_owned();
    let name = layout.sticker(&facts.sticker).map_or("", |sticker| &sticker.name);
    [
        harmless(&facts.sticker),
        harmless(name),
        facts.copy.to_string(),
        at.x.to_string(),
        at.y.to_string(),
        facts.placement.turn.to_degrees().to_string(),
        yes(facts.placement.mirrored),
        yes(locked),
        px(at.x),
        px(at.y),
        number(centre.x),
        number(centre.y),
        px(centre.x),
        px(centre.y),
        number(bounds.x0),
        number(bounds.y0),
        number(bounds.width()),
        number(bounds.height()),
        number(facts.cut_line.area()),
    ]
}

/// The text, with an apostrophe in front if a spreadsheet would run it as a formula.
///
/// Source: OWASP, "CSV Injection": a cell that begins with = + - @, a tab or a carriage return.
pub(crate) fn harmless(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Piece, Rules, Sticker};

    use super::*;

    #[test]
    fn a_row_is_worked_by_hand() {
        let mut piece = Piece::new("-1".into(), Placement::turned(60.0, 30.0, 90.0));
        piece.locked = true;
        let layout = Layout {
            rules: Rules { border: 0.0, ..Rules::default() },
            stickers: vec![Sticker::new("-1", "=SUM(A1), \"or\" not", path::parse("M0 0H10V20H0Z").unwrap())],
            pieces: vec![piece],
            ..Layout::default()
        };
        let table = write(&layout);
        let rows: Vec<&str> = table.lines().collect();
        assert_eq!(rows[0], HEADINGS.join(","));
        // 60 mm at 600 pixels to the inch: 60 / 25.4 * 600 = 1417.323 pixels.
        assert_eq!(
            rows[1],
            "'-1,\"'=SUM(A1), \"\"or\"\" not\",1,60,30,90,no,yes,1417.323,708.661,50,35,1181.102,826.772,40,30,20,10,200"
        );
        assert_eq!(rows.len(), 2);
    }
}
