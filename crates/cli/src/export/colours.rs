//! The colour strip, and the correction that is read off it.

use std::path::Path;

use stickleaf_files::report::CorrectionFacts;
use stickleaf_press::{Progress, strip};
use stickleaf_sheet::{Correction, Layout};

use crate::options::ExportCommand;
use crate::pictures::LayoutPictures;
use crate::{Trouble, disk, output};

/// The resolution of a strip of pixels if nothing is said.
const USUAL_PPI: f64 = 300.0;

/// The correction that was asked for, else that of the layout.
pub fn correction(layout: &Layout, typed: &ExportCommand) -> Correction {
    if typed.no_correction {
        return Correction::NONE;
    }
    let typed_numbers = (typed.lighter.is_some() || typed.warmer.is_some()).then(|| Correction {
        lighter: typed.lighter.unwrap_or_default(),
        warmer: typed.warmer.unwrap_or_default(),
    });
    typed.patch.or(typed_numbers).or(layout.correction).unwrap_or_default()
}

/// The same for a report.
pub fn facts(layout: &Layout, typed: &ExportCommand) -> CorrectionFacts {
    let Correction { lighter, warmer } = correction(layout, typed);
    CorrectionFacts { lighter, warmer }
}

/// That sheet or print have the layout's own correction, where nothing else was typed.
pub fn line(layout: &Layout, typed: &ExportCommand) -> Option<String> {
    let is_typed = typed.no_correction || typed.patch.is_some() || typed.lighter.or(typed.warmer).is_some();
    let is_made = typed.sheet.is_some() || typed.print.file.is_some();
    let own = layout.correction.filter(|own| !own.is_none() && !is_typed && is_made)?;
    Some(format!(
        "colours as the layout says: lighter by {}, warmer by {}; --no-correction leaves them as they are",
        own.lighter, own.warmer
    ))
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
