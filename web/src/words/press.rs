//! Words for what leaves.

words! {
    press_title: "What leaves", "What leaves";
    cautions: "Cautions", "Cautions";
    save_placement: "Save placement file", "Save placement file";
    placement_text: "Every piece with its place, turn and cut line, for other programs. Opens here again.", "Every piece with its place, turn and cut line, for other programs. Opens here again.";
    save_table: "Save table", "Save table";
    table_text: "One row a piece: centre in mm and in pixels, turn, bounds. For a spreadsheet.", "One row a piece: centre in mm and in pixels, turn, bounds. For a spreadsheet.";
    save_layout: "Save layout", "Save layout";
    layout_text: "The whole sheet as it is, to go on with another day or at the command line.", "The whole sheet as it is, to go on with another day or at the command line.";
    save_cut: "Save cut lines", "Save cut lines";
    cut_text: "Kiss lines of the stickers and the through line of the card, true size, as SVG.", "Kiss lines of the stickers and the through line of the card, true size, as SVG.";
    save_failed: "The browser did not save the file. Allow downloads for this page and try again.", "The browser did not save the file. Allow downloads for this page and try again.";
    nothing_on_sheet: "Nothing lies on the sheet yet. Fill the sheet or put stickers on it first.", "Nothing lies on the sheet yet. Fill the sheet or put stickers on it first.";
    go_to_findings: "Show findings", "Show findings";
    cutting_preview: "Cut lines at true proportions", "Cut lines at true proportions";
    kiss_line: "kiss line, through the face only", "kiss line, through the face only";
    through_line: "through line, the card's edge", "through line, the card's edge";
}

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

words! {
    caution_blade: "A cutter’s blade is sharp and moves by itself: hands, hair and pets away while it runs, never leave it running alone, change blades with the plug out. The machine’s manual goes before anything said here.", "A cutter’s blade is sharp and moves by itself: hands, hair and pets away while it runs, never leave it running alone, change blades with the plug out. The machine’s manual goes before anything said here.";
    caution_passes: "Several passes can cut through the mat and into the machine: try on a test card first.", "Several passes can cut through the mat and into the machine: try on a test card first.";
    caution_small: "Small stickers are small parts: those that fit the small-parts cylinder (31.7 mm across, 16 CFR 1501) are not for children under three. The law where you sell decides on labels and testing.", "Small stickers are small parts: those that fit the small-parts cylinder (31.7 mm across, 16 CFR 1501) are not for children under three. The law where you sell decides on labels and testing.";
}
pub fn small_parts(count: usize) -> String {
    if count == 1 {
        "One sticker of this sheet is such a part.".to_owned()
    } else {
        format!("{count} stickers of this sheet are such parts.")
    }
}
