//! The same sheet again, for another theme.

use crate::background::Background;
use crate::layout::Layout;

impl Layout {
    /// A layout to begin another theme with: the same card, rules, background styles with their zones, the same one chosen,
    /// and correction of the colours, for it goes to the same printer.
    /// Stickers, pieces, the name and the pictures of the backgrounds stay behind.
    pub fn for_another_theme(&self) -> Layout {
        let bare = |background: &Background| Background { picture: None, ..background.clone() };
        Layout {
            sheet: self.sheet,
            rules: self.rules,
            backgrounds: self.backgrounds.iter().map(bare).collect(),
            background: self.background.clone(),
            correction: self.correction,
            ..Layout::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};

    use super::*;
    use crate::background::Zone;
    use crate::piece::Piece;
    use crate::sticker::Sticker;

    #[test]
    fn card_rules_and_zones_stay_and_what_belongs_to_the_theme_goes() {
        let square = || path::parse("M0 0H20V20H0Z").unwrap();
        let mut layout = Layout {
            name: "Tide pool".to_owned(),
            background: Some("Title".to_owned()),
            backgrounds: vec![Background {
                name: "Title".to_owned(),
                zones: vec![Zone::new("band", square(), 2.0)],
                picture: Some("sea.png".to_owned()),
                ..Background::default()
            }],
            stickers: vec![Sticker::new("crab", "Crab", square())],
            pieces: vec![Piece::new("crab".into(), Placement::at(50.0, 70.0))],
            ..Layout::default()
        };
        (layout.sheet.width, layout.rules.spacing) = (120.0, 3.0);
        let next = layout.for_another_theme();
        assert_eq!(next.validate(), Ok(()));
        assert_eq!((next.sheet, next.rules, next.zones()), (layout.sheet, layout.rules, layout.zones()));
        assert_eq!((next.stickers.len(), next.pieces.len(), &*next.name), (0, 0, ""));
        assert_eq!(next.backgrounds[0].picture, None);
    }
}
