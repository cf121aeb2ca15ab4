//! The page plan against counts that were published or proved elsewhere.

use stickleaf_shop::page::{Stock, plan};

/// Identical rectangles in a rectangle: length and width of the large one, of the small one, and how many lie in it at
/// most. Sources: instances as listed in the literature on pallet loading (Dowsland 1984; Nelissen 1995; Morabito and
/// Morales 1998; Lins, Lins and Morabito 2003; Birgin, Lobato and Morabito 2010; Martins and Dell 2008), from memory; each
/// optimum was proved again by an independent program, by exhaustion or by the bound of areas.
const RECTANGLES: [(f64, f64, f64, f64, usize); 30] = [
    (14.0, 10.0, 3.0, 2.0, 23),
    (19.0, 17.0, 5.0, 3.0, 21),
    (22.0, 16.0, 5.0, 3.0, 23),
    (30.0, 22.0, 7.0, 4.0, 23),
    (32.0, 22.0, 5.0, 4.0, 34),
    (34.0, 23.0, 5.0, 4.0, 38),
    (37.0, 30.0, 8.0, 3.0, 45),
    (40.0, 25.0, 7.0, 3.0, 47),
    (42.0, 39.0, 9.0, 4.0, 45),
    (43.0, 26.0, 7.0, 3.0, 53),
    (49.0, 28.0, 8.0, 3.0, 57),
    (52.0, 33.0, 9.0, 4.0, 47),
    (53.0, 51.0, 9.0, 7.0, 42),
    (56.0, 52.0, 12.0, 5.0, 48),
    (57.0, 34.0, 7.0, 4.0, 69),
    (57.0, 44.0, 12.0, 5.0, 41),
    (61.0, 35.0, 10.0, 3.0, 71),
    (61.0, 38.0, 10.0, 3.0, 77),
    (63.0, 44.0, 8.0, 5.0, 69),
    (67.0, 37.0, 11.0, 3.0, 75),
    (67.0, 40.0, 11.0, 3.0, 81),
    (74.0, 46.0, 7.0, 5.0, 97),
    (74.0, 49.0, 11.0, 4.0, 82),
    (81.0, 39.0, 9.0, 7.0, 49),
    (86.0, 52.0, 9.0, 5.0, 99),
    (86.0, 82.0, 15.0, 11.0, 42),
    (93.0, 46.0, 13.0, 4.0, 82),
    (106.0, 59.0, 13.0, 5.0, 96),
    (124.0, 81.0, 21.0, 10.0, 47),
    (141.0, 71.0, 13.0, 8.0, 96),
];

/// Sheets on paper: width and height of the paper, margin, gap, and how many sheets of each of [`SHEETS`] at most.
/// Source: computed by an independent integer program and five-block planner, each of them proved.
const PAPERS: [(f64, f64, f64, f64, [usize; 5]); 45] = [
    (297.0, 210.0, 0.0, 0.0, [3, 4, 3, 8, 11]),
    (297.0, 210.0, 0.0, 2.0, [3, 2, 3, 6, 11]),
    (297.0, 210.0, 0.0, 5.0, [3, 2, 3, 6, 11]),
    (297.0, 210.0, 5.0, 0.0, [3, 2, 2, 6, 11]),
    (297.0, 210.0, 5.0, 2.0, [2, 2, 2, 5, 10]),
    (297.0, 210.0, 5.0, 5.0, [2, 2, 2, 5, 9]),
    (297.0, 210.0, 10.0, 0.0, [2, 2, 2, 5, 10]),
    (297.0, 210.0, 10.0, 2.0, [2, 2, 2, 5, 9]),
    (297.0, 210.0, 10.0, 5.0, [2, 2, 2, 5, 9]),
    (420.0, 297.0, 0.0, 0.0, [6, 8, 6, 16, 24]),
    (420.0, 297.0, 0.0, 2.0, [6, 6, 6, 14, 23]),
    (420.0, 297.0, 0.0, 5.0, [6, 6, 6, 13, 21]),
    (420.0, 297.0, 5.0, 0.0, [6, 6, 6, 14, 22]),
    (420.0, 297.0, 5.0, 2.0, [6, 6, 5, 12, 22]),
    (420.0, 297.0, 5.0, 5.0, [6, 5, 5, 12, 19]),
    (420.0, 297.0, 10.0, 0.0, [6, 5, 5, 12, 22]),
    (420.0, 297.0, 10.0, 2.0, [5, 5, 5, 12, 21]),
    (420.0, 297.0, 10.0, 5.0, [5, 5, 5, 11, 19]),
    (450.0, 320.0, 0.0, 0.0, [9, 9, 8, 18, 28]),
    (450.0, 320.0, 0.0, 2.0, [8, 9, 8, 17, 26]),
    (450.0, 320.0, 0.0, 5.0, [8, 8, 8, 16, 24]),
    (450.0, 320.0, 5.0, 0.0, [8, 8, 8, 16, 26]),
    (450.0, 320.0, 5.0, 2.0, [8, 8, 8, 16, 24]),
    (450.0, 320.0, 5.0, 5.0, [8, 8, 8, 14, 23]),
    (450.0, 320.0, 10.0, 0.0, [8, 8, 6, 16, 24]),
    (450.0, 320.0, 10.0, 2.0, [6, 8, 6, 14, 23]),
    (450.0, 320.0, 10.0, 5.0, [6, 6, 6, 14, 22]),
    (279.4, 215.9, 0.0, 0.0, [3, 3, 3, 6, 11]),
    (279.4, 215.9, 0.0, 2.0, [3, 3, 3, 6, 10]),
    (279.4, 215.9, 0.0, 5.0, [3, 3, 3, 6, 10]),
    (279.4, 215.9, 5.0, 0.0, [3, 2, 3, 5, 10]),
    (279.4, 215.9, 5.0, 2.0, [3, 2, 3, 5, 10]),
    (279.4, 215.9, 5.0, 5.0, [3, 2, 2, 5, 8]),
    (279.4, 215.9, 10.0, 0.0, [2, 2, 2, 5, 9]),
    (279.4, 215.9, 10.0, 2.0, [2, 2, 2, 5, 8]),
    (279.4, 215.9, 10.0, 5.0, [2, 2, 2, 5, 8]),
    (431.8, 279.4, 0.0, 0.0, [6, 6, 6, 13, 23]),
    (431.8, 279.4, 0.0, 2.0, [6, 6, 6, 13, 21]),
    (431.8, 279.4, 0.0, 5.0, [6, 6, 6, 12, 20]),
    (431.8, 279.4, 5.0, 0.0, [6, 6, 6, 13, 21]),
    (431.8, 279.4, 5.0, 2.0, [6, 6, 6, 12, 20]),
    (431.8, 279.4, 5.0, 5.0, [6, 6, 6, 12, 18]),
    (431.8, 279.4, 10.0, 0.0, [6, 6, 6, 12, 20]),
    (431.8, 279.4, 10.0, 2.0, [6, 6, 6, 12, 18]),
    (431.8, 279.4, 10.0, 5.0, [6, 6, 5, 11, 17]),
];

const SHEETS: [(f64, f64); 5] = [(150.0, 100.0), (148.0, 105.0), (152.4, 101.6), (105.0, 74.0), (90.0, 55.0)];

fn stock(width: f64, height: f64, printer_margin: f64, gap: f64) -> Stock {
    Stock { width, height, printer_margin, reach: None, gap }
}

#[test]
fn published_optima_of_identical_rectangles_are_found_and_proved() {
    for (length, width, a, b, most) in RECTANGLES {
        let plan = plan(&stock(length, width, 0.0, 0.0), a, b).unwrap();
        let found = (plan.positions.len(), plan.proven_most);
        assert_eq!(found, (most, most), "{a} x {b} in {length} x {width}");
    }
}

#[test]
fn sheets_on_ordinary_paper_are_found_and_proved() {
    for (width, height, margin, gap, counts) in PAPERS {
        for ((a, b), most) in SHEETS.into_iter().zip(counts) {
            let plan = plan(&stock(width, height, margin, gap), a, b).unwrap();
            let found = (plan.positions.len(), plan.proven_most);
            assert_eq!(found, (most, most), "{a} x {b} on {width} x {height}, margin {margin}, gap {gap}");
        }
    }
}

#[test]
fn a_hard_case_of_the_literature_is_proved() {
    // (1600, 1230, 137, 95) holds 147 by a published plan (from memory), and at most 151 by areas.
    let plan = plan(&stock(1600.0, 1230.0, 0.0, 0.0), 137.0, 95.0).unwrap();
    assert_eq!((plan.positions.len(), plan.proven_most), (147, 147));
}

#[test]
fn tiny_sheets_end_at_once_and_say_what_they_know() {
    // 210 x 297 sheets of 1 x 1 mm fill A4; and 3 x 2 mm ones leave no more than the rows at the edge.
    let whole = plan(&stock(210.0, 297.0, 0.0, 0.0), 1.0, 1.0).unwrap();
    assert_eq!((whole.positions.len(), whole.proven_most), (210 * 297, 210 * 297));
    let many = plan(&stock(210.0, 297.0, 0.0, 0.0), 3.0, 2.0).unwrap();
    assert!(many.positions.len() >= 70 * 148 && many.proven_most <= 210 * 297 / 6);
}
