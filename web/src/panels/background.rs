//! Background styles and their zones.

mod backdrop;
mod styles;
mod zones;

use leptos::prelude::*;

use crate::words;
use backdrop::Backdrop;
use styles::{AddStyle, ChosenStyle, Styles};
use zones::Zones;

/// The styles to choose from, and the zones of the chosen one.
#[component]
pub fn BackgroundPanel() -> impl IntoView {
    view! {
        <h2 class="panel-title">{words::background()}</h2>
        <Styles />
        <ChosenStyle />
        <AddStyle />
        <Zones />
        <Backdrop />
    }
}
