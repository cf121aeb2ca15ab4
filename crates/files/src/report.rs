//! What `--report json` prints: one struct for each kind of answer, its fields as they are written.

mod bundle;
mod compare;
mod finish;
mod page;
mod update;

use kurbo::Point;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::{Map, Value};
use stickleaf_sheet::{Finding, Layout, LengthUnit, Mark, Score, Severity};

use crate::pretty::pretty;

pub use bundle::BundleFacts;
pub use compare::{CompareReport, VariantReport};
pub use finish::{FinishReport, FinishedReport, MergeReport};
pub use page::{
    DesignReport, LargestReport, PageReport, PagesReport, PositionReport, PrintedPageReport, SheetReport,
};
pub use update::{FateReport, UpdateReport};

/// The report as JSON text: one object, ending with a line break.
pub fn text(report: &impl Serialize) -> String {
    // A struct of texts, numbers and lists always makes JSON.
    pretty(&serde_json::to_value(report).unwrap_or_default())
}

/// Count and score of a layout: part of a placement file, and of the reports of `pack` and `count`.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ScoreReport {
    /// Copies on the sheet in all.
    pub placed: usize,
    /// Copies that must be there in all.
    pub wanted: usize,
    /// Copies on the sheet, for every sticker's id in the order of the layout.
    #[schemars(with = "std::collections::BTreeMap<String, usize>")]
    pub by_sticker: Map<String, Value>,
    /// No layout under these rules holds more; proven.
    pub ceiling: usize,
    /// Area inside the cut lines over the usable area: the card less its margin and its zones.
    pub density: f64,
    /// Area inside the cut lines over the whole card.
    pub cover: f64,
    /// The smallest gap of any two cut lines; null with fewer than two pieces.
    pub smallest_gap_mm: Option<f64>,
}

impl ScoreReport {
    /// The score as it is written.
    pub fn new(score: &Score) -> ScoreReport {
        ScoreReport {
            placed: score.placed,
            wanted: score.wanted,
            by_sticker: score
                .by_sticker
                .iter()
                .map(|(id, count)| (id.to_string(), (*count).into()))
                .collect(),
            ceiling: score.ceiling.most,
            density: score.density,
            cover: score.cover,
            smallest_gap_mm: score.smallest_gap,
        }
    }
}

/// The answer of `pack` and of `count`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PackReport {
    /// What packing aimed for; null where nothing was packed.
    pub aim: Option<String>,
    /// The seed that was given; null where nothing was packed.
    pub seed: Option<u64>,
    /// How long the search took; null where nothing was packed.
    pub seconds: Option<f64>,
    /// How many rounds the search ran; null where nothing was packed.
    pub rounds: Option<u64>,
    /// Count and score.
    #[serde(flatten)]
    pub score: ScoreReport,
    /// Copies that could not be placed, by sticker id; empty if all are there.
    pub missing: Map<String, Value>,
    /// Broken rules and warnings.
    pub findings: Vec<FindingReport>,
    /// The sheet's height.
    pub height_mm: f64,
    /// How much larger the stickers are than in the layout given; 1 unless packing made them grow.
    pub scale: f64,
}

impl PackReport {
    /// The report on a layout that was not packed now; `pack` fills in the first four fields.
    pub fn new(layout: &Layout, score: &Score, findings: &[Finding]) -> PackReport {
        PackReport {
            aim: None,
            seed: None,
            seconds: None,
            rounds: None,
            score: ScoreReport::new(score),
            missing: score.missing.iter().map(|(id, count)| (id.to_string(), (*count).into())).collect(),
            findings: finding_reports(layout, findings),
            height_mm: layout.sheet.height,
            scale: 1.0,
        }
    }
}

/// The answer of `check`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckReport {
    /// How many hard rules are broken.
    pub broken: usize,
    /// How many warnings there are.
    pub warnings: usize,
    /// All of them, broken rules first.
    pub findings: Vec<FindingReport>,
}

impl CheckReport {
    /// The report on these findings of a layout.
    pub fn new(layout: &Layout, findings: &[Finding]) -> CheckReport {
        let broken = findings.iter().filter(|finding| finding.is_broken()).count();
        CheckReport { broken, warnings: findings.len() - broken, findings: finding_reports(layout, findings) }
    }
}

/// The answer of `rough`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RoughReport {
    /// The layout file that was written.
    pub layout: String,
    /// The id of the new sticker.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How wide it is without its border.
    pub width_mm: f64,
    /// How high it is without its border.
    pub height_mm: f64,
}

/// The answer of `trace`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TraceReport {
    /// The layout file that was written.
    pub layout: String,
    /// The sheet's width.
    pub width_mm: f64,
    /// The sheet's height.
    pub height_mm: f64,
    /// The stickers found, in the order of the layout.
    pub stickers: Vec<TracedReport>,
    /// What was left out because it is too small: the first thousand of each picture at most.
    pub dropped: Vec<DroppedReport>,
    /// How many parts were left out because they are too small.
    pub dropped_count: u64,
    /// What the artist should know.
    pub notes: Vec<NoteReport>,
    /// Broken rules and warnings.
    pub findings: Vec<FindingReport>,
}

/// One sticker that was found in artwork.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TracedReport {
    /// Its id in the layout.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The artwork it comes from.
    pub file: String,
    /// The width of its outline, without border.
    pub width_mm: f64,
    /// The height of its outline, without border.
    pub height_mm: f64,
    /// The area within its outline, without border.
    pub area_mm2: f64,
}

/// A part of artwork that was left out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DroppedReport {
    /// The artwork it is in.
    pub file: String,
    /// Its longer side.
    pub size_mm: f64,
    /// Its middle, from the left of the artwork.
    pub x_mm: f64,
    /// Its middle, from the top of the artwork.
    pub y_mm: f64,
}

/// Something that the artist should know about artwork.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NoteReport {
    /// The artwork it is about.
    pub file: String,
    /// The note as a sentence.
    pub text: String,
}

/// The answer of `export`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ExportReport {
    /// The placement file that was written.
    pub placement: Option<String>,
    /// The table that was written.
    pub table: Option<String>,
    /// The bundle that was written.
    pub bundle: Option<String>,
    /// What is in it.
    pub bundle_facts: Option<BundleFacts>,
    /// The guide that was written.
    pub guide: Option<String>,
    /// Its width and height in pixels; null for a drawing without pixels.
    pub guide_pixels: Option<[u32; 2]>,
    /// The pictures on the sheet; empty if nothing was made of them.
    pub pictures: Vec<PictureFacts>,
    /// The composed sheet that was written.
    pub sheet: Option<String>,
    /// Its size.
    pub sheet_size: Option<SheetSize>,
    /// The print that was written.
    pub print: Option<String>,
    /// What is on it.
    pub print_facts: Option<PrintFacts>,
    /// How the colours of sheet and print were shifted.
    pub correction: CorrectionFacts,
    /// The colour strip that was written.
    pub colours: Option<String>,
    /// The cut lines that were written.
    pub cut: Option<String>,
    /// What they take.
    pub cut_facts: Option<CutFacts>,
    /// How many hard rules are broken in what was written.
    pub broken: usize,
    /// How many warnings there are.
    pub warnings: usize,
}

/// A picture on the sheet, at the size at which it is printed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PictureFacts {
    /// The sticker's id; null for the background.
    pub sticker: Option<String>,
    /// The file that the layout names.
    pub file: String,
    /// How many of its pixels come to an inch of paper; null for a drawing without pixels.
    pub effective_ppi: Option<f64>,
    /// Whether that is less than the rules ask.
    pub coarse: bool,
}

/// How colours were shifted on their way to the paper, of 1 for the way from black to white.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CorrectionFacts {
    /// By how much a middle tone is lighter.
    pub lighter: f64,
    /// By how much it is warmer.
    pub warmer: f64,
}

/// What is on a print.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PrintFacts {
    /// The page's width.
    pub page_width_mm: f64,
    /// The page's height.
    pub page_height_mm: f64,
    /// How many sheets lie on it.
    pub sheets: usize,
    /// Whether there is a ruler of 100 mm beside them.
    pub ruler: bool,
}

/// The size of a composed sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SheetSize {
    /// Pixels in a row, bleed included.
    pub width_px: u32,
    /// Rows, bleed included.
    pub height_px: u32,
    /// How far the picture reaches past the card.
    pub bleed_px: u32,
    /// Pixels to the inch.
    pub resolution_ppi: f64,
    /// The card's width.
    pub card_width_mm: f64,
    /// The card's height.
    pub card_height_mm: f64,
}

/// What a cut takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CutFacts {
    /// Of how many sheets it is: one, or all of the page.
    pub sheets: usize,
    /// How many kiss lines there are.
    pub kiss_lines: usize,
    /// How many points they go through.
    pub nodes: usize,
    /// How many of them are chords, because no curve was near enough or kept the spacing.
    pub lines_of_chords: usize,
    /// Their length.
    pub kiss_mm: f64,
    /// The length of the card's line, once.
    pub through_mm: f64,
    /// How often it is gone over.
    pub passes: u32,
    /// The way of the lifted blade between the kiss lines, from the sheet's corner on.
    pub travel_mm: f64,
    /// The same in the order of the pieces.
    pub travel_in_file_order_mm: f64,
    /// What no order can undercut.
    pub least_travel_mm: f64,
}

/// The answer of `room`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RoomReport {
    /// The least diameter that was looked for.
    pub least_mm: f64,
    /// Round cut lines that could all lie on the sheet together, the largest first.
    pub dots: Vec<DotReport>,
    /// Whether the search for them came to its end.
    pub complete: bool,
    /// Stickers of the layout of which a copy would fit, each by itself, the best first.
    pub stickers: Vec<FitReport>,
}

/// A round cut line that would fit into the empty room.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DotReport {
    /// Its middle, from the left.
    pub x_mm: f64,
    /// Its middle, from the top.
    pub y_mm: f64,
    /// How large it is: less than two micrometres short of the largest there is.
    pub diameter_mm: f64,
}

/// A sticker of which a copy would fit into the empty room.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitReport {
    /// Its id in the layout.
    pub sticker: String,
    /// What it is called.
    pub name: String,
    /// Where its own (0, 0) would lie, from the left.
    pub x_mm: f64,
    /// Where its own (0, 0) would lie, from the top.
    pub y_mm: f64,
    /// How it would be turned.
    pub turn_deg: f64,
    /// Whether it would be flipped.
    pub mirrored: bool,
    /// How large its drawing would be, as a share of its size now; the largest found, not proven to be the largest.
    pub scale: f64,
}

/// One broken rule or one warning.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingReport {
    /// Which rule.
    pub rule: &'static str,
    /// `broken` or `warning`.
    pub severity: &'static str,
    /// Which pieces, by their position in the layout, counted from 0.
    pub pieces: Vec<usize>,
    /// What these pieces are called.
    pub names: Vec<String>,
    /// The id of the sticker that a warning is about.
    pub sticker: Option<String>,
    /// The zone that is too near.
    pub zone: Option<String>,
    /// What was measured.
    pub measured: f64,
    /// What is asked.
    pub limit: f64,
    /// What both numbers count: `mm`, `mm2`, `deg` or `ppi`.
    pub unit: &'static str,
    /// Where; null if the sticker is not on the sheet.
    pub at: Option<MarkReport>,
    /// The finding as a sentence.
    pub text: String,
}

/// Where to look, in sheet millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum MarkReport {
    /// A spot.
    Spot(Spot),
    /// The shortest way between two lines.
    Way {
        /// Where it begins.
        from: Spot,
        /// Where it ends.
        to: Spot,
    },
}

/// A point of the sheet, or of a sticker where that is said.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Spot {
    /// From the left.
    pub x_mm: f64,
    /// From the top.
    pub y_mm: f64,
}

impl Spot {
    /// The point as it is written.
    pub fn new(point: Point) -> Spot {
        Spot { x_mm: point.x, y_mm: point.y }
    }
}

/// The findings as they are written, in their order.
pub fn finding_reports(layout: &Layout, findings: &[Finding]) -> Vec<FindingReport> {
    findings.iter().map(|finding| finding_report(layout, finding)).collect()
}

fn finding_report(layout: &Layout, finding: &Finding) -> FindingReport {
    FindingReport {
        rule: finding.rule.name(),
        severity: match finding.rule.severity() {
            Severity::Broken => "broken",
            Severity::Warning => "warning",
        },
        pieces: finding.pieces.clone(),
        names: finding.pieces.iter().map(|&index| layout.piece_name(index)).collect(),
        sticker: finding.sticker.as_deref().map(str::to_owned),
        zone: finding.zone.clone(),
        measured: finding.measured,
        limit: finding.limit,
        unit: finding.unit.name(),
        at: finding.mark.map(|mark| match mark {
            Mark::Point(point) => MarkReport::Spot(Spot::new(point)),
            Mark::Segment(from, to) => MarkReport::Way { from: Spot::new(from), to: Spot::new(to) },
        }),
        text: finding.sentence(layout, LengthUnit::Millimetres),
    }
}
