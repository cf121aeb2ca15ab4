//! Words for what leaves.

pub const PRESS_TITLE: &str = "What leaves";
pub const CAUTIONS: &str = "Cautions";
pub const SAVE_PLACEMENT: &str = "Save placement file";
pub const PLACEMENT_TEXT: &str =
    "Every piece with its place, turn and cut line, for other programs. Opens here again.";
pub const SAVE_TABLE: &str = "Save table";
pub const TABLE_TEXT: &str = "One row a piece: centre in mm and in pixels, turn, bounds. For a spreadsheet.";
pub const SAVE_LAYOUT: &str = "Save layout";
pub const LAYOUT_TEXT: &str = "The whole sheet as it is, to go on with another day or at the command line.";
pub const SAVE_CUT: &str = "Save cut lines";
pub const CUT_TEXT: &str = "Kiss lines of the stickers and the through line of the card, true size, as SVG.";
pub const SAVE_FAILED: &str =
    "The browser did not save the file. Allow downloads for this page and try again.";
pub const NOTHING_ON_SHEET: &str =
    "Nothing lies on the sheet yet. Fill the sheet or put stickers on it first.";
pub const GO_TO_FINDINGS: &str = "Show findings";
pub const CUTTING_PREVIEW: &str = "Cut lines at true proportions";
pub const KISS_LINE: &str = "kiss line, through the face only";
pub const THROUGH_LINE: &str = "through line, the card's edge";

pub fn pieces_and_size(pieces: usize, size: &str) -> String {
    if pieces == 1 { format!("1 piece on {size}") } else { format!("{pieces} pieces on {size}") }
}

pub fn saved(file: &str) -> String {
    format!("{file} is saved where this browser keeps downloads.")
}

pub fn broken_on_press(count: usize) -> String {
    if count == 1 {
        "One rule is broken. The files can be saved all the same; see to it before you cut.".to_owned()
    } else {
        format!("{count} rules are broken. The files can be saved all the same; see to them before you cut.")
    }
}

pub const CAUTION_BLADE: &str = "A cutter’s blade is sharp and moves by itself: hands, hair and pets away while it runs, never leave it running alone, change blades with the plug out. The machine’s manual goes before anything said here.";
pub const CAUTION_PASSES: &str =
    "Several passes can cut through the mat and into the machine: try on a test card first.";
pub const CAUTION_SMALL: &str = "Small stickers are small parts: those that fit the small-parts cylinder (31.7 mm across, 16 CFR 1501) are not for children under three. The law where you sell decides on labels and testing.";
pub fn small_parts(count: usize) -> String {
    if count == 1 {
        "One sticker of this sheet is such a part.".to_owned()
    } else {
        format!("{count} stickers of this sheet are such parts.")
    }
}
