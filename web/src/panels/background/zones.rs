//! The zones of the chosen style, as a list.

use kurbo::{Rect, Vec2};
use leptos::prelude::*;
use stickleaf_editor::Tool;

use crate::icons::{Icon, icon};
use crate::panels::fields::{LengthField, TextField};
use crate::state::use_desk;
use crate::words::{self, Told};

/// The zones of the chosen style, each with its name, its clearance and, while it is chosen, its place and size.
#[component]
pub fn Zones() -> impl IntoView {
    let desk = use_desk();
    let count = Memo::new(move |_| desk.layout.with(|layout| layout.zones().len()));
    let draw = move |_| {
        let is_drawing = desk.peek(|editor| editor.tool() == Tool::DrawZone);
        desk.act(|editor| editor.set_tool(if is_drawing { Tool::Move } else { Tool::DrawZone }));
        if !is_drawing {
            desk.panel.set(None);
        }
    };
    view! {
        <h3>{words::zones_name()}</h3>
        <p class="hint">{words::zones_hint()}</p>
        <ul class="zones" role="list" aria-label=words::zones_name()>
            <For each=move || 0..count.get() key=|zone| *zone children=|zone| view! { <ZoneLine zone /> } />
        </ul>
        <div class="button-row">
            <button type="button" class="button" on:click=draw>
                {icon(Icon::Draw)}
                <span>
                    {move || if desk.read(|editor| editor.tool() == Tool::DrawZone) { words::stop_drawing() } else { words::draw_zone() }}
                </span>
            </button>
        </div>
    }
}

#[component]
fn ZoneLine(zone: usize) -> impl IntoView {
    let desk = use_desk();
    let name = Memo::new(move |_| {
        desk.layout.with(|layout| layout.zones().get(zone).map(|zone| zone.name.clone()).unwrap_or_default())
    });
    let clearance = Signal::derive(move || {
        desk.layout.with(|layout| layout.zones().get(zone).map_or(0.0, |zone| zone.clearance))
    });
    let rename = move |typed: String| {
        let typed = typed.trim().to_owned();
        if typed.is_empty() {
            return Err(words::name_it().to_owned());
        }
        let changed = desk.change(words::step_rename_zone(), |layout| {
            if let Some(zone) = layout.zones_mut().and_then(|zones| zones.get_mut(zone)) {
                zone.name = typed;
            }
        });
        changed.map_err(|error| error.told())
    };
    let set_clearance = move |mm: f64| {
        let changed = desk.change(words::clearance(), |layout| {
            if let Some(zone) = layout.zones_mut().and_then(|zones| zones.get_mut(zone)) {
                zone.clearance = mm;
            }
        });
        changed.map_err(|error| error.told())
    };
    let remove = move |_| desk.act(|editor| editor.remove_zone(zone));
    let is_chosen = Memo::new(move |_| desk.read(|editor| editor.chosen_zone() == Some(zone)));
    let choose = move |_| {
        let chosen = (!is_chosen.get_untracked()).then_some(zone);
        desk.act(|editor| editor.choose_zone(chosen));
    };
    view! {
        <li class="zone">
            <button
                type="button"
                class="button bare"
                aria-pressed=move || is_chosen.get().to_string()
                aria-label=move || words::change_zone(&name.get())
                title=move || words::change_zone(&name.get())
                on:click=choose
            >
                {icon(Icon::Grow)}
            </button>
            <div class="zone-name">
                <TextField
                    label=Signal::derive(move || words::name_of_zone(&name.get()))
                    text=name
                    take=Callback::new(rename)
                    class="quiet"
                />
            </div>
            <LengthField label=Signal::derive(move || words::clearance_of(&name.get())) mm=clearance take=Callback::new(set_clearance) class="tiny" />
            <button type="button" class="button bare" aria-label=move || words::remove_zone(&name.get()) on:click=remove>
                {icon(Icon::Remove)}
            </button>
            <Show when=move || is_chosen.get()>
                <BoundsFields zone />
            </Show>
        </li>
    }
}

/// Where a zone lies and how large it is, as numbers to type.
#[component]
fn BoundsFields(zone: usize) -> impl IntoView {
    let desk = use_desk();
    let bounds = Memo::new(move |_| {
        desk.read(|editor| editor.layout().zones().get(zone).map_or(Rect::ZERO, |zone| zone.outline.bounds()))
    });
    let field = move |label: &'static str, value: fn(Rect) -> f64, put: fn(Rect, f64) -> Rect| {
        let mm = Signal::derive(move || value(bounds.get()));
        let take = Callback::new(move |mm: f64| {
            let wanted = put(bounds.get_untracked(), mm);
            desk.act(|editor| editor.fit_zone(zone, wanted));
            Ok(())
        });
        view! { <LengthField label mm take class="tiny" /> }
    };
    view! {
        <div class="zone-bounds">
            {field(words::x(), |rect| rect.x0, |rect, mm| rect + Vec2::new(mm - rect.x0, 0.0))}
            {field(words::y(), |rect| rect.y0, |rect, mm| rect + Vec2::new(0.0, mm - rect.y0))}
            {field(words::zone_width(), |rect| rect.width(), |rect, mm| Rect { x1: rect.x0 + mm, ..rect })}
            {field(words::zone_height(), |rect| rect.height(), |rect, mm| Rect { y1: rect.y0 + mm, ..rect })}
        </div>
    }
}
