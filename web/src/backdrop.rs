//! The picture behind the stickers, and zones made of what is drawn on one.

use kurbo::Point;
use leptos::task::spawn_local;
use stickleaf_outline::{Outline, thinned};
use stickleaf_sheet::{Background, Layout, Sticker, Zone};
use web_sys::File;

use crate::bring_in::unused_file_name;
use crate::browser::{files, picture};
use crate::keeping;
use crate::messages::{ImportWishes, Imported};
use crate::state::{Desk, Offer};
use crate::words::{self, Told};

/// The clearance of zones made of a picture, in millimetres (common practice, no source).
const CLEARANCE: f64 = 1.5;

/// What is drawn smaller than this makes no zone, in millimetres: a speck.
const SMALLEST_MM: f64 = 2.0;

/// How far a zone's line may stray from what is drawn, in millimetres.
const LINE_TOLERANCE: f64 = 0.1;

/// Puts a picture behind the stickers of the chosen style, as one undo step. Where no style is chosen, one is made.
pub fn put(desk: Desk, file: File) {
    spawn_local(async move {
        let name = file.name();
        let Some(file_name) = bring(desk, file).await else {
            return desk.say_trouble(words::could_not_read(&name));
        };
        desk.change_or_say(words::backdrop(), |layout| {
            if let Some(style) = chosen_style(layout) {
                style.picture = Some(file_name);
                style.picture_opacity = 1.0;
            }
        });
    });
}

/// Takes the picture away from the chosen style.
pub fn remove(desk: Desk) {
    desk.change_or_say(words::remove_backdrop(), |layout| {
        if let Some(style) = chosen_style(layout) {
            style.picture = None;
            style.picture_opacity = 1.0;
        }
    });
}

/// Sets how much of the picture is seen, 0 to 1.
pub fn set_opacity(desk: Desk, opacity: f64) {
    desk.change_or_say(words::backdrop_opacity(), |layout| {
        if let Some(style) = chosen_style(layout) {
            style.picture_opacity = opacity.clamp(0.0, 1.0);
        }
    });
}

/// How a picture is looked at for zones: as wide as the sheet, every part by itself, without a border.
pub fn zone_wishes(desk: Desk) -> ImportWishes {
    let width = desk.peek(|editor| editor.layout().sheet.width);
    ImportWishes {
        width_mm: Some(width),
        border_mm: 0.0,
        smallest_mm: SMALLEST_MM,
        join: false,
        ..ImportWishes::default()
    }
}

/// Makes zones of what was found drawn on a picture, as one undo step with the picture itself where the style has none yet.
pub fn take_zones(desk: Desk, imported: Imported, file: File) {
    spawn_local(async move {
        if let Some(why) = &imported.trouble {
            return desk.say_trouble(words::no_zones_in(&imported.name, why));
        }
        let stickers = stickleaf_files::read(&imported.layout).map(|layout| layout.stickers);
        let outlines: Vec<Outline> = stickers.unwrap_or_default().iter().filter_map(drawn_at).collect();
        if outlines.is_empty() {
            return desk.say_trouble(words::nothing_drawn(&imported.name));
        }
        let has_picture = desk
            .peek(|editor| editor.layout().chosen_background().is_some_and(|style| style.picture.is_some()));
        let picture = if has_picture { None } else { bring(desk, file).await };
        let count = outlines.len();
        let changed = desk.change(words::zones_of_picture(), |layout| {
            let Some(style) = chosen_style(layout) else { return };
            if picture.is_some() {
                style.picture = picture;
                style.picture_opacity = 1.0;
            }
            for outline in outlines {
                let name = unused_zone_name(&style.zones);
                style.zones.push(Zone::new(name, outline, CLEARANCE));
            }
        });
        match changed {
            Ok(()) => desk.say(words::zones_made(count), Some(Offer::Undo)),
            Err(error) => desk.say_trouble(words::no_zones_in(&imported.name, &error.told())),
        }
    });
}

/// Where a drawing lies on its picture, in millimetres from the picture's top left corner.
fn drawn_at(sticker: &Sticker) -> Option<Outline> {
    let corner = sticker.art.as_ref()?.at;
    let moved =
        |points: Vec<Point>| points.into_iter().map(|point| point - corner.to_vec2()).collect::<Vec<_>>();
    // Thinning may make a thin part touch itself; then the line is kept as it was found.
    let thin = Outline::new(moved(thinned(sticker.outline.points(), LINE_TOLERANCE)));
    thin.or_else(|_| Outline::new(moved(sticker.outline.points().to_vec()))).ok()
}

/// Decodes a picture, keeps it, and gives the name under which the layout may call it; nothing if it is none.
async fn bring(desk: Desk, file: File) -> Option<String> {
    let decoded = if files::ends_with(&file, ".svg") {
        picture::load_drawing(&file).await
    } else {
        picture::load_pixels(&file, None).await
    };
    let name = unused_file_name(desk, &file.name());
    desk.pictures.put(name.clone(), decoded.ok()?);
    keeping::keep_picture(desk, name.clone(), file, None);
    Some(name)
}

/// The chosen style, made first where none is chosen.
fn chosen_style(layout: &mut Layout) -> Option<&mut Background> {
    let name = layout.background.get_or_insert_with(|| words::new_names().background.to_owned()).clone();
    if layout.chosen_background().is_none() {
        layout.backgrounds.push(Background { name: name.clone(), ..Background::default() });
    }
    layout.backgrounds.iter_mut().find(|style| style.name == name)
}

fn unused_zone_name(zones: &[Zone]) -> String {
    let stem = words::new_names().zone;
    let mut numbered = (1..).map(|number| format!("{stem} {number}"));
    numbered.find(|name| zones.iter().all(|zone| zone.name != *name)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::Art;

    use super::*;

    #[test]
    fn a_drawing_lies_where_its_picture_shows_it() {
        let mut sticker = Sticker::new("moon", "Moon", path::parse("M-5 -5H5V5H-5Z").unwrap());
        assert_eq!(drawn_at(&sticker), None, "without a picture it lies nowhere");
        let at = Point::new(-30.0, -20.0);
        sticker.art = Some(Art::new("sky.png", at, Some(10.0)));
        assert_eq!(drawn_at(&sticker).unwrap().bounds(), kurbo::Rect::new(25.0, 15.0, 35.0, 25.0));
    }

    #[test]
    fn a_style_is_made_where_none_is_chosen() {
        let mut layout = Layout::default();
        chosen_style(&mut layout).unwrap().picture = Some("sky.png".into());
        assert_eq!(layout.backgrounds.len(), 1);
        assert_eq!(layout.chosen_background().unwrap().picture.as_deref(), Some("sky.png"));
        chosen_style(&mut layout).unwrap();
        assert_eq!(layout.backgrounds.len(), 1);
    }
}
