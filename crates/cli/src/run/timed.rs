//! The machine's speed and lift time from two jobs that were timed.

use serde::Serialize;
use stickleaf_press::cut::{self, CutOptions, Depths};
use stickleaf_sheet::Layout;
use stickleaf_shop::cutting::{TimedJob, fitted};
use stickleaf_shop::settings::Settings;

use crate::options::{TimedPart, TimedWord};
use crate::{Trouble, disk, layouts};

/// The figures that were found, for the report.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Found {
    /// Cutting, in millimetres a second.
    pub speed_mm_s: f64,
    /// Putting the blade down and lifting it.
    pub lift_s: f64,
}

/// Puts the speed and the lift time into the settings at which the jobs take as long as they did; each is one sheet, or a part
/// of it, without loading.
pub fn put(settings: &mut Settings, jobs: &[TimedPart]) -> Result<Option<Found>, Trouble> {
    let [first, second] = jobs else {
        return if jobs.is_empty() { Ok(None) } else { Err(Trouble::TimedCount { count: jobs.len() }) };
    };
    settings.validate().map_err(Trouble::Settings)?;
    let passes = settings.cutting.passes;
    let [first, second] = [job(first, passes)?, job(second, passes)?];
    let machine = fitted(&settings.cutting.machine, [&first, &second]).map_err(Trouble::Timed)?;
    settings.cutting.machine = machine;
    Ok(Some(Found { speed_mm_s: machine.speed_mm_s, lift_s: machine.lift_s }))
}

fn job(part: &TimedPart, passes: u32) -> Result<TimedJob, Trouble> {
    let layout: Layout = layouts::read(&part.layout)?;
    let depths = match part.what {
        TimedWord::All => Depths::All,
        TimedWord::Kiss => Depths::Kiss,
        TimedWord::Through => Depths::Through,
    };
    let plan = cut::plan(&layout, &CutOptions { passes, ..CutOptions::default() });
    Ok(TimedJob { work: cut::work_of(&plan, depths), seconds: part.seconds })
}

/// What was found, in words.
pub fn line(found: &Found, wrote: Option<&std::path::Path>) -> String {
    let kept = wrote.map_or_else(String::new, |file| format!("; written to {}", disk::shown(file)));
    format!(
        "by the two timed jobs the machine cuts {:.1} mm a second and takes {:.2} s to put the blade down and lift it{kept}",
        found.speed_mm_s, found.lift_s
    )
}
