//! Discs on sheets and in squares: counts and radii to be held against.

/// Round stickers on a sheet of 100 by 150 mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DiscSheet {
    /// Least distance to the sheet's edge, in millimetres.
    pub margin: f64,
    /// Of each disc, in millimetres.
    pub diameter: f64,
    /// Least distance of two discs, in millimetres.
    pub spacing: f64,
    /// How many another program has laid out: a floor for a good packer, not an optimum.
    pub constructed: usize,
    /// How many the best simple lattice holds.
    pub lattice: usize,
    /// No layout holds more: N. Oler, "An inequality in the geometry of numbers", Acta Mathematica 105, 1961.
    pub bound: usize,
}

/// Where the constructed counts are from.
pub const CONSTRUCTED: &str = "built by a program of its own (soft discs from random starts, then steps of linear \
                               programming, 14 s a count), each layout checked to 3e-6 mm; not published";

const fn sheet(
    margin: f64,
    diameter: f64,
    spacing: f64,
    constructed: usize,
    lattice: usize,
    bound: usize,
) -> DiscSheet {
    DiscSheet { margin, diameter, spacing, constructed, lattice, bound }
}

/// All sheets of discs.
pub const DISC_SHEETS: [DiscSheet; 28] = [
    sheet(3.0, 10.0, 2.0, 104, 104, 109),
    sheet(3.0, 12.0, 2.0, 73, 72, 80),
    sheet(3.0, 15.0, 2.0, 49, 48, 53),
    sheet(3.0, 20.0, 2.0, 28, 28, 31),
    sheet(3.0, 20.0, 3.0, 26, 25, 29),
    sheet(3.0, 25.0, 2.0, 18, 18, 20),
    sheet(3.0, 25.0, 3.0, 16, 16, 19),
    sheet(3.0, 30.0, 2.0, 13, 13, 14),
    sheet(3.0, 30.0, 3.0, 12, 11, 14),
    sheet(3.0, 35.0, 2.0, 8, 8, 10),
    sheet(3.0, 40.0, 2.0, 6, 6, 8),
    sheet(3.0, 40.0, 3.0, 6, 6, 8),
    sheet(3.0, 45.0, 3.0, 6, 6, 6),
    sheet(3.0, 50.0, 2.0, 4, 4, 5),
    sheet(5.0, 10.0, 2.0, 93, 91, 101),
    sheet(5.0, 12.0, 2.0, 68, 68, 74),
    sheet(5.0, 15.0, 2.0, 46, 45, 50),
    sheet(5.0, 20.0, 2.0, 26, 25, 29),
    sheet(5.0, 20.0, 3.0, 25, 25, 27),
    sheet(5.0, 25.0, 2.0, 16, 16, 19),
    sheet(5.0, 25.0, 3.0, 15, 15, 18),
    sheet(5.0, 30.0, 2.0, 12, 11, 13),
    sheet(5.0, 30.0, 3.0, 11, 11, 13),
    sheet(5.0, 35.0, 2.0, 8, 8, 10),
    sheet(5.0, 40.0, 2.0, 6, 6, 7),
    sheet(5.0, 40.0, 3.0, 6, 6, 7),
    sheet(5.0, 45.0, 3.0, 5, 4, 6),
    sheet(5.0, 50.0, 2.0, 3, 3, 5),
];

/// Where the radii are from.
pub const RADII_SOURCE: &str = "E. Specht's tables of best known packings; proved optimal for N up to 30, see Szabó, \
                                Markót, Csendes, Specht, Casado, García, \"New Approaches to Circle Packing in a \
                                Square\", Springer 2007, table 1.2";

/// The largest radius of N equal discs in a square of side 1, for N from 1.
pub const RADII: [f64; 30] = [
    0.5,
    0.292_893_218_813_452,
    0.254_333_095_030_250,
    0.25,
    0.207_106_781_186_548,
    0.187_680_601_147_477,
    0.174_457_630_187_009,
    0.170_540_688_701_054,
    0.166_666_666_666_667,
    0.148_204_322_565_229,
    0.142_399_237_695_800,
    0.139_958_844_038_428,
    0.133_993_513_499_008,
    0.129_331_793_710_034,
    0.127_166_547_515_125,
    0.125,
    0.117_196_742_782_949,
    0.115_521_432_464_000,
    0.112_265_437_570_996,
    0.111_382_347_512_480,
    0.106_860_212_352_064,
    0.105_665_296_756_977,
    0.102_802_323_379_784,
    0.101_381_800_431_614,
    0.1,
    0.096_362_339_009_887,
    0.095_420_001_747_937,
    0.093_672_833_832_785,
    0.092_463_144_040_310,
    0.091_671_057_985_988,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_are_those_of_oler() {
        for row in DISC_SHEETS {
            let reach = 2.0 * row.margin + row.diameter;
            let (width, height, apart) = (100.0 - reach, 150.0 - reach, row.diameter + row.spacing);
            let most = 2.0 / 3f64.sqrt() * width * height / (apart * apart) + (width + height) / apart + 1.0;
            assert_eq!(most.floor() as usize, row.bound, "{row:?}");
            assert!(row.lattice <= row.constructed && row.constructed <= row.bound, "{row:?}");
        }
    }

    #[test]
    fn radii_fall_and_meet_the_closed_forms() {
        assert!(RADII.is_sorted_by(|a, b| a > b));
        let root = f64::sqrt;
        for (count, radius) in [
            (2, 1.0 / (2.0 + root(2.0))),
            (5, 1.0 / (2.0 + 2.0 * root(2.0))),
            (7, 1.0 / (4.0 + root(3.0))),
            (13, 0.133_993_513_499_008),
            (14, 1.0 / (6.0 + root(3.0))),
            (18, 1.0 / (2.0 + 24.0 / root(13.0))),
            (25, 0.1),
        ] {
            assert!((RADII[count - 1] - radius).abs() < 1e-12, "{count}");
        }
    }
}
