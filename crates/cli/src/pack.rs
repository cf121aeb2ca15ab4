//! `pack`: the stickers of a layout onto its sheet.

use std::time::{Duration, Instant};

use stickleaf_files::Packed;
use stickleaf_files::packed::note;
use stickleaf_files::report::{self, PackReport};
use stickleaf_packer::{Aim, Progress};
use stickleaf_sheet::{LengthUnit, check, score};

use crate::check::{outcome, summary};
use crate::count::{missing_line, score_lines};
use crate::options::{AimWord, PackCommand};
use crate::search::{Budget, search};
use crate::{Outcome, Trouble, disk, layouts, output};

/// How long to search if neither time nor rounds are given.
const USUAL_TIME: Duration = Duration::from_secs(10);

/// Packs and writes the layout; lacking if wanted copies found no place, which are named.
pub fn run(typed: &PackCommand) -> Result<Outcome, Trouble> {
    let (aim, word) = aim(typed.aim);
    let on_standard = disk::is_standard(&typed.output);
    if on_standard && typed.report.is_json() {
        return Err(Trouble::OutputTwice);
    }
    disk::can_write(&typed.output, &[&typed.layout])?;
    let layout = layouts::read(&typed.layout)?;
    let budget = Budget {
        seed: typed.seed,
        threads: typed.threads,
        time: search_time(typed.seconds, typed.rounds),
        rounds: typed.rounds,
    };
    let start = Instant::now();
    let found = search(&layout, aim, &budget)
        .map_err(|source| Trouble::Pack { file: disk::shown(&typed.layout), source })?;
    let elapsed = start.elapsed().as_secs_f64();
    let (mut layout, rounds) = (found.layout, found.progress.round);
    note(&mut layout, &Packed::new(word, found.seed, rounds, env!("CARGO_PKG_VERSION")));
    layouts::write(&typed.output, &layout, &typed.layout)?;
    let (score, findings) = (score(&layout), check(&layout));
    if typed.report.is_json() {
        let report = PackReport {
            aim: Some(word.to_owned()),
            seed: Some(found.seed),
            seconds: Some(elapsed),
            rounds: Some(rounds),
            scale: found.progress.scale,
            ..PackReport::new(&layout, &score, &findings)
        };
        output::print(&report::text(&report));
    } else if !on_standard {
        output::print(&score_lines(&layout, &score));
        output::print(&reached_line(aim, &found.progress));
        output::print(&format!("{}\n", summary(&findings)));
        output::print(&format!("wrote {}\n", typed.output.display()));
    }
    if let Some(line) = missing_line(&layout, &score) {
        output::tell(&line);
        return Ok(Outcome::Lacking);
    }
    Ok(outcome(&findings))
}

/// How long to search: as asked, else until the rounds are done, else for the usual time.
pub fn search_time(seconds: Option<f64>, rounds: Option<u64>) -> Option<Duration> {
    match (seconds, rounds) {
        (Some(seconds), _) => Some(Duration::from_secs_f64(seconds)),
        (None, Some(_)) => None,
        (None, None) => Some(USUAL_TIME),
    }
}

/// What growing or shortening came to, in words; nothing for the other aims.
fn reached_line(aim: Aim, progress: &Progress) -> String {
    match aim {
        Aim::Grow => format!("size           {:.2} % of that in the layout given\n", 100.0 * progress.scale),
        Aim::Shorten => format!("sheet          {} high\n", LengthUnit::Millimetres.text(progress.height)),
        Aim::Place | Aim::Fill | Aim::Even => String::new(),
    }
}

/// The aim and its name in files.
fn aim(word: AimWord) -> (Aim, &'static str) {
    match word {
        AimWord::Place => (Aim::Place, "place"),
        AimWord::Fill => (Aim::Fill, "fill"),
        AimWord::Grow => (Aim::Grow, "grow"),
        AimWord::Even => (Aim::Even, "even"),
        AimWord::Shorten => (Aim::Shorten, "shorten"),
    }
}
