//! Background styles and their zones.

use leptos::prelude::*;
use stickleaf_editor::Tool;
use stickleaf_sheet::{Background, Layout, STYLES, Style, usable_region};

use crate::icons::{Icon, icon};
use crate::panels::fields::{LengthField, TextField};
use crate::state::{Desk, use_desk};
use crate::words::{self, Told};

/// The styles to choose from, and the zones of the chosen one.
#[component]
pub fn BackgroundPanel() -> impl IntoView {
    view! {
        <h2 class="panel-title">{words::background()}</h2>
        <Styles />
        <AddStyle />
        <Zones />
    }
}

/// What a line of the list of styles shows.
#[derive(Clone, PartialEq)]
struct Shown {
    name: Option<String>,
    zones: usize,
    /// The part of the card that is left for stickers, 0 to 1.
    left: f64,
}

#[component]
fn Styles() -> impl IntoView {
    let desk = use_desk();
    let styles = Memo::new(move |_| {
        desk.layout.with(|layout| {
            let plain = shown(layout, None);
            std::iter::once(plain)
                .chain(layout.backgrounds.iter().map(|background| shown(layout, Some(background))))
                .collect::<Vec<Shown>>()
        })
    });
    let chosen = Memo::new(move |_| desk.layout.with(|layout| layout.background.clone()));
    let line = move |Shown { name, zones, left }: Shown| {
        let word = name.clone().unwrap_or_else(|| words::no_background().to_owned());
        let is_chosen = {
            let name = name.clone();
            move || chosen.get() == name
        };
        view! {
            <li>
                <button
                    type="button"
                    class="style"
                    aria-pressed=move || is_chosen().to_string()
                    on:click=move |_| desk.change_or_say(words::background(), |layout| layout.background.clone_from(&name))
                >
                    <span class="style-name">{word}</span>
                    <span class="style-facts">{words::zones(zones)} " · " {words::room_left(left)}</span>
                </button>
            </li>
        }
    };
    view! {
        <ul class="styles" role="list" aria-label=words::background()>
            {move || styles.get().into_iter().map(line).collect_view()}
        </ul>
    }
}

fn shown(layout: &Layout, background: Option<&Background>) -> Shown {
    let zones = background.map_or(&[][..], |background| &background.zones);
    let left = usable_region(&layout.sheet, &layout.rules, zones).area() / layout.sheet.area();
    Shown { name: background.map(|background| background.name.clone()), zones: zones.len(), left }
}

#[component]
fn AddStyle() -> impl IntoView {
    let desk = use_desk();
    let style = move |style: Style| {
        view! {
            <button type="button" class="menu-item" on:click=move |_| add(desk, style)>{words::style(style)}</button>
        }
    };
    view! {
        <details class="more">
            <summary>{icon(Icon::Plus)} <span>{words::add_style()}</span> <span class="turner">{icon(Icon::Down)}</span></summary>
            <div class="menu-column">{STYLES.into_iter().map(style).collect_view()}</div>
        </details>
    }
}

/// Adds a style made for this sheet, under a name that is not there yet, and chooses it.
fn add(desk: Desk, style: Style) {
    desk.change_or_say(words::add_style(), |layout| {
        let mut background = style.background(&layout.sheet, &layout.rules);
        for zone in &mut background.zones {
            if let Some(name) = words::style_zone(&zone.name) {
                zone.name = name.to_owned();
            }
        }
        background.name = unused_name(layout, words::style(style));
        layout.background = Some(background.name.clone());
        layout.backgrounds.push(background);
    });
}

fn unused_name(layout: &Layout, name: &str) -> String {
    let is_used = |name: &str| layout.backgrounds.iter().any(|background| background.name == name);
    let numbered = (2..).map(|number| format!("{name} {number}"));
    std::iter::once(name.to_owned()).chain(numbered).find(|name| !is_used(name)).unwrap_or_default()
}

#[component]
fn Zones() -> impl IntoView {
    let desk = use_desk();
    let count = Memo::new(move |_| desk.layout.with(|layout| layout.zones().len()));
    let has_style = Memo::new(move |_| desk.layout.with(|layout| layout.background.is_some()));
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
            <Show when=move || has_style.get()>
                <button type="button" class="button bare" on:click=move |_| remove_style(desk)>
                    {icon(Icon::Remove)} <span>{words::remove_style()}</span>
                </button>
            </Show>
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
            if let Some(zone) = chosen_zones(layout).and_then(|zones| zones.get_mut(zone)) {
                zone.name = typed;
            }
        });
        changed.map_err(|error| error.told())
    };
    let set_clearance = move |mm: f64| {
        let changed = desk.change(words::clearance(), |layout| {
            if let Some(zone) = chosen_zones(layout).and_then(|zones| zones.get_mut(zone)) {
                zone.clearance = mm;
            }
        });
        changed.map_err(|error| error.told())
    };
    let remove = move |_| {
        desk.change_or_say(&words::remove_zone(&name.get_untracked()), |layout| {
            if let Some(zones) = chosen_zones(layout).filter(|zones| zone < zones.len()) {
                zones.remove(zone);
            }
        });
    };
    view! {
        <li class="zone">
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
        </li>
    }
}

fn chosen_zones(layout: &mut Layout) -> Option<&mut Vec<stickleaf_sheet::Zone>> {
    let name = layout.background.clone()?;
    layout
        .backgrounds
        .iter_mut()
        .find(|background| background.name == name)
        .map(|background| &mut background.zones)
}

fn remove_style(desk: Desk) {
    desk.change_or_say(words::remove_style(), |layout| {
        if let Some(name) = layout.background.take() {
            layout.backgrounds.retain(|background| background.name != name);
        }
    });
}
