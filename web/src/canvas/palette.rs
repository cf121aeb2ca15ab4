//! Colours: those of the page from its style sheet, those on paper always the same.

use leptos::prelude::{document, window};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The card itself: label stock, a little warmer than the white borders of the stickers.
pub const PAPER: &str = "#f8f5ee";
/// The white border of a sticker.
pub const WHITE: &str = "#ffffff";
/// Thin lines on paper: kiss lines, the edge of the card.
pub const LINE_ON_PAPER: &str = "rgba(58, 62, 70, 0.62)";
/// The margin's line, and the second of the card's double line.
pub const FAINT_ON_PAPER: &str = "rgba(58, 62, 70, 0.26)";
/// Zones: their hatching and their edge.
pub const ZONE_ON_PAPER: &str = "rgba(92, 96, 104, 0.34)";
/// What lies under the hatching of a zone.
pub const ZONE_GROUND: &str = "rgba(120, 116, 108, 0.10)";
/// The card is light in both colour schemes, so what is drawn on it takes the light scheme's colours, edged with white.
pub const ACCENT_ON_PAPER: &str = "#1F6B59";
/// A broken rule, on paper.
pub const BROKEN_ON_PAPER: &str = "#A4261D";
/// Writing on paper.
pub const INK_ON_PAPER: &str = "#23262B";
/// The edge that keeps a line legible on any artwork.
pub const EDGE: &str = "rgba(255, 255, 255, 0.92)";

/// The page's colours in the present colour scheme.
#[derive(Clone, Debug, PartialEq)]
pub struct Palette {
    /// The ground of labels.
    pub panel: String,
    /// Writing on labels.
    pub ink: String,
    /// Less important writing.
    pub quiet_ink: String,
    /// The edge of labels.
    pub line: String,
    /// What is chosen.
    pub accent: String,
    /// A broken rule.
    pub broken: String,
    /// The shadow of the card on the desk.
    pub shadow: &'static str,
}

impl Palette {
    /// Reads the colours as the style sheet gives them now, through an element inside `host`.
    ///
    /// A custom property is not worked out by the browser until it is used as a colour; so each is used once.
    pub fn read(host: &HtmlElement) -> Palette {
        let probe =
            document().create_element("span").ok().and_then(|element| element.dyn_into::<HtmlElement>().ok());
        let colour = |name: &str, otherwise: &str| {
            let read = || {
                let probe = probe.as_ref()?;
                probe.style().set_property("color", &format!("var({name}, {otherwise})")).ok()?;
                window().get_computed_style(probe).ok()??.get_property_value("color").ok()
            };
            read().filter(|text| !text.is_empty()).unwrap_or_else(|| otherwise.to_owned())
        };
        if let Some(probe) = &probe {
            probe.set_hidden(true);
            // Where the system has colours of its own, each would read as that of writing: labels black on black.
            let _ = probe.style().set_property("forced-color-adjust", "none");
            // Outside the document nothing has a colour.
            let _ = host.append_child(probe);
        }
        let palette = Palette {
            panel: colour("--panel", "#FBF9F5"),
            ink: colour("--ink", "#23262B"),
            quiet_ink: colour("--quiet", "#5C6068"),
            line: colour("--line", "#CFC8BB"),
            accent: colour("--accent", ACCENT_ON_PAPER),
            broken: colour("--broken", BROKEN_ON_PAPER),
            shadow: if is_dark() { "rgba(0, 0, 0, 0.55)" } else { "rgba(60, 52, 38, 0.24)" },
        };
        if let Some(probe) = probe {
            probe.remove();
        }
        palette
    }
}

fn is_dark() -> bool {
    matches("(prefers-color-scheme: dark)")
}

/// Whether the artist asked for still pictures.
pub fn reduces_motion() -> bool {
    matches("(prefers-reduced-motion: reduce)")
}

fn matches(query: &str) -> bool {
    window().match_media(query).ok().flatten().is_some_and(|media| media.matches())
}
