//! The page's own icons: 24 units square, strokes of 1.75, never without a word beside them.

use leptos::prelude::*;

/// One icon.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Icon {
    /// The mark of the page: a leaf lifted off its sheet.
    Leaf,
    /// A card with stickers on it.
    Desk,
    /// Two cards beside each other.
    Compare,
    /// A page that leaves.
    Press,
    /// A leaf of a calendar.
    Month,
    /// Take back.
    Undo,
    /// Do again.
    Redo,
    /// More to choose from.
    More,
    /// A picture coming in.
    BringIn,
    /// A folder.
    Open,
    /// Something to begin with.
    Sample,
    /// Many pieces.
    Fill,
    /// These pieces.
    PlaceThese,
    /// Larger.
    Grow,
    /// Further apart.
    Even,
    /// A lower sheet.
    Shorten,
    /// Stop.
    Stop,
    /// Choices.
    Tune,
    /// One less.
    Minus,
    /// One more.
    Plus,
    /// A card's size.
    Sheet,
    /// A picture behind.
    Background,
    /// Something to look at.
    Findings,
    /// A closed lock.
    Lock,
    /// An open lock.
    Unlock,
    /// Anticlockwise.
    TurnLeft,
    /// Clockwise.
    TurnRight,
    /// A step to the left.
    Left,
    /// A step to the right.
    Right,
    /// A step up.
    Up,
    /// A step down.
    Down,
    /// One more like it.
    Duplicate,
    /// Two made one.
    Merge,
    /// Away with it.
    Remove,
    /// Close.
    Close,
    /// Save to the device.
    Save,
    /// All is well.
    Check,
    /// Mind this.
    Caution,
    /// Exchange two sides.
    Swap,
    /// Draw with the pen.
    Draw,
    /// Shapes to plan with.
    Rough,
    /// The whole sheet.
    Fit,
    /// A keyboard.
    Keys,
    /// Room for a dot.
    Room,
    /// Several sheets.
    Sheets,
    /// A clock that goes back.
    Earlier,
    /// A dashed box about several things.
    Several,
    /// A magnifier with a plus.
    Closer,
    /// Left sides in line.
    AlignLeft,
    /// Middles above each other.
    AlignCentre,
    /// Right sides in line.
    AlignRight,
    /// Upper sides in line.
    AlignTop,
    /// Middles beside each other.
    AlignMiddle,
    /// Lower sides in line.
    AlignBottom,
    /// Even gaps from left to right.
    SpaceAcross,
    /// Even gaps from top to bottom.
    SpaceDown,
}

impl Icon {
    fn strokes(self) -> &'static str {
        match self {
            Icon::Leaf => "M5 19C4 11 9 4.5 19.5 4.5C20 14 15 20 8 18.5M5 19.5C7.5 15 10.5 12 14.5 9.5",
            Icon::Desk => {
                "M6 3.5H18A1.5 1.5 0 0 1 19.5 5V19A1.5 1.5 0 0 1 18 20.5H6A1.5 1.5 0 0 1 4.5 19V5A1.5 1.5 0 0 1 6 3.5ZM8 9.5A2 2 0 1 0 12 9.5A2 2 0 1 0 8 9.5ZM13 14.5L16.5 13.5L16 17.5L12.5 17Z"
            }
            Icon::Compare => {
                "M4.5 5.5H10.5V18.5H4.5ZM13.5 5.5H19.5V18.5H13.5ZM7.5 9V9.01M7.5 12V12.01M7.5 15V15.01M16.5 9V9.01M16.5 12V12.01"
            }
            Icon::Press => {
                "M7 9V3.5H17V9M7 17H4.5V10.5A1.5 1.5 0 0 1 6 9H18A1.5 1.5 0 0 1 19.5 10.5V17H17M7 14H17V20.5H7Z"
            }
            Icon::Month => {
                "M6 5.5H18A1.5 1.5 0 0 1 19.5 7V18.5A1.5 1.5 0 0 1 18 20H6A1.5 1.5 0 0 1 4.5 18.5V7A1.5 1.5 0 0 1 6 5.5ZM4.5 10H19.5M8.5 3.5V7.5M15.5 3.5V7.5M9 15.2L11 17.2L15 13.2"
            }
            Icon::Undo => "M8.5 5L4.5 9L8.5 13M5 9H14A5 5 0 0 1 14 19H9",
            Icon::Redo => "M15.5 5L19.5 9L15.5 13M19 9H10A5 5 0 0 0 10 19H15",
            Icon::More => "M5.5 12H5.51M12 12H12.01M18.5 12H18.51",
            Icon::BringIn => {
                "M4.5 13.5V18A1.5 1.5 0 0 0 6 19.5H18A1.5 1.5 0 0 0 19.5 18V13.5M12 4V14.5M7.5 10.5L12 15L16.5 10.5"
            }
            Icon::Open => {
                "M3.5 18V6A1.5 1.5 0 0 1 5 4.5H9L11.5 7H18A1.5 1.5 0 0 1 19.5 8.5V10M3.5 18L6 11.5A1.5 1.5 0 0 1 7.5 10.5H20.5L18 18A1.5 1.5 0 0 1 16.5 19H4.5A1 1 0 0 1 3.5 18Z"
            }
            Icon::Sample => {
                "M12 3.5L14.3 9.2L20.5 9.7L15.8 13.7L17.3 19.7L12 16.4L6.7 19.7L8.2 13.7L3.5 9.7L9.7 9.2Z"
            }
            Icon::Fill => {
                "M4.5 4.5H10.5V10.5H4.5ZM16.5 4.5A3 3 0 1 1 16.49 4.5ZM4.5 16.5A3 3 0 1 1 4.5 16.51ZM13.5 13.5H19.5V19.5H13.5Z"
            }
            Icon::PlaceThese => {
                "M5 5H11V11H5ZM14.5 14.5H19.5V19.5H14.5ZM15 8.5L17 10.5L20.5 6M5 18L7 20L10.5 15.5"
            }
            Icon::Grow => "M9 4.5H4.5V9M15 19.5H19.5V15M4.5 4.5L10 10M19.5 19.5L14 14",
            Icon::Even => "M4.5 5V19M19.5 5V19M8 12H16M10.5 9.5L8 12L10.5 14.5M13.5 9.5L16 12L13.5 14.5",
            Icon::Shorten => "M6 3.5H18V12.5H6ZM12 20.5V16M9 18.5L12 15.5L15 18.5",
            Icon::Stop => "M6.5 6.5H17.5V17.5H6.5Z",
            Icon::Tune => "M4 7.5H12M17 7.5H20M4 16.5H7M12 16.5H20M14.5 5V10M9.5 14V19",
            Icon::Minus => "M6 12H18",
            Icon::Plus => "M6 12H18M12 6V18",
            Icon::Sheet => {
                "M7 3.5H17A2 2 0 0 1 19 5.5V18.5A2 2 0 0 1 17 20.5H7A2 2 0 0 1 5 18.5V5.5A2 2 0 0 1 7 3.5ZM8.5 12H15.5M10 10.5L8.5 12L10 13.5M14 10.5L15.5 12L14 13.5"
            }
            Icon::Background => {
                "M4.5 5.5H19.5V18.5H4.5ZM4.5 15.5L9 11L13 15L15.5 12.5L19.5 16.5M14 8.5H14.01"
            }
            Icon::Findings => "M11 4.5A6.5 6.5 0 1 1 10.99 4.5ZM16 15.5L20 19.5M11 8V11.5M11 14H11.01",
            Icon::Lock => "M6.5 11H17.5V19.5H6.5ZM8.5 11V8A3.5 3.5 0 0 1 15.5 8V11",
            Icon::Unlock => "M6.5 11H17.5V19.5H6.5ZM8.5 11V7.5A3.5 3.5 0 0 1 15 6",
            Icon::TurnLeft => "M5 5V10H10M5.5 10A7.5 7.5 0 1 1 5 14.5",
            Icon::TurnRight => "M19 5V10H14M18.5 10A7.5 7.5 0 1 0 19 14.5",
            Icon::Left => "M14.5 5.5L8 12L14.5 18.5",
            Icon::Right => "M9.5 5.5L16 12L9.5 18.5",
            Icon::Up => "M5.5 14.5L12 8L18.5 14.5",
            Icon::Down => "M5.5 9.5L12 16L18.5 9.5",
            Icon::Duplicate => "M9 9H19.5V19.5H9ZM15 9V4.5H4.5V15H9",
            Icon::Merge => "M13 5.2A6.5 6.5 0 1 0 13 18.8M11 5.2A6.5 6.5 0 1 1 11 18.8M9.5 12H14.5",
            Icon::Remove => "M4.5 7H19.5M9.5 7V4.5H14.5V7M6.5 7L7.5 19.5H16.5L17.5 7M10.5 11V16M13.5 11V16",
            Icon::Close => "M6 6L18 18M18 6L6 18",
            Icon::Save => "M12 4V14.5M7.5 10.5L12 15L16.5 10.5M5 19.5H19",
            Icon::Check => "M5 12.5L10 17.5L19.5 7",
            Icon::Caution => "M12 4L21 19.5H3ZM12 10V14M12 16.8H12.01",
            Icon::Swap => "M7.5 4.5L4 8L7.5 11.5M4.5 8H19.5M16.5 12.5L20 16L16.5 19.5M19.5 16H4.5",
            Icon::Draw => "M4.5 19.5L5.5 15.5L16 5L19 8L8.5 18.5ZM13.5 7.5L16.5 10.5",
            Icon::Rough => {
                "M9.5 4.5A5 5 0 0 1 12.6 5.6M14.3 8.3A5 5 0 0 1 14 11.2M9.5 14.5A5 5 0 0 1 6.2 13.3M4.6 10.5A5 5 0 0 1 5.2 6.9M13 14V13H14.5M17.5 13H19.5V15M19.5 17.8V19.5H17.8M15 19.5H13V17.5"
            }
            Icon::Fit => "M9 4.5H4.5V9M15 4.5H19.5V9M9 19.5H4.5V15M15 19.5H19.5V15",
            Icon::Room => {
                "M9.2 5.1A7.5 7.5 0 0 1 14.8 5.1M18.3 8A7.5 7.5 0 0 1 19.4 13M17.5 17A7.5 7.5 0 0 1 13 19.4M9 18.9A7.5 7.5 0 0 1 5.5 15.7M4.5 12A7.5 7.5 0 0 1 6.2 7.3M12 9.5V14.5M9.5 12H14.5"
            }
            Icon::Sheets => {
                "M8.5 3.5H18A1.5 1.5 0 0 1 19.5 5V17M6 7H14.5A1.5 1.5 0 0 1 16 8.5V19A1.5 1.5 0 0 1 14.5 20.5H6A1.5 1.5 0 0 1 4.5 19V8.5A1.5 1.5 0 0 1 6 7Z"
            }
            Icon::Earlier => "M4.5 5V9.5H9M5 9.5A7.5 7.5 0 1 1 4.5 13.5M12 8V12.5L15 14.5",
            Icon::Several => {
                "M4.5 8V4.5H8M11 4.5H13.5M16.5 4.5H19.5V8M19.5 11V13M4.5 11V13.5M4.5 16.5V19.5H8M11 19.5H13M17.5 15V20M15 17.5H20"
            }
            Icon::Closer => "M11 4.5A6.5 6.5 0 1 1 10.99 4.5ZM16 15.5L20 19.5M8.5 11H13.5M11 8.5V13.5",
            Icon::AlignLeft => "M4.5 4V20M8 6.5H18V10.5H8ZM8 13.5H14V17.5H8Z",
            Icon::AlignCentre => "M12 4V6.5M12 10.5V13.5M12 17.5V20M6 6.5H18V10.5H6ZM8.5 13.5H15.5V17.5H8.5Z",
            Icon::AlignRight => "M19.5 4V20M6 6.5H16V10.5H6ZM10 13.5H16V17.5H10Z",
            Icon::AlignTop => "M4 4.5H20M6.5 8V18H10.5V8ZM13.5 8V14H17.5V8Z",
            Icon::AlignMiddle => "M4 12H6.5M10.5 12H13.5M17.5 12H20M6.5 6V18H10.5V6ZM13.5 8.5V15.5H17.5V8.5Z",
            Icon::AlignBottom => "M4 19.5H20M6.5 6V16H10.5V6ZM13.5 10V16H17.5V10Z",
            Icon::SpaceAcross => "M4.5 4V20M19.5 4V20M10 7H14V17H10ZM6 12H8M16 12H18",
            Icon::SpaceDown => "M4 4.5H20M4 19.5H20M7 10V14H17V10ZM12 6V8M12 16V18",
            Icon::Keys => {
                "M5 6.5H19A1.5 1.5 0 0 1 20.5 8V16A1.5 1.5 0 0 1 19 17.5H5A1.5 1.5 0 0 1 3.5 16V8A1.5 1.5 0 0 1 5 6.5ZM7 10H7.01M10.3 10H10.31M13.7 10H13.71M17 10H17.01M8.5 14H15.5"
            }
        }
    }
}

/// The icon as a drawing that readers pass over, since a word stands beside it.
pub fn icon(icon: Icon) -> impl IntoView {
    view! {
        <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
            <path d=icon.strokes()></path>
        </svg>
    }
}
