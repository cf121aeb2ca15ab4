//! What SVG of ours needs: the card's edge, and text that XML takes.

use stickleaf_sheet::Sheet;

use crate::number::Number;

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

    use stickleaf_outline::path;

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
    fn names_are_escaped() {
        assert_eq!(escaped("<Fish> & \u{1}chips"), "&lt;Fish&gt; &amp; chips");
    }
}
