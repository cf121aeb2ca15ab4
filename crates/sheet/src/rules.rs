//! The limits that a layout is held to.

/// Spacing, margin, border, and the limits that only warn. All in millimetres, none negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// Least gap between two cut lines.
    pub spacing: f64,
    /// Least distance from a cut line to the sheet's edge.
    pub margin: f64,
    /// Width of the white border, where a sticker has none of its own.
    pub border: f64,
    /// How far the cut may miss the print; a border narrower than that lets the cut clip the drawing.
    pub print_to_cut: f64,
    /// Thinnest part that peels well.
    pub thinnest: f64,
    /// Smallest sticker, measured across its larger side.
    pub smallest: f64,
    /// Smallest radius of an inward corner that a blade follows without tearing.
    pub inner_radius: f64,
    /// Least pixels to the inch at the size placed.
    pub least_ppi: f64,
}

impl Default for Rules {
    /// What most people start from (common practice, no source).
    fn default() -> Rules {
        Rules {
            spacing: 2.0,
            margin: 4.0,
            border: 1.5,
            print_to_cut: 0.5,
            thinnest: 3.0,
            smallest: 8.0,
            inner_radius: 0.5,
            least_ppi: 300.0,
        }
    }
}
