//! The test card as SVG at true size, one user unit to the millimetre: what is printed and what is cut in groups of their own.

use core::fmt::Write as _;

use crate::trial::card::{Card, Cell};

/// What to mind while trying (common practice, no source; the machine's manual goes first).
pub const CAUTIONS: [&str; 4] = [
    "The machine's own manual goes before anything said here.",
    "The blade is sharp and moves by itself: keep hands, hair and pets away, stay with it while it runs, and change blades \
     with the plug pulled.",
    "Begin with the lightest setting and stop as soon as one goes through the backing: stronger ones can cut the mat and \
     the machine.",
    "The triangles are small parts: keep them away from children under three, and throw them away.",
];

/// The card: the group `printed` with the numbers as strokes, and the group `cut-lines` with one group for each trial, the
/// lightest first, so that each can be given its setting in the cutter's program. A trial of several passes has each line
/// so many times, all of them the same to the last digit.
pub fn write(card: &Card) -> String {
    let (width, height) = (number(card.width), number(card.height));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n"
    );
    // Writing to a String cannot fail.
    let _ = writeln!(svg, "  <title>Test card</title>");
    let _ = writeln!(
        svg,
        "  <desc>1 unit is 1 mm. Print the numbers, cut the lines. {}</desc>",
        CAUTIONS.join(" ")
    );
    svg.push_str(
        "  <g id=\"printed\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.3\" stroke-linecap=\"round\">\n",
    );
    for cell in &card.cells {
        let data: String = cell.number.iter().map(|stroke| line(stroke, false)).collect();
        let _ = writeln!(svg, "    <path d=\"{data}\"/>");
    }
    svg.push_str("  </g>\n  <g id=\"cut-lines\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.1\">\n");
    for (i, cell) in card.cells.iter().enumerate() {
        write_cuts(&mut svg, i + 1, cell);
    }
    svg.push_str("  </g>\n</svg>\n");
    svg
}

fn write_cuts(svg: &mut String, place: usize, cell: &Cell) {
    let _ = writeln!(svg, "    <g id=\"trial-{place}\"><title>{}</title>", escaped(&cell.name));
    for corners in [&cell.triangle[..], &cell.square[..]] {
        let data = line(corners, true);
        for _ in 0..cell.passes {
            let _ = writeln!(svg, "      <path d=\"{data}\"/>");
        }
    }
    svg.push_str("    </g>\n");
}

fn line(points: &[(f64, f64)], is_closed: bool) -> String {
    let mut data = String::new();
    for (i, &(x, y)) in points.iter().enumerate() {
        let _ = write!(data, "{}{} {}", if i == 0 { 'M' } else { 'L' }, number(x), number(y));
    }
    if is_closed {
        data.push('Z');
    }
    data
}

/// Rounded to a micrometre.
fn number(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0 + 0.0
}

/// The text as it may stand in XML. Source: Extensible Markup Language 1.0, sections 2.2 and 2.4.
fn escaped(text: &str) -> String {
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
    use super::*;
    use crate::trial::card::CardOptions;
    use crate::trial::scale::Scale;

    #[test]
    fn a_trial_is_a_triangle_in_a_square_at_true_size() {
        let scale = Scale::numbers(7.0, 8.0, 2).unwrap();
        let svg = write(&Card::new(&scale, &[0], &CardOptions::default()));
        assert!(svg.contains("width=\"16mm\" height=\"19.4mm\" viewBox=\"0 0 16 19.4\""), "{svg}");
        assert!(svg.contains("<path d=\"M3 3L13 3L13 13L3 13Z\"/>"), "{svg}");
        assert!(svg.contains("<path d=\"M8 4.8L11.2 11.2L4.8 11.2Z\"/>"), "{svg}");
    }

    #[test]
    fn passes_lie_on_one_line() {
        let scale = Scale::passes(1, 4).unwrap();
        let svg = write(&Card::new(&scale, &[0, 3], &CardOptions::default()));
        let square = |left: f64| format!("M{left} 3L{} 3L{} 13L{left} 13Z", left + 10.0, left + 10.0);
        let squares = [3.0, 16.0].map(|left| svg.matches(&square(left)).count());
        let stacked = svg.matches("M3 19.4L13 19.4L13 29.4L3 29.4Z").count();
        assert_eq!((squares[0], squares[1] + stacked), (1, 4), "{svg}");
    }

    #[test]
    fn names_cannot_break_the_file() {
        let scale = Scale::named(vec!["<A> & \u{1}b".into()]).unwrap();
        let svg = write(&Card::new(&scale, &[0], &CardOptions::default()));
        assert!(svg.contains("<title>&lt;A&gt; &amp; b</title>"), "{svg}");
    }
}
