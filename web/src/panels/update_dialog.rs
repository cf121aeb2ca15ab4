//! What a changed picture means for the stickers of the layout, before it is let in.

use leptos::prelude::*;
use stickleaf_sheet::{Layout, MatchedBy, Reimport, Sticker, reimport};

use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::Imported;
use crate::panels::before_after::before_after;
use crate::panels::fields::Choice;
use crate::state::use_desk;
use crate::update::{Fates, drawings_of, pictures_of, plain_name};
use crate::words;

/// Whether the picture becomes new stickers, or is a changed version of one that stickers came from; nothing where there
/// is no such choice.
#[component]
pub fn WhatFor() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let pictures = Memo::new(move |_| desk.layout.with(pictures_of));
    let is_asked = move || job.has_one_file() && pictures.with(|pictures| !pictures.is_empty());
    let choose = move |updates: bool| {
        let first = || pictures.with_untracked(|pictures| pictures.first().cloned());
        job.updating.set(updates.then(first).flatten());
    };
    let choose_picture = move |event| job.updating.set(Some(event_target_value(&event)));
    let option = move |file: String| {
        let (value, name) = (file.clone(), plain_name(&file).to_owned());
        view! { <option value=value selected=move || job.updating.with(|chosen| chosen.as_ref() == Some(&file))>{name}</option> }
    };
    view! {
        <Show when=is_asked>
            <section class="wishes what-for">
                <h3>{words::what_for()}</h3>
                <Choice
                    label=words::what_for()
                    options=vec![(true, words::update_stickers()), (false, words::add_as_new())]
                    chosen=Signal::derive(move || Some(job.updating.with(Option::is_some)))
                    take=Callback::new(choose)
                />
                <Show when=move || job.updating.with(Option::is_some)>
                    <Show when=move || { pictures.with(Vec::len) > 1 }>
                        <label class="field line">
                            <span class="field-label">{words::changed_version_of()}</span>
                            <span class="field-box">
                                <select on:change=choose_picture>
                                    {move || pictures.get().into_iter().map(option).collect_view()}
                                </select>
                            </span>
                        </label>
                    </Show>
                    <p class="hint">{words::update_hint()}</p>
                </Show>
            </section>
        </Show>
    }
}

/// One line of the list.
#[derive(Clone, PartialEq)]
struct Line {
    before: Option<Sticker>,
    after: Option<Sticker>,
    name: String,
    text: String,
    remark: Option<&'static str>,
}

/// What the picture that was found would change, and what of it is wanted.
#[derive(Clone, Copy)]
pub struct Changes {
    drawings: Memo<Vec<Sticker>>,
    plan: Memo<Option<Reimport>>,
    fates: Memo<Fates>,
    takes_new: RwSignal<bool>,
}

impl Changes {
    /// What the first of these would change in the layout on the desk, if it is to update a picture of it.
    pub fn new(found: Memo<Vec<Imported>>) -> Changes {
        let (desk, job) = (use_desk(), expect_context::<Job>());
        let drawings = Memo::new(move |_| {
            let first = |found: &Vec<Imported>| found.first().map(|first| drawings_of(first, &first.name));
            found.with(first).unwrap_or_default()
        });
        let plan = Memo::new(move |_| {
            let picture = job.updating.get()?;
            let plan =
                |drawings: &Vec<Sticker>| desk.layout.with(|layout| reimport(layout, &picture, drawings));
            Some(drawings.with(plan))
        });
        let fates = Memo::new(move |_| plan.with(|plan| plan.as_ref().map(Fates::of).unwrap_or_default()));
        Changes { drawings, plan, fates, takes_new: RwSignal::new(true) }
    }

    fn matched(self) -> usize {
        self.fates.get().updated + self.fates.get().unchanged
    }
}

/// What becomes of each sticker.
#[component]
pub fn ChangeList(changes: Changes) -> impl IntoView {
    let desk = use_desk();
    let Changes { drawings, plan, fates, takes_new } = changes;
    let lines = Memo::new(move |_| {
        plan.with(|plan| {
            let Some(plan) = plan else { return Vec::new() };
            drawings.with(|drawings| desk.layout.with(|layout| lines_of(plan, layout, drawings)))
        })
    });
    view! {
        <p class="found-count" role="status">{move || words::fates(fates.get())}</p>
        <Show when=move || changes.matched() == 0>
            <p class="hint">{words::nothing_matches()}</p>
        </Show>
        <ul class="fates" role="list" tabindex="0" aria-label=words::what_becomes()>
            {move || lines.get().into_iter().map(fate_line).collect_view()}
        </ul>
        <p class="hint">{words::before_and_after()}</p>
        <Show when=move || { fates.get().new > 0 }>
            <label class="check">
                <input
                    type="checkbox"
                    prop:checked=move || takes_new.get()
                    on:change=move |event| takes_new.set(event_target_checked(&event))
                />
                <span>{move || words::take_new(fates.get().new)}</span>
            </label>
        </Show>
    }
}

/// The button that lets it happen.
#[component]
pub fn UpdateButton(changes: Changes) -> impl IntoView {
    let job = expect_context::<Job>();
    view! {
        <button
            type="button"
            class="button primary"
            disabled=move || changes.matched() == 0
            on:click=move |_| job.accept_update(changes.takes_new.get_untracked())
        >
            {icon(Icon::Check)} <span>{move || words::update_count(changes.matched())}</span>
        </button>
    }
}

/// What changes comes first, then what is gone and new, what stays the same last.
fn lines_of(plan: &Reimport, layout: &Layout, drawings: &[Sticker]) -> Vec<Line> {
    let sticker = |index: usize| layout.stickers.get(index).cloned();
    let matched = |is_unchanged: bool| {
        let some = plan.matched.iter().filter(move |one| one.is_unchanged() == is_unchanged);
        some.map(move |one| Line {
            before: sticker(one.sticker),
            after: Some(one.after.clone()),
            name: one.after.name.clone(),
            text: if is_unchanged {
                words::fate_unchanged().to_owned()
            } else {
                words::fate_updated(one.area_after, one.area_before, one.area_moved)
            },
            remark: (one.by == MatchedBy::Shape).then(words::found_by_shape),
        })
    };
    let gone = plan.gone.iter().filter_map(|&index| sticker(index)).map(|sticker| Line {
        name: sticker.name.clone(),
        text: words::fate_gone().to_owned(),
        before: Some(sticker),
        after: None,
        remark: None,
    });
    let new = plan.new.iter().map(|&index| Line {
        before: None,
        after: Some(drawings[index].clone()),
        name: drawings[index].name.clone(),
        text: words::fate_new(drawings[index].outline.area()),
        remark: None,
    });
    matched(false).chain(gone).chain(new).chain(matched(true)).collect()
}

fn fate_line(line: Line) -> impl IntoView {
    let Line { before, after, name, text, remark } = line;
    let outline = |sticker: &Option<Sticker>| sticker.as_ref().map(|sticker| sticker.outline.clone());
    let (before, after) = (outline(&before), outline(&after));
    view! {
        <li class="fate">
            {before_after(before.as_deref(), after.as_deref())}
            <span class="fate-words">
                <strong>{name}</strong>
                <span>{text}</span>
                {remark.map(|remark| view! { <span class="hint">{remark}</span> })}
            </span>
        </li>
    }
}
