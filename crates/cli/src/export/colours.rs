//! The colour strip, and the correction that is read off it.

use std::path::Path;

use stickleaf_files::report::CorrectionFacts;
use stickleaf_press::tone::Correction;
use stickleaf_press::{Progress, strip};
use stickleaf_sheet::Layout;

use crate::options::ExportCommand;
use crate::pictures::LayoutPictures;
use crate::{Trouble, disk, output};

/// The resolution of a strip of pixels if nothing is said.
const USUAL_PPI: f64 = 300.0;

/// The correction that was asked for.
pub fn correction(typed: &ExportCommand) -> Correction {
    typed.patch.unwrap_or(Correction { lighter: typed.lighter, warmer: typed.warmer })
}

/// The same for a report.
pub fn facts(typed: &ExportCommand) -> CorrectionFacts {
    let Correction { lighter, warmer } = correction(typed);
    CorrectionFacts { lighter, warmer }
}

/// Writes the strip as the end of the name says, and how to read it.
pub fn write(
    layout: &Layout,
    pictures: &mut LayoutPictures<'_>,
    typed: &ExportCommand,
    path: &Path,
) -> Result<(), Trouble> {
    let trouble = |source| Trouble::Press { file: disk::shown(path), source };
    let mut go_on = |_| true;
    let strip = strip::of_layout(layout, pictures, &mut Progress::new(&mut go_on)).map_err(trouble)?;
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("svg") => disk::write(path, &strip.svg())?,
        Some("png") => {
            disk::write_bytes(path, &strip.png(typed.ppi.unwrap_or(USUAL_PPI)).map_err(trouble)?)?;
        }
        _ => disk::write_bytes(path, &strip.pdf())?,
    }
    if strip.patches.is_empty() {
        output::tell("the sheet has no colours, so the strip is empty");
    } else {
        output::tell(
            "its patches become lighter to the right and warmer below: print it as you print the sheets, find the column and row that look as on the screen, and give both \
             digits as --patch, as in --patch 43; 33 is the sheet as it is",
        );
    }
    Ok(())
}
