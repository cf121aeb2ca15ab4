//! What changed pictures mean for the stickers of the layout, before they are let in.

use leptos::prelude::*;
use stickleaf_sheet::{MatchedBy, Sticker};

use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::Imported;
use crate::panels::before_after::before_after;
use crate::panels::fields::Choice;
use crate::state::use_desk;
use crate::update::{Deed, Fates, PictureChange, changes, gone, pictures_of, plain_name};
use crate::words;

/// Whether the pictures become new stickers, or are changed versions of those that stickers came from; nothing where there
/// is no such choice.
#[component]
pub fn WhatFor(found: Memo<Vec<Imported>>) -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let pictures = Memo::new(move |_| desk.layout.with(pictures_of));
    let names =
        Memo::new(move |_| found.with(|found| found.iter().map(|one| one.name.clone()).collect::<Vec<_>>()));
    // One picture for the only one there is leaves nothing to choose.
    let has_choice = move || pictures.with(Vec::len) > 1 || names.with(Vec::len) > 1;
    view! {
        <Show when=move || !pictures.with(Vec::is_empty)>
            <section class="wishes what-for">
                <h3>{words::what_for()}</h3>
                <Choice
                    label=words::what_for()
                    options=vec![(true, words::update_stickers()), (false, words::add_as_new())]
                    chosen=Signal::derive(move || Some(job.is_updating()))
                    take=Callback::new(move |updates| job.choose_updating(updates))
                />
                <Show when=move || job.is_updating()>
                    <Show when=has_choice>
                        {move || names.get().into_iter().enumerate().map(|(index, name)| view! { <VersionOf index name pictures /> }).collect_view()}
                    </Show>
                    <p class="hint">{words::update_hint()}</p>
                </Show>
            </section>
        </Show>
    }
}

/// Which picture of the layout one on its way in is a changed version of.
#[component]
fn VersionOf(index: usize, name: String, pictures: Memo<Vec<String>>) -> impl IntoView {
    let job = expect_context::<Job>();
    let chosen = move || job.updating.with(|chosen| chosen.get(index).cloned().flatten());
    let is_several = job.updating.with_untracked(Vec::len) > 1;
    let choose = move |event| {
        let value = event_target_value(&event);
        job.updating.update(|chosen| {
            if let Some(chosen) = chosen.get_mut(index) {
                *chosen = (!value.is_empty()).then_some(value);
            }
        });
    };
    let option = move |file: String| {
        let (value, shown) = (file.clone(), plain_name(&file).to_owned());
        view! { <option value=value selected=move || chosen().as_ref() == Some(&file)>{shown}</option> }
    };
    let label =
        if is_several { words::is_changed_version_of(&name) } else { words::changed_version_of().to_owned() };
    view! {
        <label class="field line">
            <span class="field-label">{label}</span>
            <span class="field-box">
                <select on:change=choose>
                    {is_several.then(|| view! {
                        <option value="" selected=move || chosen().is_none()>{words::of_none()}</option>
                    })}
                    {move || pictures.get().into_iter().map(option).collect_view()}
                </select>
            </span>
        </label>
    }
}

/// What becomes of the stickers by one picture.
#[derive(Clone, PartialEq)]
struct Section {
    name: String,
    fates: Fates,
    /// Whether nothing of it matches, so that it is left alone.
    is_left: bool,
    lines: Vec<Line>,
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

/// What the pictures that were found would change, and what of it is wanted.
#[derive(Clone, Copy)]
pub struct Changes {
    all: Memo<Vec<PictureChange>>,
    fates: Memo<Fates>,
    takes_new: RwSignal<bool>,
}

impl Changes {
    /// What these would change in the layout on the desk, if they are to update pictures of it.
    pub fn new(found: Memo<Vec<Imported>>) -> Changes {
        let (desk, job) = (use_desk(), expect_context::<Job>());
        let all = Memo::new(move |_| {
            let updating = job.updating.get();
            found.with(|found| {
                let pictures: Vec<(&Imported, Option<&str>)> =
                    found.iter().zip(updating.iter().map(Option::as_deref)).collect();
                // Names that no picture has, so that what one brings is not taken for what another replaces.
                let file = |index: usize, one: &Imported| format!("{index}/{}", one.name);
                desk.layout.with(|layout| changes(layout, &pictures, true, file))
            })
        });
        let fates = Memo::new(move |_| all.with(|all| Fates::of_all(all)));
        Changes { all, fates, takes_new: RwSignal::new(true) }
    }

    fn matched(self) -> usize {
        self.all.with(|all| all.iter().map(PictureChange::matched).sum())
    }

    /// How many drawings are new on pictures that update stickers.
    fn new_ones(self) -> usize {
        let is_update = |change: &&PictureChange| matches!(change.deed, Deed::Update(_));
        self.all.with(|all| all.iter().filter(is_update).map(|change| change.found_new().len()).sum())
    }
}

/// What becomes of each sticker, picture by picture.
#[component]
pub fn ChangeList(changes: Changes) -> impl IntoView {
    let Changes { all, fates, takes_new } = changes;
    let sections = Memo::new(move |_| all.with(|all| sections_of(all)));
    let is_several = move || sections.with(Vec::len) > 1;
    view! {
        <p class="found-count" role="status">{move || words::fates(fates.get())}</p>
        <Show when=move || changes.matched() == 0>
            <p class="hint">{words::nothing_matches()}</p>
        </Show>
        <ul class="fates" role="list" tabindex="0" aria-label=words::what_becomes()>
            {move || {
                let is_several = is_several();
                sections.get().into_iter().map(|section| section_lines(section, is_several)).collect_view()
            }}
        </ul>
        <p class="hint">{words::before_and_after()}</p>
        <Show when=move || { changes.new_ones() > 0 }>
            <label class="check">
                <input
                    type="checkbox"
                    prop:checked=move || takes_new.get()
                    on:change=move |event| takes_new.set(event_target_checked(&event))
                />
                <span>{move || words::take_new(changes.new_ones())}</span>
            </label>
        </Show>
    }
}

/// The lines of one picture, below its name where there are several.
fn section_lines(section: Section, is_several: bool) -> impl IntoView {
    let Section { name, fates, is_left, lines } = section;
    let sum = if is_left { words::picture_is_left().to_owned() } else { words::fates(fates) };
    let head = is_several.then(|| {
        view! {
            <li class="fates-of">
                <strong>{name}</strong>
                <span>{sum}</span>
            </li>
        }
    });
    view! {
        {head}
        {lines.into_iter().map(fate_line).collect_view()}
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

/// Each picture with its lines: what changes comes first, then what is gone and new, what stays the same last.
fn sections_of(changes: &[PictureChange]) -> Vec<Section> {
    let gone = gone(changes);
    let section = |(number, change): (usize, &PictureChange)| {
        let gone = gone.iter().filter(|(first, _)| *first == number).map(|&(_, sticker)| sticker);
        Section {
            name: plain_name(&change.name).to_owned(),
            fates: Fates::of(changes, number),
            is_left: change.deed == Deed::NoMatch,
            lines: lines_of(change, gone),
        }
    };
    changes.iter().enumerate().map(section).collect()
}

fn lines_of(change: &PictureChange, gone: impl Iterator<Item = usize>) -> Vec<Line> {
    let sticker = |index: usize| change.before.get(index).cloned();
    let matched = |is_unchanged: bool| {
        let plan = match &change.deed {
            Deed::Update(plan) => Some(plan),
            Deed::NoMatch | Deed::Add => None,
        };
        let all = plan.into_iter().flat_map(|plan| &plan.matched);
        let some = all.filter(move |one| one.is_unchanged() == is_unchanged);
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
    let gone = gone.filter_map(sticker).map(|sticker| Line {
        name: sticker.name.clone(),
        text: words::fate_gone().to_owned(),
        before: Some(sticker),
        after: None,
        remark: None,
    });
    let new = change.found_new().into_iter().map(|index| &change.drawings[index]).map(|drawing| Line {
        before: None,
        after: Some(drawing.clone()),
        name: drawing.name.clone(),
        text: words::fate_new(drawing.outline.area()),
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
