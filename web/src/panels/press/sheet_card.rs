//! The composed sheet as a picture.

use leptos::prelude::*;

use crate::messages::PressOrder;
use crate::panels::fields::Choice;
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::panels::press::strip_card::Corrected;
use crate::state::use_desk;
use crate::words;

/// How far the ground runs past the card's edge where it does, in millimetres (common practice, no source).
const BLEED_MM: f64 = 2.0;

const SHEET: MadeFile = MadeFile {
    ending: ".sheet.png",
    media_type: "image/png",
    text: words::sheet_text,
    button: words::save_sheet,
};

/// The card of the composed sheet.
#[component]
pub fn SheetCard() -> impl IntoView {
    let desk = use_desk();
    let bleed = RwSignal::new(BLEED_MM);
    let facts = Signal::derive(move || desk.layout.with(|layout| words::pixels_of(&layout.sheet)));
    let order = Signal::derive(move || PressOrder::Sheet { bleed_mm: bleed.get() });
    view! {
        <MadeCard file=SHEET order facts>
            <Choice
                label=words::bleed()
                options=vec![(0.0, words::no_bleed()), (BLEED_MM, words::with_bleed())]
                chosen=Signal::derive(move || Some(bleed.get()))
                take=Callback::new(move |mm| bleed.set(mm))
            />
            <Corrected />
        </MadeCard>
    }
}
