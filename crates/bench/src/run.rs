//! Searches side by side, by the clock: the one place where threads are started and time is taken.

use std::cmp::Ordering;
use std::io::{self, IsTerminal, Write};
use std::sync::atomic::{self, AtomicBool};
use std::sync::mpsc;
use std::time::{Duration, Instant};

use stickleaf_packer::{Aim, PackError, PackOptions, Progress, Search};
use stickleaf_sheet::Layout;

/// How long to search, and on how many threads.
#[derive(Clone, Debug)]
pub struct Effort {
    /// When to look at the best so far, in seconds from the start, rising; the search ends at the last one.
    pub seconds: Vec<f64>,
    /// How many searches run side by side.
    pub threads: u32,
}

/// The best so far at some moment.
#[derive(Clone, Debug)]
pub struct Found {
    /// The best layout.
    pub layout: Layout,
    /// How far the search had come that found it.
    pub progress: Progress,
    /// How many wanted copies have no place in it.
    pub missing: usize,
}

/// Which of two layouts is better: the lesser one is.
pub type Order = fn(&Found, &Found) -> Ordering;

/// Fewest missing, then most placed, then densest: what counts when filling.
pub fn fuller(a: &Found, b: &Found) -> Ordering {
    (a.missing.cmp(&b.missing))
        .then(b.progress.placed.cmp(&a.progress.placed))
        .then(b.progress.density.total_cmp(&a.progress.density))
}

/// The best of all threads at each of the moments of the effort.
///
/// The searches have the seeds 1000 times `seed`, and the numbers that follow. Setting up counts as searching. A
/// moment's layout is the one that is there when the round ends in which the moment passes: some milliseconds late.
/// A search that has nothing left to try keeps its layout for all later moments, and ends the others.
///
/// Progress goes to standard error, headed by `title`.
pub fn search(
    layout: &Layout,
    aim: Aim,
    seed: u64,
    effort: &Effort,
    order: Order,
    title: &str,
) -> Result<Vec<Found>, PackError> {
    let start = Instant::now();
    let enough = AtomicBool::new(false);
    let (teller, told) = mpsc::channel::<Progress>();
    let by_thread = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..u64::from(effort.threads))
            .map(|thread| {
                let seed = seed.wrapping_mul(1000).wrapping_add(thread);
                let (teller, enough) = (teller.clone(), &enough);
                let options = PackOptions { aim, seed };
                scope.spawn(move || one(layout, &options, start, &effort.seconds, enough, &teller))
            })
            .collect();
        drop(teller);
        show(&told, start, title);
        let answers = workers.into_iter().map(|worker| match worker.join() {
            Ok(answer) => answer,
            Err(panic) => std::panic::resume_unwind(panic),
        });
        answers.collect::<Result<Vec<Vec<Found>>, PackError>>()
    })?;
    let best = |moment: usize| {
        let found = by_thread.iter().map(|moments| &moments[moment]);
        found.min_by(|a, b| order(a, b)).expect("there is at least one thread").clone()
    };
    Ok((0..effort.seconds.len()).map(best).collect())
}

/// One search to the last moment.
fn one(
    layout: &Layout,
    options: &PackOptions,
    start: Instant,
    moments: &[f64],
    enough: &AtomicBool,
    teller: &mpsc::Sender<Progress>,
) -> Result<Vec<Found>, PackError> {
    let mut search = Search::new(layout, options)?;
    let mut progress = search.progress();
    let mut found = Vec::new();
    while let Some(&moment) = moments.get(found.len()) {
        let is_over = progress.finished || enough.load(atomic::Ordering::Relaxed);
        if is_over || start.elapsed().as_secs_f64() >= moment {
            let missing = search.missing().iter().map(|(_, count)| count).sum();
            found.push(Found { layout: search.best(), progress, missing });
            enough.fetch_or(progress.finished, atomic::Ordering::Relaxed);
        } else {
            progress = search.round();
            // Nobody listening is no reason to stop.
            let _ = teller.send(progress);
        }
    }
    Ok(found)
}

/// Shows the latest news until all searches have ended: on one line of a terminal, else a line now and then.
fn show(told: &mpsc::Receiver<Progress>, start: Instant, title: &str) {
    let is_terminal = io::stderr().is_terminal();
    let pause = Duration::from_millis(if is_terminal { 250 } else { 10_000 });
    let mut shown = start;
    for progress in told {
        if shown.elapsed() < pause {
            continue;
        }
        shown = Instant::now();
        let text = format!(
            "{title}: {:.0} s, round {}, {} placed, density {:.2} %",
            start.elapsed().as_secs_f64(),
            progress.round,
            progress.placed,
            100.0 * progress.density
        );
        let mut err = io::stderr().lock();
        let _ = if is_terminal { write!(err, "\r{text}\x1b[K") } else { writeln!(err, "{text}") };
        let _ = err.flush();
    }
    if is_terminal {
        let _ = write!(io::stderr(), "\r\x1b[K");
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Sticker, Wanted};

    use super::*;

    #[test]
    fn every_moment_has_a_layout_and_later_ones_are_no_worse() {
        let mut dot = Sticker::new("dot", "Dot", path::parse("M-6 0A6 6 0 1 1 6 0A6 6 0 1 1 -6 0Z").unwrap());
        dot.wanted = Wanted::AtLeast(1);
        let layout = Layout { stickers: vec![dot], ..Layout::default() };
        let effort = Effort { seconds: vec![0.2, 1.0], threads: 2 };
        let found = search(&layout, Aim::Fill, 1, &effort, fuller, "dots").unwrap();
        assert_eq!(found.len(), 2);
        assert_ne!(fuller(&found[1], &found[0]), Ordering::Greater);
        assert!(found[1].progress.placed > 1 && found[1].layout.pieces.len() == found[1].progress.placed);
    }

    #[test]
    fn a_search_that_has_met_its_aim_ends_at_once() {
        let mut plate = Sticker::new("plate", "Plate", path::parse("M-20 -20H20V20H-20Z").unwrap());
        plate.wanted = Wanted::Exactly(1);
        let layout = Layout { stickers: vec![plate], ..Layout::default() };
        let effort = Effort { seconds: vec![600.0], threads: 2 };
        let start = Instant::now();
        let found = search(&layout, Aim::Place, 1, &effort, fuller, "plate").unwrap();
        assert_eq!((found[0].missing, found[0].progress.placed), (0, 1));
        assert!(start.elapsed().as_secs() < 60);
    }
}
