//! A changed picture for the stickers that came from an earlier version of it.

use stickleaf_editor::Editor;
use stickleaf_sheet::{Layout, Reimport, Sticker, reimport};
use web_sys::File;

use crate::bring_in::{take_picture, unused_file_name_but, unused_id};
use crate::messages::Imported;
use crate::panels::tally::broken_count;
use crate::state::{Desk, Offer};
use crate::words;

/// The pictures that the stickers came from, each once, in the order of the stickers.
pub fn pictures_of(layout: &Layout) -> Vec<String> {
    let mut pictures: Vec<String> = Vec::new();
    for art in layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref()) {
        if !pictures.iter().any(|known| known == art.picture()) {
            pictures.push(art.picture().to_owned());
        }
    }
    pictures
}

/// The picture of the layout that a file of this name is likely to be a changed version of.
pub fn earlier_version(layout: &Layout, file_name: &str) -> Option<String> {
    // The latest is the last one that was brought in.
    pictures_of(layout).into_iter().rev().find(|known| plain_name(known) == plain_name(file_name))
}

/// The file's name without folders, and without the number that the page puts in front of a name that is used already.
pub fn plain_name(file: &str) -> &str {
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file);
    match name.split_once(' ') {
        Some((number, rest)) if !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()) => {
            rest
        }
        _ => name,
    }
}

/// The drawings that were found in a picture, their art in this file.
fn drawings_of(imported: &Imported, file: &str) -> Vec<Sticker> {
    let layout = stickleaf_files::read(&imported.layout);
    let mut drawings = layout.map(|layout| layout.stickers).unwrap_or_default();
    for art in drawings.iter_mut().filter_map(|drawing| drawing.art.as_mut()) {
        art.file = file.to_owned();
    }
    drawings
}

/// What a picture on its way in does to the layout.
#[derive(Clone, Debug, PartialEq)]
pub struct PictureChange {
    /// What its file is called.
    pub name: String,
    /// What is drawn on it.
    pub drawings: Vec<Sticker>,
    /// The stickers as they are before it, some of them perhaps changed by a picture before it.
    pub before: Vec<Sticker>,
    /// What it does.
    pub deed: Deed,
}

/// What is done with a picture.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// It takes the place of an earlier version.
    Update(Reimport),
    /// No drawing of it belongs to a sticker of the picture that it should take the place of, so nothing is done.
    NoMatch,
    /// Its drawings become new stickers.
    Add,
}

impl PictureChange {
    /// How many stickers get a drawing from it.
    pub fn matched(&self) -> usize {
        match &self.deed {
            Deed::Update(plan) => plan.matched.len(),
            Deed::NoMatch | Deed::Add => 0,
        }
    }

    /// The positions of the drawings that become new stickers if those are wanted.
    pub fn found_new(&self) -> Vec<usize> {
        match &self.deed {
            Deed::Update(plan) => plan.new.clone(),
            Deed::NoMatch => Vec::new(),
            Deed::Add => (0..self.drawings.len()).collect(),
        }
    }

    fn apply(&self, layout: &mut Layout, takes_new: bool) {
        match &self.deed {
            Deed::Update(plan) => plan.apply(layout, &self.drawings, |_| takes_new, unused_id),
            Deed::NoMatch => {}
            Deed::Add => {
                for drawing in &self.drawings {
                    let id = unused_id(layout, &drawing.name);
                    layout.stickers.push(Sticker { id, ..drawing.clone() });
                }
            }
        }
    }
}

/// What these pictures do to the layout, one after the other: those with the name of an earlier one take its place, the
/// others are added. `takes_new` says whether what is new on a changed picture becomes stickers; `file` gives the name under
/// which the layout will know a picture.
///
/// So two pictures may take the place of one, if its drawings were shared out: what the first has not is looked for on the
/// second. What one of them brought is not taken for what the other replaces, if `file` gives names that no picture had.
pub fn changes(
    layout: &Layout,
    pictures: &[(&Imported, Option<&str>)],
    takes_new: bool,
    mut file: impl FnMut(usize, &Imported) -> String,
) -> Vec<PictureChange> {
    let mut layout = layout.clone();
    let mut all = Vec::new();
    for (index, &(imported, earlier)) in pictures.iter().enumerate() {
        let drawings = drawings_of(imported, &file(index, imported));
        let deed = match earlier {
            None => Deed::Add,
            Some(earlier) => match reimport(&layout, earlier, &drawings) {
                plan if plan.matched.is_empty() => Deed::NoMatch,
                plan => Deed::Update(plan),
            },
        };
        let change =
            PictureChange { name: imported.name.clone(), drawings, before: layout.stickers.clone(), deed };
        change.apply(&mut layout, takes_new);
        all.push(change);
    }
    all
}

/// The stickers that none of these pictures has a drawing for, by their position, each with the change that it is missing
/// from first.
pub fn gone(changes: &[PictureChange]) -> Vec<(usize, usize)> {
    let mut gone: Vec<(usize, usize)> = Vec::new();
    for (number, change) in changes.iter().enumerate() {
        if let Deed::Update(plan) = &change.deed {
            let is_found = |sticker: usize| plan.matched.iter().any(|one| one.sticker == sticker);
            gone.retain(|&(_, sticker)| !is_found(sticker));
            for &sticker in &plan.gone {
                if !gone.iter().any(|&(_, known)| known == sticker) {
                    gone.push((number, sticker));
                }
            }
        }
    }
    gone
}

/// How many stickers met which fate.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fates {
    /// Their outline is another one.
    pub updated: usize,
    /// Their outline is the same.
    pub unchanged: usize,
    /// Drawings that belong to none.
    pub new: usize,
    /// No drawing belongs to them.
    pub gone: usize,
}

impl Fates {
    /// Those of one picture among several.
    pub fn of(changes: &[PictureChange], number: usize) -> Fates {
        let change = &changes[number];
        let unchanged = match &change.deed {
            Deed::Update(plan) => plan.matched.iter().filter(|one| one.is_unchanged()).count(),
            Deed::NoMatch | Deed::Add => 0,
        };
        Fates {
            updated: change.matched() - unchanged,
            unchanged,
            new: change.found_new().len(),
            gone: gone(changes).iter().filter(|(first, _)| *first == number).count(),
        }
    }

    /// Those of all of them together.
    pub fn of_all(changes: &[PictureChange]) -> Fates {
        (0..changes.len()).map(|number| Fates::of(changes, number)).fold(Fates::default(), |sum, one| Fates {
            updated: sum.updated + one.updated,
            unchanged: sum.unchanged + one.unchanged,
            new: sum.new + one.new,
            gone: sum.gone + one.gone,
        })
    }
}

/// A picture on its way in, with its file, and the earlier picture whose place it takes; nothing if its drawings become
/// new stickers.
pub struct Incoming {
    pub imported: Imported,
    pub source: File,
    pub earlier: Option<String>,
}

/// Lets changed pictures take the place of earlier ones, all as one undo step; says what became of the stickers, and what
/// that breaks.
pub fn update(desk: Desk, incoming: Vec<Incoming>, takes_new: bool) {
    let mut files: Vec<(String, bool)> = Vec::new();
    for one in &incoming {
        let known = desk.pictures.name_of(&one.source);
        let is_new = known.is_none();
        let is_taken = |name: &str| files.iter().any(|(file, _)| file == name);
        let file = known.unwrap_or_else(|| unused_file_name_but(desk, &one.imported.name, is_taken));
        files.push((file, is_new));
    }
    let pictures: Vec<(&Imported, Option<&str>)> =
        incoming.iter().map(|one| (&one.imported, one.earlier.as_deref())).collect();
    let changes =
        desk.peek(|editor| changes(editor.layout(), &pictures, takes_new, |index, _| files[index].0.clone()));
    let before = broken(desk);
    let names: Vec<&str> = incoming.iter().map(|one| plain_name(&one.imported.name)).collect();
    let names = names.join(", ");
    let changed = desk.change(&words::step_update(&names), |layout| {
        for change in &changes {
            // What was chosen to be added is added; what is new on a changed picture only if that is wanted.
            change.apply(layout, takes_new);
        }
    });
    if let Err(error) = changed {
        return desk.say_error(error);
    }
    let more = broken(desk).saturating_sub(before);
    let fates = Fates::of_all(&changes);
    let said = words::updated(&names, fates, takes_new, more);
    if more == 0 && fates.gone == 0 {
        desk.say(said, Some(Offer::Undo));
    } else {
        desk.say_attention(said, Some(Offer::Undo));
    }
    let is_used: Vec<bool> = changes.iter().map(|change| change.deed != Deed::NoMatch).collect();
    for ((one, (file, is_new)), is_used) in incoming.into_iter().zip(files).zip(is_used) {
        if is_new && is_used {
            take_picture(desk, file, one.source, one.imported);
        }
    }
}

fn broken(desk: Desk) -> usize {
    desk.peek(|editor: &Editor| broken_count(editor.findings()))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;
    use stickleaf_sheet::Art;

    use super::*;

    #[test]
    fn an_earlier_version_is_known_by_its_name_wherever_it_lies() {
        assert_eq!(plain_name("art/2 sea creatures.png"), "sea creatures.png");
        assert_eq!(plain_name("sea.png"), "sea.png");
        let sticker = |file: &str| {
            let mut sticker = Sticker::new("s", "S", shapes::square(9.0));
            let at = kurbo::Point::ZERO;
            sticker.art = Some(Art::new(file, at, None));
            sticker
        };
        let stickers = vec![sticker("art/sea.png"), sticker("land.png"), sticker("2 sea.png")];
        let layout = Layout { stickers, ..Layout::default() };
        assert_eq!(earlier_version(&layout, "sea.png").as_deref(), Some("2 sea.png"));
        assert_eq!(earlier_version(&layout, "land.png").as_deref(), Some("land.png"));
        assert_eq!(earlier_version(&layout, "sky.png"), None);
        assert_eq!(pictures_of(&layout).len(), 3);
    }

    /// A picture with squares of these sizes, 30 mm from one to the next.
    fn picture(name: &str, squares: &[(f64, f64)]) -> Imported {
        let mut layout = Layout::default();
        for &(middle, size) in squares {
            let mut sticker = Sticker::new(format!("{name} {middle}"), "Square", shapes::square(size));
            sticker.art = Some(Art::new(name, kurbo::Point::new(-middle, -20.0), Some(10.0)));
            layout.stickers.push(sticker);
        }
        Imported { name: name.to_owned(), layout: stickleaf_files::write(&layout), ..Imported::default() }
    }

    fn layout_of(pictures: &[Imported]) -> Layout {
        let mut layout = Layout::default();
        for imported in pictures {
            for drawing in drawings_of(imported, &imported.name) {
                layout.stickers.push(drawing);
            }
        }
        layout
    }

    #[test]
    fn three_pictures_update_what_each_of_them_has() {
        let sea = picture("sea.png", &[(20.0, 10.0), (50.0, 12.0)]);
        let land = picture("land.png", &[(20.0, 10.0)]);
        let layout = layout_of(&[sea, land]);
        let sea = picture("sea.png", &[(20.0, 11.0)]);
        let land = picture("land.png", &[(20.0, 10.0), (80.0, 9.0)]);
        let sky = picture("sky.png", &[(20.0, 7.0)]);
        let incoming = [(&sea, Some("sea.png")), (&land, Some("land.png")), (&sky, None)];
        let changes = changes(&layout, &incoming, false, |index, one| format!("{index} {}", one.name));
        let fates: Vec<Fates> = (0..3).map(|number| Fates::of(&changes, number)).collect();
        assert_eq!(fates[0], Fates { updated: 1, unchanged: 0, new: 0, gone: 1 });
        assert_eq!(fates[1], Fates { updated: 0, unchanged: 1, new: 1, gone: 0 });
        assert_eq!(fates[2], Fates { updated: 0, unchanged: 0, new: 1, gone: 0 });
        assert_eq!(Fates::of_all(&changes), Fates { updated: 1, unchanged: 1, new: 2, gone: 1 });
        let mut after = layout.clone();
        for change in &changes {
            change.apply(&mut after, false);
        }
        let files: Vec<&str> =
            after.stickers.iter().map(|sticker| &*sticker.art.as_ref().unwrap().file).collect();
        // What is new on a changed picture was not wanted; what was brought in as new was.
        assert_eq!(files, ["0 sea.png", "sea.png", "1 land.png", "2 sky.png"]);
    }

    #[test]
    fn a_picture_shared_out_among_two_is_found_on_both() {
        let layout = layout_of(&[picture("sea.png", &[(20.0, 10.0), (50.0, 12.0)])]);
        let (left, right) = (picture("left.png", &[(20.0, 10.0)]), picture("right.png", &[(50.0, 12.0)]));
        let incoming = [(&left, Some("sea.png")), (&right, Some("sea.png"))];
        let changes = changes(&layout, &incoming, true, |_, one| one.name.clone());
        assert_eq!(Fates::of_all(&changes), Fates { updated: 0, unchanged: 2, new: 0, gone: 0 });
        let mut after = layout.clone();
        for change in &changes {
            change.apply(&mut after, true);
        }
        assert!(after.stickers.iter().all(|sticker| !sticker.is_gone));
        assert_eq!(pictures_of(&after), ["left.png", "right.png"]);
    }

    #[test]
    fn a_picture_of_which_nothing_matches_changes_nothing() {
        let layout = layout_of(&[picture("sea.png", &[(20.0, 10.0)])]);
        let other = picture("sea.png", &[(90.0, 3.0)]);
        let changes =
            changes(&layout, &[(&other, Some("sea.png"))], true, |_, one| format!("2 {}", one.name));
        assert_eq!((changes[0].deed.clone(), Fates::of_all(&changes)), (Deed::NoMatch, Fates::default()));
    }
}
