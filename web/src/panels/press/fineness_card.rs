//! How finely the pictures on the sheet are printed, before anything is made of them.

use leptos::prelude::*;
use stickleaf_sheet::{Layout, MM_PER_INCH};

use crate::icons::{Icon, icon};
use crate::pictures::Pictures;
use crate::state::use_desk;
use crate::words;

/// What a file loses that counts whole pixels to the metre, in pixels to the inch.
const LOST_PPI: f64 = 0.5;

/// A picture on the sheet.
#[derive(Clone, Debug, PartialEq)]
struct Printed {
    /// What it is of.
    name: String,
    /// How many of its pixels come to an inch of paper; nothing for a drawing, whose lines are sharp at any size.
    ppi: Option<f64>,
}

/// The card of the effective resolutions; nothing on a sheet without pictures.
#[component]
pub fn FinenessCard() -> impl IntoView {
    let desk = use_desk();
    let printed = Memo::new(move |_| desk.layout.with(|layout| printed(layout, desk.pictures)));
    let least = Memo::new(move |_| desk.layout.with(|layout| layout.rules.least_ppi));
    let is_coarse = move |ppi: f64| ppi < least.get() - LOST_PPI;
    let coarse = move || {
        let is_it = |one: &&Printed| one.ppi.is_some_and(is_coarse);
        printed.with(|printed| printed.iter().filter(is_it).count())
    };
    let range = move || {
        printed.with(|printed| {
            let mut all: Vec<f64> = printed.iter().filter_map(|one| one.ppi).collect();
            all.sort_by(f64::total_cmp);
            let ends = all.first().copied().zip(all.last().copied());
            words::fineness(ends, printed.len() - all.len())
        })
    };
    let row = move |Printed { name, ppi }: Printed| {
        let is_low = move || ppi.is_some_and(is_coarse);
        view! {
            <tr class:attention=is_low>
                <th scope="row">{name}</th>
                <td>{words::printed_at(ppi)}</td>
            </tr>
        }
    };
    view! {
        <Show when=move || !printed.with(Vec::is_empty)>
            <li class="export made fineness">
                <div class="export-text">
                    <strong>{words::fineness_title()}</strong>
                    <p class="export-size">{range}</p>
                </div>
                <Show when=move || { coarse() > 0 }>
                    <p class="press-note">{icon(Icon::Caution)} <span>{move || words::prints_soft(coarse(), least.get())}</span></p>
                </Show>
                <details class="more">
                    <summary>{words::each_picture()} <span class="turner">{icon(Icon::Down)}</span></summary>
                    <table>
                        <tbody>{move || printed.get().into_iter().map(row).collect_view()}</tbody>
                    </table>
                </details>
            </li>
        </Show>
    }
}

/// The pictures of the stickers of which a piece is there, in their order, then the background's, coarse ones first.
fn printed(layout: &Layout, pictures: Pictures) -> Vec<Printed> {
    let mut all = of_stickers(layout);
    let background = layout.chosen_background().and_then(|background| background.picture.as_ref());
    if let Some(picture) = background.and_then(|file| pictures.get(file)) {
        let ppi = picture.columns().map(|columns| columns / layout.sheet.width * MM_PER_INCH);
        all.push(Printed { name: words::background().to_owned(), ppi });
    }
    // A sort that keeps the order of equals; drawings without pixels come last.
    all.sort_by(|a, b| a.ppi.unwrap_or(f64::MAX).total_cmp(&b.ppi.unwrap_or(f64::MAX)));
    all
}

fn of_stickers(layout: &Layout) -> Vec<Printed> {
    let is_there = |id: &str| layout.pieces.iter().any(|piece| &*piece.sticker == id);
    let of_one = |sticker: &stickleaf_sheet::Sticker| {
        let art = sticker.art.as_ref().filter(|_| is_there(&sticker.id))?;
        Some(Printed {
            name: sticker.name.clone(),
            ppi: art.pixels_printed().map(|per_mm| per_mm * MM_PER_INCH),
        })
    };
    layout.stickers.iter().filter_map(of_one).collect()
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Art, Piece, Sticker};

    use super::*;

    #[test]
    fn pictures_count_at_the_size_on_the_sheet_and_only_those_that_lie_there() {
        let mut layout = Layout::default();
        for (name, art) in [
            ("Crab", Some(Art::new("sea.png", kurbo::Point::ZERO, Some(10.0)))),
            ("Star", Some(Art::new("star.svg", kurbo::Point::ZERO, Some(3.0)))),
            ("Rough", None),
            ("Away", Some(Art::new("sea.png", kurbo::Point::ZERO, Some(5.0)))),
        ] {
            let mut sticker = Sticker::new(name, name, shapes::square(9.0));
            sticker.art = art;
            if name != "Away" {
                layout.pieces.push(Piece::new(sticker.id.clone(), Placement::at(20.0, 20.0)));
            }
            layout.stickers.push(sticker);
        }
        let found = of_stickers(&layout);
        assert_eq!(found.iter().map(|one| &*one.name).collect::<Vec<_>>(), ["Crab", "Star"]);
        // 10 pixels to the millimetre; an inch has 25.4 of these.
        assert!((found[0].ppi.unwrap() - 254.0).abs() < 1e-9 && found[1].ppi.is_none());
    }
}
