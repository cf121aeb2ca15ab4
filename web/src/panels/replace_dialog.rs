//! What was found in a picture whose drawing shall take a sticker's place: which one, and how large.

use kurbo::Point;
use leptos::prelude::*;
use stickleaf_outline::path;
use stickleaf_sheet::{DrawnSize, Sticker};

use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::Imported;
use crate::panels::fields::Choice;
use crate::panels::import_dialog::{Remarks, Wishes};
use crate::replace::{Decision, replacement, sizes};
use crate::state::use_desk;
use crate::words;

/// The body of the import dialog while art is brought in for one sticker.
#[component]
pub fn ReplaceFound(
    /// What was found.
    found: Memo<Vec<Imported>>,
    /// The sticker whose place it takes, by its id.
    id: String,
) -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let old = Memo::new(move |_| desk.layout.with(|layout| layout.sticker(&id).cloned()));
    let drawings = Memo::new(move |_| {
        let layout = found.with(|found| stickleaf_files::read(&found.first()?.layout).ok());
        layout.map(|layout| layout.stickers).unwrap_or_default()
    });
    let count = Memo::new(move |_| drawings.with(Vec::len));
    let decision = RwSignal::new(Decision::default());
    let asked =
        Memo::new(move |_| Decision { border: new_border(job, old.get().as_ref(), desk), ..decision.get() });
    let outcome = Memo::new(move |_| {
        let (old, decision, unit) = (old.get()?, asked.get(), desk.unit.get());
        let new = drawings.with(|drawings| replacement(&old, drawings.get(decision.drawing)?, decision))?;
        Some(sizes(&old, &new, unit))
    });
    let name = move || {
        drawings.with(|drawings| drawings.get(decision.get().drawing).map(|drawing| drawing.name.clone()))
    };
    view! {
        <p class="found-count">{move || words::found(count.get())}</p>
        <Show when=move || { count.get() > 1 }>
            <Drawings drawings decision />
        </Show>
        <Show when=move || { count.get() > 0 }>
            <section class="wishes">
                <h3>{words::how_large()}</h3>
                <Choice
                    label=words::how_large()
                    options=vec![(DrawnSize::True, words::as_drawn()), (DrawnSize::Fitted, words::as_it_was())]
                    chosen=Signal::derive(move || Some(decision.get().size))
                    take=Callback::new(move |size| decision.update(|decision| decision.size = size))
                />
                <Show when=move || decision.get().size == DrawnSize::Fitted>
                    <p class="hint">{words::fit_hint()}</p>
                </Show>
                <p class="outcome" role="status">{move || outcome.get().unwrap_or_else(|| words::too_fine().to_owned())}</p>
                <label class="check">
                    <input
                        type="checkbox"
                        prop:checked=move || decision.get().takes_name
                        on:change=move |event| {
                            let takes_name = event_target_checked(&event);
                            decision.update(|decision| decision.takes_name = takes_name);
                        }
                    />
                    <span>{move || words::take_name(&name().unwrap_or_default())}</span>
                </label>
            </section>
        </Show>
        {move || found.get().into_iter().map(|imported| view! { <Remarks imported /> }).collect_view()}
        <Wishes found />
        <div class="dialog-buttons">
            <button type="button" class="button bare" on:click=move |_| job.cancel_import()>
                <span>{words::cancel()}</span>
            </button>
            <button
                type="button"
                class="button primary"
                disabled=move || outcome.with(Option::is_none)
                on:click=move |_| job.accept_replacement(asked.get_untracked())
            >
                {icon(Icon::Check)} <span>{words::replace()}</span>
            </button>
        </div>
    }
}

/// The border that was set in this dialog, if it is not the one that the sticker has.
fn new_border(job: Job, old: Option<&Sticker>, desk: crate::state::Desk) -> Option<f64> {
    let wanted = job.wishes.with(|wishes| wishes.border_mm);
    let has = desk.layout.with(|layout| old.map(|old| old.border_width(&layout.rules)))?;
    (wanted != has).then_some(wanted)
}

/// The drawings to choose from, as pictures of their outlines.
#[component]
fn Drawings(drawings: Memo<Vec<Sticker>>, decision: RwSignal<Decision>) -> impl IntoView {
    let button = move |(index, drawing): (usize, Sticker)| {
        view! {
            <button
                type="button"
                class="shape"
                aria-pressed=move || (decision.get().drawing == index).to_string()
                on:click=move |_| decision.update(|decision| decision.drawing = index)
            >
                {picture(&drawing)}
                <span>{drawing.name}</span>
            </button>
        }
    };
    view! {
        <div class="shapes drawings" role="group" aria-label=words::which_drawing()>
            {move || drawings.get().into_iter().enumerate().map(button).collect_view()}
        </div>
    }
}

/// The outline, as large as its picture lets it be.
fn picture(drawing: &Sticker) -> impl IntoView + use<> {
    let bounds = drawing.outline.bounds();
    let side = bounds.width().max(bounds.height()) * 1.08;
    let Point { x, y } = bounds.center();
    let view_box = format!("{:.3} {:.3} {side:.3} {side:.3}", x - side / 2.0, y - side / 2.0);
    let data = path::write(drawing.outline.points());
    view! {
        <svg viewBox=view_box aria-hidden="true">
            <path d=data></path>
        </svg>
    }
}
