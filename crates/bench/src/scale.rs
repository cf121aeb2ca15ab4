//! `scale`: how fast the search goes with few pieces and with many, and what a move takes.

use std::time::Instant;

use stickleaf_outline::{Outline, Region, shapes};
use stickleaf_packer::{Aim, PackOptions, Search};
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted};

use crate::options::ScaleCommand;
use crate::phases::phases;
use crate::table::{Table, figure};
use crate::trouble::Trouble;
use crate::verify::spaced;
use crate::{Outcome, output};

/// The share of the sheet that the cut lines, grown by half the spacing, take up when all wanted copies are there.
const SHARE: f64 = 0.75;

/// How fast a search is: what it tells by itself.
#[derive(Clone, Copy, Debug)]
struct Pace {
    /// Setting up, in seconds.
    setup: f64,
    /// Until all wanted copies lay there, in seconds from the start; nothing if that did not happen.
    complete: Option<f64>,
    /// Rounds done.
    rounds: u64,
    /// The longest round, in seconds: how long a stop button may have to wait.
    longest: f64,
    /// Seconds in all rounds.
    searching: f64,
    /// Pieces at the end.
    placed: usize,
}

/// Runs all sizes and prints the table.
pub fn run(typed: &ScaleCommand) -> Result<Outcome, Trouble> {
    let heads = [
        "wanted",
        "sheet mm",
        "set up s",
        "complete s",
        "rounds / s",
        "mean round ms",
        "longest ms",
        "placed",
    ];
    let mut table = Table::new(heads);
    let mut moves = Table::new(["pieces", "near", "broad ns", "narrow ns", "both ns", "move µs"]);
    let mut is_sound = true;
    for &pieces in &typed.pieces {
        let layout = layout(pieces);
        let options = PackOptions { aim: Aim::Fill, seed: typed.seed };
        let (pace, best) = pace(&layout, &options, typed.seconds)
            .map_err(|source| Trouble::Pack { name: format!("{pieces} pieces"), source })?;
        is_sound &= spaced(&best).is_ok();
        eprintln!("{pieces} pieces: {} rounds, {} placed", pace.rounds, pace.placed);
        table.rows.push(vec![
            pieces.to_string(),
            format!("{:.0} × {:.0}", layout.sheet.width, layout.sheet.height),
            format!("{:.3}", pace.setup),
            figure(pace.complete, 2),
            format!("{:.1}", pace.rounds as f64 / pace.searching),
            format!("{:.1}", 1000.0 * pace.searching / pace.rounds.max(1) as f64),
            format!("{:.1}", 1000.0 * pace.longest),
            pace.placed.to_string(),
        ]);
        let phases = phases(&best, typed.seed);
        moves.rows.push(vec![
            best.pieces.len().to_string(),
            format!("{:.2}", phases.near),
            format!("{:.0}", phases.broad),
            format!("{:.0}", phases.narrow),
            format!("{:.0}", phases.broad + phases.narrow),
            format!("{:.1}", phases.whole),
        ]);
        output::keep(&typed.output, &format!("{}\n{}", table.markdown(), moves.markdown()))?;
    }
    let text = format!(
        "{}\n\
         Six shapes, as many copies wanted as the first column says, more welcome, on a sheet of which they take up \
         {:.0} % with half the spacing round them; one search of {} s, seed {}, on {}. Complete: when all wanted copies \
         lay there.{}\n\n\
         {}\n\
         Among the pieces of those layouts, each turned to the nearest quarter, at spots all over the sheet. Near: pieces \
         whose rectangles are in the way of a spot. Broad: finding them. Narrow: looking up what is lacking to each in \
         no-fit polygons. Move: one piece to the cheapest spot found, some sixty spots and the descent from the best.\n",
        table.markdown(),
        100.0 * SHARE,
        typed.seconds,
        typed.seed,
        output::machine(),
        if is_sound { "" } else { " A layout is INVALID." },
        moves.markdown(),
    );
    output::finish(&typed.output, &text)?;
    Ok(if is_sound { Outcome::Sound } else { Outcome::Lacking })
}

/// Six shapes in so many copies, on a sheet with the sides of A6 that is just large enough for a good layout.
fn layout(pieces: u32) -> Layout {
    let rules = Rules::default();
    let outlines: [Outline; 6] = [
        shapes::l(18.0),
        shapes::star(5, 12.0, 6.0),
        shapes::comb(3, 4.0),
        shapes::crescent(9.0),
        shapes::disc(7.0, 48),
        shapes::blob(3, 10.0),
    ];
    let sticker = |(index, outline): (usize, Outline)| {
        let mut sticker = Sticker::new(format!("shape-{index}"), format!("Shape {index}"), outline);
        // The first ones take what does not divide by six.
        sticker.wanted = Wanted::AtLeast(pieces / 6 + u32::from(pieces % 6 > index as u32));
        sticker.turns = Turns::Any;
        sticker
    };
    let stickers: Vec<Sticker> = outlines.into_iter().enumerate().map(sticker).collect();
    let grown = |sticker: &Sticker| {
        let area = Region::of(&sticker.cut_line(&rules)).grown(rules.spacing / 2.0, 0.01).area();
        f64::from(sticker.wanted.least()) * area
    };
    let area = stickers.iter().map(grown).sum::<f64>() / SHARE;
    let (wide, high) = (105.0, 148.0);
    // The usable part has this area; the margin comes on top.
    let by = (area / (wide * high)).sqrt();
    let side = |length: f64| (length * by + 2.0 * rules.margin).ceil();
    Layout {
        sheet: Sheet { width: side(wide), height: side(high), ..Sheet::default() },
        rules,
        stickers,
        ..Layout::default()
    }
}

fn pace(
    layout: &Layout,
    options: &PackOptions,
    seconds: f64,
) -> Result<(Pace, Layout), stickleaf_packer::PackError> {
    let start = Instant::now();
    let mut search = Search::new(layout, options)?;
    let setup = start.elapsed().as_secs_f64();
    let mut progress = search.progress();
    let (mut complete, mut longest) = (None, 0.0_f64);
    while !progress.finished && start.elapsed().as_secs_f64() < seconds {
        let before = Instant::now();
        progress = search.round();
        longest = longest.max(before.elapsed().as_secs_f64());
        if complete.is_none() && search.missing().is_empty() {
            complete = Some(start.elapsed().as_secs_f64());
        }
    }
    let searching = start.elapsed().as_secs_f64() - setup;
    let pace = Pace { setup, complete, rounds: progress.round, longest, searching, placed: progress.placed };
    Ok((pace, search.best()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_grow_with_the_pieces() {
        let wanted =
            |pieces: u32| layout(pieces).stickers.iter().map(|sticker| sticker.wanted.least()).sum::<u32>();
        assert_eq!((wanted(10), wanted(100), wanted(1000)), (10, 100, 1000));
        let usable = |pieces: u32| {
            let sheet = layout(pieces).sheet;
            (sheet.width - 8.0) * (sheet.height - 8.0)
        };
        let ratio = usable(1000) / usable(100);
        assert!((ratio - 10.0).abs() < 0.3, "{ratio}");
    }

    #[test]
    fn what_a_move_takes_is_more_than_nothing() {
        let options = PackOptions { aim: Aim::Fill, seed: 1 };
        let (_, best) = pace(&layout(12), &options, 0.5).unwrap();
        let phases = phases(&best, 1);
        assert!(phases.broad > 0.0 && phases.whole > 0.0, "{phases:?}");
        assert!(phases.near > 0.0 && phases.near < best.pieces.len() as f64, "{phases:?}");
    }

    #[test]
    fn a_short_run_tells_its_pace() {
        let options = PackOptions { aim: Aim::Fill, seed: 1 };
        let (pace, best) = pace(&layout(6), &options, 1.0).unwrap();
        assert!(pace.rounds > 0 && pace.placed == best.pieces.len(), "{pace:?}");
        assert!(pace.searching > 0.0 && pace.longest <= pace.searching, "{pace:?}");
    }
}
