//! What the drawings of an SVG are called, and which elements fell apart or came together.

use std::collections::{BTreeMap, HashMap};

use crate::drawing::{Group, Part};
use crate::svg::painted::{Painted, Patch, signed_area};
use crate::svg::source::Source;

/// How the drawings relate to the elements of the file.
pub(crate) struct Named {
    /// A name for each drawing, if the file has one; two drawings may have the same.
    pub names: Vec<Option<String>>,
    /// Elements that became several drawings: what each is called, and how many.
    pub split: Vec<(String, usize)>,
    /// Drawings made of several groups that overlap: which drawing, and of how many.
    pub merged: Vec<(usize, usize)>,
}

/// How much area an element has in each drawing that it lies in; overlaps count for all that overlap.
type Shares = BTreeMap<usize, f64>;

/// The names of the drawings: that of the outermost named element which lies wholly in the drawing; of several the one
/// with the most area. If there is none, that of the innermost named element which lies in it in part.
pub(crate) fn named(painted: &Painted, source: &Source, parts: &[Part], groups: &[Group]) -> Named {
    let shares = shares(painted, parts, groups);
    let name = |element: usize| source.names.get(&painted.elements[element].id);
    let mut whole: Vec<Option<(f64, &String)>> = vec![None; groups.len()];
    let mut partly: Vec<Option<&String>> = vec![None; groups.len()];
    for (element, share) in shares.iter().enumerate() {
        let Some(name_of_element) = name(element) else { continue };
        if share.len() > 1 {
            // Parents come before what they hold, so the innermost has the last word.
            share.keys().for_each(|&drawing| partly[drawing] = Some(name_of_element));
            continue;
        }
        let is_named_whole = |outer: usize| name(outer).is_some() && shares[outer].len() == 1;
        if ancestors(painted, element).any(is_named_whole) {
            continue;
        }
        for (&drawing, &area) in share {
            if whole[drawing].is_none_or(|(most, _)| area > most) {
                whole[drawing] = Some((area, name_of_element));
            }
        }
    }
    let names =
        whole.iter().zip(&partly).map(|(whole, partly)| whole.map(|(_, name)| name).or(*partly).cloned());
    let units = units(painted, &shares);
    let called = |element| {
        name(element).map_or_else(|| "a group without a name".to_owned(), |name| format!("\"{name}\""))
    };
    let split = units.iter().filter(|&&element| shares[element].len() > 1);
    let split = split.map(|&element| (called(element), shares[element].len()));
    Named { names: names.collect(), split: split.collect(), merged: merged(painted, &shares, &units) }
}

/// The drawings that more than one group at the top is part of.
fn merged(painted: &Painted, shares: &[Shares], units: &[usize]) -> Vec<(usize, usize)> {
    let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
    for &unit in units {
        if painted.elements[unit].is_group && painted.elements[unit].parent.is_none() {
            shares[unit].keys().for_each(|&drawing| *counts.entry(drawing).or_default() += 1);
        }
    }
    counts.into_iter().filter(|(_, count)| *count > 1).collect()
}

fn shares(painted: &Painted, parts: &[Part], groups: &[Group]) -> Vec<Shares> {
    let mut drawing_of_part = vec![None; parts.len()];
    for (drawing, group) in groups.iter().enumerate() {
        group.parts.iter().for_each(|&part| drawing_of_part[part] = Some(drawing));
    }
    let mut parts_of: HashMap<usize, Vec<usize>> = HashMap::new();
    for (i, part) in parts.iter().enumerate() {
        parts_of.entry(part.owner).or_default().push(i);
    }
    let mut shares = vec![Shares::new(); painted.elements.len()];
    for patch in &painted.patches {
        let Some(element) = patch.element else { continue };
        let candidates = parts_of.get(&patch.owner).map_or(&[][..], Vec::as_slice);
        let Some(drawing) = part_of(patch, candidates, parts).and_then(|part| drawing_of_part[part]) else {
            continue;
        };
        let area = signed_area(&patch.ring) / 2.0;
        for holder in std::iter::once(element).chain(ancestors(painted, element)) {
            *shares[holder].entry(drawing).or_default() += area;
        }
    }
    shares
}

/// Which of the parts of its owner a patch went into: one that surrounds it, and of several the one that holds most of
/// its corners.
fn part_of(patch: &Patch, candidates: &[usize], parts: &[Part]) -> Option<usize> {
    /// How far a thinned line may have moved, generously, in millimetres.
    const SLACK: f64 = 0.5;
    let surrounds = |part: &usize| {
        let bounds = parts[*part].outline.bounds().inflate(SLACK, SLACK);
        patch.ring.iter().all(|&point| bounds.contains(point))
    };
    let held = |part: usize| {
        let outline = &parts[part].outline;
        patch.ring.iter().filter(|&&point| outline.contains(point)).count()
    };
    candidates.iter().copied().filter(surrounds).max_by_key(|&part| held(part))
}

fn ancestors(painted: &Painted, element: usize) -> impl Iterator<Item = usize> + '_ {
    std::iter::successors(painted.elements[element].parent, |&outer| painted.elements[outer].parent)
}

/// The elements that stand for a sticker each: those at the top or, while there is but one group, those in it.
fn units(painted: &Painted, shares: &[Shares]) -> Vec<usize> {
    let within = |holder: Option<usize>| -> Vec<usize> {
        let elements = painted.elements.iter().enumerate();
        let held = elements.filter(|(i, element)| element.parent == holder && !shares[*i].is_empty());
        held.map(|(i, _)| i).collect()
    };
    let mut units = within(None);
    while let [only] = units[..] {
        let inner = within(Some(only));
        if inner.is_empty() {
            break;
        }
        units = inner;
    }
    units
}
