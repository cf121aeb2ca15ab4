//! Bringing art in: how far the search is, what was found, and how it is looked at.

use leptos::prelude::*;
use stickleaf_sheet::Layout;

use crate::icons::{Icon, icon};
use crate::job::{ImportState, Job};
use crate::messages::Imported;
use crate::panels::fields::{Choice, LengthField, NumberField};
use crate::panels::finish::MOST_RADIUS;
use crate::panels::modal::modal;
use crate::panels::replace_dialog::ReplaceFound;
use crate::panels::update_dialog::{ChangeList, Changes, UpdateButton, WhatFor};
use crate::state::use_desk;
use crate::words;

/// Shown while art is on its way in.
#[component]
pub fn ImportDialog() -> impl IntoView {
    let job = expect_context::<Job>();
    let is_open = Memo::new(move |_| job.import.with(Option::is_some));
    let is_looking =
        Memo::new(move |_| job.import.with(|import| matches!(import, Some(ImportState::Looking { .. }))));
    let dialog = modal(is_open.into());
    let desk = use_desk();
    let title = move || {
        if job.zoning.get() {
            return words::zones_of_picture().to_owned();
        }
        let id = job.replacing.get();
        let name = id.and_then(|id| desk.layout.with(|layout| Some(layout.sticker(&id)?.name.clone())));
        name.map_or_else(|| words::import_title().to_owned(), |name| words::replace_title(&name))
    };
    view! {
        <dialog
            class="dialog"
            node_ref=dialog
            aria-labelledby="import-title"
            on:cancel=move |event: web_sys::Event| {
                event.prevent_default();
                job.cancel_import();
            }
            on:close=move |_| {
                // Browsers close a dialog by themselves when Escape is pressed twice.
                if job.import.with_untracked(Option::is_some) {
                    job.cancel_import();
                }
            }
        >
            <h2 id="import-title">{title}</h2>
            <Show when=move || is_open.get()>
                <Show when=move || is_looking.get() fallback=|| view! { <Found /> }>
                    <Looking />
                </Show>
            </Show>
        </dialog>
    }
}

#[component]
fn Looking() -> impl IntoView {
    let job = expect_context::<Job>();
    let news = Memo::new(move |_| {
        job.import.with(|import| match import {
            Some(ImportState::Looking { name, part }) => (name.clone(), *part),
            _ => (String::new(), 1.0),
        })
    });
    view! {
        <div class="progress" role="status">
            <div class="progress-bar" aria-hidden="true">
                <span style:width=move || format!("{:.1}%", 100.0 * news.get().1)></span>
            </div>
            <span class="progress-line">{move || words::looking_in(&news.get().0)}</span>
            <button type="button" class="button stop" on:click=move |_| job.cancel_import()>
                {icon(Icon::Stop)} <span>{words::stop()}</span>
            </button>
        </div>
    }
}

#[component]
fn Found() -> impl IntoView {
    let job = expect_context::<Job>();
    let found = Memo::new(move |_| {
        job.import.with(|import| match import {
            Some(ImportState::Found(found)) => found.clone(),
            _ => Vec::new(),
        })
    });
    match job.replacing.get_untracked() {
        Some(id) => view! { <ReplaceFound found id /> }.into_any(),
        None => view! { <AllFound found /> }.into_any(),
    }
}

/// What becomes new stickers.
#[component]
fn AllFound(found: Memo<Vec<Imported>>) -> impl IntoView {
    let job = expect_context::<Job>();
    let layouts = Memo::new(move |_| {
        found.with(|found| {
            found
                .iter()
                .filter_map(|imported| stickleaf_files::read(&imported.layout).ok())
                .collect::<Vec<Layout>>()
        })
    });
    let count = Memo::new(move |_| {
        layouts.with(|layouts| layouts.iter().map(|layout| layout.stickers.len()).sum::<usize>())
    });
    let changes = Changes::new(found);
    let updates = move || job.is_updating();
    view! {
        <p class="found-count">{move || words::found(count.get())}</p>
        <Show when=move || { count.get() > 0 }>
            <WhatFor found />
        </Show>
        <Show
            when=updates
            fallback=move || layouts.get().into_iter().map(|layout| view! { <Outlines layout /> }).collect_view()
        >
            <ChangeList changes />
        </Show>
        {move || found.get().into_iter().map(|imported| view! { <Remarks imported /> }).collect_view()}
        <Wishes found />
        <div class="dialog-buttons">
            <button type="button" class="button bare" on:click=move |_| job.cancel_import()>
                <span>{words::cancel()}</span>
            </button>
            <Show
                when=updates
                fallback=move || view! {
                    <button type="button" class="button primary" disabled=move || count.get() == 0 on:click=move |_| job.accept_import()>
                        {icon(Icon::Check)} <span>{move || words::add_stickers(count.get())}</span>
                    </button>
                }
            >
                <UpdateButton changes />
            </Show>
        </div>
    }
}

/// The outlines of a file where they lie in its picture.
#[component]
fn Outlines(layout: Layout) -> impl IntoView {
    let mut bounds: Option<kurbo::Rect> = None;
    let mut paths = Vec::new();
    for sticker in &layout.stickers {
        let at = sticker.art.as_ref().map_or(kurbo::Point::ZERO, |art| art.at);
        let points: Vec<kurbo::Point> =
            sticker.outline.points().iter().map(|point| *point - at.to_vec2()).collect();
        let own = sticker.outline.bounds() - at.to_vec2();
        bounds = Some(bounds.map_or(own, |bounds| bounds.union(own)));
        paths.push(stickleaf_outline::path::write(&points));
    }
    bounds.map(|bounds| {
        let bounds = bounds.inflate(1.0, 1.0);
        let view_box =
            format!("{:.2} {:.2} {:.2} {:.2}", bounds.x0, bounds.y0, bounds.width(), bounds.height());
        view! {
            <svg class="outlines" viewBox=view_box aria-hidden="true">
                {paths.into_iter().map(|data| view! { <path d=data></path> }).collect_view()}
            </svg>
        }
    })
}

/// What is worth knowing about one file.
#[component]
pub fn Remarks(imported: Imported) -> impl IntoView {
    let unit = use_desk().unit;
    let Imported { name, width_mm, height_mm, is_size_known, dropped, notes, trouble, .. } = imported;
    let failed = trouble.is_some();
    let line = |text: String| view! { <li>{text}</li> };
    let size = move || {
        let unit = unit.get();
        words::size(&words::number(unit, width_mm), &words::number(unit, height_mm), unit.symbol())
    };
    let wishes = expect_context::<Job>().wishes.get_untracked();
    let size_word = if wishes.width_mm.or(wishes.ppi).is_some() {
        words::size_from_you()
    } else if is_size_known {
        words::size_from_file()
    } else {
        words::size_guessed()
    };
    view! {
        <section class="remarks" class:trouble=failed>
            <strong>{name}</strong>
            {trouble.map(|why| view! { <p role="alert">{words::sentence(&why)}</p> })}
            {(!failed).then(|| view! { <p class="hint">{size} ". " {size_word}</p> })}
            {(!dropped.is_empty()).then(|| view! { <p class="hint">{words::dropped()} ": " {dropped.join(", ")}</p> })}
            {(!notes.is_empty()).then(|| view! {
                <ul class="notes">{notes.into_iter().map(|note| line(words::sentence(&note))).collect_view()}</ul>
            })}
        </section>
    }
}

/// The radius of a cut line that was typed, if it can be one.
fn radius(mm: f64) -> Result<f64, String> {
    if (0.0..=MOST_RADIUS).contains(&mm) { Ok(mm) } else { Err(words::radius_range().to_owned()) }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum SizeBy {
    Ppi,
    Width,
}

/// How the pictures are looked at; a change looks again.
#[component]
pub fn Wishes(found: Memo<Vec<Imported>>) -> impl IntoView {
    let job = expect_context::<Job>();
    let by = RwSignal::new(if job.wishes.with_untracked(|wishes| wishes.width_mm.is_some()) {
        SizeBy::Width
    } else {
        SizeBy::Ppi
    });
    let width = Signal::derive(move || found.with(|found| found.first().map_or(0.0, |first| first.width_mm)));
    let ppi = Signal::derive(move || {
        found
            .with(|found| {
                let first = found.iter().find(|imported| imported.width_mm > 0.0);
                let from_pixels = first.and_then(|first| {
                    Some(f64::from(first.pixels?.0) / first.width_mm * stickleaf_sheet::MM_PER_INCH)
                });
                from_pixels.map(|ppi| ppi.round())
            })
            .or(job.wishes.with(|wishes| wishes.ppi))
            .unwrap_or(96.0)
    });
    let positive = |value: f64| if value > 0.0 { Ok(value) } else { Err(words::above_zero().to_owned()) };
    let not_negative =
        |value: f64| if value >= 0.0 { Ok(value) } else { Err(words::zero_or_more().to_owned()) };
    let set_ppi = move |value: f64| {
        let ppi = positive(value)?;
        job.wishes.update(|wishes| (wishes.ppi, wishes.width_mm) = (Some(ppi), None));
        job.look_again();
        Ok(())
    };
    let set_width = move |value: f64| {
        let width = positive(value)?;
        job.wishes.update(|wishes| (wishes.ppi, wishes.width_mm) = (None, Some(width)));
        job.look_again();
        Ok(())
    };
    let set_border = move |value: f64| {
        let border = not_negative(value)?;
        job.wishes.update(|wishes| wishes.border_mm = border);
        job.look_again();
        Ok(())
    };
    let set_smallest = move |value: f64| {
        let smallest = not_negative(value)?;
        job.wishes.update(|wishes| wishes.smallest_mm = smallest);
        job.look_again();
        Ok(())
    };
    let set_inner = move |value: f64| {
        let inner = radius(value)?;
        job.wishes.update(|wishes| wishes.inner_radius_mm = inner);
        job.look_again();
        Ok(())
    };
    let set_outer = move |value: f64| {
        let outer = radius(value)?;
        job.wishes.update(|wishes| wishes.outer_radius_mm = outer);
        job.look_again();
        Ok(())
    };
    let set_join = move |event| {
        let join = event_target_checked(&event);
        job.wishes.update(|wishes| wishes.join = join);
        job.look_again();
    };
    view! {
        <section class="wishes">
            <h3>{words::true_size()}</h3>
            <Choice
                label=words::true_size()
                options=vec![(SizeBy::Ppi, words::pixels_to_the_inch()), (SizeBy::Width, words::picture_width())]
                chosen=Signal::derive(move || Some(by.get()))
                take=Callback::new(move |way| by.set(way))
            />
            <Show
                when=move || by.get() == SizeBy::Ppi
                fallback=move || view! { <LengthField label=words::picture_width() mm=width take=Callback::new(set_width) class="line" /> }
            >
                <NumberField label=words::pixels_to_the_inch() value=ppi take=Callback::new(set_ppi) class="line" />
            </Show>
            <details class="more">
                <summary>{words::more_of_it()} <span class="turner">{icon(Icon::Down)}</span></summary>
                <LengthField label=words::border() mm=Signal::derive(move || job.wishes.with(|wishes| wishes.border_mm)) take=Callback::new(set_border) class="line" />
                <LengthField label=words::rounded_inward() mm=Signal::derive(move || job.wishes.with(|wishes| wishes.inner_radius_mm)) take=Callback::new(set_inner) class="line" />
                <LengthField label=words::rounded_outward() mm=Signal::derive(move || job.wishes.with(|wishes| wishes.outer_radius_mm)) take=Callback::new(set_outer) class="line" />
                <LengthField label=words::smallest_kept() mm=Signal::derive(move || job.wishes.with(|wishes| wishes.smallest_mm)) take=Callback::new(set_smallest) class="line" />
                <label class="check">
                    <input type="checkbox" prop:checked=move || job.wishes.with(|wishes| wishes.join) on:change=set_join />
                    <span>{words::join_parts()}</span>
                </label>
            </details>
        </section>
    }
}
