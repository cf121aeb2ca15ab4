//! Printers and cutters side by side: when a run is done, and in which order its pages are best made.
//!
//! A page is cut once it is printed. Pages go through in one order: whichever printer, then whichever cutter is free first
//! takes the next one. The order is S. M. Johnson's, best for one printer and one cutter (Naval Research Logistics Quarterly
//! 1, 1954): first pages that cut longer than they print, those quickest to print first; then the others, those quickest to
//! cut last. With several machines it is a good order and no more; the bound says how good.

use serde::Serialize;

/// Pages of one kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pages {
    /// How many.
    pub count: u64,
    /// How long each takes to print, in seconds.
    pub print_s: f64,
    /// How long each takes to cut.
    pub cut_s: f64,
}

/// How a run goes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Schedule {
    /// The kinds in the order in which they are made, by their position.
    pub order: Vec<usize>,
    /// When the last page is printed, in seconds from the start.
    pub printed_s: f64,
    /// When the last page is cut.
    pub done_s: f64,
    /// No order and no sharing out is done sooner.
    pub at_best_s: f64,
}

/// How these pages go through so many printers and cutters; there is at least one of each.
pub fn schedule(pages: &[Pages], printers: u32, cutters: u32) -> Schedule {
    let mut order: Vec<usize> = (0..pages.len()).filter(|&kind| pages[kind].count > 0).collect();
    let rank = |kind: usize| {
        let Pages { print_s, cut_s, .. } = pages[kind];
        if print_s < cut_s { (0, print_s) } else { (1, -cut_s) }
    };
    order.sort_by(|&a, &b| {
        let ((first, key), (other_first, other_key)) = (rank(a), rank(b));
        first.cmp(&other_first).then(key.total_cmp(&other_key)).then(a.cmp(&b))
    });
    let mut printing = Machines::new(printers);
    let mut cutting = Machines::new(cutters);
    for &kind in &order {
        for _ in 0..pages[kind].count {
            let printed = printing.run(0.0, pages[kind].print_s);
            cutting.run(printed, pages[kind].cut_s);
        }
    }
    let at_best_s = at_best(pages, printers, cutters);
    Schedule { order, printed_s: printing.last(), done_s: cutting.last(), at_best_s }
}

/// A bound: neither kind of machine can do all its work sooner, and cutting begins after something was printed, printing
/// ends before something is cut.
fn at_best(pages: &[Pages], printers: u32, cutters: u32) -> f64 {
    let pages = || pages.iter().filter(|pages| pages.count > 0);
    let work = |time: fn(&Pages) -> f64, machines: u32| {
        let all: f64 = pages().map(|pages| time(pages) * pages.count as f64).sum();
        let longest = pages().map(time).fold(0.0, f64::max);
        (all / f64::from(machines.max(1))).max(longest)
    };
    let least = |time: fn(&Pages) -> f64| pages().map(time).reduce(f64::min).unwrap_or(0.0);
    let print: fn(&Pages) -> f64 = |pages| pages.print_s;
    let cut: fn(&Pages) -> f64 = |pages| pages.cut_s;
    (work(print, printers) + least(cut)).max(least(print) + work(cut, cutters))
}

/// Machines of one kind: when each is free.
struct Machines {
    free_s: Vec<f64>,
}

impl Machines {
    fn new(count: u32) -> Machines {
        // More machines than this stand in no artist's home, and cost time here.
        Machines { free_s: vec![0.0; count.clamp(1, 1000) as usize] }
    }

    /// The machine that is free first takes a page that is there at this time; when it is done with it.
    fn run(&mut self, there_s: f64, takes_s: f64) -> f64 {
        let first =
            (0..self.free_s.len()).min_by(|&a, &b| self.free_s[a].total_cmp(&self.free_s[b])).unwrap_or(0);
        let done = self.free_s[first].max(there_s) + takes_s;
        self.free_s[first] = done;
        done
    }

    fn last(&self) -> f64 {
        self.free_s.iter().copied().fold(0.0, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn one_printer_and_one_cutter_by_hand() {
        // Three pages, 60 s to print and 100 s to cut: cutting begins at 60 s and goes on without a wait, 60 + 300 = 360.
        let plan = schedule(&[Pages { count: 3, print_s: 60.0, cut_s: 100.0 }], 1, 1);
        assert_eq!((plan.printed_s, plan.done_s, plan.at_best_s), (180.0, 360.0, 360.0));
        // Two cutters: page 1 from 60 to 160, page 2 from 120 to 220, page 3 from 180 to 280.
        assert_eq!(schedule(&[Pages { count: 3, print_s: 60.0, cut_s: 100.0 }], 1, 2).done_s, 280.0);
    }

    /// The five jobs of Johnson's rule as it is taught, from memory: times 5 2, 1 6, 9 7, 3 8, 10 4 are done in the order 2, 4,
    /// 3, 5, 1 after 30.
    #[test]
    fn johnsons_order_is_found() {
        let jobs = [(5.0, 2.0), (1.0, 6.0), (9.0, 7.0), (3.0, 8.0), (10.0, 4.0)];
        let pages = jobs.map(|(print_s, cut_s)| Pages { count: 1, print_s, cut_s });
        let plan = schedule(&pages, 1, 1);
        assert_eq!((plan.order, plan.done_s), (vec![1, 3, 2, 4, 0], 30.0));
    }

    #[test]
    fn nothing_to_do_takes_no_time() {
        assert_eq!(schedule(&[], 1, 1).done_s, 0.0);
    }

    proptest! {
        #[test]
        fn no_schedule_beats_its_bound(
            kinds in prop::collection::vec((1..8_u64, 1.0..100.0f64, 1.0..100.0f64), 1..5), printers in 1..4_u32, cutters in 1..4_u32,
        ) {
            let pages: Vec<Pages> =
                kinds.into_iter().map(|(count, print_s, cut_s)| Pages { count, print_s, cut_s }).collect();
            let plan = schedule(&pages, printers, cutters);
            prop_assert!(plan.done_s >= plan.at_best_s - 1e-9 && plan.done_s >= plan.printed_s);
        }
    }
}
