//! `room`: the largest dots that still fit, and which stickers would.

use stickleaf_files::report::{self, DotReport, FitReport, RoomReport};
use stickleaf_packer::{Fit, room_for};
use stickleaf_sheet::{EmptyRoom, LEAST_DOT, Layout, LengthUnit, empty_room};

use crate::columns::columns;
use crate::options::RoomCommand;
use crate::{Outcome, Trouble, layouts, output};

/// Prints what would still fit; broken rules are no matter here.
pub fn run(typed: &RoomCommand) -> Result<Outcome, Trouble> {
    let layout = layouts::read(&typed.layout)?;
    let least = layout.rules.smallest.max(LEAST_DOT);
    let room = empty_room(&layout, typed.count as usize, least);
    let fits = room_for(&layout);
    if typed.report.is_json() {
        output::print(&report::text(&RoomReport {
            least_mm: least,
            dots: room
                .discs
                .iter()
                .map(|disc| DotReport {
                    x_mm: disc.centre.x,
                    y_mm: disc.centre.y,
                    diameter_mm: 2.0 * disc.radius,
                })
                .collect(),
            complete: room.is_complete,
            stickers: fits.iter().map(|fit| fit_report(&layout, fit)).collect(),
        }));
    } else {
        output::print(&dot_lines(&room, least));
        output::print(&fit_lines(&layout, &fits));
    }
    Ok(Outcome::Done)
}

fn name<'a>(layout: &'a Layout, fit: &'a Fit) -> &'a str {
    layout.sticker(&fit.sticker).map_or(&*fit.sticker, |sticker| &sticker.name)
}

fn fit_report(layout: &Layout, fit: &Fit) -> FitReport {
    FitReport {
        sticker: fit.sticker.to_string(),
        name: name(layout, fit).to_owned(),
        x_mm: fit.placement.at.x,
        y_mm: fit.placement.at.y,
        turn_deg: fit.placement.turn.to_degrees(),
        mirrored: fit.placement.mirrored,
        scale: fit.scale,
    }
}

fn place(x: f64, y: f64) -> String {
    format!("{x:.2}, {y:.2}")
}

fn dot_lines(room: &EmptyRoom, least: f64) -> String {
    let least = LengthUnit::Millimetres.text(least);
    let mut text = if room.discs.is_empty() {
        format!("no dot of {least} or more fits\n")
    } else {
        let mut rows = vec![["dot", "across", "middle"].map(str::to_owned).to_vec()];
        rows.extend(room.discs.iter().enumerate().map(|(i, disc)| {
            // Never more than fits.
            let across = (2.0 * disc.radius * 100.0).floor() / 100.0;
            vec![(i + 1).to_string(), format!("{across:.2} mm"), place(disc.centre.x, disc.centre.y)]
        }));
        columns(&rows)
    };
    if !room.is_complete {
        text.push_str("the sheet is too large to search it all: there may be more room\n");
    }
    text
}

fn fit_lines(layout: &Layout, fits: &[Fit]) -> String {
    if fits.is_empty() {
        return "no sticker of the layout was found to fit, even at half its size\n".to_owned();
    }
    let mut rows = vec![["sticker", "size", "turn", "place"].map(str::to_owned).to_vec()];
    rows.extend(fits.iter().map(|fit| {
        let size = if fit.scale == 1.0 {
            "full".to_owned()
        } else {
            format!("{:.0} %", (fit.scale * 100.0).floor())
        };
        let flip = if fit.placement.mirrored { " flipped" } else { "" };
        let turn = format!("{:.1}°{flip}", fit.placement.turn.to_signed_degrees());
        vec![name(layout, fit).to_owned(), size, turn, place(fit.placement.at.x, fit.placement.at.y)]
    }));
    columns(&rows) + "sizes are the largest found, not proven to be the largest; each sticker by itself\n"
}
