//! Fields that read what was typed, and say beside themselves why it will not do.

use leptos::prelude::*;
use stickleaf_sheet::{LengthUnit, read_length};
use web_sys::KeyboardEvent;

use crate::state::use_desk;
use crate::words::{self, Told};

/// What a field does with its text: takes it, or says why not.
type Take = Callback<String, Result<(), String>>;

/// A field for a text that has to make sense.
///
/// The text is taken on Enter and when the field is left. What does not make sense stays in the field with the reason
/// below it, and changes nothing; Escape gives the old text back.
#[component]
pub fn TextField(
    /// What the field is for.
    #[prop(into)]
    label: Signal<String>,
    /// What it shows while nobody types in it.
    #[prop(into)]
    text: Signal<String>,
    /// Takes what was typed.
    take: Take,
    /// Stands behind the text, for example a unit.
    #[prop(into, default = Signal::stored(String::new()))]
    suffix: Signal<String>,
    /// Which keys a screen keyboard shows first.
    #[prop(default = "text")]
    keys: &'static str,
    /// For the style sheet.
    #[prop(default = "")]
    class: &'static str,
) -> impl IntoView {
    let typed: RwSignal<Option<String>> = RwSignal::new(None);
    let trouble: RwSignal<Option<String>> = RwSignal::new(None);
    let commit = move || {
        // Taking a text may take the field itself away, and a field that goes away hands in its text once more.
        let Some(now) = typed.try_get_untracked().flatten() else { return };
        let is_same = text.try_get_untracked().is_some_and(|text| text == now);
        let refused = if is_same { None } else { take.run(now).err() };
        if refused.is_none() {
            typed.try_set(None);
        }
        trouble.try_set(refused);
    };
    let on_key = move |event: KeyboardEvent| match event.key().as_str() {
        "Enter" => commit(),
        "Escape" if typed.get_untracked().is_some() => {
            event.stop_propagation();
            typed.set(None);
            trouble.set(None);
        }
        _ => {}
    };
    view! {
        <label class=format!("field {class}") class:wrong=move || trouble.get().is_some()>
            <span class="field-label">{move || label.get()}</span>
            <span class="field-box">
                <input
                    type="text"
                    inputmode=keys
                    autocomplete="off"
                    spellcheck="false"
                    aria-label=move || label.get()
                    prop:value=move || typed.get().unwrap_or_else(|| text.get())
                    aria-invalid=move || trouble.get().is_some().to_string()
                    on:input=move |event| typed.set(Some(event_target_value(&event)))
                    on:change=move |_| commit()
                    on:keydown=on_key
                />
                <span class="field-suffix" aria-hidden="true">{move || suffix.get()}</span>
            </span>
            <span class="field-trouble" role="alert">{move || trouble.get()}</span>
        </label>
    }
}

/// A field for a length in the unit that is chosen; other units can be typed too.
#[component]
pub fn LengthField(
    /// What the length is.
    #[prop(into)]
    label: Signal<String>,
    /// The length in millimetres.
    #[prop(into)]
    mm: Signal<f64>,
    /// Takes a new length in millimetres.
    take: Callback<f64, Result<(), String>>,
    /// For the style sheet.
    #[prop(default = "")]
    class: &'static str,
) -> impl IntoView {
    let unit = use_desk().unit;
    let text = Signal::derive(move || words::number(unit.get(), mm.get()));
    let suffix = Signal::derive(move || unit.get().symbol().to_owned());
    let read = move |text: String| take.run(typed_length(&text, unit.get_untracked())?);
    view! { <TextField label text take=Callback::new(read) suffix keys="decimal" class /> }
}

/// The length that was typed, in millimetres; a number without a unit counts in `unit`. Else why it is none.
pub fn typed_length(typed: &str, unit: LengthUnit) -> Result<f64, String> {
    read_length(&words::with_decimal_point(typed), unit).map_err(|error| error.told())
}

/// A field for a plain number without a unit of length.
#[component]
pub fn NumberField(
    /// What the number is.
    #[prop(into)]
    label: Signal<String>,
    /// The number.
    #[prop(into)]
    value: Signal<f64>,
    /// Takes a new number.
    take: Callback<f64, Result<(), String>>,
    /// For the style sheet.
    #[prop(default = "")]
    class: &'static str,
) -> impl IntoView {
    // A plain number reads like a length that has no unit.
    let text = Signal::derive(move || words::number(LengthUnit::Millimetres, value.get()));
    let read = move |text: String| {
        let plain: Option<f64> = text.trim().replace(',', ".").parse().ok();
        take.run(plain.filter(|number| number.is_finite()).ok_or_else(|| words::a_number().to_owned())?)
    };
    view! { <TextField label text take=Callback::new(read) keys="decimal" class /> }
}

/// A number between two others, to be slid. It is taken while it moves.
#[component]
pub fn Slider(
    /// What the number is.
    label: &'static str,
    /// The number.
    #[prop(into)]
    value: Signal<f64>,
    /// The number as it is shown and read out.
    #[prop(into)]
    text: Signal<String>,
    /// The least it can be.
    least: f64,
    /// The most it can be.
    #[prop(into)]
    most: Signal<f64>,
    /// From one number to the next.
    step: f64,
    /// Takes another number.
    take: Callback<f64>,
) -> impl IntoView {
    let on_input = move |event| {
        if let Ok(number) = event_target_value(&event).parse() {
            take.run(number);
        }
    };
    view! {
        <label class="slider">
            <span class="field-label">{label}</span>
            <output class="slider-value">{move || text.get()}</output>
            <input
                type="range"
                aria-label=label
                aria-valuetext=move || text.get()
                min=least
                max=move || most.get()
                step=step
                // After the range, which would cut it off.
                prop:value=move || { most.track(); value.get() }
                on:input=on_input
            />
        </label>
    }
}

/// A choice of one among few, as a row of buttons.
#[component]
pub fn Choice<T: Copy + PartialEq + Send + Sync + 'static>(
    /// What is chosen.
    label: &'static str,
    /// What there is to choose from, each with its word.
    options: Vec<(T, &'static str)>,
    /// The one chosen; nothing if none of them is.
    #[prop(into)]
    chosen: Signal<Option<T>>,
    /// Takes another one.
    take: Callback<T>,
) -> impl IntoView {
    let buttons = options.into_iter().map(|(option, word)| {
        let is_chosen = move || chosen.get() == Some(option);
        view! {
            <button
                type="button"
                class="choice-option"
                aria-pressed=move || is_chosen().to_string()
                on:click=move |_| take.run(option)
            >
                {word}
            </button>
        }
    });
    view! {
        <div class="choice" role="group" aria-label=label>
            {buttons.collect_view()}
        </div>
    }
}
