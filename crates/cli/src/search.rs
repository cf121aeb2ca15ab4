//! Searching on several threads until the time, the rounds or the patience is over.

use std::cmp::Ordering;
use std::io::{self, IsTerminal, Write};
use std::sync::atomic::{AtomicBool, Ordering as Memory};
use std::sync::mpsc;
use std::time::{Duration, Instant};

use stickleaf_packer::{Aim, PackError, PackOptions, Progress, Search};
use stickleaf_sheet::Layout;

use crate::output;

/// How to search.
#[derive(Clone, Copy, Debug)]
pub struct Budget {
    /// The seed of the first search; the others follow.
    pub seed: u64,
    /// How many searches run side by side.
    pub threads: u32,
    /// When to stop, if by the clock.
    pub time: Option<Duration>,
    /// When to stop, if by rounds.
    pub rounds: Option<u64>,
}

/// What a search came to.
pub struct Found {
    /// The best layout.
    pub layout: Layout,
    /// How far the search came.
    pub progress: Progress,
    /// How many wanted copies have no place.
    pub missing: usize,
    /// The seed of the search that found it.
    pub seed: u64,
}

/// Set once the person at the keyboard has had enough.
static STOP: AtomicBool = AtomicBool::new(false);

/// Whether the person at the keyboard has had enough.
pub fn is_stopped() -> bool {
    STOP.load(Memory::Relaxed)
}

/// The best that the searches find: fewest missing, then best by the aim's own measure, most placed, densest, and of
/// equals the one with the lowest seed.
///
/// Progress is shown on standard error. Ctrl-C ends the search and keeps the best so far; a second one ends the program.
pub fn search(layout: &Layout, aim: Aim, budget: &Budget) -> Result<Found, PackError> {
    let seeds = (0..u64::from(budget.threads)).map(|i| budget.seed.wrapping_add(i));
    let searches = seeds
        .map(|seed| Ok((seed, Search::new(layout, &PackOptions { aim, seed })?)))
        .collect::<Result<Vec<(u64, Search)>, PackError>>()?;
    // Without a handler Ctrl-C ends the program at once, which is no reason not to search.
    let _ = ctrlc::set_handler(|| {
        if STOP.swap(true, Memory::Relaxed) {
            std::process::exit(130);
        }
    });
    let deadline = budget.time.map(|time| Instant::now() + time);
    // By the clock, one search with nothing left to try ends all; by rounds each does its own, so that the answer does
    // not depend on which thread is quicker.
    let enough = AtomicBool::new(false);
    let (teller, told) = mpsc::channel::<(usize, Progress)>();
    let found = std::thread::scope(|scope| {
        let workers: Vec<_> = searches
            .into_iter()
            .enumerate()
            .map(|(index, (seed, mut search))| {
                let (teller, enough) = (teller.clone(), &enough);
                scope.spawn(move || {
                    let mut progress = search.progress();
                    while !progress.finished
                        && budget.rounds.is_none_or(|rounds| progress.round < rounds)
                        && deadline.is_none_or(|deadline| Instant::now() < deadline)
                        && !is_stopped()
                        && !enough.load(Memory::Relaxed)
                    {
                        progress = search.round();
                        // Nobody listening is no reason to stop.
                        let _ = teller.send((index, progress));
                    }
                    if progress.finished && budget.rounds.is_none() {
                        enough.store(true, Memory::Relaxed);
                    }
                    let missing = search.missing().iter().map(|(_, count)| count).sum();
                    Found { layout: search.best(), progress, missing, seed }
                })
            })
            .collect();
        drop(teller);
        show(aim, &told, workers.len());
        // A thread ends early only through a panic, which has been reported by then; the others' answers count.
        workers.into_iter().filter_map(|worker| worker.join().ok()).collect::<Vec<_>>()
    });
    if is_stopped() {
        output::tell("stopped; the best layout so far is kept");
    }
    let better = |a: &Found, b: &Found| a.missing.cmp(&b.missing).then(order(aim, &a.progress, &b.progress));
    // Of equals the first counts, which has the lowest seed.
    Ok(found.into_iter().min_by(better).expect("a search on the only thread has panicked"))
}

/// The better of two that lack as much comes first: by what the aim asks for, then by number and density.
fn order(aim: Aim, a: &Progress, b: &Progress) -> Ordering {
    let gap = |progress: &Progress| progress.gap.unwrap_or(0.0);
    let by_aim = match aim {
        Aim::Place | Aim::Fill => Ordering::Equal,
        Aim::Grow => b.scale.total_cmp(&a.scale),
        Aim::Even => gap(b).total_cmp(&gap(a)),
        Aim::Shorten => a.height.total_cmp(&b.height),
    };
    by_aim.then(b.placed.cmp(&a.placed)).then(b.density.total_cmp(&a.density))
}

/// Shows the best progress until all searches have ended: on one line of a terminal, else a line now and then.
fn show(aim: Aim, told: &mpsc::Receiver<(usize, Progress)>, searches: usize) {
    let is_terminal = io::stderr().is_terminal();
    let pause = Duration::from_millis(if is_terminal { 200 } else { 1000 });
    let mut latest: Vec<Option<Progress>> = vec![None; searches];
    let mut shown: Option<Instant> = None;
    let mut dirty = false;
    let line = |latest: &[Option<Progress>]| {
        let most = latest.iter().flatten().map(|progress| progress.placed).max();
        let full = latest.iter().flatten().filter(|progress| Some(progress.placed) == most);
        let best = full.min_by(|a, b| order(aim, a, b));
        best.map(|progress| progress_line(aim, progress)).unwrap_or_default()
    };
    let print = |text: String| {
        let mut err = io::stderr().lock();
        let _ = if is_terminal { write!(err, "\r{text}\x1b[K") } else { writeln!(err, "{text}") };
        let _ = err.flush();
    };
    for (index, progress) in told {
        latest[index] = Some(progress);
        dirty = true;
        if shown.is_none_or(|shown| shown.elapsed() >= pause) {
            print(line(&latest));
            shown = Some(Instant::now());
            dirty = false;
        }
    }
    if dirty {
        print(line(&latest));
    }
    if is_terminal && shown.is_some() {
        let _ = writeln!(io::stderr());
    }
}

fn progress_line(aim: Aim, progress: &Progress) -> String {
    let reached = match aim {
        Aim::Place | Aim::Fill => String::new(),
        Aim::Grow => format!("{:.2} % of the size, ", 100.0 * progress.scale),
        Aim::Even => progress.gap.map(|gap| format!("smallest gap {gap:.2} mm, ")).unwrap_or_default(),
        Aim::Shorten => format!("{:.2} mm high, ", progress.height),
    };
    format!(
        "round {}: {} placed, {} wanted, at most {}, {reached}density {:.1} %: {}",
        progress.round,
        progress.placed,
        progress.wanted,
        progress.ceiling,
        100.0 * progress.density,
        progress.doing.text()
    )
}
