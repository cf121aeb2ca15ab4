//! A changed picture for the stickers that came from an earlier version of it.

use stickleaf_editor::Editor;
use stickleaf_sheet::{Layout, Reimport, Sticker, reimport};
use web_sys::File;

use crate::bring_in::{take_picture, unused_file_name, unused_id};
use crate::messages::Imported;
use crate::panels::tally::broken_count;
use crate::state::{Desk, Offer};
use crate::words;

/// The pictures that the stickers came from, each once, in the order of the stickers.
pub fn pictures_of(layout: &Layout) -> Vec<String> {
    let mut files: Vec<String> = Vec::new();
    for art in layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref()) {
        if !files.contains(&art.file) {
            files.push(art.file.clone());
        }
    }
    files
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
pub fn drawings_of(imported: &Imported, file: &str) -> Vec<Sticker> {
    let layout = stickleaf_files::read(&imported.layout);
    let mut drawings = layout.map(|layout| layout.stickers).unwrap_or_default();
    for art in drawings.iter_mut().filter_map(|drawing| drawing.art.as_mut()) {
        art.file = file.to_owned();
    }
    drawings
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
    /// Those of a plan.
    pub fn of(plan: &Reimport) -> Fates {
        let unchanged = plan.matched.iter().filter(|one| one.is_unchanged()).count();
        Fates {
            updated: plan.matched.len() - unchanged,
            unchanged,
            new: plan.new.len(),
            gone: plan.gone.len(),
        }
    }
}

/// Lets a changed picture take the place of an earlier one, as one undo step; says what became of the stickers, and what
/// that breaks.
pub fn update(desk: Desk, picture: &str, imported: Imported, source: File, takes_new: bool) {
    let known = desk.pictures.name_of(&source);
    let is_new = known.is_none();
    let file = known.unwrap_or_else(|| unused_file_name(desk, &imported.name));
    let drawings = drawings_of(&imported, &file);
    let plan = desk.peek(|editor| reimport(editor.layout(), picture, &drawings));
    let before = broken(desk);
    let name = plain_name(&imported.name).to_owned();
    let changed = desk.change(&words::step_update(&name), |layout| {
        plan.apply(layout, &drawings, |_| takes_new, unused_id);
    });
    if let Err(error) = changed {
        return desk.say_error(error);
    }
    let more = broken(desk).saturating_sub(before);
    let said = words::updated(&name, Fates::of(&plan), takes_new, more);
    if more == 0 && plan.gone.is_empty() {
        desk.say(said, Some(Offer::Undo));
    } else {
        desk.say_attention(said, Some(Offer::Undo));
    }
    if is_new {
        take_picture(desk, file, source, imported);
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
}
