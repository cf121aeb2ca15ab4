//! The blade: a search for its setting on test cards, and the log of what worked.

mod cards;
mod log;
mod search;
mod work;

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::panels::month::blade::cards::Cards;
use crate::panels::month::blade::log::Log;
use crate::panels::month::blade::search::{Said, ScaleFields};
use crate::panels::month::blade::work::WorkFields;
use crate::words;

/// The part of the Month where settings are found.
#[component]
pub fn BladePart() -> impl IntoView {
    view! {
        <div class="month">
            <section aria-labelledby="trial-title">
                <h2 id="trial-title">{words::trial_title()}</h2>
                <p class="month-note">{words::trial_text()}</p>
                <Cautions />
                <ScaleFields />
                <Cards />
                <Said />
            </section>
            <section class="month-figures" aria-labelledby="log-title">
                <h2 id="log-title">{words::log_title()}</h2>
                <p class="month-note">{words::log_text()}</p>
                <WorkFields />
                <Log />
            </section>
        </div>
    }
}

#[component]
fn Cautions() -> impl IntoView {
    view! {
        <section class="cautions">
            <h3>{icon(Icon::Caution)} <span>{words::cautions()}</span></h3>
            <p>{words::caution_manual()}</p>
            <p>{words::caution_blade()}</p>
            <p>{words::caution_lightest()}</p>
            <p>{words::caution_triangles()}</p>
        </section>
    }
}
