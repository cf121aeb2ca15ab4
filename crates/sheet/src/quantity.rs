//! What the numbers and names of a layout are, for those who say that one of them will not do.

use std::fmt;

/// A number of a layout.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// The sheet's width.
    SheetWidth,
    /// The sheet's height.
    SheetHeight,
    /// The sheet's resolution.
    Resolution,
    /// The sheet's corner radius.
    CornerRadius,
    /// The least distance between two cut lines.
    Spacing,
    /// The least distance to the sheet's edge.
    Margin,
    /// The white border.
    Border,
    /// How far the cut may miss the print.
    PrintToCut,
    /// The thinnest part that peels well.
    Thinnest,
    /// The smallest sticker.
    Smallest,
    /// The smallest inward radius.
    InnerRadius,
    /// The least resolution of a picture.
    LeastResolution,
    /// The clearance of the zone of this name.
    ClearanceOf(String),
    /// How much of the picture of the background of this name is seen.
    OpacityOf(String),
    /// The border of the sticker with this id.
    BorderOf(String),
    /// How far the sticker with this id may turn.
    TurnOf(String),
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Quantity::SheetWidth => f.write_str("the sheet's width"),
            Quantity::SheetHeight => f.write_str("the sheet's height"),
            Quantity::Resolution => f.write_str("the resolution"),
            Quantity::CornerRadius => f.write_str("the corner radius"),
            Quantity::Spacing => f.write_str("the spacing"),
            Quantity::Margin => f.write_str("the margin"),
            Quantity::Border => f.write_str("the border"),
            Quantity::PrintToCut => f.write_str("the print-to-cut error"),
            Quantity::Thinnest => f.write_str("the thinnest part"),
            Quantity::Smallest => f.write_str("the smallest size"),
            Quantity::InnerRadius => f.write_str("the inner radius"),
            Quantity::LeastResolution => f.write_str("the least resolution"),
            Quantity::ClearanceOf(zone) => write!(f, "the clearance of zone \"{zone}\""),
            Quantity::OpacityOf(background) => {
                write!(f, "the picture's opacity of background \"{background}\"")
            }
            Quantity::BorderOf(sticker) => write!(f, "the border of sticker \"{sticker}\""),
            Quantity::TurnOf(sticker) => write!(f, "the turn of sticker \"{sticker}\""),
        }
    }
}

/// What has names that nothing else of its kind may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Named {
    /// Stickers, by their ids.
    Stickers,
    /// Background styles, by their names.
    Backgrounds,
}

impl fmt::Display for Named {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Named::Stickers => "stickers with the id",
            Named::Backgrounds => "backgrounds named",
        })
    }
}
