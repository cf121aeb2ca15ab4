//! Variants of a layout side by side as an SVG picture: each with its sheet, its name and its figures.
//!
//! All sheets are drawn to one scale. Lengths are CSS pixels, on the sheets millimetres.

use std::fmt::Write as _;
use std::sync::Arc;

use kurbo::Rect;
use stickleaf_outline::{Outline, Placement, path};
use stickleaf_sheet::{Background, Layout, Sheet, Sticker};

use crate::number::Number;
use crate::svg_text::{card as edge_of, escaped};

/// What one card of the picture shows.
#[derive(Clone, Debug)]
pub struct PictureCard<'a> {
    /// What the variant is called.
    pub name: String,
    /// Its sheet; nothing if there is none to show.
    pub layout: Option<&'a Layout>,
    /// The figure that counts most.
    pub headline: String,
    /// The other figures and what else is to be known, a short sentence each.
    pub lines: Vec<String>,
}

/// A picture that goes into the file.
#[derive(Clone, Debug, PartialEq)]
pub struct Embedded {
    /// Its content, as a `data:` address.
    pub address: String,
    /// Where the whole of it lies: for a sticker in its own millimetres, for a background in the sheet's.
    pub place: Rect,
}

/// Where the pictures of stickers and backgrounds come from. Without one a sticker is drawn in a plain tint.
pub struct Pictures<'a> {
    /// The picture of a sticker.
    pub sticker: &'a dyn Fn(&Sticker) -> Option<Embedded>,
    /// The picture of a background on a sheet.
    pub background: &'a dyn Fn(&Background, &Sheet) -> Option<Embedded>,
}

impl Pictures<'_> {
    /// No pictures at all.
    pub const NONE: Pictures<'static> = Pictures { sticker: &|_| None, background: &|_, _| None };
}

/// As many cards stand beside each other.
const COLUMNS: usize = 4;
/// Room round and between the cards.
const ROOM: f64 = 24.0;
/// The width of a card.
const CARD: f64 = 300.0;
/// Room inside a card, round what stands in it.
const INSIDE: f64 = 18.0;
/// The largest sheet is drawn no higher than this.
const MOST_HEIGHT: f64 = 380.0;
/// From one line of writing to the next.
const LINE: f64 = 21.0;
/// The width of the title's part.
const HEAD: f64 = 76.0;
/// About as many letters stand in a line of small writing.
const LETTERS: usize = 36;
/// About as many letters stand in a card's name.
const NAME_LETTERS: usize = 26;
/// Between two lines of hatching.
const HATCH: f64 = 8.0;

const DESK: &str = "#EDE8DF";
const PANEL: &str = "#FBF9F5";
const EDGE: &str = "#CFC8BB";
const INK: &str = "#23262B";
const QUIET: &str = "#5C6068";
const ACCENT: &str = "#1F6B59";
const PAPER: &str = "#F8F5EE";
const TINT: &str = "#C9D6CF";
const KISS: &str = "#7F8288";
const ZONE: &str = "#8E9095";

/// The picture of these cards, under a title and a line that says what is compared.
///
/// Colours are the same whatever the page looks like. Texts that are too long for their place are broken into lines,
/// names are cut short.
pub fn write(title: &str, about: &str, cards: &[PictureCard<'_>], pictures: &Pictures<'_>) -> String {
    let frame = Frame::round(cards);
    let columns = cards.len().clamp(1, COLUMNS);
    let rows = cards.len().div_ceil(COLUMNS).max(1);
    let width = ROOM + columns as f64 * (CARD + ROOM);
    let height = HEAD + rows as f64 * (frame.card_height + ROOM);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" font-family=\"system-ui, 'Segoe UI', Roboto, 'Noto Sans', sans-serif\" fill=\"{INK}\">\n  <title>{}</title>\n",
        escaped(title)
    );
    let shapes = Shapes::of(cards);
    shapes.define(&mut svg, pictures, &frame);
    // Writing to a String cannot fail.
    let _ = writeln!(svg, "  <rect width=\"{width}\" height=\"{height}\" fill=\"{DESK}\"/>");
    let _ = writeln!(
        svg,
        "  <text x=\"{ROOM}\" y=\"36\" font-size=\"22\" font-weight=\"700\">{}</text>",
        escaped(&shortened(title, columns * NAME_LETTERS))
    );
    let _ = writeln!(
        svg,
        "  <text x=\"{ROOM}\" y=\"60\" font-size=\"15\" fill=\"{QUIET}\">{}</text>",
        escaped(&shortened(about, columns * LETTERS))
    );
    for (index, card) in cards.iter().enumerate() {
        let x = ROOM + (index % COLUMNS) as f64 * (CARD + ROOM);
        let y = HEAD + (index / COLUMNS) as f64 * (frame.card_height + ROOM);
        let _ = writeln!(svg, "  <g transform=\"translate({x} {y})\">");
        draw_card(&mut svg, index, card, &frame, &shapes, pictures);
        svg.push_str("  </g>\n");
    }
    svg.push_str("</svg>\n");
    svg
}

/// The sizes that all cards share.
struct Frame {
    /// Pixels to the millimetre.
    scale: f64,
    picture_height: f64,
    card_height: f64,
}

impl Frame {
    fn round(cards: &[PictureCard<'_>]) -> Frame {
        let sheets = || cards.iter().filter_map(|card| card.layout).map(|layout| layout.sheet);
        let widest = sheets().map(|sheet| sheet.width).fold(1.0, f64::max);
        let highest = sheets().map(|sheet| sheet.height).fold(1.0, f64::max);
        let scale = ((CARD - 2.0 * INSIDE) / widest).min(MOST_HEIGHT / highest);
        let lines = cards.iter().map(|card| wrapped(card).len()).max().unwrap_or(0);
        let picture_height = highest * scale;
        let card_height = 3.0 * INSIDE + picture_height + 30.0 + 34.0 + lines as f64 * LINE;
        Frame { scale, picture_height, card_height }
    }
}

fn draw_card(
    svg: &mut String,
    index: usize,
    card: &PictureCard<'_>,
    frame: &Frame,
    shapes: &Shapes,
    pictures: &Pictures<'_>,
) {
    let _ = writeln!(
        svg,
        "    <rect width=\"{CARD}\" height=\"{}\" rx=\"12\" fill=\"{PANEL}\" stroke=\"{EDGE}\"/>",
        frame.card_height
    );
    let mut y = INSIDE + 18.0;
    let _ = writeln!(
        svg,
        "    <text x=\"{INSIDE}\" y=\"{y}\" font-size=\"18\" font-weight=\"700\">{}</text>",
        escaped(&shortened(&card.name, NAME_LETTERS))
    );
    y += 12.0;
    if let Some(layout) = card.layout {
        let Frame { scale, picture_height, .. } = *frame;
        let left = (CARD - layout.sheet.width * scale) / 2.0;
        let top = y + (picture_height - layout.sheet.height * scale) / 2.0;
        let _ = writeln!(svg, "    <g transform=\"translate({left} {top}) scale({scale})\">");
        draw_sheet(svg, index, layout, frame, shapes, pictures);
        svg.push_str("    </g>\n");
    }
    y += frame.picture_height + INSIDE + 14.0;
    let _ = writeln!(
        svg,
        "    <text x=\"{INSIDE}\" y=\"{y}\" font-size=\"20\" font-weight=\"700\" fill=\"{ACCENT}\">{}</text>",
        escaped(&card.headline)
    );
    for line in wrapped(card) {
        y += LINE;
        let _ =
            writeln!(svg, "    <text x=\"{INSIDE}\" y=\"{y}\" font-size=\"15\">{}</text>", escaped(&line));
    }
}

/// The sheet with its zones and pieces; the group around it has millimetres.
fn draw_sheet(
    svg: &mut String,
    index: usize,
    layout: &Layout,
    frame: &Frame,
    shapes: &Shapes,
    pictures: &Pictures<'_>,
) {
    let hair = 1.0 / frame.scale;
    let edge = edge_of(&layout.sheet);
    let _ = writeln!(svg, "      <clipPath id=\"edge-{index}\"><path d=\"{edge}\"/></clipPath>");
    let _ = writeln!(svg, "      <path d=\"{edge}\" fill=\"{PAPER}\"/>");
    let _ = writeln!(svg, "      <g clip-path=\"url(#edge-{index})\">");
    let background = layout.chosen_background();
    let picture = background.and_then(|background| (pictures.background)(background, &layout.sheet));
    if let Some(picture) = picture {
        let _ = writeln!(svg, "        {}", image(&picture, ""));
    }
    for zone in layout.zones() {
        let _ = writeln!(
            svg,
            "        <path d=\"{}\" fill=\"url(#hatch)\" stroke=\"{ZONE}\" stroke-width=\"{hair}\"><title>{}</title></path>",
            path::write(zone.outline.points()),
            escaped(&zone.name)
        );
    }
    svg.push_str("      </g>\n");
    for (piece, sticker) in
        layout.pieces.iter().filter_map(|piece| Some((piece, layout.sticker(&piece.sticker)?)))
    {
        let shape = shapes.position(sticker, &sticker.cut_line(&layout.rules));
        let _ =
            writeln!(svg, "      <use href=\"#shape-{shape}\" transform=\"{}\"/>", motion(&piece.placement));
    }
    let _ = writeln!(
        svg,
        "      <path d=\"{edge}\" fill=\"none\" stroke=\"{QUIET}\" stroke-width=\"{}\"/>",
        1.5 * hair
    );
}

/// The stickers of all cards, each with each of its cut lines once.
struct Shapes {
    shapes: Vec<(Sticker, Arc<Outline>)>,
}

impl Shapes {
    fn of(cards: &[PictureCard<'_>]) -> Shapes {
        let mut shapes = Shapes { shapes: Vec::new() };
        for layout in cards.iter().filter_map(|card| card.layout) {
            for sticker in layout.stickers.iter().filter(|sticker| layout.placed(&sticker.id) > 0) {
                let cut_line = sticker.cut_line(&layout.rules);
                if shapes.position(sticker, &cut_line) == shapes.shapes.len() {
                    shapes.shapes.push((sticker.clone(), cut_line));
                }
            }
        }
        shapes
    }

    /// Where it stands in the list; the list's length if it does not.
    fn position(&self, sticker: &Sticker, cut_line: &Arc<Outline>) -> usize {
        let is_it = |(known, line): &(Sticker, Arc<Outline>)| known.id == sticker.id && line == cut_line;
        self.shapes.iter().position(is_it).unwrap_or(self.shapes.len())
    }

    fn define(&self, svg: &mut String, pictures: &Pictures<'_>, frame: &Frame) {
        let hair = 1.0 / frame.scale;
        let step = HATCH / frame.scale;
        svg.push_str("  <defs>\n");
        let _ = writeln!(
            svg,
            "    <pattern id=\"hatch\" width=\"{step}\" height=\"{step}\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect width=\"{step}\" height=\"{step}\" fill=\"#78746C\" fill-opacity=\"0.1\"/><path d=\"M0 0V{step}\" stroke=\"{ZONE}\" stroke-width=\"{hair}\"/></pattern>"
        );
        let mut known: Vec<(&Sticker, Option<usize>)> = Vec::new();
        for (index, (sticker, cut_line)) in self.shapes.iter().enumerate() {
            // The picture of a sticker goes into the file once, whatever its borders.
            let first = known.iter().find(|(other, _)| other.id == sticker.id).map(|(_, art)| *art);
            let art = first.unwrap_or_else(|| {
                let picture = (pictures.sticker)(sticker)?;
                let _ = writeln!(svg, "    {}", image(&picture, &format!(" id=\"art-{index}\"")));
                Some(index)
            });
            known.push((sticker, art));
            define_shape(svg, index, sticker, cut_line, art, hair);
        }
        svg.push_str("  </defs>\n");
    }
}

fn define_shape(
    svg: &mut String,
    index: usize,
    sticker: &Sticker,
    cut_line: &Outline,
    art: Option<usize>,
    hair: f64,
) {
    let line = path::write(cut_line.points());
    let inside = match art {
        Some(art) => format!("<use href=\"#art-{art}\" clip-path=\"url(#inside-{index})\"/>"),
        None => format!("<path d=\"{}\" fill=\"{TINT}\"/>", path::write(sticker.outline.points())),
    };
    if art.is_some() {
        let _ = writeln!(svg, "    <clipPath id=\"inside-{index}\"><path d=\"{line}\"/></clipPath>");
    }
    let _ = writeln!(
        svg,
        "    <g id=\"shape-{index}\"><path d=\"{line}\" fill=\"#FFF\"/>{inside}<path d=\"{line}\" fill=\"none\" stroke=\"{KISS}\" stroke-width=\"{hair}\"/></g>"
    );
}

fn image(picture: &Embedded, id: &str) -> String {
    let Rect { x0, y0, .. } = picture.place;
    let (width, height) = (picture.place.width(), picture.place.height());
    let address = escaped(&picture.address).replace('"', "&quot;");
    format!(
        "<image{id} x=\"{x0}\" y=\"{y0}\" width=\"{width}\" height=\"{height}\" preserveAspectRatio=\"none\" href=\"{address}\"/>"
    )
}

/// From a sticker's own millimetres to the sheet's.
fn motion(placement: &Placement) -> String {
    let (sine, cosine) = placement.turn.sine_cosine();
    let flip = if placement.mirrored { -1.0 } else { 1.0 };
    let fine = |value: f64| (value * 1e6).round() / 1e6 + 0.0;
    let short = |mm: f64| Number::thousandths(mm).0;
    format!(
        "matrix({} {} {} {} {} {})",
        fine(cosine * flip),
        fine(sine * flip),
        fine(-sine),
        fine(cosine),
        short(placement.at.x),
        short(placement.at.y)
    )
}

/// The lines of a card, broken where they are too long.
fn wrapped(card: &PictureCard<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    for text in &card.lines {
        let mut line = String::new();
        for word in text.split_whitespace() {
            if !line.is_empty() && line.chars().count() + 1 + word.chars().count() > LETTERS {
                lines.push(std::mem::take(&mut line));
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(&shortened(word, LETTERS));
        }
        lines.push(line);
    }
    lines
}

fn shortened(text: &str, letters: usize) -> String {
    if text.chars().count() <= letters {
        return text.to_owned();
    }
    text.chars().take(letters.saturating_sub(1)).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;
    use stickleaf_sheet::{Piece, Rules, Zone};

    use super::*;

    fn layout() -> Layout {
        let zone = Zone::new("title", path::parse("M0 0H105V20H0Z").unwrap(), 1.0);
        Layout {
            rules: Rules { border: 0.0, ..Rules::default() },
            backgrounds: vec![Background {
                name: "Band".into(),
                zones: vec![zone],
                picture: Some("band.svg".into()),
                ..Background::default()
            }],
            background: Some("Band".into()),
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            pieces: [30.0, 60.0].map(|x| Piece::new("box".into(), Placement::at(x, 50.0))).to_vec(),
            ..Layout::default()
        }
    }

    fn card<'a>(name: &str, layout: Option<&'a Layout>) -> PictureCard<'a> {
        PictureCard {
            name: name.into(),
            layout,
            headline: "2 placed".into(),
            lines: vec!["2 fewer than Plain & simple".into()],
        }
    }

    #[test]
    fn every_card_shows_its_sheet_and_its_figures() {
        let layout = layout();
        let wider = Layout { rules: Rules { border: 2.0, ..layout.rules }, ..layout.clone() };
        let cards = [card("<Band>", Some(&layout)), card("2 mm", Some(&wider)), card("None", None)];
        let svg = write("Tide & pool", "Backgrounds", &cards, &Pictures::NONE);
        assert_eq!(svg.matches("2 placed").count(), 3);
        assert_eq!(svg.matches("2 fewer than Plain &amp; simple").count(), 3);
        assert!(svg.contains("&lt;Band&gt;") && svg.contains("<title>Tide &amp; pool</title>"));
        assert_eq!(svg.matches("<use href=\"#shape-0\"").count(), 2, "two pieces without a border");
        assert_eq!(svg.matches("<use href=\"#shape-1\"").count(), 2, "two with one, another shape");
        assert_eq!(svg.matches("url(#hatch)").count(), 2, "one zone on each sheet");
        assert!(!svg.contains("<image"));
    }

    #[test]
    fn a_stickers_picture_goes_in_once_and_a_backgrounds_on_every_sheet() {
        let layout = layout();
        let wider = Layout { rules: Rules { border: 2.0, ..layout.rules }, ..layout.clone() };
        let cards = [card("a", Some(&layout)), card("b", Some(&wider))];
        let place = Rect::new(-5.0, -5.0, 5.0, 5.0);
        let pictures = Pictures {
            sticker: &|sticker| Some(Embedded { address: format!("data:,\"{}\"", sticker.name), place }),
            background: &|background, sheet| {
                let address = background.picture.clone()?;
                Some(Embedded { address, place: sheet.bounds() })
            },
        };
        let svg = write("t", "a", &cards, &pictures);
        assert_eq!(svg.matches("href=\"data:,&quot;Box&quot;\"").count(), 1);
        assert_eq!(svg.matches("<use href=\"#art-0\"").count(), 2);
        assert_eq!(svg.matches("href=\"band.svg\"").count(), 2);
    }

    #[test]
    fn sheets_are_drawn_to_one_scale() {
        let small = layout();
        let large = Layout { sheet: Sheet { width: 210.0, height: 148.0, ..small.sheet }, ..small.clone() };
        let frame = Frame::round(&[card("a", Some(&small)), card("b", Some(&large))]);
        assert_eq!(frame.scale, (CARD - 2.0 * INSIDE) / 210.0);
        assert_eq!(frame.picture_height, 148.0 * frame.scale);
    }

    #[test]
    fn long_texts_are_broken_and_long_names_cut_short() {
        let mut long = card("a", None);
        long.lines = vec!["word ".repeat(20), "x".repeat(100)];
        let lines = wrapped(&long);
        assert!(lines.iter().all(|line| line.chars().count() <= LETTERS), "{lines:?}");
        assert_eq!(lines.iter().flat_map(|line| line.split_whitespace()).count(), 21);
        assert_eq!(shortened("Plain", 5), "Plain");
        assert_eq!(shortened("Plain ground", 6), "Plain…");
    }
}
