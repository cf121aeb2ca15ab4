//! How long it takes to look at one spot for a piece, and to move it, among few pieces and among many.

use std::hint::black_box;
use std::time::Instant;

use stickleaf_packer::probe::Probe;
use stickleaf_sheet::Layout;

/// Spots looked at in a go, moves made in a go, and goes, of which the quickest counts.
const SPOTS: usize = 20_000;
const MOVES: usize = 500;
const GOES: usize = 9;

/// What the parts of a move take.
#[derive(Clone, Copy, Debug)]
pub struct Phases {
    /// Pieces whose rectangles are in the way of a spot, on average.
    pub near: f64,
    /// Finding them, in nanoseconds a spot: the broad phase.
    pub broad: f64,
    /// Looking up the gaps to them in no-fit polygons, in nanoseconds a spot: the narrow phase.
    pub narrow: f64,
    /// The whole move of a piece to the cheapest spot found, in microseconds.
    pub whole: f64,
}

/// Measured among the pieces of a layout, each turned to the nearest quarter, at spots all over the sheet.
pub fn phases(layout: &Layout, seed: u64) -> Phases {
    let probe = Probe::new(layout, SPOTS, seed);
    // The no-fit polygons are made before the clock starts.
    let (near, _, _) = (probe.broad(), probe.broad_and_narrow(), probe.moves(MOVES, seed));
    let broad = quickest(|| probe.broad()) / SPOTS as f64;
    let both = quickest(|| probe.broad_and_narrow()) / SPOTS as f64;
    let whole = quickest(|| probe.moves(MOVES, seed)) / MOVES as f64;
    Phases {
        near: near as f64 / SPOTS as f64,
        broad: broad * 1e9,
        narrow: (both - broad).max(0.0) * 1e9,
        whole: whole * 1e6,
    }
}

/// The seconds of the quickest of some goes.
fn quickest<T>(mut work: impl FnMut() -> T) -> f64 {
    let mut go = || {
        let start = Instant::now();
        black_box(work());
        start.elapsed().as_secs_f64()
    };
    (0..GOES).map(|_| go()).fold(f64::INFINITY, f64::min)
}
