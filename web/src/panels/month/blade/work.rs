//! What is cut with what.

use leptos::prelude::*;

use crate::month::Month;
use crate::panels::fields::{NumberField, TextField};
use crate::trials::{Trials, WorkNames};
use crate::words::{self, Told};

/// Machine, blade, stock and passes by the artist's own names, how worn the blade is, and what the log knows already.
#[component]
pub fn WorkFields() -> impl IntoView {
    let trials = expect_context::<Trials>();
    let month = expect_context::<Month>();
    let name = move |look: fn(&WorkNames) -> String| Signal::derive(move || trials.names.with(look));
    let take = move |set: fn(&mut WorkNames, String)| {
        Callback::new(move |text: String| {
            trials.rename(|names| set(names, text.trim().to_owned()));
            Ok(())
        })
    };
    let passes = Signal::derive(move || f64::from(trials.names.with(|names| names.passes)));
    let set_passes = move |passes: f64| {
        if passes.fract() != 0.0 || !(1.0..=20.0).contains(&passes) {
            return Err(words::passes_range().to_owned());
        }
        trials.rename(|names| names.passes = passes as u32);
        Ok(())
    };
    let metres = Signal::derive(move || month.settings.with(|settings| settings.cutting.blade_used_m));
    let set_metres = move |metres: f64| {
        month
            .change(|settings| settings.cutting.blade_used_m = metres)
            .map_err(|error| words::sentence(&error.told()))
    };
    let known = Memo::new(move |_| trials.known_work());
    view! {
        <div class="figure-group">
            <TextField
                label=words::machine_word()
                text=name(|names| names.machine.clone())
                take=take(|names, text| names.machine = text)
            />
            <TextField
                label=words::blade_word()
                text=name(|names| names.blade.clone())
                take=take(|names, text| names.blade = text)
            />
            <TextField
                label=words::stock_word()
                text=name(|names| names.material.clone())
                take=take(|names, text| names.material = text)
            />
            <NumberField label=words::log_passes() value=passes take=Callback::new(set_passes) />
            <NumberField label=words::this_blade_has_cut() value=metres take=Callback::new(set_metres) />
        </div>
        <Show when=move || known.with(|known| !known.is_empty())>
            <div class="chips" role="group" aria-label=words::known_work()>
                {move || known.get().into_iter().map(|names| {
                    let text = words::work_names(&names.machine, &names.blade, &names.material, names.passes);
                    let choose = move |_| trials.rename(|now| now.take(names.clone()));
                    view! { <button type="button" class="chip" on:click=choose>{text}</button> }
                }).collect_view()}
            </div>
        </Show>
    }
}
