//! A comparison as files: a table, and a picture of all its cards with the art in its own colours.

use std::collections::BTreeMap;

use kurbo::Rect;
use leptos::prelude::document;
use stickleaf_files::comparison;
use stickleaf_files::comparison_picture::{self, Embedded, PictureCard, Pictures};
use stickleaf_sheet::{Background, Layout, LengthUnit, Sheet, Sticker, Subject};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::compare::comparison::{Card, Comparison};
use crate::messages::Enough;
use crate::pictures::Picture;
use crate::room::shown_diameter;
use crate::words;

/// How finely pictures are kept, in pixels to the millimetre: twice as fine as the sheets are drawn.
const PIXELS_PER_MM: f64 = 6.0;

/// How far a sticker's picture is kept beyond its outline, in millimetres.
const BEYOND_OUTLINE: f64 = 0.5;

/// What a sheet of a layout costs and a sticker of it, in cents and parts of them; nothing where that is not known.
pub type Costs<'a> = &'a dyn Fn(&Layout) -> Option<(f64, f64)>;

/// The figures as a table for spreadsheets, lengths in millimetres.
pub fn table(comparison: &Comparison, costs: Costs<'_>) -> String {
    comparison::table(&comparison.compared(LengthUnit::Millimetres, costs))
}

/// All cards side by side as an SVG picture under the layout's name. Costs are told in this currency.
pub fn picture(
    comparison: &Comparison,
    name: &str,
    unit: LengthUnit,
    art: &BTreeMap<String, Picture>,
    (costs, currency): (Costs<'_>, &str),
) -> String {
    let cards: Vec<PictureCard<'_>> = comparison
        .cards
        .iter()
        .enumerate()
        .map(|(index, card)| picture_card(comparison, index, card, unit, (costs, currency)))
        .collect();
    let pictures = Pictures {
        sticker: &|sticker| sticker_picture(sticker, art),
        background: &|background, sheet| background_picture(background, sheet, art),
    };
    let title = if name.is_empty() { words::untitled() } else { name };
    comparison_picture::write(title, &about(comparison), &cards, &pictures)
}

/// What was compared and how, in one line.
pub fn about(comparison: &Comparison) -> String {
    let subject = comparison.cards.first().map(|card| card.variant.change.subject());
    let subjects = match subject {
        Some(Subject::Spacing) => words::spacings(),
        Some(Subject::Border) => words::borders(),
        Some(Subject::SheetSize) => words::sheet_sizes(),
        Some(Subject::Backgrounds) | None => words::backgrounds(),
    };
    let how = match comparison.enough {
        Enough::Milliseconds(most) => words::seconds_each((most / 1000.0) as u64, comparison.seed),
        Enough::Rounds(rounds) => words::rounds_each(rounds, comparison.seed),
    };
    words::about_comparison(subjects, comparison.aim, &how, comparison.is_stopped)
}

fn picture_card<'a>(
    comparison: &Comparison,
    index: usize,
    card: &'a Card,
    unit: LengthUnit,
    (costs, currency): (Costs<'_>, &str),
) -> PictureCard<'a> {
    let remarks = card.variant.remarks.iter().map(|remark| words::sentence(&words::remark(remark, unit)));
    let (headline, mut lines) = match (&card.best, &card.refused) {
        (Some(best), _) => {
            let figures = &best.figures;
            let count = words::count_of(figures, comparison.aim);
            let first = words::change(&comparison.cards[0].variant.change, unit);
            let difference = comparison.difference(index).map(|more| words::against_first(more, &first));
            let dot = figures.largest_dot.map(|mm| words::length(unit, shown_diameter(unit, mm)));
            let figure_lines = words::figure_lines(figures, dot, unit);
            let cost_lines = costs(&best.layout).map(|costs| words::cost_lines(costs, currency));
            let figure_lines = figure_lines.into_iter().chain(cost_lines.into_iter().flatten());
            let lines = difference.into_iter().chain(figure_lines).collect();
            (format!("{count} · {}", words::ceiling_of(figures)), lines)
        }
        (None, Some(why)) => (words::nothing_yet().to_owned(), vec![words::sentence(why)]),
        (None, None) => (words::nothing_yet().to_owned(), Vec::new()),
    };
    lines.extend(remarks);
    let layout = card.best.as_ref().map_or(&card.variant.layout, |best| &best.layout);
    PictureCard {
        name: words::change(&card.variant.change, unit),
        layout: layout.validate().is_ok().then_some(layout),
        headline,
        lines,
    }
}

fn sticker_picture(sticker: &Sticker, pictures: &BTreeMap<String, Picture>) -> Option<Embedded> {
    let art = sticker.art.as_ref()?;
    let picture = pictures.get(&art.file)?;
    let part = sticker.outline.bounds().inflate(BEYOND_OUTLINE, BEYOND_OUTLINE);
    embedded(picture, picture.place(art), part)
}

fn background_picture(
    background: &Background,
    sheet: &Sheet,
    pictures: &BTreeMap<String, Picture>,
) -> Option<Embedded> {
    let picture = pictures.get(background.picture.as_ref()?)?;
    embedded(picture, picture.across(sheet.bounds()), sheet.bounds())
}

/// The part of a picture that lies here, when the whole of it lies there. Nothing if the browser does not let it be
/// read.
fn embedded(picture: &Picture, place: Rect, part: Rect) -> Option<Embedded> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    let size = |mm: f64| (mm * PIXELS_PER_MM).ceil().max(1.0);
    canvas.set_width(size(part.width()) as u32);
    canvas.set_height(size(part.height()) as u32);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    let scale = PIXELS_PER_MM;
    context.set_transform(scale, 0.0, 0.0, scale, -part.x0 * scale, -part.y0 * scale).ok()?;
    picture.draw(&context, place);
    let address = canvas.to_data_url_with_type("image/png").ok()?;
    let shown = Rect::new(
        part.x0,
        part.y0,
        part.x0 + size(part.width()) / scale,
        part.y0 + size(part.height()) / scale,
    );
    Some(Embedded { address, place: shown })
}
