//! The placement file: what other programs read. The layout with everything worked out: where each piece's cut line
//! runs, how much is on the sheet, and which program wrote it.
//!
//! It opens again as the layout that it was written from: see [`crate::read`].

use kurbo::{Point, Rect};
use schemars::JsonSchema;
use serde::Serialize;
use stickleaf_outline::path;
use stickleaf_sheet::{Layout, check, score};

use crate::carry::Fields;
use crate::convert::shape_of;
use crate::correction_shape::CorrectionShape;
use crate::header;
use crate::number::Number;
use crate::packed::Packed;
use crate::piece_facts::{PieceFacts, piece_facts, pixels};
use crate::pretty::pretty;
use crate::report::ScoreReport;
use crate::shape::{BackgroundShape, LayoutShape, PieceShape, RulesShape, SheetShape, StickerShape, Version};

/// A layout worked out for other programs. Lengths in mm, y down, origin at the sheet's top left corner.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stickleaf placement")]
pub(crate) struct PlacementShape {
    /// What the file is.
    #[schemars(extend("const" = "stickleaf-placement"))]
    format: String,
    version: Version,
    /// Which program wrote it.
    program: Program,
    /// What the artist calls it.
    name: String,
    sheet: SheetShape,
    rules: RulesShape,
    /// The background styles to choose from.
    backgrounds: Vec<BackgroundShape>,
    /// The name of the chosen background; absent for plain ground.
    #[serde(skip_serializing_if = "Option::is_none")]
    background: Option<String>,
    /// The drawings.
    stickers: Vec<StickerShape>,
    /// The copies that lie on the sheet, in drawing order.
    pieces: Vec<PlacedPiece>,
    /// How all colours are shifted on their way to the paper; absent if nobody has said.
    #[serde(skip_serializing_if = "Option::is_none")]
    correction: Option<CorrectionShape>,
    /// How the pieces were placed, with the seed; absent if by hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    packed: Option<Packed>,
    score: PlacementScore,
    #[serde(flatten)]
    more: Fields,
}

/// The program that wrote a file.
#[derive(Debug, Serialize, JsonSchema)]
struct Program {
    name: String,
    version: String,
}

/// Count, density and findings.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Score")]
struct PlacementScore {
    #[serde(flatten)]
    score: ScoreReport,
    /// How many hard rules are broken.
    broken: usize,
    /// How many warnings there are.
    warnings: usize,
}

/// One copy of a sticker with everything worked out.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PlacedPiece")]
struct PlacedPiece {
    #[serde(flatten)]
    piece: PieceShape,
    // Comes last, so that it replaces a field of a layout that happens to have one of its names.
    #[serde(flatten)]
    worked_out: WorkedOut,
}

/// What a placement file says of a piece beyond the layout.
#[derive(Debug, Serialize, JsonSchema)]
struct WorkedOut {
    /// Which copy of its sticker, counted from 1.
    copy: usize,
    /// The sticker's name and the copy number.
    name: String,
    /// The middle of the bounds.
    centre_mm: XyMm,
    /// The middle of the bounds in pixels at the sheet's resolution, from its top left corner.
    centre_px: XyPx,
    /// Where the outline's own (0, 0) lies, in pixels at the sheet's resolution.
    origin_px: XyPx,
    /// The smallest upright rectangle around the cut line.
    bounds_mm: Bounds,
    /// The line that the blade follows as SVG path data in sheet millimetres.
    cut_line: String,
}

/// The names of the fields of [`WorkedOut`].
const WORKED_OUT: [&str; 7] =
    ["copy", "name", "centre_mm", "centre_px", "origin_px", "bounds_mm", "cut_line"];

/// A point of the sheet in millimetres.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PointMm")]
struct XyMm {
    /// From the left.
    x: Number,
    /// From the top.
    y: Number,
}

/// A point of the sheet in pixels.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PointPx")]
struct XyPx {
    /// From the left.
    x: Number,
    /// From the top.
    y: Number,
}

/// An upright rectangle on the sheet.
#[derive(Debug, Serialize, JsonSchema)]
struct Bounds {
    /// Its left edge.
    x: Number,
    /// Its top edge.
    y: Number,
    /// From left to right.
    width: Number,
    /// From top to bottom.
    height: Number,
}

/// The text of the placement file of a valid layout, written by a program of this version.
///
/// Worked-out lengths are rounded to the micrometre, pixels to the thousandth. The seed stands in `packed`, if
/// packing left its [note](crate::packed::note). Cost: that of one full check.
pub fn write(layout: &Layout, program_version: &str) -> String {
    let shape = shape_of(layout);
    let score = score(layout);
    let findings = check(layout);
    let broken = findings.iter().filter(|finding| finding.is_broken()).count();
    let pieces = shape.pieces.into_iter().zip(piece_facts(layout));
    let placement = PlacementShape {
        format: header::PLACEMENT.to_owned(),
        version: shape.version,
        program: Program { name: "stickleaf".to_owned(), version: program_version.to_owned() },
        name: shape.name,
        sheet: shape.sheet,
        rules: shape.rules,
        backgrounds: shape.backgrounds,
        background: shape.background,
        stickers: shape.stickers,
        pieces: pieces
            .map(|(piece, facts)| PlacedPiece { piece, worked_out: worked_out(layout, facts) })
            .collect(),
        correction: shape.correction,
        packed: shape.packed,
        score: PlacementScore { score: ScoreReport::new(&score), broken, warnings: findings.len() - broken },
        more: shape.more,
    };
    // A struct of texts, numbers and lists always makes JSON.
    pretty(&serde_json::to_value(placement).unwrap_or_default())
}

/// Takes what is worked out anew at each writing from among the unknown fields of a placement file.
pub(crate) fn drop_what_is_worked_out(shape: &mut LayoutShape) {
    for name in ["program", "score"] {
        shape.more.shift_remove(name);
    }
    for piece in &mut shape.pieces {
        for name in WORKED_OUT {
            piece.more.shift_remove(name);
        }
    }
}

fn worked_out(layout: &Layout, facts: PieceFacts) -> WorkedOut {
    WorkedOut {
        copy: facts.copy,
        name: facts.name,
        centre_mm: XyMm { x: Number::thousandths(facts.centre.x), y: Number::thousandths(facts.centre.y) },
        centre_px: in_pixels(layout, facts.centre),
        origin_px: in_pixels(layout, facts.placement.at),
        bounds_mm: bounds(facts.bounds),
        cut_line: path::write_placed(facts.cut_line.points()),
    }
}

fn in_pixels(layout: &Layout, point: Point) -> XyPx {
    XyPx { x: Number::thousandths(pixels(layout, point.x)), y: Number::thousandths(pixels(layout, point.y)) }
}

fn bounds(rect: Rect) -> Bounds {
    Bounds {
        x: Number::thousandths(rect.x0),
        y: Number::thousandths(rect.y0),
        width: Number::thousandths(rect.width()),
        height: Number::thousandths(rect.height()),
    }
}
