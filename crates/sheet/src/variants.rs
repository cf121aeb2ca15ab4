//! Variants of a layout: what it would be with another background, spacing, border or sheet size.
//!
//! A variant is packed from a bare sheet: only locked pieces lie on it, so that none has a start over another.

use crate::background::Background;
use crate::layout::Layout;
use crate::piece::Piece;
use crate::sheet::{SHEET_SIZES, Sheet};
use crate::styles::{Style, refit_styles};
use crate::units::LengthUnit;

/// What the variants of a comparison differ in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// The background style.
    Backgrounds,
    /// The spacing between cut lines.
    Spacing,
    /// The white border.
    Border,
    /// The size of the card.
    SheetSize,
}

/// What a variant has in place of what its layout has. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The background of this name; nothing for plain ground.
    Background(Option<String>),
    /// This spacing. Zones keep their clearance.
    Spacing(f64),
    /// This border, for the stickers that have none of their own.
    Border(f64),
    /// A card of this size. Backgrounds that a style made for the card as it was are made anew for it.
    SheetSize {
        /// Left to right.
        width: f64,
        /// Top to bottom.
        height: f64,
    },
}

/// A layout with a change, ready to be packed.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// What differs.
    pub change: Change,
    /// The changed layout, with the locked pieces only. It may make no sense; packing then says why.
    pub layout: Layout,
    /// What one should know before comparing it with others.
    pub remarks: Vec<Remark>,
}

/// Something to know about a variant.
#[derive(Clone, Debug, PartialEq)]
pub enum Remark {
    /// So many stickers have a border of their own, which stays as it is.
    OwnBorders(usize),
    /// The border is narrower than the print-to-cut error.
    BorderBelowError {
        /// How far the cut may miss the print.
        error: f64,
    },
    /// The zones of this background were drawn for another size of card and stay as they are.
    ZonesKept(String),
}

impl Change {
    /// What the variant is called: `Frame`, `2 mm spacing`, `1.5 mm border`, `A6`, `A6 lying`, `90 × 120 mm`.
    pub fn name(&self, unit: LengthUnit) -> String {
        match self {
            Change::Background(None) => "No background".to_owned(),
            Change::Background(Some(name)) => name.clone(),
            Change::Spacing(mm) => format!("{} spacing", unit.text(*mm)),
            Change::Border(mm) => format!("{} border", unit.text(*mm)),
            Change::SheetSize { width, height } => size_name(*width, *height, unit),
        }
    }

    /// What it differs in.
    pub fn subject(&self) -> Subject {
        match self {
            Change::Background(_) => Subject::Backgrounds,
            Change::Spacing(_) => Subject::Spacing,
            Change::Border(_) => Subject::Border,
            Change::SheetSize { .. } => Subject::SheetSize,
        }
    }

    /// Whether the layout is like this already.
    pub fn is_in(&self, layout: &Layout) -> bool {
        match self {
            Change::Background(name) => *name == layout.background,
            Change::Spacing(mm) => *mm == layout.rules.spacing,
            Change::Border(mm) => *mm == layout.rules.border,
            Change::SheetSize { width, height } => {
                is_same_size((*width, *height), (layout.sheet.width, layout.sheet.height))
            }
        }
    }
}

/// Sizes that differ by less than this many millimetres are the same: inches are not written exactly in a file.
const SIZE_TOLERANCE: f64 = 0.001;

fn is_same_size(a: (f64, f64), b: (f64, f64)) -> bool {
    (a.0 - b.0).abs() < SIZE_TOLERANCE && (a.1 - b.1).abs() < SIZE_TOLERANCE
}

/// The name by which people ask for a size, else its width and height.
fn size_name(width: f64, height: f64, unit: LengthUnit) -> String {
    let named = |size: (f64, f64)| {
        let known = SHEET_SIZES.into_iter().find(|&(_, width, height)| is_same_size((width, height), size));
        known.map(|(name, _, _)| name)
    };
    match (named((width, height)), named((height, width))) {
        (Some(name), _) => name.to_owned(),
        (None, Some(name)) => format!("{name} lying"),
        (None, None) => format!("{} × {}", unit.number(width), unit.text(height)),
    }
}

impl Remark {
    /// The remark as a sentence.
    pub fn sentence(&self, unit: LengthUnit) -> String {
        match self {
            Remark::OwnBorders(1) => "1 sticker keeps a border of its own".to_owned(),
            Remark::OwnBorders(count) => format!("{count} stickers keep borders of their own"),
            Remark::BorderBelowError { error } => {
                format!("the border is narrower than the print-to-cut error of {}", unit.text(*error))
            }
            Remark::ZonesKept(name) => {
                format!("the zones of {name} stay as they were drawn, for another size of card")
            }
        }
    }
}

impl Variant {
    /// Whether this layout would still give the same variant: nothing but free pieces and the name has changed.
    pub fn is_still_of(&self, layout: &Layout) -> bool {
        let now = variant(layout, &self.change).layout;
        let of = |layout: &Layout| -> Vec<(String, Option<String>)> {
            let facts = |background: &Background| (background.name.clone(), background.picture.clone());
            layout.backgrounds.iter().map(facts).collect()
        };
        let zones_agree = || {
            let pairs = self.layout.backgrounds.iter().zip(&now.backgrounds);
            pairs.into_iter().all(|(before, now)| {
                is_same_ground(before, now)
                    && before.zones.iter().zip(&now.zones).all(|(before, now)| before.name == now.name)
            })
        };
        is_same_but_for_zones(&self.layout, &now)
            && self.layout.background == now.background
            && of(&self.layout) == of(&now)
            && zones_agree()
    }
}

/// Whether packing has the same to do for two layouts: one search will do for both.
///
/// What their backgrounds are called, and what is printed on them, does not matter to stickers.
pub fn is_same_task(a: &Layout, b: &Layout) -> bool {
    let ground = |layout: &Layout| layout.chosen_background().cloned().unwrap_or_default();
    is_same_but_for_zones(a, b) && is_same_ground(&ground(a), &ground(b))
}

fn is_same_but_for_zones(a: &Layout, b: &Layout) -> bool {
    a.sheet == b.sheet && a.rules == b.rules && a.stickers == b.stickers && a.pieces == b.pieces
}

fn is_same_ground(a: &Background, b: &Background) -> bool {
    let mut pairs = a.zones.iter().zip(&b.zones);
    a.zones.len() == b.zones.len() && pairs.all(|(a, b)| a.outline == b.outline && a.clearance == b.clearance)
}

/// What is worth comparing, to begin with: the values that the layout suggests, the layout's own among them.
///
/// Backgrounds: plain ground, then every style of the layout in its order. Spacing and border: a step below the
/// layout's own to two steps above, a quarter of it a step. Sheet sizes: the usual ones, lying or standing as the
/// layout's. Numbers come in rising order, sheets by their area.
pub fn usual_changes(layout: &Layout, subject: Subject) -> Vec<Change> {
    match subject {
        Subject::Backgrounds => {
            let names = layout.backgrounds.iter().map(|background| Some(background.name.clone()));
            std::iter::once(None).chain(names).map(Change::Background).collect()
        }
        Subject::Spacing => steps_round(layout.rules.spacing).into_iter().map(Change::Spacing).collect(),
        Subject::Border => steps_round(layout.rules.border).into_iter().map(Change::Border).collect(),
        Subject::SheetSize => usual_sizes(&layout.sheet),
    }
}

/// Smallest step between two spacings or two borders, in millimetres.
const LEAST_STEP: f64 = 0.5;

fn steps_round(mm: f64) -> Vec<f64> {
    // In tenths of a millimetre, as people choose them; the layout's own value stays exactly as it is.
    let step = ((mm * 10.0 / 4.0).round() / 10.0).max(LEAST_STEP);
    let tidy = |mm: f64| (mm * 1000.0).round() / 1000.0;
    [tidy(mm - step), mm, tidy(mm + step), tidy(mm + 2.0 * step)]
        .into_iter()
        .filter(|mm| *mm >= 0.0)
        .collect()
}

fn usual_sizes(sheet: &Sheet) -> Vec<Change> {
    let turned = |(_, short, long): (&str, f64, f64)| {
        if sheet.width > sheet.height { (long, short) } else { (short, long) }
    };
    let mut sizes: Vec<(f64, f64)> = SHEET_SIZES.into_iter().map(turned).collect();
    let own = (sheet.width, sheet.height);
    // The layout's own size stays exactly as it is.
    sizes.retain(|&size| !is_same_size(size, own));
    sizes.push(own);
    sizes.sort_by(|a, b| (a.0 * a.1).total_cmp(&(b.0 * b.1)));
    sizes.into_iter().map(|(width, height)| Change::SheetSize { width, height }).collect()
}

/// The variants of a layout, one for each change.
pub fn variants(layout: &Layout, changes: &[Change]) -> Vec<Variant> {
    changes.iter().map(|change| variant(layout, change)).collect()
}

/// The layout with this change and nothing on it but its locked pieces.
pub fn variant(layout: &Layout, change: &Change) -> Variant {
    let mut changed = layout.clone();
    changed.pieces.retain(|piece: &Piece| piece.locked);
    let mut remarks = Vec::new();
    match change {
        Change::Background(name) => changed.background.clone_from(name),
        Change::Spacing(mm) => changed.rules.spacing = *mm,
        Change::Border(mm) => {
            changed.rules.border = *mm;
            remarks = border_remarks(&changed);
        }
        Change::SheetSize { width, height } => {
            if !change.is_in(layout) {
                remarks = resize(&mut changed, *width, *height);
            }
        }
    }
    Variant { change: change.clone(), layout: changed, remarks }
}

fn border_remarks(layout: &Layout) -> Vec<Remark> {
    let rules = layout.rules;
    let own = layout.stickers.iter().filter(|sticker| sticker.border.is_some()).count();
    let own = (own > 0).then_some(Remark::OwnBorders(own));
    let is_narrow = rules.border < rules.print_to_cut;
    let narrow = is_narrow.then_some(Remark::BorderBelowError { error: rules.print_to_cut });
    own.into_iter().chain(narrow).collect()
}

/// Gives the card another size. Its corners stay as round as they are, or as round as the size allows.
fn resize(layout: &mut Layout, width: f64, height: f64) -> Vec<Remark> {
    let before = layout.sheet;
    let is_kept = |background: &Background| Style::of(background, &before, &layout.rules).is_none();
    let kept = layout.chosen_background().filter(|background| is_kept(background));
    let remarks = kept.map(|background| Remark::ZonesKept(background.name.clone())).into_iter().collect();
    let corner_radius = before.corner_radius.min(width.min(height) / 2.0).max(0.0);
    layout.sheet = Sheet { width, height, corner_radius, ..before };
    // A card without an area has no styles; the layout's own check says what is wrong with it.
    if width > 0.0 && height > 0.0 {
        let rules = layout.rules;
        refit_styles(layout, &before, &rules);
    }
    remarks
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};

    use super::*;
    use crate::{Carried, Rules, STYLES, Sticker, Zone};

    /// An A6 card with all styles, a square of 10 mm, one locked and one free piece of it.
    fn layout() -> Layout {
        let (sheet, rules) = (Sheet::default(), Rules::default());
        let mut locked = Piece::new("box".into(), Placement::at(50.0, 60.0));
        locked.locked = true;
        Layout {
            backgrounds: STYLES.iter().map(|style| style.background(&sheet, &rules)).collect(),
            background: Some("Frame".into()),
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            pieces: vec![Piece::new("box".into(), Placement::at(30.0, 60.0)), locked],
            ..Layout::default()
        }
    }

    fn only(layout: &Layout, change: Change) -> Variant {
        variants(layout, &[change]).remove(0)
    }

    #[test]
    fn plain_ground_and_every_style_are_compared() {
        let layout = layout();
        let changes = usual_changes(&layout, Subject::Backgrounds);
        let names: Vec<String> = changes.iter().map(|change| change.name(LengthUnit::Millimetres)).collect();
        assert_eq!(
            names,
            ["No background", "Plain", "Title band", "Title and motifs", "Frame", "Scene with windows"]
        );
        for variant in variants(&layout, &changes) {
            assert_eq!(variant.layout.validate(), Ok(()));
            assert_eq!(variant.layout.pieces, layout.pieces[1..], "locked pieces stay, free ones go");
            assert_eq!((variant.layout.rules, variant.layout.sheet), (layout.rules, layout.sheet));
        }
        assert_eq!(changes.iter().position(|change| change.is_in(&layout)), Some(4));
    }

    #[test]
    fn names_tell_the_value_in_the_unit_asked_for() {
        let name = |change: Change| change.name(LengthUnit::Millimetres);
        assert_eq!(name(Change::Spacing(2.0)), "2 mm spacing");
        assert_eq!(name(Change::Border(1.5)), "1.5 mm border");
        let size = |width, height| Change::SheetSize { width, height };
        assert_eq!(name(size(90.0, 120.5)), "90 × 120.5 mm");
        assert_eq!(size(25.4, 50.8).name(LengthUnit::Inches), "1 × 2 in");
        assert_eq!(name(size(105.0, 148.0)), "A6");
        assert_eq!(name(size(152.4, 101.6)), "4 × 6 in lying");
    }

    #[test]
    fn steps_lie_round_the_value_of_the_layout() {
        assert_eq!(steps_round(2.0), [1.5, 2.0, 2.5, 3.0]);
        assert_eq!(steps_round(1.5), [1.0, 1.5, 2.0, 2.5]);
        assert_eq!(steps_round(6.0), [4.5, 6.0, 7.5, 9.0]);
        assert_eq!(steps_round(0.0), [0.0, 0.5, 1.0]);
        assert_eq!(steps_round(0.3), [0.3, 0.8, 1.3]);
    }

    #[test]
    fn sizes_lie_or_stand_as_the_card_does_and_hold_its_own() {
        let mut layout = layout();
        (layout.sheet.width, layout.sheet.height) = (160.0, 100.0);
        let changes = usual_changes(&layout, Subject::SheetSize);
        assert_eq!(changes.len(), SHEET_SIZES.len() + 1);
        let sizes: Vec<(f64, f64)> = changes
            .iter()
            .map(|change| match change {
                Change::SheetSize { width, height } => (*width, *height),
                other => panic!("{other:?}"),
            })
            .collect();
        assert!(sizes.contains(&(160.0, 100.0)) && sizes.iter().all(|(width, height)| width > height));
        assert!(sizes.windows(2).all(|pair| pair[0].0 * pair[0].1 <= pair[1].0 * pair[1].1));
        // Six inches as a file may write them.
        (layout.sheet.width, layout.sheet.height) = (101.6, 152.4);
        let changes = usual_changes(&layout, Subject::SheetSize);
        assert_eq!(changes.len(), SHEET_SIZES.len());
        assert_eq!(changes.iter().filter(|change| change.is_in(&layout)).count(), 1);
    }

    #[test]
    fn another_spacing_leaves_zones_alone_and_another_border_regrows_cut_lines() {
        let layout = layout();
        let wide = only(&layout, Change::Spacing(3.0));
        assert_eq!(wide.layout.rules, Rules { spacing: 3.0, ..layout.rules });
        assert_eq!(wide.layout.backgrounds, layout.backgrounds);
        let bordered = only(&layout, Change::Border(2.5)).layout;
        let width = |layout: &Layout| layout.stickers[0].cut_line(&layout.rules).bounds().width();
        // Grown by 1 mm on both sides, within the tolerance of a border.
        assert!((width(&bordered) - width(&layout) - 2.0).abs() < 0.03);
    }

    #[test]
    fn a_border_says_what_it_cannot_change_and_what_it_risks() {
        let mut layout = layout();
        assert_eq!(only(&layout, Change::Border(2.0)).remarks, []);
        layout.stickers[0].border = Some(1.0);
        assert_eq!(
            only(&layout, Change::Border(0.2)).remarks,
            [Remark::OwnBorders(1), Remark::BorderBelowError { error: 0.5 }]
        );
    }

    #[test]
    fn another_size_makes_styles_anew_and_keeps_drawn_zones() {
        let mut layout = layout();
        let a5 = Change::SheetSize { width: 148.0, height: 210.0 };
        let larger = only(&layout, a5.clone());
        let made = Style::Frame.background(&larger.layout.sheet, &layout.rules);
        assert_eq!(larger.layout.chosen_background(), Some(&made));
        assert_eq!(larger.remarks, []);
        layout.backgrounds[3].zones.pop();
        layout.background = Some("Title and motifs".into());
        let moved = &mut layout.backgrounds[2].zones[0];
        *moved = Zone { clearance: 5.0, ..moved.clone() };
        let drawn = layout.backgrounds[2].clone();
        let larger = only(&layout, a5);
        assert_eq!(larger.layout.chosen_background(), Some(&drawn));
        assert_eq!(larger.remarks, [Remark::ZonesKept("Title and motifs".into())]);
        let same = only(&layout, Change::SheetSize { width: 105.0, height: 148.0 });
        assert_eq!((same.layout.sheet, same.remarks), (layout.sheet, Vec::new()));
    }

    #[test]
    fn corners_are_no_rounder_than_the_size_allows() {
        let small = only(&layout(), Change::SheetSize { width: 6.0, height: 40.0 });
        assert_eq!(small.layout.sheet.corner_radius, 3.0);
    }

    #[test]
    fn styles_without_zones_are_one_task() {
        let layout = layout();
        let all = variants(&layout, &usual_changes(&layout, Subject::Backgrounds));
        assert!(is_same_task(&all[0].layout, &all[1].layout), "plain ground and the plain style");
        assert!(!is_same_task(&all[1].layout, &all[2].layout));
        let wider = only(&layout, Change::Spacing(3.0));
        assert!(!is_same_task(&wider.layout, &only(&layout, Change::Spacing(2.0)).layout));
    }

    #[test]
    fn a_variant_is_of_its_layout_until_something_else_than_free_pieces_changes() {
        let layout = layout();
        let all = variants(&layout, &usual_changes(&layout, Subject::SheetSize));
        let holds = |layout: &Layout| all.iter().all(|variant| variant.is_still_of(layout));
        let changed = |edit: fn(&mut Layout)| {
            let mut layout = layout.clone();
            edit(&mut layout);
            holds(&layout)
        };
        assert!(changed(|_| {}));
        assert!(changed(|layout| drop(layout.pieces.remove(0))));
        assert!(changed(|layout| layout.name = "Other".into()));
        assert!(changed(|layout| layout.carried = Carried(vec![("note".into(), "1".into())])));
        assert!(changed(|layout| {
            // The card that was chosen: the next comparison starts from it and comes to the same.
            *layout = variant(layout, &Change::SheetSize { width: 148.0, height: 210.0 }).layout;
        }));
        assert!(!changed(|layout| layout.rules.spacing = 1.0));
        assert!(!changed(|layout| layout.backgrounds[3].zones[0].clearance += 1.0));
        assert!(!changed(|layout| drop(layout.backgrounds.pop())));
        assert!(!changed(|layout| layout.stickers[0].border = Some(1.0)));
        assert!(!changed(|layout| layout.pieces[1].placement.at.x += 1.0));
    }
}
