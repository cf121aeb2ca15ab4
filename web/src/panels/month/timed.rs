//! The cutter's speed and lift time from two jobs that were timed.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use stickleaf_press::cut::Depths;
use stickleaf_shop::cutting::{CutMachine, FitError, TimedJob, fitted};

use crate::browser::keep::{keep, kept};
use crate::icons::{Icon, icon};
use crate::month::{Month, cut_work};
use crate::panels::fields::{Choice, NumberField, TextField};
use crate::state::use_desk;
use crate::words::{self, Told};

const TIMED: &str = "stickleaf.timed";

/// More sheets than these nobody cuts with a watch in the hand.
const MOST_SHEETS: f64 = 1000.0;

/// What was cut of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
enum Part {
    All,
    Stickers,
    Card,
}

impl Part {
    fn depths(self) -> Depths {
        match self {
            Part::All => Depths::All,
            Part::Stickers => Depths::Kiss,
            Part::Card => Depths::Through,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Part::All => words::cut_all(),
            Part::Stickers => words::cut_stickers(),
            Part::Card => words::cut_card(),
        }
    }
}

/// A job as it was noted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Note {
    /// The layout's name.
    name: String,
    part: Part,
    sheets: u32,
    /// One of the sheets, with its share of the time.
    job: TimedJob,
}

/// Two jobs are noted here; then the figures that they lead to can be taken. Kept on the device.
#[component]
pub fn TimedJobs() -> impl IntoView {
    let month = expect_context::<Month>();
    let notes: RwSignal<Vec<Note>> =
        RwSignal::new(kept(TIMED).and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default());
    let change = move |edit: &dyn Fn(&mut Vec<Note>)| {
        notes.update(|notes| edit(notes));
        if let Ok(text) = notes.with_untracked(serde_json::to_string) {
            // Without storage they hold for this visit.
            keep(TIMED, &text);
        }
    };
    let machine = Memo::new(move |_| month.settings.with(|settings| settings.cutting.machine));
    let found = Memo::new(move |_| {
        notes.with(|notes| match &**notes {
            [first, second, ..] => Some(found(&machine.get(), [&first.job, &second.job])),
            _ => None,
        })
    });
    let take = move |_| {
        if let Some(Ok(machine)) = found.get_untracked() {
            let mut settings = month.settings.get_untracked();
            settings.cutting.machine = machine;
            // Found within the bounds of the figures.
            let _ = month.put(settings, month.sheets.get_untracked());
        }
    };
    let is_known = move || matches!(found.get(), Some(Ok(found)) if found == machine.get());
    let line = move |(index, note): (usize, Note)| {
        let by_figures = move |job: &TimedJob| machine.get().seconds(&job.work);
        view! {
            <li>
                <span>{move || {
                    let sheets = f64::from(note.sheets);
                    let (took, by_figures) = (sheets * note.job.seconds, sheets * by_figures(&note.job));
                    words::timed_job(&note.name, note.part.word(), note.sheets, took, by_figures)
                }}</span>
                <button type="button" class="button bare" on:click=move |_| change(&|notes| { notes.remove(index); })>
                    {icon(Icon::Remove)} <span>{words::leave_out()}</span>
                </button>
            </li>
        }
    };
    view! {
        <section class="timed" aria-labelledby="timed">
            <h3 id="timed">{words::timed_title()}</h3>
            <p class="month-note">{words::timed_text()}</p>
            <ol class="timed-jobs" role="list">
                {move || notes.get().into_iter().enumerate().map(line).collect_view()}
            </ol>
            <Show when=move || notes.with(|notes| notes.len() < 2)>
                <JobForm add=Callback::new(move |note: Note| change(&|notes| notes.push(note.clone()))) />
            </Show>
            {move || match found.get() {
                None if notes.with(Vec::is_empty) => ().into_any(),
                None => view! { <p class="month-note" role="status">{words::one_more_job()}</p> }.into_any(),
                Some(Ok(found)) => view! {
                    <p class="price" role="status">{words::machine_found(found.speed_mm_s, found.lift_s)}</p>
                }.into_any(),
                Some(Err(error)) => view! {
                    <p class="press-note" role="status">{icon(Icon::Caution)} <span>{words::sentence(&error.told())}</span></p>
                }.into_any(),
            }}
            <Show when=move || matches!(found.get(), Some(Ok(_))) && !is_known()>
                <button type="button" class="button primary-soft" on:click=take>{words::take_into_figures()}</button>
            </Show>
        </section>
    }
}

/// The machine that both jobs lead to, as finely as a watch in the hand can tell.
fn found(machine: &CutMachine, jobs: [&TimedJob; 2]) -> Result<CutMachine, FitError> {
    let found = fitted(machine, jobs)?;
    let rounded = |value: f64, per: f64| (value * per).round() / per;
    Ok(CutMachine {
        speed_mm_s: rounded(found.speed_mm_s, 10.0),
        lift_s: rounded(found.lift_s, 100.0),
        ..found
    })
}

/// What was cut of the sheet on the desk, and how long that took.
#[component]
fn JobForm(add: Callback<Note>) -> impl IntoView {
    let desk = use_desk();
    let month = expect_context::<Month>();
    let part_cut = RwSignal::new(Part::Stickers);
    let sheets = RwSignal::new(1.0);
    let seconds: RwSignal<Option<f64>> = RwSignal::new(None);
    let time_text =
        Signal::derive(move || seconds.get().map(words::clock).unwrap_or_default().replace(" min", ""));
    let set_sheets = move |count: f64| {
        if count.fract() != 0.0 || !(1.0..=MOST_SHEETS).contains(&count) {
            return Err(words::whole_number().to_owned());
        }
        sheets.set(count);
        Ok(())
    };
    let set_time = move |text: String| {
        seconds.set(Some(typed_time(&text).ok_or_else(|| words::not_a_time().to_owned())?));
        Ok(())
    };
    let note = move |_| {
        let Some(took) = seconds.get_untracked() else {
            return desk.say_attention(words::time_is_missing(), None);
        };
        let (part, sheets) = (part_cut.get_untracked(), sheets.get_untracked());
        let passes = month.settings.with_untracked(|settings| settings.cutting.passes);
        let work = desk.peek(|editor| cut_work(editor.layout(), part.depths(), passes));
        if work.lines == 0 {
            return desk.say_attention(words::nothing_to_cut(), None);
        }
        let name = desk.layout.with_untracked(|layout| layout.name.clone());
        add.run(Note { name, part, sheets: sheets as u32, job: TimedJob { work, seconds: took / sheets } });
        // The card of the same sheet is the usual second job. With it the form goes, and these with it.
        seconds.try_set(None);
        if part == Part::Stickers {
            part_cut.try_set(Part::Card);
        }
    };
    view! {
        <Choice
            label=words::what_was_cut()
            options=[Part::Stickers, Part::Card, Part::All].map(|part| (part, part.word())).to_vec()
            chosen=Signal::derive(move || Some(part_cut.get()))
            take=Callback::new(move |chosen| part_cut.set(chosen))
        />
        <div class="figure-group">
            <NumberField label=words::sheets_cut() value=sheets take=Callback::new(set_sheets) />
            <TextField label=words::time_taken() text=time_text take=Callback::new(set_time) />
        </div>
        <div class="button-row">
            <button type="button" class="button primary-soft" on:click=note>{words::note_job()}</button>
        </div>
    }
}

/// A time in seconds as it was typed: `4:30`, `1:04:30`, or seconds alone. Nothing for what is none, or longer than a day.
fn typed_time(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".");
    let seconds = text.split(':').try_fold((0.0, 0), |(sum, parts), part| {
        let value: f64 = part.trim().parse().ok()?;
        // Below a colon there are 60; in front there may be more.
        let holds = value >= 0.0 && (parts == 0 || value < 60.0);
        holds.then_some((60.0 * sum + value, parts + 1))
    });
    seconds.filter(|&(sum, parts)| sum > 0.0 && sum <= 86_400.0 && parts <= 3).map(|(sum, _)| sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_a_watch_shows_them() {
        for (text, seconds) in
            [("4:30", 270.0), ("270", 270.0), ("1:04:30", 3870.0), (" 0:59,5 ", 59.5), ("90:00", 5400.0)]
        {
            assert_eq!(typed_time(text), Some(seconds), "{text}");
        }
        for none in ["", ":", "4:", "4:60", "4:-3", "-4", "0:00", "x", "1:2:3:4", "nan", "inf", "90000"] {
            assert_eq!(typed_time(none), None, "{none}");
        }
    }
}
