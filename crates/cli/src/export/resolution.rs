//! How finely the pictures of a sheet are printed, as a table for people and as facts for programs.

use stickleaf_files::report::PictureFacts;
use stickleaf_press::{PrintedPicture, Subject};
use stickleaf_sheet::Layout;

use crate::columns::columns;

/// The table, one row for each picture of pixels, coarse ones marked; drawings without pixels share a line. Empty without
/// pictures.
pub fn table(layout: &Layout, printed: &[PrintedPicture]) -> String {
    let heading = ["picture of", "pixels to the inch", ""].map(str::to_owned).to_vec();
    let rows = printed.iter().filter_map(|picture| {
        let resolution = format!("{:.0}", picture.effective_ppi?);
        let remark = if picture.is_coarse(&layout.rules) {
            format!("warning: under {:.0} it prints soft", layout.rules.least_ppi)
        } else {
            String::new()
        };
        Some(vec![name(layout, &picture.subject), resolution, remark])
    });
    let rows: Vec<Vec<String>> = [heading].into_iter().chain(rows).collect();
    let mut text = if rows.len() > 1 { columns(&rows) } else { String::new() };
    match printed.len() + 1 - rows.len() {
        0 => {}
        1 => text.push_str("1 picture without pixels, sharp at any size\n"),
        several => text.push_str(&format!("{several} pictures without pixels, sharp at any size\n")),
    }
    text
}

fn name(layout: &Layout, subject: &Subject) -> String {
    match subject {
        Subject::Sticker(id) => layout.sticker(id).map_or(id.to_string(), |sticker| sticker.name.clone()),
        Subject::Background => "the background".to_owned(),
    }
}

/// The same for a report.
pub fn facts(layout: &Layout, printed: &[PrintedPicture]) -> Vec<PictureFacts> {
    let fact = |picture: &PrintedPicture| PictureFacts {
        sticker: match &picture.subject {
            Subject::Sticker(id) => Some(id.to_string()),
            Subject::Background => None,
        },
        file: picture.file.clone(),
        effective_ppi: picture.effective_ppi,
        coarse: picture.is_coarse(&layout.rules),
    };
    printed.iter().map(fact).collect()
}
