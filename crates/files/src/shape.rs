//! The shape of a layout file: one struct for each object in it, field by field as they are written.
//!
//! Plain data for the JSON reader, the JSON writer and the schema; [`crate::layout_file`] turns it into a layout and back.
//! Fields stand in the order in which they are written. `more` holds what this version does not know.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use stickleaf_sheet::{Rules, Sheet};

use crate::art_shape::ArtShape;
use crate::carry::Fields;
use crate::correction_shape::CorrectionShape;
use crate::number::Number;
use crate::packed::Packed;

/// A sheet with its rules, background styles, stickers and pieces. Lengths in mm, y down, origin at the sheet's top
/// left corner.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object with the fields of a layout")]
#[schemars(rename = "Stickleaf layout")]
pub(crate) struct LayoutShape {
    /// What the file is.
    #[schemars(extend("const" = "stickleaf-layout"))]
    pub format: String,
    pub version: Version,
    /// What the artist calls it.
    #[serde(default)]
    pub name: String,
    pub sheet: SheetShape,
    #[serde(default)]
    pub rules: RulesShape,
    /// The background styles to choose from.
    #[serde(default)]
    pub backgrounds: Vec<BackgroundShape>,
    /// The name of the chosen background; absent for plain ground.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub background: Option<String>,
    /// The drawings.
    pub stickers: Vec<StickerShape>,
    /// The copies that lie on the sheet, in drawing order.
    #[serde(default)]
    pub pieces: Vec<PieceShape>,
    /// How all colours are shifted on their way to the paper; absent if nobody has said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub correction: Option<CorrectionShape>,
    /// How the pieces were placed, if by packing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub packed: Option<Packed>,
    #[serde(flatten)]
    pub more: Fields,
}

/// Version of the format. 1.x can be read by every program that reads 1.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(untagged, expecting = "a version such as 1")]
#[schemars(inline)]
pub(crate) enum Version {
    Number(#[schemars(range(min = 1, max = 1.999))] Number),
    Text(#[schemars(regex(pattern = r"^1(\.[0-9]+)?$"))] String),
}

/// The card.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"width_mm\": 105, \"height_mm\": 148}")]
#[schemars(rename = "Sheet")]
pub(crate) struct SheetShape {
    /// From left to right.
    #[schemars(extend("exclusiveMinimum" = 0))]
    pub width_mm: Number,
    /// From top to bottom.
    #[schemars(extend("exclusiveMinimum" = 0))]
    pub height_mm: Number,
    /// Radius of the four round corners; at most half the shorter side.
    #[serde(default = "usual_corner_radius")]
    #[schemars(range(min = 0))]
    pub corner_radius_mm: Number,
    /// The print's pixels to the inch.
    #[serde(default = "usual_resolution")]
    #[schemars(extend("exclusiveMinimum" = 0))]
    pub resolution_ppi: Number,
    #[serde(flatten)]
    pub more: Fields,
}

fn usual_corner_radius() -> Number {
    Number(Sheet::default().corner_radius)
}

fn usual_resolution() -> Number {
    Number(Sheet::default().resolution_ppi)
}

/// The limits.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(default, expecting = "an object such as {\"spacing_mm\": 2, \"margin_mm\": 4}")]
#[schemars(rename = "Rules")]
pub(crate) struct RulesShape {
    /// Least gap between two cut lines.
    #[schemars(range(min = 0))]
    pub spacing_mm: Number,
    /// Least distance from a cut line to the sheet's edge.
    #[schemars(range(min = 0))]
    pub margin_mm: Number,
    /// Width of the white border, where a sticker has none of its own.
    #[schemars(range(min = 0))]
    pub border_mm: Number,
    /// How far the cut may miss the print.
    #[schemars(range(min = 0))]
    pub print_to_cut_mm: Number,
    /// Thinnest part that peels well.
    #[schemars(range(min = 0))]
    pub thinnest_mm: Number,
    /// Smallest sticker, measured across its larger side.
    #[schemars(range(min = 0))]
    pub smallest_mm: Number,
    /// Smallest radius of an inward corner.
    #[schemars(range(min = 0))]
    pub inner_radius_mm: Number,
    /// Least pixels to the inch at the size placed.
    #[schemars(range(min = 0))]
    pub least_ppi: Number,
    #[serde(flatten)]
    pub more: Fields,
}

impl Default for RulesShape {
    fn default() -> RulesShape {
        RulesShape::from(Rules::default())
    }
}

impl From<Rules> for RulesShape {
    fn from(rules: Rules) -> RulesShape {
        RulesShape {
            spacing_mm: Number(rules.spacing),
            margin_mm: Number(rules.margin),
            border_mm: Number(rules.border),
            print_to_cut_mm: Number(rules.print_to_cut),
            thinnest_mm: Number(rules.thinnest),
            smallest_mm: Number(rules.smallest),
            inner_radius_mm: Number(rules.inner_radius),
            least_ppi: Number(rules.least_ppi),
            more: Fields::new(),
        }
    }
}

/// A style that the sheet can have.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"name\": \"Plain\", \"zones\": []}")]
#[schemars(rename = "Background")]
pub(crate) struct BackgroundShape {
    /// What the artist calls it; unique in the layout.
    pub name: String,
    /// The parts that stickers keep out of.
    #[serde(default)]
    pub zones: Vec<ZoneShape>,
    /// The picture's file, beside the layout or in its bundle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub picture: Option<String>,
    /// How much of the picture is seen, on the screen and in print: 1 for all of it, which is usual, 0 for nothing.
    #[serde(default = "whole", skip_serializing_if = "is_whole")]
    #[schemars(range(min = 0, max = 1))]
    pub picture_opacity: Number,
    #[serde(flatten)]
    pub more: Fields,
}

/// A part of the sheet that stickers keep out of.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"name\": \"title\", \"outline\": \"M0 0H105V22H0Z\"}")]
#[schemars(rename = "Zone")]
pub(crate) struct ZoneShape {
    /// What the artist calls it.
    #[serde(default = "usual_zone_name")]
    pub name: String,
    /// Its edge as SVG path data in sheet millimetres.
    pub outline: String,
    /// Least distance from a cut line to the zone.
    #[serde(default = "no_clearance")]
    #[schemars(range(min = 0))]
    pub clearance_mm: Number,
    #[serde(flatten)]
    pub more: Fields,
}

fn whole() -> Number {
    Number(1.0)
}

fn is_whole(share: &Number) -> bool {
    share.0 == 1.0
}

fn usual_zone_name() -> String {
    "zone".to_owned()
}

fn no_clearance() -> Number {
    Number(0.0)
}

/// A drawing with its outline.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(
    expecting = "an object such as {\"id\": \"dot\", \"outline\": \"M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z\"}"
)]
#[schemars(rename = "Sticker")]
pub(crate) struct StickerShape {
    /// By this its pieces name it; unique in the layout.
    pub id: String,
    /// What the artist calls it; the id if absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The line round the drawing as SVG path data in its own millimetres. Its (0, 0) is the point that a piece's place
    /// puts on the sheet and about which it turns.
    pub outline: String,
    /// A border of its own in place of the rule's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0))]
    pub border_mm: Option<Number>,
    /// The smallest radii of its cut line, which is moved outward for them; absent where it may be sharp.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub radii: Option<RadiiShape>,
    /// Spots at which its cut line is wider than the border makes it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wide_spots: Vec<WideSpotShape>,
    #[serde(default)]
    pub wanted: WantedShape,
    #[serde(default)]
    pub turns: TurnsShape,
    /// Whether packing may flip it left to right.
    #[serde(default, skip_serializing_if = "is_false")]
    pub mirror: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub art: Option<ArtShape>,
    /// Whether it only stands for a drawing that is still to be made.
    #[serde(default, skip_serializing_if = "is_false")]
    pub rough: bool,
    /// Whether its drawing was not found any more when its picture was brought in again.
    #[serde(default, skip_serializing_if = "is_false")]
    pub gone: bool,
    #[serde(flatten)]
    pub more: Fields,
}

/// The smallest radii of a cut line.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"inner_mm\": 0.5, \"outer_mm\": 0.5}")]
#[schemars(rename = "Radii")]
pub(crate) struct RadiiShape {
    /// Of corners that point inward; 0 where they may be sharp.
    #[serde(default = "zero")]
    #[schemars(range(min = 0))]
    pub inner_mm: Number,
    /// Of corners that point outward; 0 where they may be sharp.
    #[serde(default = "zero")]
    #[schemars(range(min = 0))]
    pub outer_mm: Number,
    #[serde(flatten)]
    pub more: Fields,
}

/// A spot at which a cut line is made wider.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"x_mm\": 4, \"y_mm\": -2.5, \"width_mm\": 3}")]
#[schemars(rename = "Wide spot")]
pub(crate) struct WideSpotShape {
    /// A point at or in the part that is too thin, in the outline's own millimetres, from its (0, 0) to the right.
    pub x_mm: Number,
    /// The same downwards.
    pub y_mm: Number,
    /// How wide the part becomes.
    #[schemars(extend("exclusiveMinimum" = 0))]
    pub width_mm: Number,
    #[serde(flatten)]
    pub more: Fields,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the JSON writer asks for a reference")]
fn is_false(value: &bool) -> bool {
    !value
}

/// How many copies are wanted: exactly so many, or so many and more where there is room.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "{\"exactly\": n} or {\"at_least\": n}")]
#[schemars(rename = "Wanted")]
#[schemars(extend("oneOf" = [{"required": ["exactly"]}, {"required": ["at_least"]}]))]
pub(crate) struct WantedShape {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exactly: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_least: Option<u32>,
    #[serde(flatten)]
    pub more: Fields,
}

impl Default for WantedShape {
    fn default() -> WantedShape {
        WantedShape { exactly: Some(1), at_least: None, more: Fields::new() }
    }
}

/// Which turns packing may give a piece.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(untagged, expecting = "\"none\", \"any\", {\"within_deg\": d} or {\"only_deg\": [0, 90]}")]
#[schemars(rename = "Turns")]
pub(crate) enum TurnsShape {
    Word(TurnsWord),
    /// Up to so many degrees to either side.
    Within {
        #[schemars(range(min = 0))]
        within_deg: Number,
        #[serde(flatten)]
        more: Fields,
    },
    /// These turns and no others.
    Only {
        only_deg: Vec<Number>,
        #[serde(flatten)]
        more: Fields,
    },
}

/// Upright only, or as it likes.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(inline)]
pub(crate) enum TurnsWord {
    None,
    Any,
}

impl Default for TurnsShape {
    fn default() -> TurnsShape {
        TurnsShape::Word(TurnsWord::None)
    }
}

/// One copy of a sticker, lying on the sheet.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"sticker\": \"crab\", \"x_mm\": 40, \"y_mm\": 60}")]
#[schemars(rename = "Piece")]
pub(crate) struct PieceShape {
    /// The id of its sticker.
    pub sticker: String,
    /// Where the outline's own (0, 0) lies on the sheet, from the left.
    pub x_mm: Number,
    /// Where the outline's own (0, 0) lies on the sheet, from the top.
    pub y_mm: Number,
    /// Turn about that point, clockwise as seen.
    #[serde(default = "zero")]
    pub turn_deg: Number,
    /// A locked piece stays where it is, whatever is packed round it.
    #[serde(default)]
    pub locked: bool,
    /// Whether it is flipped left to right, before it is turned.
    #[serde(default, skip_serializing_if = "is_false")]
    pub mirrored: bool,
    #[serde(flatten)]
    pub more: Fields,
}

pub(crate) fn zero() -> Number {
    Number(0.0)
}
