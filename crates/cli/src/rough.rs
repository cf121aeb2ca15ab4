//! `rough`: a plain shape among the stickers of a layout, to plan with before anything is drawn.

use std::collections::HashSet;

use stickleaf_files::report::{self, RoughReport};
use stickleaf_outline::PlainShape;
use stickleaf_sheet::{Layout, LengthUnit, Sticker};

use crate::options::{RoughCommand, ShapeWord};
use crate::trace::unique_id;
use crate::{Outcome, Trouble, disk, layouts, output};

/// Adds the sticker and writes the layout; nothing is put on the sheet, that is what `pack` is for.
pub fn run(typed: &RoughCommand) -> Result<Outcome, Trouble> {
    let on_standard = disk::is_standard(&typed.output);
    if on_standard && typed.report.is_json() {
        return Err(Trouble::OutputTwice);
    }
    disk::can_write(&typed.output, &[&typed.layout])?;
    let mut layout = layouts::read(&typed.layout)?;
    let sticker = sticker(&layout, typed)?;
    let size = sticker.outline.bounds().size();
    let report = RoughReport {
        layout: disk::shown(&typed.output),
        id: sticker.id.to_string(),
        name: sticker.name.clone(),
        width_mm: size.width,
        height_mm: size.height,
    };
    layout.stickers.push(sticker);
    layouts::write(&typed.output, &layout, &typed.layout)?;
    if typed.report.is_json() {
        output::print(&report::text(&report));
    } else {
        let print = if on_standard { output::tell } else { |line: &str| output::print(&format!("{line}\n")) };
        let number = |mm| LengthUnit::Millimetres.number(mm);
        print(&format!("added {}, {} x {} mm", report.name, number(size.width), number(size.height)));
        if !on_standard {
            print(&format!("wrote {}", typed.output.display()));
        }
    }
    Ok(Outcome::Done)
}

/// The rough sticker asked for, under an id that no sticker of the layout has.
fn sticker(layout: &Layout, typed: &RoughCommand) -> Result<Sticker, Trouble> {
    let (shape, name) = match typed.shape {
        ShapeWord::Disc => (PlainShape::Disc, "Disc"),
        ShapeWord::Oval => (PlainShape::Oval, "Oval"),
        ShapeWord::Box => (PlainShape::RoundedBox, "Box"),
        ShapeWord::Heart => (PlainShape::Heart, "Heart"),
        ShapeWord::Star => (PlainShape::Star, "Star"),
        ShapeWord::Ribbon => (PlainShape::Ribbon, "Ribbon"),
    };
    let usual = shape.usual_size();
    let width = typed.width_mm.unwrap_or(usual.width);
    let height = typed.height_mm.unwrap_or(width * usual.height / usual.width);
    let name = typed.name.as_deref().unwrap_or(name);
    let mut taken: HashSet<String> = layout.stickers.iter().map(|sticker| sticker.id.to_string()).collect();
    let outline = shape.outline(width, height).map_err(Trouble::Shape)?;
    let mut sticker = Sticker::new(unique_id(name, &mut taken), name, outline);
    sticker.wanted = typed.wanted;
    sticker.turns = typed.turns.clone();
    sticker.is_rough = true;
    Ok(sticker)
}
