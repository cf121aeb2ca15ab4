//! `page`: sheets on pages of label stock, of one layout or of several.

mod made;
mod one;
mod picture;
mod several;

use stickleaf_sheet::{Layout, LengthUnit};

use crate::options::PageCommand;
use crate::{Outcome, Trouble, disk, layouts};

/// Prints the plan of one page, or of all pages that are needed if numbers of sheets are wanted.
pub fn run(typed: &PageCommand) -> Result<Outcome, Trouble> {
    let counts = typed.wanted.len();
    if counts != typed.layouts.len() && (counts > 0 || typed.layouts.len() > 1) {
        return Err(Trouble::WantedCounts { layouts: typed.layouts.len(), counts });
    }
    let keep: Vec<_> = typed.layouts.iter().map(|file| &**file).collect();
    let targets = made::targets(typed);
    for (i, target) in targets.iter().enumerate() {
        if disk::is_standard(target) {
            // The answer itself goes there.
            return Err(Trouble::OutputTwice);
        }
        disk::can_write(target, &keep)?;
        if targets[..i].contains(target) {
            return Err(Trouble::WouldOverwrite { file: disk::shown(target) });
        }
    }
    let layouts: Vec<Layout> =
        typed.layouts.iter().map(|file| layouts::read(file)).collect::<Result<_, _>>()?;
    match &layouts[..] {
        [layout] if counts == 0 => one::run(typed, layout)?,
        _ => several::run(typed, &layouts)?,
    }
    Ok(Outcome::Done)
}

fn mm(length: f64) -> String {
    LengthUnit::Millimetres.number(length)
}

fn size(width: f64, height: f64) -> String {
    format!("{} x {} mm", mm(width), mm(height))
}
