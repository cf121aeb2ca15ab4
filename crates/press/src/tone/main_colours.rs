//! The main colours of a picture: k-means in Oklab, the same for the same picture everywhere.

use std::collections::BTreeMap;

use crate::tone::oklab;

/// How many of the upper bits of a colour tell colours apart at first.
const BITS: u32 = 5;

/// After so many rounds the search ends, settled or not.
const MOST_ROUNDS: usize = 60;

/// Colours nearer than this in Oklab look alike; a further main colour is at least so far from the others.
///
/// Source: CSS Color 4, 13, takes a difference of 0.02 as just noticeable; this is three of them, our choice.
const ALIKE: f32 = 0.06;

/// One of the main colours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MainColour {
    /// Red, green and blue of sRGB: a colour that is there, and none mixed from two.
    pub rgb: [u8; 3],
    /// Which share of the counted pixels is nearer to it than to the others.
    pub share: f64,
}

/// Counts colours as pixels come, then names the main ones.
#[derive(Default)]
pub(crate) struct ColourCounter {
    /// Alike colours together: how many there are, and their sums.
    bins: BTreeMap<u32, Bin>,
}

#[derive(Clone, Copy, Default)]
struct Bin {
    count: u64,
    sums: [u64; 3],
}

/// Alike colours as a point.
struct Point {
    rgb: [u8; 3],
    at: [f32; 3],
    count: f64,
}

impl ColourCounter {
    /// Counts pixels of red, green, blue and alpha. What is half clear or more, and plain white, takes no ink and counts not.
    pub(crate) fn take(&mut self, rgba: &[u8]) {
        for pixel in rgba.chunks_exact(4) {
            let colour = [pixel[0], pixel[1], pixel[2]];
            if pixel[3] < 128 || colour == [255; 3] {
                continue;
            }
            let key = colour.iter().fold(0, |key, &value| key << BITS | u32::from(value) >> (8 - BITS));
            let bin = self.bins.entry(key).or_default();
            bin.count += 1;
            for (sum, value) in bin.sums.iter_mut().zip(colour) {
                *sum += u64::from(value);
            }
        }
    }

    /// The main colours, at most so many, the most common one first.
    pub(crate) fn main_colours(&self, most: usize) -> Vec<MainColour> {
        let points: Vec<Point> = self.bins.values().map(Bin::point).collect();
        let mut centres = first_centres(&points, most);
        for _ in 0..MOST_ROUNDS {
            let next = moved(&points, &centres);
            if next == centres {
                break;
            }
            centres = next;
        }
        named(&points, &centres)
    }
}

impl Bin {
    fn point(&self) -> Point {
        let rgb = self.sums.map(|sum| ((sum + self.count / 2) / self.count) as u8);
        Point { rgb, at: oklab(rgb), count: self.count as f64 }
    }
}

/// The main colours of pixels of red, green, blue and alpha, at most so many, the most common one first. Half clear pixels
/// and plain white are passed over.
pub fn main_colours(rgba: &[u8], most: usize) -> Vec<MainColour> {
    let mut counter = ColourCounter::default();
    counter.take(rgba);
    counter.main_colours(most)
}

fn distance_squared(a: [f32; 3], b: [f32; 3]) -> f32 {
    a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum()
}

/// The most common colour, then again and again the one that most pixels are farthest from: k-means++ without chance.
///
/// Source: D. Arthur and S. Vassilvitskii, "k-means++: the advantages of careful seeding", 2007.
fn first_centres(points: &[Point], most: usize) -> Vec<[f32; 3]> {
    let mut centres: Vec<[f32; 3]> = Vec::new();
    let mut far = vec![f32::INFINITY; points.len()];
    while centres.len() < most {
        let worth = |index: usize| match far[index] {
            away if away.is_infinite() => points[index].count,
            away if away < ALIKE * ALIKE => 0.0,
            away => points[index].count * f64::from(away),
        };
        // Of equals the first counts.
        let best = (0..points.len()).rev().max_by(|&a, &b| worth(a).total_cmp(&worth(b)));
        let Some(best) = best.filter(|&best| worth(best) > 0.0) else { break };
        let centre = points[best].at;
        centres.push(centre);
        for (far, point) in far.iter_mut().zip(points) {
            *far = far.min(distance_squared(point.at, centre));
        }
    }
    centres
}

/// Which centre is nearest; of equals the first.
fn nearest(at: [f32; 3], centres: &[[f32; 3]]) -> usize {
    let away = |index: &usize| distance_squared(at, centres[*index]);
    (0..centres.len()).min_by(|a, b| away(a).total_cmp(&away(b))).unwrap_or(0)
}

/// Each centre moved to the middle of the points that are nearest to it.
fn moved(points: &[Point], centres: &[[f32; 3]]) -> Vec<[f32; 3]> {
    let mut sums = vec![([0.0f64; 3], 0.0f64); centres.len()];
    for point in points {
        let Some((sum, count)) = sums.get_mut(nearest(point.at, centres)) else { continue };
        for (sum, value) in sum.iter_mut().zip(point.at) {
            *sum += point.count * f64::from(value);
        }
        *count += point.count;
    }
    let middle = |((sum, count), centre): (([f64; 3], f64), &[f32; 3])| {
        if count > 0.0 { sum.map(|sum| (sum / count) as f32) } else { *centre }
    };
    sums.into_iter().zip(centres).map(middle).collect()
}

/// For each centre the most common colour about it, with the share of all pixels that belong to it.
fn named(points: &[Point], centres: &[[f32; 3]]) -> Vec<MainColour> {
    let total: f64 = points.iter().map(|point| point.count).sum();
    let mut found: Vec<(Option<&Point>, f64)> = vec![(None, 0.0); centres.len()];
    for point in points {
        let Some((main, count)) = found.get_mut(nearest(point.at, centres)) else { continue };
        *count += point.count;
        if main.is_none_or(|main| point.count > main.count) {
            *main = Some(point);
        }
    }
    let mut colours: Vec<MainColour> = found
        .into_iter()
        .filter_map(|(main, count)| Some(MainColour { rgb: main?.rgb, share: count / total }))
        .collect();
    colours.sort_by(|a, b| b.share.total_cmp(&a.share));
    colours
}

#[cfg(test)]
mod tests {
    use super::*;

    fn painted(parts: &[([u8; 4], usize)]) -> Vec<u8> {
        parts.iter().flat_map(|&(pixel, count)| pixel.repeat(count)).collect()
    }

    #[test]
    fn flat_colours_are_found_to_the_bit_with_their_shares() {
        let art = painted(&[
            ([200, 30, 40, 255], 500),
            ([20, 90, 160, 255], 300),
            ([250, 220, 120, 255], 200),
            ([255, 255, 255, 255], 900),
            ([0, 255, 0, 20], 400),
        ]);
        let colours = main_colours(&art, 6);
        let found: Vec<_> = colours.iter().map(|colour| (colour.rgb, colour.share)).collect();
        assert_eq!(found, [([200, 30, 40], 0.5), ([20, 90, 160], 0.3), ([250, 220, 120], 0.2)]);
    }

    #[test]
    fn soft_edges_do_not_make_colours_of_their_own() {
        let mut parts = vec![([200, 30, 40, 255], 4400), ([20, 90, 160, 255], 4000)];
        for step in 1..20u32 {
            let mix = |a: u32, b: u32| ((a * step + b * (20 - step)) / 20) as u8;
            parts.push(([mix(200, 20), mix(30, 90), mix(40, 160), 255], 4));
        }
        let colours = main_colours(&painted(&parts), 2);
        assert_eq!(colours.iter().map(|c| c.rgb).collect::<Vec<_>>(), [[200, 30, 40], [20, 90, 160]]);
    }

    #[test]
    fn alike_colours_are_one_and_nothing_is_none() {
        let art = painted(&[([100, 100, 100, 255], 50), ([112, 112, 112, 255], 40)]);
        assert_eq!(main_colours(&art, 6).len(), 1);
        assert_eq!(main_colours(&[255; 400], 6), []);
        assert_eq!(main_colours(&art, 0), []);
    }

    #[test]
    fn the_order_of_the_pixels_does_not_matter() {
        let pixel = |i: u32| {
            let [red, green, blue, _] = i.wrapping_mul(2_654_435_761).to_be_bytes();
            [red, green, blue, 255]
        };
        let forwards: Vec<u8> = (0..5000).flat_map(pixel).collect();
        let backwards: Vec<u8> = (0..5000).rev().flat_map(pixel).collect();
        let colours = main_colours(&forwards, 6);
        assert_eq!(colours.len(), 6);
        assert_eq!(colours, main_colours(&backwards, 6));
    }
}
