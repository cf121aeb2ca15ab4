//! The cut as another's SVG reader sees it, its distances measured by another's geometry.

use geo::algorithm::line_measures::{Distance, Euclidean};
use geo::{BoundingRect, LineString, Polygon, Rect};
use resvg::tiny_skia::{Path, PathSegment, Point};
use resvg::usvg::{Group, Node, Options, Tree};
use stickleaf_press::SheetOnPage;
use stickleaf_press::cut::{CutOptions, Depths, DesignToCut, page_cut, plan, write, write_page};
use stickleaf_sheet::Layout;

use crate::sheets::sample;

/// CSS Values and Units Level 3, section 6.2: 96 px to the inch.
const MM: f64 = 25.4 / 96.0;

/// So many chords stand for a curve: none strays by a micrometre.
const CHORDS: usize = 48;

/// What a rule lets pass, in millimetres, and the reader's numbers of single precision with it.
const SLACK: f64 = 0.0025;

/// The lines of the group of this id, in millimetres, each with the id of the group that it stands in.
fn lines(tree: &Tree, group: &str) -> Vec<(String, Polygon)> {
    fn within(group: &Group, into: &mut Vec<(String, Polygon)>) {
        for node in group.children() {
            match node {
                Node::Group(inner) => within(inner, into),
                Node::Path(path) => {
                    let way = path.abs_transform();
                    let data = path.data().clone().transform(way).expect("a finite path");
                    into.push((group.id().to_owned(), polygon(&data)));
                }
                _ => {}
            }
        }
    }
    fn find<'a>(group: &'a Group, id: &str) -> Option<&'a Group> {
        if group.id() == id {
            return Some(group);
        }
        group.children().iter().find_map(|node| match node {
            Node::Group(inner) => find(inner, id),
            _ => None,
        })
    }
    let mut found = Vec::new();
    within(find(tree.root(), group).expect("the group"), &mut found);
    found
}

fn polygon(path: &Path) -> Polygon {
    let mut ring: Vec<(f64, f64)> = Vec::new();
    let mut last = Point::zero();
    let mm = |x: f64, y: f64| (x * MM, y * MM);
    for segment in path.segments() {
        match segment {
            PathSegment::MoveTo(p) | PathSegment::LineTo(p) => {
                ring.push(mm(p.x.into(), p.y.into()));
                last = p;
            }
            PathSegment::QuadTo(..) => panic!("a cut has lines and cubic curves"),
            PathSegment::CubicTo(a, b, p) => {
                for step in 1..=CHORDS {
                    let t = step as f64 / CHORDS as f64;
                    let s = 1.0 - t;
                    let at = |from: f32, a: f32, b: f32, to: f32| {
                        s * s * s * f64::from(from)
                            + 3.0 * s * s * t * f64::from(a)
                            + 3.0 * s * t * t * f64::from(b)
                            + t * t * t * f64::from(to)
                    };
                    ring.push(mm(at(last.x, a.x, b.x, p.x), at(last.y, a.y, b.y, p.y)));
                }
                last = p;
            }
            PathSegment::Close => {}
        }
    }
    Polygon::new(LineString::from(ring), Vec::new())
}

/// The smallest distance between two of these, those farther apart than asked left out.
fn smallest(lines: &[Polygon], asked: f64) -> f64 {
    let boxes: Vec<Rect> = lines.iter().map(|line| line.bounding_rect().expect("a line")).collect();
    let apart = |a: &Rect, b: &Rect| {
        let x = (a.min().x - b.max().x).max(b.min().x - a.max().x);
        let y = (a.min().y - b.max().y).max(b.min().y - a.max().y);
        x.max(y)
    };
    let mut least = f64::INFINITY;
    for i in 0..lines.len() {
        for j in 0..i {
            if apart(&boxes[i], &boxes[j]) <= asked {
                least = least.min(Euclidean.distance(&lines[i], &lines[j]));
            }
        }
    }
    least
}

fn read(svg: &str) -> Tree {
    Tree::from_str(svg, &Options::default()).expect("an SVG")
}

/// Without overrun, which goes on along the line itself.
fn options() -> CutOptions {
    CutOptions { overrun: 0.0, passes: 2, ..CutOptions::default() }
}

fn samples() -> impl Iterator<Item = Layout> {
    let files =
        ["everything", "frame", "hang-tab", "plain", "scene-with-windows", "title-and-corners", "title-band"];
    files.into_iter().map(|file| sample(&format!("{file}.json"), 50.0).0)
}

#[test]
fn the_cut_has_its_size_and_keeps_every_spacing() {
    for layout in samples() {
        let svg = write(&layout, &plan(&layout, &options()), Depths::All);
        let tree = read(&svg);
        let (width, height) = (f64::from(tree.size().width()) * MM, f64::from(tree.size().height()) * MM);
        assert!((width - layout.sheet.width).abs() < 1e-4 && (height - layout.sheet.height).abs() < 1e-4);
        let kiss: Vec<Polygon> = lines(&tree, "kiss-lines").into_iter().map(|(_, line)| line).collect();
        assert_eq!(kiss.len(), layout.pieces.len(), "{}", layout.name);
        let least = smallest(&kiss, layout.rules.spacing);
        println!("{}: {} kiss lines, {least:.4} mm apart at least", layout.name, kiss.len());
        assert!(least >= layout.rules.spacing - SLACK, "{}: {least}", layout.name);
        let cards = lines(&tree, "through-line");
        assert_eq!((cards.len(), &cards[0].1), (2, &cards[1].1), "both passes are one line");
        for line in &kiss {
            let edge = Euclidean.distance(line.exterior(), cards[0].1.exterior());
            assert!(edge >= layout.rules.margin - SLACK, "{}: {edge} mm from the edge", layout.name);
        }
    }
}

#[test]
fn the_cut_of_a_page_keeps_every_spacing_on_every_sheet() {
    let layout = samples().next().expect("a sample");
    let lines_of_one = plan(&layout, &options());
    let design = DesignToCut { name: &layout.name, sheet: &layout.sheet, plan: &lines_of_one };
    let (width, height) = (layout.sheet.width, layout.sheet.height);
    let sheets = [
        SheetOnPage { x: 8.0, y: 9.0, ..SheetOnPage::default() },
        SheetOnPage { x: 8.0 + width, y: 9.0, is_turned: true, ..SheetOnPage::default() },
    ];
    let size = kurbo::Size::new(16.0 + width + height, 18.0 + height);
    let tree = read(&write_page("Page", size, &page_cut(&[design], &sheets), Depths::All));
    let kiss = lines(&tree, "kiss-lines");
    assert_eq!(kiss.len(), 2 * layout.pieces.len());
    assert_eq!(kiss.iter().filter(|(sheet, _)| sheet == "sheet-2").count(), layout.pieces.len());
    let kiss: Vec<Polygon> = kiss.into_iter().map(|(_, line)| line).collect();
    assert!(smallest(&kiss, layout.rules.spacing) >= layout.rules.spacing - SLACK);
    assert_eq!(lines(&tree, "through-lines").len(), 4);
}
