//! What to compare, and how.

use leptos::prelude::*;
use stickleaf_sheet::{Change, Subject};

use crate::compare::{CompareJob, Wishes, offered};
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::PackAim;
use crate::panels::actions::HowToPack;
use crate::panels::fields::{Choice, LengthField, TextField, typed_length};
use crate::state::{Desk, use_desk};
use crate::words;

type Time = (u64, fn() -> &'static str);

/// How long each can be packed, in seconds, and how that is said.
const TIMES: [Time; 3] = [(5, words::five_seconds), (15, words::fifteen_seconds), (60, words::one_minute)];

/// What differs, which values, what for, and for how long.
#[component]
pub fn Setup() -> impl IntoView {
    let wishes = expect_context::<CompareJob>().wishes;
    let how = expect_context::<Job>().packing.how;
    let subject = Memo::new(move |_| wishes.with(|wishes| wishes.subject));
    let of = move |get: fn(&Wishes) -> u64| Signal::derive(move || Some(wishes.with(get)));
    let times = TIMES.map(|(seconds, word)| (seconds, word())).to_vec();
    let set_aim = move |aim: PackAim| wishes.update(|wishes| wishes.aim = aim);
    view! {
        <Choice
            label=words::what_to_compare()
            options=vec![
                (Subject::Backgrounds, words::backgrounds()),
                (Subject::Spacing, words::spacings()),
                (Subject::Border, words::borders()),
                (Subject::SheetSize, words::sheet_sizes()),
            ]
            chosen=Signal::derive(move || Some(subject.get()))
            take=Callback::new(move |subject| wishes.update(|wishes| wishes.subject = subject))
        />
        <Values subject />
        <div class="compare-how">
            <div>
                <h3>{words::pack_for()}</h3>
                <Choice
                    label=words::pack_for()
                    options=vec![(PackAim::Fill, words::fill()), (PackAim::Place, words::place_these())]
                    chosen=Signal::derive(move || Some(wishes.with(|wishes| wishes.aim)))
                    take=Callback::new(set_aim)
                />
            </div>
            <Show
                when=move || !how.get().is_repeatable
                fallback=move || view! { <p class="hint">{move || words::rounds_each(how.get().rounds, how.get().seed)}</p> }
            >
                <div>
                    <h3>{words::time_for_each()}</h3>
                    <Choice
                        label=words::time_for_each()
                        options=times.clone()
                        chosen=of(|wishes| wishes.seconds)
                        take=Callback::new(move |seconds| wishes.update(|wishes| wishes.seconds = seconds))
                    />
                </div>
            </Show>
        </div>
        <details class="more">
            <summary>{icon(Icon::Tune)} <span>{words::pack_options()}</span> <span class="turner">{icon(Icon::Down)}</span></summary>
            <HowToPack />
        </details>
    }
}

/// The values to choose from, each a switch; and a way to add one.
#[component]
fn Values(subject: Memo<Subject>) -> impl IntoView {
    let desk = use_desk();
    let wishes = expect_context::<CompareJob>().wishes;
    let changes =
        Memo::new(move |_| desk.layout.with(|layout| wishes.with(|wishes| offered(wishes, layout))));
    let chip = move |change: Change| {
        let is_wanted = {
            let change = change.clone();
            move || wishes.with(|wishes| !wishes.left_out.contains(&change))
        };
        let name = {
            let change = change.clone();
            move || words::change(&change, desk.unit.get())
        };
        view! {
            <button
                type="button"
                class="chip"
                aria-pressed=move || is_wanted().to_string()
                on:click=move |_| wishes.update(|wishes| wishes.toggle(&change))
            >
                {name}
            </button>
        }
    };
    let label = move || match subject.get() {
        Subject::Backgrounds => words::backgrounds(),
        Subject::Spacing => words::spacings(),
        Subject::Border => words::borders(),
        Subject::SheetSize => words::sheet_sizes(),
    };
    view! {
        <div class="chips" role="group" aria-label=label>
            {move || changes.get().into_iter().map(chip).collect_view()}
        </div>
        {move || match subject.get() {
            Subject::Backgrounds => ().into_any(),
            Subject::Spacing => view! { <AddLength change=Change::Spacing /> }.into_any(),
            Subject::Border => view! { <AddLength change=Change::Border /> }.into_any(),
            Subject::SheetSize => view! { <AddSize /> }.into_any(),
        }}
    }
}

/// Adds a value; one that is there already is refused.
fn add(desk: Desk, wishes: RwSignal<Wishes>, change: Change) -> Result<(), String> {
    let is_new = desk
        .peek(|editor| wishes.try_update(|wishes| wishes.add(change, editor.layout())).unwrap_or_default());
    if is_new { Ok(()) } else { Err(words::there_already().to_owned()) }
}

#[component]
fn AddLength(change: fn(f64) -> Change) -> impl IntoView {
    let desk = use_desk();
    let wishes = expect_context::<CompareJob>().wishes;
    let unit = desk.unit;
    let take = move |typed: String| {
        let mm = typed_length(&typed, unit.get_untracked())?;
        if mm < 0.0 {
            return Err(words::zero_or_more().to_owned());
        }
        add(desk, wishes, change(mm))
    };
    view! {
        <TextField
            label=words::another()
            text=Signal::stored(String::new())
            suffix=Signal::derive(move || unit.get().symbol().to_owned())
            take=Callback::new(take)
            keys="decimal"
            class="line"
        />
    }
}

#[component]
fn AddSize() -> impl IntoView {
    let desk = use_desk();
    let wishes = expect_context::<CompareJob>().wishes;
    let sheet = desk.peek(|editor| editor.layout().sheet);
    let (width, height) = (RwSignal::new(sheet.width), RwSignal::new(sheet.height));
    let trouble: RwSignal<Option<String>> = RwSignal::new(None);
    let set = move |side: RwSignal<f64>| {
        Callback::new(move |mm: f64| {
            if mm <= 0.0 {
                return Err(words::above_zero().to_owned());
            }
            trouble.set(None);
            side.set(mm);
            Ok(())
        })
    };
    let add_it = move |_| {
        let change = Change::SheetSize { width: width.get_untracked(), height: height.get_untracked() };
        trouble.set(add(desk, wishes, change).err());
    };
    view! {
        <div class="compare-size" role="group" aria-label=words::another()>
            <LengthField label=words::width() mm=width take=set(width) />
            <LengthField label=words::height() mm=height take=set(height) />
            <button type="button" class="button" on:click=add_it>{icon(Icon::Plus)} <span>{words::add_it()}</span></button>
            <span class="field-trouble" role="alert">{move || trouble.get()}</span>
        </div>
    }
}
