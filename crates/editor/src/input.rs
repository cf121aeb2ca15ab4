//! Everything a hand or a key can do.

use kurbo::Point;

/// One thing that a hand or a key did. Places are in pixels of the canvas, from its top left corner, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Input {
    /// A finger, a pen or a mouse button came down on the canvas.
    Down(Press),
    /// A pointer that is down moved. Pointers that are not down are passed over.
    Move {
        /// Which pointer.
        id: u64,
        /// Where it is now.
        at: Point,
        /// When, in milliseconds from any fixed moment.
        time_ms: f64,
    },
    /// A pointer was lifted.
    Up {
        /// Which pointer.
        id: u64,
        /// Where it was lifted.
        at: Point,
        /// When, in milliseconds from any fixed moment.
        time_ms: f64,
    },
    /// The system took the pointer away: what it was doing leaves no trace.
    Cancel {
        /// Which pointer.
        id: u64,
    },
    /// The wheel turned, or two fingers slid on a trackpad.
    Wheel {
        /// Where the pointer is.
        at: Point,
        /// Pixels to the right that the content shall move to the left.
        dx: f64,
        /// Pixels down that the content shall move up; for zooming, more is smaller.
        dy: f64,
        /// Whether it asks for zoom instead of pan.
        zoom: bool,
    },
    /// A key was pressed while the canvas has the focus.
    Key {
        /// What the key asks for.
        key: Key,
        /// How far.
        stride: Stride,
        /// When, in milliseconds from any fixed moment.
        time_ms: f64,
    },
}

/// A pointer coming down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Press {
    /// Which pointer: stays the same until it is lifted.
    pub id: u64,
    /// What kind it is.
    pub kind: PointerKind,
    /// Where, in pixels of the canvas.
    pub at: Point,
    /// Whether the piece is added to the chosen ones instead of replacing them (a held Shift key).
    pub extend: bool,
    /// Whether it pans whatever lies below (the middle button, or a held space bar).
    pub pan: bool,
    /// When, in milliseconds from any fixed moment.
    pub time_ms: f64,
}

/// What touches the canvas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointerKind {
    /// A mouse or a trackpad.
    Mouse,
    /// A stylus.
    Pen,
    /// A finger.
    Touch,
}

impl PointerKind {
    /// How far it may stray in pixels before a tap becomes a drag: a finger rolls, a pen trembles, a mouse is still.
    ///
    /// Common practice, no source.
    pub fn drag_start_px(self) -> f64 {
        match self {
            PointerKind::Mouse => 3.0,
            PointerKind::Pen => 4.0,
            PointerKind::Touch => 9.0,
        }
    }

    /// How far outside a piece it still counts as on it, in pixels.
    pub fn slop_px(self) -> f64 {
        match self {
            PointerKind::Mouse => 2.0,
            PointerKind::Pen => 6.0,
            PointerKind::Touch => 12.0,
        }
    }

    /// How far from the middle of a handle it still takes hold of it, in pixels.
    ///
    /// A finger gets a target 44 px wide.
    pub fn handle_reach_px(self) -> f64 {
        match self {
            PointerKind::Mouse => 14.0,
            PointerKind::Pen => 18.0,
            PointerKind::Touch => 22.0,
        }
    }
}

/// What a key asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// Chosen pieces a step to the left.
    Left,
    /// Chosen pieces a step to the right.
    Right,
    /// Chosen pieces a step up.
    Up,
    /// Chosen pieces a step down.
    Down,
    /// Chosen pieces a step anticlockwise.
    TurnLeft,
    /// Chosen pieces a step clockwise.
    TurnRight,
    /// Take the chosen pieces off the sheet.
    Remove,
    /// One more of each chosen piece.
    Duplicate,
    /// Choose every piece.
    ChooseAll,
    /// Take the last step back.
    Undo,
    /// Do it again.
    Redo,
    /// Look closer.
    ZoomIn,
    /// Look from further away.
    ZoomOut,
    /// The whole sheet in view.
    Fit,
    /// Give up what the hand is doing; else choose nothing; else put the tool away.
    Escape,
}

/// How far the hand goes at once: what a nudge moves and turns, and the turns that a turning piece is drawn to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Step {
    /// A tenth of a millimetre, one degree.
    Small,
    /// Half a millimetre, five degrees.
    #[default]
    Middle,
    /// One millimetre, fifteen degrees.
    Large,
}

impl Step {
    /// All of them, the smallest first.
    pub const ALL: [Step; 3] = [Step::Small, Step::Middle, Step::Large];

    /// How far it moves, in millimetres.
    pub fn length(self) -> f64 {
        match self {
            Step::Small => 0.1,
            Step::Middle => 0.5,
            Step::Large => 1.0,
        }
    }

    /// How far it turns, in degrees.
    pub fn degrees(self) -> f64 {
        match self {
            Step::Small => 1.0,
            Step::Middle => 5.0,
            Step::Large => 15.0,
        }
    }

    /// The next larger one; after the largest the smallest.
    pub fn next(self) -> Step {
        match self {
            Step::Small => Step::Middle,
            Step::Middle => Step::Large,
            Step::Large => Step::Small,
        }
    }
}

/// How large a step a key makes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stride {
    /// A hundredth of a millimetre, a tenth of a degree.
    Fine,
    /// The step of the artist's [`Habits`].
    #[default]
    Plain,
    /// The largest step.
    Coarse,
}

impl Stride {
    /// How far it moves in millimetres where `step` is the usual one.
    pub fn length(self, step: Step) -> f64 {
        match self {
            Stride::Fine => 0.01,
            Stride::Plain => step.length(),
            Stride::Coarse => Step::Large.length(),
        }
    }

    /// How far it turns in degrees where `step` is the usual one.
    pub fn degrees(self, step: Step) -> f64 {
        match self {
            Stride::Fine => 0.1,
            Stride::Plain => step.degrees(),
            Stride::Coarse => Step::Large.degrees(),
        }
    }
}

/// What a pointer does on the sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tool {
    /// Choose, move and turn pieces; pan and zoom.
    #[default]
    Move,
    /// Choose several: a tap adds a piece or leaves it out, a drag beside the pieces chooses all that its box touches,
    /// with a finger too.
    Choose,
    /// Draw a zone: a box from corner to corner, or a loop that comes back to its start.
    DrawZone,
    /// Draw a blob: a closed line that becomes a rough sticker.
    DrawBlob,
}

impl Tool {
    /// Whether a drag on the sheet draws something new, whatever lies below.
    pub fn is_drawing(self) -> bool {
        matches!(self, Tool::DrawZone | Tool::DrawBlob)
    }
}

/// What the artist likes the hand to do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Habits {
    /// How far it goes at once.
    pub step: Step,
    /// A carried piece that comes a little too near slides along its neighbour instead.
    pub stick: bool,
    /// Fingers only pan and zoom; pen and mouse move pieces.
    pub fingers_only_look: bool,
}
