//! Pages of label stock as an SVG picture: each with the printer's margin, the cutter's reach and its sheets, numbered.
//!
//! All pages are drawn to one scale. Lengths are CSS pixels, on the pages millimetres.

use std::fmt::Write as _;

use kurbo::{Rect, Size};

use crate::svg_text::escaped;

/// A page of the picture. Millimetres from the page's top left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct PagePicture {
    /// What it is called, such as "Page 1, printed 12 times".
    pub name: String,
    /// Its size.
    pub size: Size,
    /// What the printer can print.
    pub printable: Rect,
    /// What the cutter can read and cut.
    pub reach: Rect,
    /// The sheets in the order of their numbers.
    pub sheets: Vec<PictureSheet>,
}

/// A sheet on a page of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct PictureSheet {
    /// What it takes of the page.
    pub area: Rect,
    /// Radius of its round corners; zero for sharp ones.
    pub corner_radius: f64,
    /// Which design it is, for its tint.
    pub design: usize,
    /// What stands below its number; nothing for one design only.
    pub label: String,
    /// Whether it lies on its side; its writing does so too.
    pub is_turned: bool,
}

/// As many pages stand beside each other.
const COLUMNS: usize = 4;
/// Room round and between the pages.
const ROOM: f64 = 24.0;
/// The widest and the highest page are drawn no larger than this.
const MOST_WIDTH: f64 = 360.0;
const MOST_HEIGHT: f64 = 460.0;
/// The title's part, and that of a page's name.
const HEAD: f64 = 76.0;
const NAME: f64 = 34.0;
/// The part below the pages that says what the lines mean.
const KEY: f64 = 40.0;
/// About how wide a letter is, in parts of the size of its writing.
const LETTER: f64 = 0.6;

const DESK: &str = "#EDE8DF";
const STOCK: &str = "#FFFFFF";
const EDGE: &str = "#CFC8BB";
const INK: &str = "#23262B";
const QUIET: &str = "#5C6068";
const REACH: &str = "#1F6B59";
const MARGIN: &str = "#8E9095";
/// One tint for each design, used again after the last.
const TINTS: [&str; 6] = ["#C9D6CF", "#E8D9B8", "#CBD5E4", "#E6CDC8", "#D8CFE3", "#D5DFB9"];

/// The picture of these pages, under a title and a line that says what is planned.
pub fn write(title: &str, about: &str, pages: &[PagePicture]) -> String {
    let most = |side: fn(&PagePicture) -> f64| pages.iter().map(side).fold(1.0, f64::max);
    let (widest, highest) = (most(|page| page.size.width), most(|page| page.size.height));
    let scale = (MOST_WIDTH / widest).min(MOST_HEIGHT / highest);
    let columns = pages.len().clamp(1, COLUMNS);
    let rows = pages.len().div_ceil(columns).max(1);
    let (cell_width, cell_height) = ((widest * scale).max(220.0) + ROOM, highest * scale + NAME + ROOM);
    let width = (ROOM + columns as f64 * cell_width).max(460.0).ceil();
    let height = (HEAD + rows as f64 * cell_height + KEY).ceil();
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" font-family=\"system-ui, 'Segoe UI', Roboto, 'Noto Sans', sans-serif\" fill=\"{INK}\">\n  <title>{}</title>\n  <rect width=\"{width}\" height=\"{height}\" fill=\"{DESK}\"/>\n",
        escaped(title)
    );
    text(&mut svg, (ROOM, 36.0), 22.0, INK, &fitting(title, width - 2.0 * ROOM, 22.0));
    text(&mut svg, (ROOM, 60.0), 15.0, QUIET, &fitting(about, width - 2.0 * ROOM, 15.0));
    for (index, page) in pages.iter().enumerate() {
        let x = ROOM + (index % columns) as f64 * cell_width;
        let y = HEAD + (index / columns) as f64 * cell_height;
        text(&mut svg, (x, y + 20.0), 16.0, INK, &fitting(&page.name, cell_width - ROOM, 16.0));
        // Writing to a String cannot fail.
        let _ = writeln!(
            svg,
            "  <g transform=\"translate({} {}) scale({})\">",
            short(x),
            short(y + NAME),
            fine(scale)
        );
        draw(&mut svg, page, scale);
        svg.push_str("  </g>\n");
    }
    key(&mut svg, height - KEY / 2.0);
    svg.push_str("</svg>\n");
    svg
}

/// A page; the group around it has millimetres.
fn draw(svg: &mut String, page: &PagePicture, scale: f64) {
    let hair = 1.0 / scale;
    let whole = Rect::from_origin_size((0.0, 0.0), page.size);
    rectangle(
        svg,
        whole,
        0.0,
        &format!("fill=\"{STOCK}\" stroke=\"{EDGE}\" stroke-width=\"{}\"", fine(hair)),
    );
    for (number, sheet) in page.sheets.iter().enumerate() {
        let tint = TINTS[sheet.design % TINTS.len()];
        let style = format!("fill=\"{tint}\" stroke=\"{INK}\" stroke-width=\"{}\"", fine(hair));
        rectangle(svg, sheet.area, sheet.corner_radius, &style);
        write_on(svg, sheet, number + 1, scale);
    }
    let dashed = |colour: &str, on: f64, off: f64| {
        format!(
            "fill=\"none\" stroke=\"{colour}\" stroke-width=\"{}\" stroke-dasharray=\"{} {}\"",
            fine(1.5 * hair),
            fine(on * hair),
            fine(off * hair)
        )
    };
    rectangle(svg, page.printable, 0.0, &dashed(MARGIN, 2.0, 3.0));
    rectangle(svg, page.reach, 0.0, &dashed(REACH, 9.0, 4.0));
}

/// The number of a sheet and its label, in the direction in which the sheet lies.
fn write_on(svg: &mut String, sheet: &PictureSheet, number: usize, scale: f64) {
    let (along, across) = match sheet.is_turned {
        false => (sheet.area.width(), sheet.area.height()),
        true => (sheet.area.height(), sheet.area.width()),
    };
    let size = (26.0 / scale).min(0.4 * across).min(0.4 * along);
    let middle = sheet.area.center();
    let turn = if sheet.is_turned { " rotate(90)" } else { "" };
    let _ = writeln!(
        svg,
        "    <g transform=\"translate({} {}){turn}\" text-anchor=\"middle\"><text y=\"{}\" font-size=\"{}\" font-weight=\"700\">{number}</text>",
        short(middle.x),
        short(middle.y),
        fine(0.35 * size),
        fine(size)
    );
    let small = 0.5 * size;
    let label = fitting(&sheet.label, along, small);
    if !label.is_empty() {
        let _ = writeln!(
            svg,
            "    <text y=\"{}\" font-size=\"{}\">{}</text>",
            fine(1.1 * size),
            fine(small),
            escaped(&label)
        );
    }
    svg.push_str("    </g>\n");
}

/// What the dashed lines mean.
fn key(svg: &mut String, y: f64) {
    let mut x = ROOM;
    for (colour, dashes, words) in [(MARGIN, "2 3", "can be printed"), (REACH, "9 4", "can be cut")] {
        let _ = writeln!(
            svg,
            "  <path d=\"M{x} {}h30\" stroke=\"{colour}\" stroke-width=\"1.5\" stroke-dasharray=\"{dashes}\"/>",
            y - 5.0
        );
        text(svg, (x + 38.0, y), 14.0, QUIET, words);
        x += 170.0;
    }
}

fn rectangle(svg: &mut String, area: Rect, radius: f64, style: &str) {
    let radius = if radius > 0.0 { format!(" rx=\"{}\"", short(radius)) } else { String::new() };
    let [x, y, width, height] = [area.x0, area.y0, area.width(), area.height()].map(short);
    let _ = writeln!(
        svg,
        "    <rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"{radius} {style}/>"
    );
}

fn text(svg: &mut String, (x, y): (f64, f64), size: f64, colour: &str, words: &str) {
    let _ = writeln!(
        svg,
        "  <text x=\"{}\" y=\"{}\" font-size=\"{size}\" fill=\"{colour}\">{}</text>",
        short(x),
        short(y),
        escaped(words)
    );
}

/// The words, cut short where they would be longer than their place.
fn fitting(words: &str, width: f64, size: f64) -> String {
    let most = (width / (LETTER * size)).floor().max(0.0) as usize;
    match words.chars().count() <= most {
        true => words.to_owned(),
        false if most < 2 => String::new(),
        false => words.chars().take(most - 1).chain(['…']).collect(),
    }
}

/// A length rounded to the micrometre.
fn short(length: f64) -> f64 {
    (length * 1e3).round() / 1e3 + 0.0
}

/// A number rounded to five decimals.
fn fine(number: f64) -> f64 {
    (number * 1e5).round() / 1e5 + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(name: &str) -> PagePicture {
        let sheet = |x: f64, design, is_turned| PictureSheet {
            area: Rect::new(x, 20.0, x + 60.0, 110.0),
            corner_radius: 4.0,
            design,
            label: "Tide & pool".into(),
            is_turned,
        };
        PagePicture {
            name: name.into(),
            size: Size::new(210.0, 297.0),
            printable: Rect::new(5.0, 5.0, 205.0, 292.0),
            reach: Rect::new(10.0, 10.0, 200.0, 287.0),
            sheets: vec![sheet(15.0, 0, false), sheet(80.0, 7, true)],
        }
    }

    #[test]
    fn every_page_shows_margin_reach_and_numbered_sheets() {
        let svg = write("<Run>", "two designs", &[page("Page 1"), page("Page 2"), page("Page 3")]);
        assert!(svg.contains("<title>&lt;Run&gt;</title>") && svg.contains("Tide &amp; pool"));
        for (part, count) in
            [("width=\"200\" height=\"287\"", 3), ("width=\"190\" height=\"277\"", 3), (">2</text>", 3)]
        {
            assert_eq!(svg.matches(part).count(), count, "{part}");
        }
        assert_eq!(svg.matches("rotate(90)").count(), 3);
        assert_eq!(svg.matches("rx=\"4\"").count(), 6);
    }

    #[test]
    fn it_is_xml_whatever_it_shows() {
        let odd = PagePicture { sheets: Vec::new(), ..page("\u{1}& <") };
        for pages in [vec![], vec![odd]] {
            let svg = write("a", "b", &pages);
            assert!(roxmltree::Document::parse(&svg).is_ok(), "{svg}");
        }
        assert_eq!(
            (fitting("Rooftop night", 60.0, 10.0).as_str(), fitting("abc", 1.0, 10.0).as_str()),
            ("Rooftop n…", "")
        );
    }
}
