//! The bar that says what happened, and offers what can be done about it.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_editor::Editor;

use crate::browser::time;
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::keeping;
use crate::messages::PackAim;
use crate::month::Month;
use crate::offline::Offline;
use crate::pen_offer;
use crate::samples::{Samples, open_first};
use crate::state::{Desk, Notice, Offer, Tone, use_desk};
use crate::words;

/// How long good news stays, in milliseconds. Trouble, and what offers something, stays until it is closed.
const STAY_MS: u32 = 4000;

/// Says the desk's notice.
#[component]
pub fn NoticeBar() -> impl IntoView {
    let desk = use_desk();
    let samples = expect_context::<Samples>();
    let offline = expect_context::<Offline>();
    let job = expect_context::<Job>();
    let month = expect_context::<Month>();
    Effect::new(move |_| {
        if let Some(shown) =
            desk.notice.get().filter(|notice| notice.tone == Tone::Good && notice.offer.is_none())
        {
            time::after(STAY_MS, move || {
                if desk.notice.get_untracked().as_ref() == Some(&shown) {
                    desk.notice.set(None);
                }
            });
        }
    });
    let take = move |offer: Offer| {
        desk.notice.set(None);
        match offer {
            Offer::Undo => {
                desk.act(Editor::undo);
            }
            Offer::StartFresh => open_first(desk, samples),
            Offer::NewerVersion => offline.take_newer(),
            Offer::UndoDelete => have_back(desk),
            Offer::PlaceThese => job.pack(PackAim::Place),
            Offer::OnlyPen => pen_offer::answer(desk, true),
            Offer::FiguresBack => month.take_back(),
            Offer::TicksBack => month.ticks_back(),
        }
    };
    let close = move |offer: Option<Offer>| {
        match offer {
            Some(Offer::NewerVersion) => offline.put_off(),
            Some(Offer::OnlyPen) => pen_offer::answer(desk, false),
            _ => {}
        }
        desk.notice.set(None);
    };
    let bar = move |Notice { text, tone, offer }: Notice| {
        let word = |offer| match offer {
            Offer::Undo | Offer::FiguresBack | Offer::TicksBack => words::undo_that(),
            Offer::StartFresh => words::start_fresh(),
            Offer::NewerVersion => words::use_newer(),
            Offer::UndoDelete => words::have_it_back(),
            Offer::PlaceThese => words::place_these(),
            Offer::OnlyPen => words::yes_only_the_pen(),
        };
        view! {
            <div
                class="notice"
                class:attention=tone == Tone::Attention
                class:trouble=tone == Tone::Trouble
                role=if tone == Tone::Trouble { "alert" } else { "status" }
            >
                {icon(if tone == Tone::Good { Icon::Check } else { Icon::Caution })}
                <span class="notice-text">{text}</span>
                <div class="notice-buttons">
                    {offer.map(|offer| view! {
                        <button type="button" class="button" on:click=move |_| take(offer)>{word(offer)}</button>
                    })}
                    <button type="button" class="button bare" on:click=move |_| close(offer)>
                        {icon(Icon::Close)} <span class="word">{if offer == Some(Offer::OnlyPen) { words::no_fingers_too() } else { words::close() }}</span>
                    </button>
                </div>
            </div>
        }
    };
    view! { <div class="notices">{move || desk.notice.get().map(bar)}</div> }
}

/// Has the project back that was deleted last.
fn have_back(desk: Desk) {
    spawn_local(async move {
        if let Err(why) = keeping::undo_delete(desk).await {
            desk.say_trouble(words::could_not_do(words::have_it_back(), why));
        }
    });
}
