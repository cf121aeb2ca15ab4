//! The cut lines, of a card or of a whole page, and how often the card is gone over.

use leptos::prelude::*;

use crate::messages::{CutDepths, PressOrder};
use crate::month::Month;
use crate::panels::fields::{Choice, NumberField};
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::shop::Shop;
use crate::state::use_desk;
use crate::words::{self, Told};

const CUT: MadeFile = MadeFile {
    ending: ".cut.svg",
    media_type: "image/svg+xml",
    text: words::cut_text,
    button: words::save_cut,
};

/// What is put behind the layout's name to make the file's.
fn ending(is_page: bool, depths: CutDepths) -> &'static str {
    match (is_page, depths) {
        (false, CutDepths::All) => CUT.ending,
        (false, CutDepths::Kiss) => ".kiss.svg",
        (false, CutDepths::Through) => ".card.svg",
        (true, CutDepths::All) => ".page-cut.svg",
        (true, CutDepths::Kiss) => ".page-kiss.svg",
        (true, CutDepths::Through) => ".page-cards.svg",
    }
}

/// The card of the cut.
#[component]
pub fn CutCard() -> impl IntoView {
    let desk = use_desk();
    let shop = expect_context::<Shop>();
    let month = expect_context::<Month>();
    let is_page = RwSignal::new(false);
    let depths = RwSignal::new(CutDepths::All);
    let passes = Memo::new(move |_| month.settings.with(|settings| settings.cutting.passes));
    let pieces = Memo::new(move |_| desk.layout.with(|layout| layout.pieces.len()));
    let facts = Signal::derive(move || {
        let cards = match (is_page.get(), shop.plan.get()) {
            (true, Ok(plan)) => plan.positions.len(),
            (true, Err(error)) => return words::sentence(&error.told()),
            (false, _) => 1,
        };
        let kiss = (depths.get() != CutDepths::Through).then(|| pieces.get() * cards);
        let through = (depths.get() != CutDepths::Kiss).then(|| (cards, passes.get()));
        words::cut_holds(kiss, through)
    });
    let order = Signal::derive(move || PressOrder::Cut {
        page: is_page.get().then(|| shop.stock.get()),
        depths: depths.get(),
        passes: passes.get(),
    });
    let is_off =
        Signal::derive(move || pieces.get() == 0 || (is_page.get() && shop.plan.with(Result::is_err)));
    let set_passes = move |count: f64| {
        let is_count = count.fract() == 0.0 && (1.0..=20.0).contains(&count);
        if !is_count {
            return Err(words::passes_asked().to_owned());
        }
        month
            .change(|settings| settings.cutting.passes = count as u32)
            .map_err(|error| words::sentence(&error.told()))
    };
    view! {
        <MadeCard file=CUT ending=Signal::derive(move || ending(is_page.get(), depths.get())) order facts is_off>
            <Choice
                label=words::cut_of()
                options=vec![(false, words::cut_one_card()), (true, words::cut_whole_page())]
                chosen=Signal::derive(move || Some(is_page.get()))
                take=Callback::new(move |page| is_page.set(page))
            />
            <Choice
                label=words::cut_lines_word()
                options=vec![
                    (CutDepths::All, words::cut_all_lines()),
                    (CutDepths::Kiss, words::cut_kiss_only()),
                    (CutDepths::Through, words::cut_card_only()),
                ]
                chosen=Signal::derive(move || Some(depths.get()))
                take=Callback::new(move |chosen| depths.set(chosen))
            />
            <NumberField
                label=words::passes_word()
                value=Signal::derive(move || f64::from(passes.get()))
                take=Callback::new(set_passes)
            />
        </MadeCard>
    }
}
