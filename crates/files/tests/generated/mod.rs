//! Layouts made up by chance, for the tests that state what must hold for all of them.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use stickleaf_outline::{Outline, Placement, Radii, Turn, WideSpot, path};
use stickleaf_sheet::{
    Art, Background, Carried, Correction, Layout, Part, Piece, Rules, Sheet, Sticker, Turns, Wanted, Zone,
};

/// A length between these, now on the micrometre grid, now any double.
fn length(least: f64, most: f64) -> impl Strategy<Value = f64> {
    prop_oneof![least..most, (least..most).prop_map(|mm| (mm * 1000.0).round() / 1000.0)]
}

/// Names as people and programs write them: quotes, other scripts, nothing at all.
fn name() -> impl Strategy<Value = String> {
    prop_oneof!["[a-z]{0,8}", "\\PC{0,12}", Just("\"Crab\" \\ \u{1f980}\n".to_owned())]
}

/// An outline with the text that it was read from, or without one.
fn outline() -> impl Strategy<Value = (Outline, Option<String>)> {
    // A ring around the origin whose corners are sorted by angle cannot cross itself.
    let ring = vec(length(2.0, 30.0), 3..24).prop_map(|radii| {
        let step = 2.0 * std::f64::consts::PI / radii.len() as f64;
        let corner = |(i, radius): (usize, f64)| {
            let (sine, cosine) = libm::sincos(step * i as f64);
            kurbo::Point::new(radius * cosine, radius * sine)
        };
        (Outline::new(radii.into_iter().enumerate().map(corner)).expect("a star is sound"), None)
    });
    let read = prop_oneof![
        Just("M0 0H105V22H0Z"),
        Just(" m 0,0 h 10 v 10.50 h -10 z "),
        Just("M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z"),
        Just("M0 0L20 0L20 12C20 16 0 16 0 12Z"),
    ]
    .prop_map(|text| (path::parse(text).expect("sound path data"), Some(text.to_owned())));
    prop_oneof![ring, read]
}

/// Fields of a later version. Their names begin as none of ours does: drawn freely, `x_mm` came up once.
fn carried() -> impl Strategy<Value = Carried> {
    let value = prop_oneof![
        Just("null".to_owned()),
        Just("[1,2.5,{\"deep\":\"text\"}]".to_owned()),
        any::<i64>().prop_map(|number| number.to_string()),
        name().prop_map(|text| serde_json::Value::from(text).to_string()),
    ];
    vec(("later_[a-z]{1,6}", value), 0..3).prop_map(|mut fields| {
        fields.sort();
        fields.dedup_by(|a, b| a.0 == b.0);
        Carried(fields)
    })
}

fn sheet() -> impl Strategy<Value = Sheet> {
    (length(60.0, 500.0), length(60.0, 500.0), length(0.0, 30.0), length(1.0, 2400.0)).prop_map(
        |(width, height, corner_radius, resolution_ppi)| Sheet {
            width,
            height,
            corner_radius,
            resolution_ppi,
        },
    )
}

fn rules() -> impl Strategy<Value = Rules> {
    let limits = (length(0.0, 9.0), length(0.0, 9.0), length(0.0, 900.0));
    (length(0.0, 9.0), length(0.0, 20.0), length(0.0, 5.0), length(0.0, 2.0), limits).prop_map(
        |(spacing, margin, border, print_to_cut, (thinnest, smallest, least_ppi))| Rules {
            spacing,
            margin,
            border,
            print_to_cut,
            thinnest,
            smallest,
            least_ppi,
            inner_radius: smallest / 7.0,
        },
    )
}

fn background() -> impl Strategy<Value = Background> {
    let zone = (name(), outline(), length(0.0, 5.0), carried()).prop_map(
        |(name, (outline, text), clearance, carried)| {
            let mut zone = Zone::new(name, outline, clearance);
            zone.path = text.map(Into::into);
            zone.carried = carried;
            zone
        },
    );
    (vec(zone, 0..3), option::of(name()), length(0.0, 1.0), carried()).prop_map(
        |(zones, picture, picture_opacity, carried)| Background {
            name: String::new(),
            zones,
            picture,
            picture_opacity,
            carried,
        },
    )
}

fn sticker() -> impl Strategy<Value = Sticker> {
    let wanted = prop_oneof![any::<u32>().prop_map(Wanted::Exactly), any::<u32>().prop_map(Wanted::AtLeast)];
    let turns = prop_oneof![
        Just(Turns::None),
        Just(Turns::Any),
        length(0.0, 360.0).prop_map(Turns::Within),
        vec(length(-360.0, 360.0), 0..4).prop_map(Turns::Only),
    ];
    let part = (name(), [1..=u32::MAX, 1..=u32::MAX], [0..900u32, 0..900u32]).prop_map(
        |(of, [of_width_px, of_height_px], [left_px, top_px])| Part {
            of,
            of_width_px,
            of_height_px,
            left_px,
            top_px,
        },
    );
    let place = (length(-50.0, 50.0), length(-50.0, 50.0));
    let art = (name(), place, option::of(length(0.1, 90.0)), option::of(part), carried()).prop_map(
        |(file, (x, y), pixels_per_mm, part, carried)| Art {
            file,
            at: kurbo::Point::new(x, y),
            // A drawing without pixels has no parts.
            part: part.filter(|_| pixels_per_mm.is_some()),
            pixels_per_mm,
            carried,
        },
    );
    let radii = (length(0.0, 5.0), length(0.0, 5.0)).prop_map(|(inner, outer)| Radii { inner, outer });
    let spot = (length(-20.0, 20.0), length(-20.0, 20.0), length(0.5, 9.0))
        .prop_map(|(x, y, width)| WideSpot { at: kurbo::Point::new(x, y), width });
    let finish = (radii, vec(spot, 0..3));
    let lengths = (option::of(length(0.0, 5.0)), option::of(art), finish);
    let switches = (any::<bool>(), any::<bool>(), any::<bool>());
    (name(), outline(), lengths, wanted, turns, switches, carried()).prop_map(
        |(
            name,
            (outline, text),
            (border, art, (radii, wide_spots)),
            wanted,
            turns,
            (mirror, is_rough, is_gone),
            carried,
        )| {
            Sticker {
                path: text.map(Into::into),
                border,
                radii,
                wide_spots,
                wanted,
                turns,
                mirror,
                art,
                is_rough,
                is_gone,
                carried,
                ..Sticker::new("", name, outline)
            }
        },
    )
}

/// Any layout that makes sense, pieces lying anywhere, rules broken or not.
pub fn layout() -> impl Strategy<Value = Layout> {
    let turn = prop_oneof![Just(0.0), length(0.0, 360.0), Just(90.0)];
    let piece = (any::<prop::sample::Index>(), length(-20.0, 300.0), length(-20.0, 300.0), turn);
    let piece = (piece, any::<bool>(), any::<bool>(), carried());
    let parts = (vec(background(), 0..3), any::<bool>(), vec(sticker(), 0..4), vec(piece, 0..6));
    let correction =
        (length(-0.2, 0.2), length(-0.2, 0.2)).prop_map(|(lighter, warmer)| Correction { lighter, warmer });
    (name(), (sheet(), option::of(correction)), rules(), parts, carried())
        .prop_map(
            |(name, (sheet, correction), rules, (mut backgrounds, choose, mut stickers, pieces), carried)| {
                for (i, background) in backgrounds.iter_mut().enumerate() {
                    background.name = format!("Style {i}");
                }
                for (i, sticker) in stickers.iter_mut().enumerate() {
                    sticker.id = format!("s{i}").into();
                }
                let pieces = pieces.into_iter().filter(|_| !stickers.is_empty());
                let pieces = pieces
                    .map(|((which, x, y, turn), locked, mirrored, carried)| Piece {
                        sticker: which.get(&stickers).id.clone(),
                        placement: Placement { at: (x, y).into(), turn: Turn::degrees(turn), mirrored },
                        locked,
                        carried,
                    })
                    .collect();
                let background = backgrounds.first().map(|first| first.name.clone()).filter(|_| choose);
                Layout { name, sheet, rules, backgrounds, background, stickers, pieces, correction, carried }
            },
        )
        .prop_filter("some usable part is left", |layout| layout.validate().is_ok())
}
