//! The colour strip, and the patch of it that looked right.

use leptos::prelude::*;
use stickleaf_press::strip::{AS_IT_IS, STEPS};
use stickleaf_press::tone::corrected;
use stickleaf_sheet::Correction;

use crate::correction;
use crate::messages::PressOrder;
use crate::panels::fields::Choice;
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::pressing::{PressJob, without_correction};
use crate::state::use_desk;
use crate::words;

const STRIP: MadeFile = MadeFile {
    ending: ".colours.pdf",
    media_type: "application/pdf",
    text: words::strip_text,
    button: words::save_strip,
};

/// The digits of columns and rows.
const DIGITS: [&str; STEPS as usize] = ["1", "2", "3", "4", "5"];

/// The card of the colour strip.
#[component]
pub fn StripCard() -> impl IntoView {
    let desk = use_desk();
    let chosen = correction::of_desk(desk);
    let order = Signal::stored(PressOrder::Strip);
    let facts = Signal::derive(move || match chosen.get() {
        Correction::NONE => words::strip_as_it_is().to_owned(),
        chosen => words::corrected(chosen),
    });
    let digits = || (1..=STEPS).zip(DIGITS).collect::<Vec<_>>();
    let column = Signal::derive(move || correction::place(chosen.get()).map(|(column, _)| column));
    let row = Signal::derive(move || correction::place(chosen.get()).map(|(_, row)| row));
    let patch = move || correction::place(chosen.get_untracked()).unwrap_or((AS_IT_IS / 10, AS_IT_IS % 10));
    let set_column = move |column: u32| correction::choose(desk, 10 * column + patch().1);
    let set_row = move |row: u32| correction::choose(desk, 10 * patch().0 + row);
    let last = move || correction::last().filter(|_| chosen.get().is_none());
    view! {
        <MadeCard file=STRIP order facts>
            <div class="patch-choice">
                <span class="field-label" aria-hidden="true">{words::strip_column()}</span>
                <Choice label=words::strip_column() options=digits() chosen=column take=Callback::new(set_column) />
            </div>
            <div class="patch-choice">
                <span class="field-label" aria-hidden="true">{words::strip_row()}</span>
                <Choice label=words::strip_row() options=digits() chosen=row take=Callback::new(set_row) />
            </div>
            <Swatches />
            <Show when=move || !chosen.get().is_none()>
                <button type="button" class="button" on:click=move |_| correction::choose(desk, AS_IT_IS)>
                    {words::strip_none()}
                </button>
            </Show>
            {move || last().map(|patch| view! {
                <button type="button" class="button" on:click=move |_| correction::choose(desk, patch)>
                    {words::strip_last(patch)}
                </button>
            })}
        </MadeCard>
    }
}

/// The main colours of the sheet, as they are and corrected; shown once a strip of the sheet as it is was made.
#[component]
fn Swatches() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<PressJob>();
    let chosen = correction::of_desk(desk);
    let colours = Memo::new(move |_| {
        let now = desk.layout.with(without_correction);
        job.colours.with(|made| match made {
            Some((then, colours)) if *then == now => colours.clone(),
            _ => Vec::new(),
        })
    });
    let css = |[red, green, blue]: [u8; 3]| format!("rgb({red} {green} {blue})");
    let swatch = move |colour: [u8; 3]| {
        let sent = move || corrected(chosen.get(), colour);
        view! {
            <span class="swatch">
                <span style:background=css(colour)></span>
                <span style:background=move || css(sent())></span>
            </span>
        }
    };
    view! {
        <Show when=move || !colours.with(Vec::is_empty)>
            <p class="export-size">{words::strip_on_screen()}</p>
            <div class="swatches" role="img" aria-label=words::strip_on_screen()>
                {move || colours.get().into_iter().map(swatch).collect_view()}
            </div>
        </Show>
    }
}

/// Says that colours are corrected, where something is made that they are corrected in.
#[component]
pub fn Corrected() -> impl IntoView {
    let chosen = correction::of_desk(use_desk());
    view! {
        <Show when=move || !chosen.get().is_none()>
            <p class="export-size">{move || words::corrected(chosen.get())}</p>
        </Show>
    }
}
