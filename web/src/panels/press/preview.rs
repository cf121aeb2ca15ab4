//! What the cut file will look like.

use leptos::prelude::*;
use stickleaf_outline::path;

use crate::state::use_desk;
use crate::words;

/// The cut lines as they will be written.
#[component]
pub fn CutPreview() -> impl IntoView {
    let desk = use_desk();
    let unit = desk.unit;
    let sheet = Memo::new(move |_| desk.layout.with(|layout| layout.sheet));
    let lines = Memo::new(move |_| {
        desk.read(|editor| {
            editor.lines().iter().map(|line| path::write(line.points())).collect::<Vec<String>>()
        })
    });
    let view_box = move || {
        let sheet = sheet.get();
        format!("-2 -2 {} {}", sheet.width + 4.0, sheet.height + 4.0)
    };
    let size = move || {
        let (sheet, unit) = (sheet.get(), unit.get());
        let size =
            words::size(&words::number(unit, sheet.width), &words::number(unit, sheet.height), unit.symbol());
        words::pieces_and_size(lines.with(Vec::len), &size)
    };
    view! {
        <figure class="cut-preview">
            <svg viewBox=view_box role="img" aria-label=words::cutting_preview()>
                <rect
                    class="through"
                    width=move || sheet.get().width
                    height=move || sheet.get().height
                    rx=move || sheet.get().corner_radius
                ></rect>
                {move || lines.get().into_iter().map(|data| view! { <path class="kiss" d=data></path> }).collect_view()}
            </svg>
            <figcaption>
                <span>{size}</span>
                <span class="key"><i class="key-kiss"></i>{words::kiss_line()}</span>
                <span class="key"><i class="key-through"></i>{words::through_line()}</span>
            </figcaption>
        </figure>
    }
}
