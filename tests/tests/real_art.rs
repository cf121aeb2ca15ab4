//! Drawings by real artists, from file to packed sheet. `tests/art/README.md` says whose they are.

use geo::algorithm::line_measures::{Distance, Euclidean};
use geo::{Area, BoundingRect};
use kurbo::{BezPath, PathEl};
use stickleaf_art::{Import, ImportOptions, TrueSize, import};
use stickleaf_files::placement_file;
use stickleaf_outline::{HALF_COVER, Outline};
use stickleaf_packer::{Aim, PackOptions, pack};
use stickleaf_sheet::{Layout, RULE_TOLERANCE, Sheet, Sticker, Turns, Wanted};
use tests::art::{Drawing, openmoji, rendered, twemoji};
use tests::data;
use tests::picture::filled_area_px;

/// Pixels in a row of each picture.
const WIDTH_PX: u32 = 300;

/// The true width of each drawing in millimetres, so a pixel is a tenth of one.
const WIDTH: f64 = 30.0;

const PIXEL: f64 = WIDTH / WIDTH_PX as f64;

/// How far the traced line may lie from where the cover puts the edge, along its whole length, in pixels.
///
/// Where an upright edge leaves a pixel the cover c and the next one none or all, the line through half cover, taken to
/// change evenly between middles of pixels, is off by c + 1/2 - 1/(2 (1 - c)) or its mirror image, at most
/// 3/2 - sqrt 2 = 0.086 pixels. Corners, smoothing and thinning add to either side; the most found in 2500 drawings is
/// 0.146.
const TRACED: f64 = 0.15;

/// Every part by itself, none dropped: what the picture shows and nothing joined to it.
fn as_drawn() -> ImportOptions {
    ImportOptions {
        size: TrueSize::WidthMm(WIDTH),
        min_size_mm: 0.0,
        join: false,
        ..ImportOptions::default()
    }
}

fn imported(bytes: &[u8], options: &ImportOptions, name: &str) -> Import {
    let found = import(bytes, options).unwrap_or_else(|error| panic!("{name}: {error}"));
    for drawing in &found.drawings {
        // Whatever comes out is an outline by the strict maker's own rules.
        let again = Outline::new(drawing.outline.points().iter().copied());
        assert_eq!(again.as_ref(), Ok(&drawing.outline), "{name}: {}", drawing.name);
    }
    found
}

/// The area within all outlines and the length of all of them, in millimetres.
fn area_and_length(found: &Import) -> (f64, f64) {
    let outlines = || found.drawings.iter().map(|drawing| &drawing.outline);
    (outlines().map(Outline::area).sum(), outlines().map(Outline::perimeter).sum())
}

/// The area that a picture of the drawing, so many pixels wide, shows, holes filled, in square millimetres.
fn shown_area(drawing: &Drawing, width_px: u32) -> f64 {
    let picture = rendered(drawing, width_px);
    let size = (picture.width_px as usize, picture.height_px as usize);
    let pixel = WIDTH / f64::from(width_px);
    filled_area_px(&picture.alpha(), size.0, size.1, HALF_COVER) * pixel * pixel
}

#[test]
fn pictures_are_traced_along_their_edges() {
    for drawing in openmoji(240) {
        let png = rendered(&drawing, WIDTH_PX).png(None);
        let (area, length) = area_and_length(&imported(&png, &as_drawn(), &drawing.name));
        let stray = (area - shown_area(&drawing, WIDTH_PX)).abs() / (length * PIXEL);
        assert!(stray <= TRACED, "{}: {stray} pixels along the line", drawing.name);
    }
}

#[test]
fn vector_drawings_agree_with_their_pictures() {
    let mut finer = 0;
    for drawing in openmoji(240).into_iter().chain(twemoji(60)) {
        let drawing = undashed(drawing);
        let (area, length) = area_and_length(&imported(drawing.svg.as_bytes(), &as_drawn(), &drawing.name));
        let stray = |width_px: u32| (area - shown_area(&drawing, width_px)).abs() / (length * PIXEL);
        if stray(WIDTH_PX) > STRAY {
            // A slit narrower than a pixel is closed in the picture, and the bay behind it taken for a hole. A finer
            // picture shows it.
            let fine = stray(8 * WIDTH_PX);
            assert!(fine <= STRAY, "{}: {fine} pixels along the line", drawing.name);
            finer += 1;
        }
    }
    assert!(finer <= 3, "{finer}");
}

/// How far the line of a vector drawing may lie from the edge in its picture, along its whole length, in pixels.
///
/// The usual detail, by which lines may stray, is half a pixel here. Most drawings stay below a tenth.
const STRAY: f64 = 0.5;

/// The drawing with its dashed lines whole, as the import takes them.
fn undashed(drawing: Drawing) -> Drawing {
    Drawing { svg: drawing.svg.replace(" stroke-dasharray=", " data-dashes="), ..drawing }
}

/// The largest drawing of a picture, as a sticker of which one copy is wanted.
fn sticker(drawing: &Drawing, id: usize) -> Sticker {
    let width = 18.0 + (id % 5) as f64 * 2.0;
    let options = ImportOptions { size: TrueSize::WidthMm(width), ..ImportOptions::default() };
    let found = imported(&rendered(drawing, WIDTH_PX).png(None), &options, &drawing.name);
    let largest = found.drawings.iter().max_by(|a, b| a.outline.area().total_cmp(&b.outline.area()));
    let outline = largest.expect("an import has a drawing").outline.clone();
    let mut sticker = Sticker::new(format!("s{id}"), drawing.name.as_str(), outline);
    sticker.wanted = Wanted::Exactly(1);
    sticker.turns = Turns::Within(20.0);
    sticker
}

/// A cut line as the placement file writes it, read by another library: SVG path data to a polygon.
fn polygon(path: &str) -> geo::Polygon<f64> {
    let ring: Vec<(f64, f64)> = BezPath::from_svg(path)
        .unwrap_or_else(|error| panic!("{error}: {path}"))
        .elements()
        .iter()
        .filter_map(|element| match *element {
            PathEl::MoveTo(point) | PathEl::LineTo(point) => Some((point.x, point.y)),
            PathEl::ClosePath => None,
            curve => panic!("a cut line is made of straight pieces, not {curve:?}"),
        })
        .collect();
    geo::Polygon::new(ring.into(), Vec::new())
}

/// How many rounds the search gets: enough for the first answer and some improvement, a few seconds.
const ROUNDS: u64 = 30;

#[test]
fn thirty_pictures_are_packed_and_another_library_finds_every_gap() {
    let stickers: Vec<Sticker> =
        openmoji(30).iter().enumerate().map(|(id, drawing)| sticker(drawing, id)).collect();
    let layout = Layout {
        // A5 by ISO 216.
        sheet: Sheet { width: 148.0, height: 210.0, corner_radius: 0.0, resolution_ppi: 600.0 },
        stickers,
        ..Layout::default()
    };
    for (aim, seed) in [(Aim::Place, 1), (Aim::Fill, 2)] {
        let mut layout = layout.clone();
        if aim == Aim::Fill {
            layout.stickers.iter_mut().for_each(|sticker| sticker.wanted = Wanted::AtLeast(1));
        }
        let packing = pack(&layout, &PackOptions { aim, seed }, Some(ROUNDS), &mut |_| true).expect("room");
        assert_eq!(packing.missing, [], "{aim:?}");
        let file = placement_file::write(&packing.layout, "0.0.0");
        let placement: serde_json::Value = serde_json::from_str(&file).expect("a placement file is JSON");
        let lines: Vec<geo::Polygon<f64>> = data::list(&placement, "pieces")
            .iter()
            .map(|piece| polygon(data::text(piece, "cut_line")))
            .collect();
        assert!(lines.len() >= 30, "{aim:?}: {}", lines.len());
        // The file writes micrometres: each of two lines may be half a grid's diagonal off.
        let (margin, spacing) = (layout.rules.margin, layout.rules.spacing);
        let least = spacing - RULE_TOLERANCE - 0.001_5;
        for (i, line) in lines.iter().enumerate() {
            assert!(line.unsigned_area() > 20.0, "{aim:?} {i}");
            let bounds = line.bounding_rect().expect("a line has bounds");
            let edge = margin - RULE_TOLERANCE - 0.001;
            assert!(bounds.min().x >= edge && bounds.max().x <= 148.0 - edge, "{aim:?} {i}: {bounds:?}");
            assert!(bounds.min().y >= edge && bounds.max().y <= 210.0 - edge, "{aim:?} {i}: {bounds:?}");
            for (j, other) in lines.iter().enumerate().skip(i + 1) {
                let gap = Euclidean.distance(line, other);
                assert!(gap >= least, "{aim:?} {i} {j}: {gap}");
            }
        }
    }
}
