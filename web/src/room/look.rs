//! The worker's side: finds dots and stickers that would fit.

use crate::words::Told;
use stickleaf_packer::room_for;
use stickleaf_sheet::{DOT_SLACK, LEAST_DOT, empty_room};

use crate::messages::{Answer, RoomDot, RoomFit, RoomFound};

/// How many dots are looked for.
const MOST_DOTS: usize = 8;

/// The empty room of a layout, given as the text of its file.
pub fn look(layout: &str, revision: u64) -> Answer {
    let layout = match stickleaf_files::read(layout) {
        Ok(layout) => layout,
        Err(error) => return Answer::Refused(error.told()),
    };
    // A dot is a little narrower than its circle, and none shall be smaller than the rules like it.
    let least = layout.rules.smallest.max(LEAST_DOT);
    let room = empty_room(&layout, MOST_DOTS, least + DOT_SLACK);
    let dot = |disc: &stickleaf_outline::Disc| RoomDot {
        x: disc.centre.x,
        y: disc.centre.y,
        diameter: 2.0 * disc.radius,
    };
    let fits = room_for(&layout).into_iter().map(|fit| RoomFit {
        sticker: fit.sticker.to_string(),
        x: fit.placement.at.x,
        y: fit.placement.at.y,
        degrees: fit.placement.turn.to_degrees(),
        mirrored: fit.placement.mirrored,
        scale: fit.scale,
    });
    Answer::Room(RoomFound {
        revision,
        dots: room.discs.iter().map(dot).collect(),
        least,
        fits: fits.collect(),
    })
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Layout, Sticker};

    use super::*;

    #[test]
    fn a_bare_sheet_has_room_for_dots_and_its_sticker() {
        let sticker = Sticker::new("box", "Box", path::parse("M-9 -9H9V9H-9Z").unwrap());
        let layout = Layout { stickers: vec![sticker], ..Layout::default() };
        let Answer::Room(found) = look(&stickleaf_files::write(&layout), 7) else { panic!("an answer") };
        assert_eq!((found.revision, found.dots.len(), found.least), (7, MOST_DOTS, 8.0));
        assert!((found.dots[0].diameter - 97.0).abs() < 0.002, "{found:?}");
        assert_eq!((found.fits[0].sticker.as_str(), found.fits[0].scale), ("box", 1.0));
        assert!(matches!(look("no layout", 1), Answer::Refused(_)));
    }
}
