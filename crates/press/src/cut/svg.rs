//! The cut as SVG at true size, one user unit to the millimetre.

use std::fmt::Write as _;

use kurbo::{BezPath, PathEl, Point, Size};
use stickleaf_sheet::Layout;

use crate::cut::overrun::overrun;
use crate::cut::page::{PageCut, ThroughLine};
use crate::cut::plan::{CutPlan, KissCut};

/// Which lines go into a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depths {
    /// Kiss lines, then the through line.
    All,
    /// Kiss lines only.
    Kiss,
    /// The through line only.
    Through,
}

/// What to mind before the blade is put down (common practice, no source; the machine's manual goes first).
pub const CAUTIONS: [&str; 5] = [
    "The machine's own manual goes before anything said here.",
    "The blade is sharp and moves by itself: keep hands, hair and pets away, stay with it while it runs, and change \
     blades with the plug pulled.",
    "Several passes can cut through the mat and into the machine: try them on a test card first.",
    "Kiss lines come first and the card last, or the card shifts under the blade.",
    "Small stickers are small parts and not for children under three; the law where you sell decides on tests and labels.",
];

/// The cut as SVG: the group `kiss-lines` in the order of the plan, then the group `through-line` with as many passes
/// as asked, all of them the same path to the last digit.
pub fn write(layout: &Layout, plan: &CutPlan, depths: Depths) -> String {
    let size = Size::new(layout.sheet.width, layout.sheet.height);
    let mut svg = opened(size, &layout.name, &read_me(plan));
    if depths != Depths::Through {
        open_group(&mut svg, "kiss-lines");
        write_kiss(&mut svg, "    ", "", &plan.kiss, plan.options.overrun);
        svg.push_str("  </g>\n");
    }
    if depths != Depths::Kiss {
        open_group(&mut svg, "through-line");
        let data = path_data(&overrun(&plan.through, plan.options.overrun), plan.options.overrun > 0.0);
        write_passes(&mut svg, "card", &data, plan.options.passes);
        svg.push_str("  </g>\n");
    }
    svg.push_str("</svg>\n");
    svg
}

/// The cut of a whole page as SVG: the group `kiss-lines` with a group for each sheet, then the group `through-lines` with each
/// line as often as it is gone over, every pass the same path to the last digit.
pub fn write_page(title: &str, page: Size, cut: &PageCut, depths: Depths) -> String {
    let mut svg = opened(page, title, &read_me_of_page(cut));
    if depths != Depths::Through {
        open_group(&mut svg, "kiss-lines");
        for sheet in &cut.sheets {
            let number = sheet.sheet + 1;
            let _ = writeln!(svg, "    <g id=\"sheet-{number}\">");
            let _ = writeln!(svg, "      <title>{}</title>", escaped(&sheet.name));
            write_kiss(&mut svg, "      ", &format!("sheet-{number}-"), &sheet.kiss, cut.overrun);
            svg.push_str("    </g>\n");
        }
        svg.push_str("  </g>\n");
    }
    if depths != Depths::Kiss {
        open_group(&mut svg, "through-lines");
        for (index, line) in cut.through.iter().enumerate() {
            match line {
                ThroughLine::Card { sheet, path } => {
                    let data = path_data(&overrun(path, cut.overrun), cut.overrun > 0.0);
                    write_passes(&mut svg, &format!("card-{}", sheet + 1), &data, cut.passes);
                }
                ThroughLine::Edge { from, to } => {
                    let mut edge = BezPath::new();
                    edge.move_to(*from);
                    edge.line_to(*to);
                    write_passes(
                        &mut svg,
                        &format!("edge-{}", index + 1),
                        &path_data(&edge, true),
                        cut.passes,
                    );
                }
            }
        }
        svg.push_str("  </g>\n");
    }
    svg.push_str("</svg>\n");
    svg
}

fn opened(size: Size, title: &str, read_me: &str) -> String {
    let (width, height) = (number(size.width), number(size.height));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n  \
         <title>{}</title>\n  <desc>{}</desc>\n",
        escaped(title),
        escaped(read_me)
    )
}

/// Writes kiss lines; `prefix` goes before their ids.
fn write_kiss(svg: &mut String, indent: &str, prefix: &str, kiss: &[KissCut], millimetres: f64) {
    for cut in kiss {
        let data = path_data(&overrun(&cut.line.path, millimetres), millimetres > 0.0);
        let (id, name) = (cut.piece + 1, escaped(&cut.name));
        // Writing to a String cannot fail.
        let _ = writeln!(
            svg,
            "{indent}<path id=\"{prefix}piece-{id}\" d=\"{data}\"><title>{name}</title></path>"
        );
    }
}

/// Writes a line that cuts through as often as it is gone over.
fn write_passes(svg: &mut String, id: &str, data: &str, passes: u32) {
    for pass in 1..=passes.max(1) {
        let id = if passes > 1 { format!("{id}-pass-{pass}") } else { id.to_owned() };
        let _ = writeln!(svg, "    <path id=\"{id}\" d=\"{data}\"/>");
    }
}

fn open_group(svg: &mut String, id: &str) {
    let _ = writeln!(svg, "  <g id=\"{id}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.1\">");
}

/// What the file says of itself: what is in it, and the cautions.
fn read_me(plan: &CutPlan) -> String {
    let counts = format!(
        "{} kiss lines with {} points, then the card in {} passes on one line; 1 unit is 1 mm.",
        plan.kiss.len(),
        plan.nodes(),
        plan.options.passes.max(1)
    );
    with_cautions(&counts)
}

/// The same of a page.
fn read_me_of_page(cut: &PageCut) -> String {
    let edges = cut.through.iter().filter(|line| matches!(line, ThroughLine::Edge { .. })).count();
    let straight = match edges {
        0 => String::new(),
        _ => format!(", {edges} of them straight edges that cards share"),
    };
    let counts = format!(
        "{} kiss lines with {} points on {} sheets, then {} through lines{straight}, each in {} passes on itself; 1 unit is 1 mm, and \
         0 0 is the page's top left corner.",
        cut.kiss_lines(),
        cut.nodes(),
        cut.sheets.len(),
        cut.through.len(),
        cut.passes
    );
    with_cautions(&counts)
}

fn with_cautions(counts: &str) -> String {
    std::iter::once(counts).chain(CAUTIONS).collect::<Vec<_>>().join(" ")
}

/// Path data with lengths rounded to a hundredth of a micrometre.
///
/// A line that overruns is left open; any other is closed, its last stretch said by the closing alone.
pub(crate) fn path_data(path: &BezPath, is_open: bool) -> String {
    let mut data = String::new();
    let elements = path.elements();
    let start = match elements.first() {
        Some(&PathEl::MoveTo(start)) => start,
        _ => Point::ZERO,
    };
    for (i, element) in elements.iter().enumerate() {
        let is_closing = !is_open && i + 1 == elements.len();
        match *element {
            PathEl::MoveTo(p) => point(&mut data, 'M', p),
            PathEl::LineTo(p) if is_closing && p == start => {}
            PathEl::LineTo(p) => point(&mut data, 'L', p),
            PathEl::QuadTo(a, p) => {
                point(&mut data, 'Q', a);
                point(&mut data, ' ', p);
            }
            PathEl::CurveTo(a, b, p) => {
                point(&mut data, 'C', a);
                point(&mut data, ' ', b);
                point(&mut data, ' ', p);
            }
            PathEl::ClosePath => {}
        }
    }
    if !is_open {
        data.push('Z');
    }
    data
}

fn point(data: &mut String, command: char, at: Point) {
    let _ = write!(data, "{command}{} {}", number(at.x), number(at.y));
}

/// A length rounded to a hundredth of a micrometre, as short as it can be written.
pub(crate) fn number(mm: f64) -> f64 {
    (mm * 1e5).round() / 1e5 + 0.0
}

/// The text as it may stand in XML. Source: Extensible Markup Language 1.0, sections 2.2 and 2.4.
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
    use stickleaf_outline::{Placement, path, shapes};
    use stickleaf_sheet::{Piece, Sticker};

    use super::*;
    use crate::cut::page::{DesignToCut, page_cut};
    use crate::cut::plan::{CutOptions, plan};
    use crate::sheet_on_page::SheetOnPage;

    fn layout() -> Layout {
        Layout {
            name: "<Fish> & \u{1}chips".into(),
            stickers: vec![
                Sticker::new("a", "A&B", path::parse("M-5 -5H5V5H-5Z").unwrap()),
                Sticker::new("blob", "Blob", shapes::blob(7, 9.0)),
            ],
            pieces: vec![
                Piece::new("a".into(), Placement::at(20.0, 20.0)),
                Piece::new("a".into(), Placement::turned(20.0, 35.0, 90.0)),
                Piece::new("blob".into(), Placement::turned(60.0, 80.0, 33.0)),
            ],
            ..Layout::default()
        }
    }

    #[test]
    fn passes_are_one_line_to_the_last_digit_and_come_last() {
        let layout = layout();
        let plan = plan(&layout, &CutOptions { passes: 4, ..CutOptions::default() });
        let svg = write(&layout, &plan, Depths::All);
        let data: Vec<&str> = svg
            .lines()
            .filter(|line| line.contains("card-pass-"))
            .map(|line| &line[line.find(" d=").unwrap()..])
            .collect();
        assert_eq!(data.len(), 4);
        assert!(data.iter().all(|d| d == &data[0]));
        assert!(svg.find("kiss-lines").unwrap() < svg.find("through-line").unwrap());
        assert!(svg.contains("width=\"105mm\" height=\"148mm\" viewBox=\"0 0 105 148\""));
        assert!(
            svg.contains("<title>&lt;Fish&gt; &amp; chips</title>")
                && svg.contains("<title>A&amp;B 1</title>")
        );
        assert_eq!(svg.matches("<path").count(), 7);
    }

    #[test]
    fn each_depth_can_have_its_own_file() {
        let layout = layout();
        let plan = plan(&layout, &CutOptions::default());
        let (kiss, through) = (write(&layout, &plan, Depths::Kiss), write(&layout, &plan, Depths::Through));
        assert!(kiss.contains("kiss-lines") && !kiss.contains("through-line"));
        assert!(through.contains("id=\"card\"") && !through.contains("kiss-lines"));
    }

    #[test]
    fn without_overrun_lines_are_closed() {
        let layout = layout();
        let plan = plan(&layout, &CutOptions { overrun: 0.0, tolerance: 0.0, ..CutOptions::default() });
        let svg = write(&layout, &plan, Depths::All);
        assert_eq!(svg.matches("Z\"").count(), 4);
        // With chords only, each line is its cut line to the last digit, whatever its start.
        for cut in &plan.kiss {
            let back = path::parse(&path_data(&cut.line.path, false)).unwrap();
            let sticker = &layout.pieces[cut.piece].sticker;
            let area = layout.sticker(sticker).unwrap().cut_line(&layout.rules).area();
            assert!((back.area() - area).abs() < 0.05);
        }
    }

    #[test]
    fn the_cut_of_a_page_has_every_sheet_and_its_cards_last() {
        let layout = layout();
        let plan = plan(&layout, &CutOptions { passes: 2, ..CutOptions::default() });
        let design = DesignToCut { name: "Fish & chips", sheet: &layout.sheet, plan: &plan };
        let at = |x: f64| SheetOnPage { x, y: 10.0, ..SheetOnPage::default() };
        let cut = page_cut(&[design], &[at(5.0), at(120.0)]);
        let svg = write_page("Page", Size::new(297.0, 210.0), &cut, Depths::All);
        assert!(svg.contains("width=\"297mm\" height=\"210mm\" viewBox=\"0 0 297 210\""));
        assert!(svg.contains("<g id=\"sheet-2\">\n      <title>Fish &amp; chips</title>"));
        assert_eq!(svg.matches("<path").count(), 2 * 3 + 2 * 2);
        assert!(svg.rfind("sheet-2-piece-3").unwrap() < svg.find("card-1-pass-1").unwrap());
        // On the page as on the card, moved: all that the print moves too.
        let alone = write(&layout, &plan, Depths::Through);
        let data = |svg: &str, id: &str| {
            let line = svg.lines().find(|line| line.contains(id)).unwrap().to_owned();
            BezPath::from_svg(line.split('"').nth(3).unwrap()).unwrap()
        };
        let moved = kurbo::Affine::translate((120.0, 10.0)) * data(&alone, "card-pass-1");
        for (a, b) in data(&svg, "card-2-pass-1").segments().zip(moved.segments()) {
            assert!((kurbo::ParamCurve::start(&a) - kurbo::ParamCurve::start(&b)).hypot2() < 1e-9);
        }
        let kiss = write_page("Page", Size::new(297.0, 210.0), &cut, Depths::Kiss);
        assert!(kiss.contains("kiss-lines") && !kiss.contains("through-lines"));
    }
}
