//! Every piece as a line of text: the sheet for those who do not see it, and for keys.

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::state::use_desk;
use crate::words;

/// The pieces in their order; one that is pressed is chosen.
#[component]
pub fn Pieces() -> impl IntoView {
    let desk = use_desk();
    let is_open = RwSignal::new(false);
    let count = Memo::new(move |_| desk.layout.with(|layout| layout.pieces.len()));
    let lines = Memo::new(move |_| {
        if !is_open.get() {
            return Vec::new();
        }
        let unit = desk.unit.get();
        desk.read(|editor| {
            let layout = editor.layout();
            let line = |index: usize| {
                let placement = layout.pieces[index].placement;
                let is_broken = editor
                    .findings()
                    .iter()
                    .any(|finding| finding.is_broken() && finding.pieces.contains(&index));
                let place = words::piece_place(
                    &words::number(unit, placement.at.x),
                    &words::length(unit, placement.at.y),
                    placement.turn.to_signed_degrees(),
                );
                (
                    index,
                    words::piece_name(layout, index),
                    place,
                    is_broken,
                    editor.selection().contains(&index),
                )
            };
            (0..layout.pieces.len()).map(line).collect::<Vec<_>>()
        })
    });
    let line = move |(index, name, place, is_broken, is_chosen): (usize, String, String, bool, bool)| {
        view! {
            <li>
                <button
                    type="button"
                    class="piece-line"
                    aria-pressed=is_chosen.to_string()
                    on:click=move |_| desk.act(|editor| editor.select(vec![index]))
                >
                    <span class="piece-name">{name}</span>
                    <span class="piece-place">{place} {is_broken.then_some(words::breaks_a_rule())}</span>
                </button>
            </li>
        }
    };
    view! {
        <details
            class="more"
            // A panel that comes back may take up the element of the one before, and with it whether it was open.
            prop:open=move || is_open.get()
            on:toggle=move |event| is_open.set(event_target::<web_sys::Element>(&event).has_attribute("open"))
        >
            <summary>{move || words::pieces(count.get())} <span class="turner">{icon(Icon::Down)}</span></summary>
            <ul role="list" aria-label=words::pieces_list()>
                {move || lines.get().into_iter().map(line).collect_view()}
            </ul>
        </details>
    }
}
