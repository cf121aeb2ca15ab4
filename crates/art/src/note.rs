//! What an import has to say beside its drawings.

use std::fmt;

use kurbo::Point;

/// A part of the artwork that was left out because it is too small.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Speck {
    /// The middle of it in the picture, in millimetres.
    pub at: Point,
    /// The longer side of its bounds in millimetres.
    pub size: f64,
}

/// Something that the artist should know about an import; it reads as a sentence without its full stop.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// The file does not say how large it is, so a size was taken for granted.
    SizeAssumed {
        /// The pixels to the inch taken: of a drawing, its units.
        per_inch: f64,
        /// The width that follows, in millimetres.
        width: f64,
        /// The height that follows, in millimetres.
        height: f64,
    },
    /// The file says that its pixels are not square; they were taken as square by their width.
    PixelsNotSquare,
    /// Not one pixel of the picture is clear, so the drawing is the whole picture.
    FullyCovered,
    /// A drawing reaches the edge of the picture and may be cut off there.
    TouchesEdge {
        /// The drawing's name.
        name: String,
    },
    /// A group of the file fell apart, as its parts are too far from each other for one border.
    GroupSplit {
        /// What the group is called.
        name: String,
        /// How many drawings it became.
        drawings: usize,
    },
    /// Groups or shapes of the file overlap and became one drawing.
    Merged {
        /// The drawing's name.
        name: String,
        /// How many it was made of.
        shapes: usize,
    },
    /// Shapes lie wholly outside of the page and were left out.
    OffPage {
        /// How many parts.
        count: usize,
    },
    /// The file holds text, which is not drawn without its font.
    Text {
        /// How many text elements there are.
        count: usize,
    },
    /// The file holds pictures, which are not traced.
    Pictures {
        /// How many picture elements there are.
        count: usize,
    },
    /// The file holds masks, which are not followed.
    Masks {
        /// How many elements have one.
        count: usize,
    },
    /// The file holds blurs, shadows or other effects, which are not counted as drawn.
    Effects {
        /// How many elements have one.
        count: usize,
    },
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Note::SizeAssumed { per_inch, width, height } => write!(
                f,
                "the file does not say how large it is; at {per_inch} pixels to the inch it is {width:.1} x \
                 {height:.1} mm, so give the true width if that is not right"
            ),
            Note::PixelsNotSquare => {
                f.write_str("the file says that its pixels are not square; they were taken as square by their width")
            }
            Note::FullyCovered => f.write_str(
                "no pixel of the picture is clear, so the outline is its edge; if that is not what you want, hide the \
                 background layer and export again",
            ),
            Note::TouchesEdge { name } => {
                write!(f, "{name} touches the edge of the picture and may be cut off there; leave some room around it")
            }
            Note::GroupSplit { name, drawings } => write!(
                f,
                "the parts of {name} are too far apart for one border, so it became {drawings} stickers; move them \
                 closer or widen the border to keep them together"
            ),
            Note::Merged { name, shapes } => {
                write!(f, "{shapes} shapes that overlap became one sticker, {name}; move them apart to cut each by itself")
            }
            Note::OffPage { count } => write!(
                f,
                "{} outside of the page left out; move what you want to cut onto the page",
                counted(*count, "part was", "parts were")
            ),
            Note::Text { count } => write!(
                f,
                "{} left out; convert text to outlines in your drawing app",
                counted(*count, "text was", "texts were")
            ),
            Note::Pictures { count } => write!(
                f,
                "{} inside the drawing left out; export it as PNG with a transparent background to trace it",
                counted(*count, "picture was", "pictures were")
            ),
            Note::Masks { count } => write!(
                f,
                "{} not followed; the outline runs round everything under it, so cut the shapes themselves to size",
                counted(*count, "mask was", "masks were")
            ),
            Note::Effects { count } => write!(
                f,
                "{} such as blur or shadow not counted; the outline runs round the shapes alone",
                counted(*count, "effect was", "effects were")
            ),
        }
    }
}

fn counted(count: usize, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_read_as_sentences() {
        let assumed = Note::SizeAssumed { per_inch: 300.0, width: 101.6, height: 152.4 };
        assert_eq!(
            assumed.to_string(),
            "the file does not say how large it is; at 300 pixels to the inch it is 101.6 x 152.4 mm, so give the \
             true width if that is not right"
        );
        assert!(
            Note::Text { count: 1 }.to_string().starts_with("1 text was left out; convert text to outlines")
        );
        assert!(Note::Pictures { count: 2 }.to_string().starts_with("2 pictures were"));
    }
}
