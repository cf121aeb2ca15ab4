//! Densities that others have published for strips.

/// Where the figures below are from.
pub const SOURCE: &str = "J. Gardeyn, G. Vanden Berghe, T. Wauters, \"An open-source heuristic to reboot 2D nesting \
                          research\", arXiv 2509.13329v1, 2025: mean of 100 runs of 20 minutes on 3 threads of an AMD \
                          Ryzen 9 7950X (table 2), best (table 3)";

/// How the published figures differ from ours. Source: the same paper.
pub const WIDENED: &str = "There, touching counts as overlap, so the strips of blaz1, fu, jakobs1, jakobs2, shapes0 and \
                           shapes1 are 0.01 % wider than in the data; here they are not.";

/// What has been published for an instance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Published {
    /// The instance's name.
    pub name: &'static str,
    /// How many pieces it has, copies counted.
    pub pieces: usize,
    /// The width of its strip in its own units.
    pub width: f64,
    /// The best density, in per cent of the strip's part that is used.
    pub best: f64,
    /// The mean density over the runs; nothing for a jigsaw, of which only the optimum is known.
    pub mean: Option<f64>,
}

/// The thirteen instances of the [`SOURCE`], then two jigsaws.
///
/// The jigsaws are cut from a square of 100 by 100, so that their optimum is 100 per cent by construction.
const TABLE: [Published; 15] = [
    row("albano", 24, 4900.0, 89.82, 89.47),
    row("blaz1", 28, 15.0, 86.23, 84.68),
    row("dagli", 30, 60.0, 90.17, 89.26),
    row("fu", 12, 38.0, 92.41, 92.24),
    row("jakobs1", 25, 40.0, 89.26, 89.09),
    row("jakobs2", 25, 70.0, 87.73, 84.77),
    row("mao", 20, 2550.0, 86.87, 86.14),
    row("marques", 24, 104.0, 92.02, 90.93),
    row("shapes0", 43, 40.0, 69.98, 68.60),
    row("shapes1", 43, 40.0, 76.73, 75.69),
    row("shirts", 99, 40.0, 90.92, 89.66),
    row("swim", 48, 5752.0, 79.83, 78.26),
    row("trousers", 64, 79.0, 92.62, 91.73),
    jigsaw("dighe1", 16),
    jigsaw("dighe2", 10),
];

const fn row(name: &'static str, pieces: usize, width: f64, best: f64, mean: f64) -> Published {
    Published { name, pieces, width, best, mean: Some(mean) }
}

const fn jigsaw(name: &'static str, pieces: usize) -> Published {
    Published { name, pieces, width: 100.0, best: 100.0, mean: None }
}

/// What has been published for the instance of this name, whatever its case. `shapes2` is another name of `blaz1`.
pub fn published(name: &str) -> Option<Published> {
    let name = name.to_lowercase();
    let name = if name == "shapes2" { "blaz1" } else { &name };
    TABLE.into_iter().find(|row| row.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn means_over_the_instances_are_those_of_the_source() {
        let rows: Vec<Published> = TABLE.into_iter().filter(|row| row.mean.is_some()).collect();
        assert_eq!(rows.len(), 13);
        let mean = |value: fn(&Published) -> f64| rows.iter().map(value).sum::<f64>() / 13.0;
        // Source: the last rows of tables 2 and 3.
        assert!((mean(|row| row.best) - 86.51).abs() < 0.005, "{}", mean(|row| row.best));
        assert!((mean(|row| row.mean.unwrap_or_default()) - 85.42).abs() < 0.005);
    }

    #[test]
    fn names_are_found_whatever_their_case() {
        assert_eq!(published("SHAPES2"), published("blaz1"));
        assert_eq!(published("Dighe2").map(|row| row.best), Some(100.0));
        assert_eq!(published("small"), None);
    }
}
