//! From the shape of a layout file to a layout and back, part by part.

use std::sync::Arc;

use kurbo::Point;
use stickleaf_outline::{MOST_COORDINATE, Outline, Placement, Radii, Turn, WideSpot, path};
use stickleaf_sheet::{Background, Layout, Memos, Piece, Rules, Sheet, Sticker, Turns, Wanted, Zone};

use crate::art_shape::{art_of, art_shape};
use crate::carry::{self, Fields};
use crate::correction_shape::{correction_of, correction_shape};
use crate::header;
use crate::number::Number;
use crate::packed;
use crate::read_error::{ReadError, ValueError};
use crate::shape::{
    BackgroundShape, LayoutShape, PieceShape, RadiiShape, RulesShape, SheetShape, StickerShape, TurnsShape,
    TurnsWord, Version, WantedShape, WideSpotShape, ZoneShape,
};

/// No cut line is rounded with a larger radius than this, in millimetres.
const MOST_RADIUS: f64 = 100.0;

/// The layout; an error that names the place if an outline or a number cannot be.
pub(crate) fn layout_of(shape: LayoutShape) -> Result<Layout, ReadError> {
    // What the sheet and the rules carry goes along with the layout: they carry nothing themselves.
    let mut more = Fields::new();
    if let Some(packed) = shape.packed {
        more.insert(packed::FIELD.to_owned(), serde_json::to_value(packed).unwrap_or_default());
    }
    let (sheet, rules) = (&shape.sheet, &shape.rules);
    let sheet = Sheet {
        width: length(sheet.width_mm, "sheet.width_mm")?,
        height: length(sheet.height_mm, "sheet.height_mm")?,
        corner_radius: length(sheet.corner_radius_mm, "sheet.corner_radius_mm")?,
        resolution_ppi: sheet.resolution_ppi.0,
    };
    let rules = Rules {
        spacing: length(rules.spacing_mm, "rules.spacing_mm")?,
        margin: length(rules.margin_mm, "rules.margin_mm")?,
        border: length(rules.border_mm, "rules.border_mm")?,
        print_to_cut: length(rules.print_to_cut_mm, "rules.print_to_cut_mm")?,
        thinnest: length(rules.thinnest_mm, "rules.thinnest_mm")?,
        smallest: length(rules.smallest_mm, "rules.smallest_mm")?,
        inner_radius: length(rules.inner_radius_mm, "rules.inner_radius_mm")?,
        least_ppi: rules.least_ppi.0,
    };
    carry::tuck(&mut more, "sheet", shape.sheet.more);
    carry::tuck(&mut more, "rules", shape.rules.more);
    let correction = shape.correction.map(|shape| correction_of(shape, &mut more)).transpose()?;
    more.extend(shape.more);
    Ok(Layout {
        name: shape.name,
        sheet,
        rules,
        backgrounds: each(shape.backgrounds, background_of)?,
        background: shape.background,
        stickers: each(shape.stickers, sticker_of)?,
        pieces: each(shape.pieces, piece_of)?,
        correction,
        carried: carry::carried(more),
    })
}

/// The shape in which a layout is written.
pub(crate) fn shape_of(layout: &Layout) -> LayoutShape {
    let mut more = carry::fields(&layout.carried);
    let packed = packed::packed(layout);
    if packed.is_some() {
        more.shift_remove(packed::FIELD);
    }
    let (sheet_more, rules_more) = (carry::untuck(&mut more, "sheet"), carry::untuck(&mut more, "rules"));
    let correction_more = carry::untuck(&mut more, "correction");
    LayoutShape {
        format: header::LAYOUT.to_owned(),
        version: Version::Number(Number(1.0)),
        name: layout.name.clone(),
        sheet: SheetShape {
            width_mm: Number(layout.sheet.width),
            height_mm: Number(layout.sheet.height),
            corner_radius_mm: Number(layout.sheet.corner_radius),
            resolution_ppi: Number(layout.sheet.resolution_ppi),
            more: sheet_more,
        },
        rules: RulesShape { more: rules_more, ..RulesShape::from(layout.rules) },
        backgrounds: layout.backgrounds.iter().map(background_shape).collect(),
        background: layout.background.clone(),
        stickers: layout.stickers.iter().map(sticker_shape).collect(),
        pieces: layout.pieces.iter().map(piece_shape).collect(),
        correction: layout.correction.map(|correction| correction_shape(correction, correction_more)),
        packed,
        more,
    }
}

fn each<A, B>(list: Vec<A>, of: impl Fn(A, usize) -> Result<B, ReadError>) -> Result<Vec<B>, ReadError> {
    list.into_iter().enumerate().map(|(index, one)| of(one, index)).collect()
}

/// The number, unless it is so large that no length or place on a sheet can be meant.
pub(crate) fn length(number: Number, place: &str) -> Result<f64, ReadError> {
    if number.0.abs() <= MOST_COORDINATE {
        return Ok(number.0);
    }
    Err(ReadError::Value { place: place.to_owned(), source: ValueError::TooLong })
}

/// The outline, and its text if that is not the one we would write ourselves.
fn outline_of(text: String, place: String) -> Result<(Arc<Outline>, Option<Arc<str>>), ReadError> {
    let outline = path::parse(&text).map_err(|source| ReadError::Outline { place, source })?;
    let path = (path::write(outline.points()) != text).then(|| Arc::from(text));
    Ok((Arc::new(outline), path))
}

/// The text that the outline was read from if it still draws it, else a text that does.
fn outline_text(outline: &Outline, read_from: Option<&str>) -> String {
    match read_from {
        Some(text) if path::parse(text).is_ok_and(|drawn| drawn == *outline) => text.to_owned(),
        _ => path::write(outline.points()),
    }
}

fn background_of(shape: BackgroundShape, index: usize) -> Result<Background, ReadError> {
    let zone = |zone, number| zone_of(zone, &format!("backgrounds[{index}].zones[{number}]"));
    Ok(Background {
        name: shape.name,
        zones: each(shape.zones, zone)?,
        picture: shape.picture,
        picture_opacity: shape.picture_opacity.0,
        carried: carry::carried(shape.more),
    })
}

fn background_shape(background: &Background) -> BackgroundShape {
    BackgroundShape {
        name: background.name.clone(),
        zones: background.zones.iter().map(zone_shape).collect(),
        picture: background.picture.clone(),
        picture_opacity: Number(background.picture_opacity),
        more: carry::fields(&background.carried),
    }
}

fn zone_of(shape: ZoneShape, place: &str) -> Result<Zone, ReadError> {
    let (outline, path) = outline_of(shape.outline, format!("{place}.outline"))?;
    Ok(Zone {
        name: shape.name,
        outline,
        path,
        clearance: length(shape.clearance_mm, &format!("{place}.clearance_mm"))?,
        carried: carry::carried(shape.more),
    })
}

fn zone_shape(zone: &Zone) -> ZoneShape {
    ZoneShape {
        name: zone.name.clone(),
        outline: outline_text(&zone.outline, zone.path.as_deref()),
        clearance_mm: Number(zone.clearance),
        more: carry::fields(&zone.carried),
    }
}

fn sticker_of(shape: StickerShape, index: usize) -> Result<Sticker, ReadError> {
    let place = |field: &str| format!("stickers[{index}].{field}");
    if shape.id.is_empty() {
        return Err(ReadError::Value { place: place("id"), source: ValueError::EmptyId });
    }
    let (outline, path) = outline_of(shape.outline, place("outline"))?;
    let mut more = Fields::new();
    let wanted = match (shape.wanted.exactly, shape.wanted.at_least) {
        (Some(count), None) => Wanted::Exactly(count),
        (None, Some(count)) => Wanted::AtLeast(count),
        _ => return Err(ReadError::Value { place: place("wanted"), source: ValueError::Wanted }),
    };
    carry::tuck(&mut more, "wanted", shape.wanted.more);
    let (turns, turns_more) = match shape.turns {
        TurnsShape::Word(TurnsWord::None) => (Turns::None, Fields::new()),
        TurnsShape::Word(TurnsWord::Any) => (Turns::Any, Fields::new()),
        TurnsShape::Within { within_deg, more } => (Turns::Within(within_deg.0), more),
        TurnsShape::Only { only_deg, more } => {
            (Turns::Only(only_deg.iter().map(|turn| turn.0).collect()), more)
        }
    };
    carry::tuck(&mut more, "turns", turns_more);
    more.extend(shape.more);
    let border = shape.border_mm.map(|border| length(border, &place("border_mm"))).transpose()?;
    let radii = match shape.radii {
        Some(radii) => {
            let read = Radii {
                inner: radius(radii.inner_mm, &place("radii.inner_mm"))?,
                outer: radius(radii.outer_mm, &place("radii.outer_mm"))?,
            };
            carry::tuck(&mut more, "radii", radii.more);
            read
        }
        None => Radii::default(),
    };
    let mut wide_spots = Vec::new();
    for (number, mut spot) in shape.wide_spots.into_iter().enumerate() {
        let part = format!("wide_spots[{number}]");
        carry::tuck(&mut more, &part, std::mem::take(&mut spot.more));
        wide_spots.push(wide_spot_of(&spot, &place(&part))?);
    }
    Ok(Sticker {
        path,
        border,
        radii,
        wide_spots,
        wanted,
        turns,
        mirror: shape.mirror,
        art: shape.art.map(|art| art_of(art, &place("art"))).transpose()?,
        is_rough: shape.rough,
        is_gone: shape.gone,
        carried: carry::carried(more),
        name: shape.name.unwrap_or_else(|| shape.id.clone()),
        id: shape.id.into(),
        outline,
        memos: Memos::default(),
    })
}

fn sticker_shape(sticker: &Sticker) -> StickerShape {
    let mut more = carry::fields(&sticker.carried);
    let (exactly, at_least) = match sticker.wanted {
        Wanted::Exactly(count) => (Some(count), None),
        Wanted::AtLeast(count) => (None, Some(count)),
    };
    let wanted = WantedShape { exactly, at_least, more: carry::untuck(&mut more, "wanted") };
    let turns_more = carry::untuck(&mut more, "turns");
    let turns = match &sticker.turns {
        Turns::None => TurnsShape::Word(TurnsWord::None),
        Turns::Any => TurnsShape::Word(TurnsWord::Any),
        Turns::Within(degrees) => TurnsShape::Within { within_deg: Number(*degrees), more: turns_more },
        Turns::Only(list) => {
            TurnsShape::Only { only_deg: list.iter().copied().map(Number).collect(), more: turns_more }
        }
    };
    let spots = sticker.wide_spots.iter().enumerate();
    let wide_spots = spots
        .map(|(number, spot)| {
            wide_spot_shape(spot, carry::untuck(&mut more, &format!("wide_spots[{number}]")))
        })
        .collect();
    let radii_more = carry::untuck(&mut more, "radii");
    let has_radii = sticker.radii != Radii::default() || !radii_more.is_empty();
    let radii = has_radii.then(|| RadiiShape {
        inner_mm: Number(sticker.radii.inner),
        outer_mm: Number(sticker.radii.outer),
        more: radii_more,
    });
    StickerShape {
        id: sticker.id.to_string(),
        name: Some(sticker.name.clone()),
        outline: outline_text(&sticker.outline, sticker.path.as_deref()),
        border_mm: sticker.border.map(Number),
        radii,
        wide_spots,
        wanted,
        turns,
        mirror: sticker.mirror,
        art: sticker.art.as_ref().map(art_shape),
        rough: sticker.is_rough,
        gone: sticker.is_gone,
        more,
    }
}

/// A radius, which cannot be negative nor larger than anything on a sheet.
fn radius(number: Number, place: &str) -> Result<f64, ReadError> {
    if (0.0..=MOST_RADIUS).contains(&number.0) {
        return Ok(number.0);
    }
    Err(ReadError::Value { place: place.to_owned(), source: ValueError::Radius })
}

fn wide_spot_of(shape: &WideSpotShape, place: &str) -> Result<WideSpot, ReadError> {
    let width = shape.width_mm.0;
    if !(width > 0.0 && width <= 2.0 * MOST_RADIUS) {
        let place = format!("{place}.width_mm");
        return Err(ReadError::Value { place, source: ValueError::Width });
    }
    let x = length(shape.x_mm, &format!("{place}.x_mm"))?;
    let y = length(shape.y_mm, &format!("{place}.y_mm"))?;
    Ok(WideSpot { at: Point::new(x, y), width })
}

fn wide_spot_shape(spot: &WideSpot, more: Fields) -> WideSpotShape {
    WideSpotShape { x_mm: Number(spot.at.x), y_mm: Number(spot.at.y), width_mm: Number(spot.width), more }
}

fn piece_of(shape: PieceShape, index: usize) -> Result<Piece, ReadError> {
    let x = length(shape.x_mm, &format!("pieces[{index}].x_mm"))?;
    let y = length(shape.y_mm, &format!("pieces[{index}].y_mm"))?;
    let turn = Turn::degrees(shape.turn_deg.0);
    Ok(Piece {
        sticker: shape.sticker.into(),
        placement: Placement { at: Point::new(x, y), turn, mirrored: shape.mirrored },
        locked: shape.locked,
        carried: carry::carried(shape.more),
    })
}

fn piece_shape(piece: &Piece) -> PieceShape {
    PieceShape {
        sticker: piece.sticker.to_string(),
        x_mm: Number(piece.placement.at.x),
        y_mm: Number(piece.placement.at.y),
        turn_deg: Number(piece.placement.turn.to_degrees()),
        locked: piece.locked,
        mirrored: piece.placement.mirrored,
        more: carry::fields(&piece.carried),
    }
}
