//! How long the same rounds take in the page and in the native library.

use std::time::Instant;

use stickleaf_packer::{Aim, PackError, PackOptions, Search};
use stickleaf_sheet::{Layout, Rules, Sheet, Wanted};

use crate::browser::page::{End, Page, word};
use crate::options::BrowserCommand;
use crate::output;
use crate::table::{Table, figure, median};
use crate::trouble::Trouble;

/// How many times as long the page may take.
const AIM: f64 = 2.0;

const TITLE_BAND: &str = include_str!("../../../../sample-layouts/rooftop-night/title-band.json");
const PLAIN: &str = include_str!("../../../../sample-layouts/rooftop-night/plain.json");
const FRAME: &str = include_str!("../../../../sample-layouts/rooftop-night/frame.json");
const EVERYTHING: &str = include_str!("../../../../sample-layouts/rooftop-night/everything.json");

/// A layout and what is done with it.
struct Work {
    name: &'static str,
    /// The text of its file.
    layout: String,
    aim: Aim,
    rounds: u64,
}

/// What one layout came to.
pub struct Pace {
    work: Work,
    placed: usize,
    /// Medians, in seconds.
    native: f64,
    browser: f64,
    /// Whether every answer of the page was, in every digit, that of the library.
    pub is_same: bool,
}

/// Packs each layout in turn natively, on one thread, and in the page, so many times after one that does not count.
pub fn measure(page: &mut Page, seed: u64, runs: usize) -> Result<Vec<Pace>, Trouble> {
    works().into_iter().map(|work| pace(page, work, seed, runs)).collect()
}

fn pace(page: &mut Page, work: Work, seed: u64, runs: usize) -> Result<Pace, Trouble> {
    let (mut native, mut browser) = (Vec::new(), Vec::new());
    let (mut placed, mut is_same) = (0, true);
    for run in 0..=runs {
        let (seconds, here) =
            pack(&work, seed).map_err(|source| Trouble::Pack { name: work.name.to_owned(), source })?;
        let there = page.pack(work.name, &work.layout, work.aim, seed, End::Rounds(work.rounds))?;
        placed = here.pieces.len();
        is_same &= digits(&here) == digits(&there.layout);
        if run > 0 {
            native.push(seconds);
            browser.push(there.seconds);
            eprintln!("{} run {run}: native {seconds:.2} s, page {:.2} s", work.name, there.seconds);
        }
    }
    let middle = |seconds| median(seconds).unwrap_or(f64::NAN);
    Ok(Pace { work, placed, native: middle(native), browser: middle(browser), is_same })
}

/// What a worker of the page does, done here: from the text of a layout to the best one after so many rounds.
fn pack(work: &Work, seed: u64) -> Result<(f64, Layout), PackError> {
    let start = Instant::now();
    let layout = read(&work.layout);
    let mut search = Search::new(&layout, &PackOptions { aim: work.aim, seed })?;
    let mut progress = search.progress();
    while !progress.finished && progress.round < work.rounds {
        progress = search.round();
    }
    let best = search.best();
    Ok((start.elapsed().as_secs_f64(), best))
}

/// Every digit that decides: a layout's file without the fields that nobody here reads, such as the note on packing.
fn digits(layout: &Layout) -> String {
    stickleaf_files::write(&Layout { carried: Default::default(), ..layout.clone() })
}

fn works() -> Vec<Work> {
    let bare = |text: &str| Layout { pieces: Vec::new(), ..read(text) };
    let work = |name, layout: Layout, aim, rounds| Work {
        name,
        layout: stickleaf_files::write(&layout),
        aim,
        rounds,
    };
    vec![
        work("title band", bare(TITLE_BAND), Aim::Fill, 900),
        work("everything", bare(EVERYTHING), Aim::Fill, 500),
        work("plain", bare(PLAIN), Aim::Grow, 200),
        work("frame", bare(FRAME), Aim::Even, 200),
        work("strip", strip(bare(EVERYTHING)), Aim::Shorten, 300),
    ]
}

/// Two copies of each sticker on a strip that is longer than need be, which asks for no margin and no spacing.
fn strip(layout: Layout) -> Layout {
    let mut layout = layout;
    layout.background = None;
    layout.sheet = Sheet { width: 150.0, height: 600.0, corner_radius: 0.0, ..layout.sheet };
    layout.rules = Rules { spacing: 0.0, margin: 0.0, border: 0.0, ..layout.rules };
    for sticker in &mut layout.stickers {
        sticker.wanted = Wanted::Exactly(2);
    }
    layout
}

fn read(text: &str) -> Layout {
    stickleaf_files::read(text).expect("a sample that the tests hold to the rules can be read")
}

/// The table, and what it means.
pub fn report(paces: &[Pace], typed: &BrowserCommand) -> String {
    let heads = ["layout", "aim", "pieces", "rounds", "native s", "browser s", "ratio", "same answer"];
    let mut table = Table::new(heads);
    table.rows = paces.iter().map(row).collect();
    let most = paces.iter().map(|pace| pace.browser / pace.native).fold(0.0, f64::max);
    let verdict = if most <= AIM { "met" } else { "not met" };
    format!(
        "{}\n\
         The same rounds from the same seed, {}, in one worker of the page and natively on one thread, by turns: medians \
         of {} runs after one that does not count, on {}. The page's time goes from its word to the worker until the \
         worker's last word, so it holds the worker's start.\n\n\
         - The aim, at most {AIM} times as long in the page: {verdict}, the largest ratio is {most:.2}.\n\
         - Same answer: every digit of the layout that the page saves is that of the library's.\n\n",
        table.markdown(),
        typed.seed,
        typed.runs,
        output::machine(),
    )
}

fn row(pace: &Pace) -> Vec<String> {
    vec![
        pace.work.name.to_owned(),
        word(pace.work.aim).to_owned(),
        pace.placed.to_string(),
        pace.work.rounds.to_string(),
        figure(Some(pace.native), 2),
        figure(Some(pace.browser), 2),
        figure(Some(pace.browser / pace.native), 2),
        if pace.is_same { "yes" } else { "NO" }.to_owned(),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_layout_can_be_packed_and_a_last_bit_shows() {
        for mut work in works() {
            work.rounds = 1;
            let (_, mut layout) = pack(&work, 1).unwrap();
            let before = digits(&layout);
            assert_eq!(before, digits(&read(&before)), "{}", work.name);
            if let Some(piece) = layout.pieces.first_mut() {
                piece.placement.at.x = piece.placement.at.x.next_up();
                assert_ne!(before, digits(&layout), "{}", work.name);
            }
        }
    }
}
