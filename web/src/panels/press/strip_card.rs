//! The colour strip, and the patch of it that looked right.

use leptos::prelude::*;
use stickleaf_press::strip::{AS_IT_IS, STEPS, correction};

use crate::messages::PressOrder;
use crate::panels::fields::Choice;
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::pressing::PressJob;
use crate::shop::Shop;
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
    let shop = expect_context::<Shop>();
    let order = Signal::stored(PressOrder::Strip);
    let facts = Signal::derive(move || match shop.patch.get() {
        AS_IT_IS => words::strip_as_it_is().to_owned(),
        patch => words::corrected(patch),
    });
    let digits = || (1..=STEPS).zip(DIGITS).collect::<Vec<_>>();
    let column = Signal::derive(move || Some(shop.patch.get() / 10));
    let row = Signal::derive(move || Some(shop.patch.get() % 10));
    let set_column = move |column: u32| shop.choose_patch(10 * column + shop.patch.get_untracked() % 10);
    let set_row = move |row: u32| shop.choose_patch(shop.patch.get_untracked() / 10 * 10 + row);
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
            <Show when=move || shop.patch.get() != AS_IT_IS>
                <button type="button" class="button" on:click=move |_| shop.choose_patch(AS_IT_IS)>
                    {words::strip_none()}
                </button>
            </Show>
        </MadeCard>
    }
}

/// The main colours of the sheet, as they are and corrected; shown once a strip of the sheet as it is was made.
#[component]
fn Swatches() -> impl IntoView {
    let desk = use_desk();
    let shop = expect_context::<Shop>();
    let job = expect_context::<PressJob>();
    let colours = Memo::new(move |_| {
        let now = desk.finished.get();
        job.colours.get().filter(|(then, _)| *then == now).map(|(_, colours)| colours).unwrap_or_default()
    });
    let css = |[red, green, blue]: [u8; 3]| format!("rgb({red} {green} {blue})");
    let swatch = move |colour: [u8; 3]| {
        let sent =
            move || correction(shop.patch.get()).map_or(colour, |correction| correction.applied(colour));
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
    let shop = expect_context::<Shop>();
    view! {
        <Show when=move || shop.patch.get() != AS_IT_IS>
            <p class="export-size">{move || words::corrected(shop.patch.get())}</p>
        </Show>
    }
}
