//! The background styles of a layout: choose, add, name, order, double, remove.

use leptos::prelude::*;
use stickleaf_sheet::{Background, Layout, STYLES, Style, usable_region};

use crate::icons::{Icon, icon};
use crate::panels::fields::TextField;
use crate::state::{Desk, use_desk};
use crate::words::{self, Told};

/// What a line of the list of styles shows.
#[derive(Clone, PartialEq)]
struct Shown {
    name: Option<String>,
    zones: usize,
    /// The part of the card that is left for stickers, 0 to 1.
    left: f64,
}

/// The styles to choose from.
#[component]
pub fn Styles() -> impl IntoView {
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

/// Styles made for this sheet, to be added.
#[component]
pub fn AddStyle() -> impl IntoView {
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

/// What can be done with the chosen style: another name, another place in the list, one more like it, away with it.
#[component]
pub fn ChosenStyle() -> impl IntoView {
    let desk = use_desk();
    let chosen = Memo::new(move |_| desk.layout.with(|layout| layout.background.clone()));
    let place = Memo::new(move |_| {
        let position = desk.layout.with(chosen_position);
        position.map(|position| (position, desk.layout.with(|layout| layout.backgrounds.len())))
    });
    let name = Signal::derive(move || chosen.get().unwrap_or_default());
    let take = Callback::new(move |typed: String| rename(desk, typed.trim()));
    let button =
        move |word: &'static str, picture: Icon, is_off: fn((usize, usize)) -> bool, deed: fn(Desk)| {
            view! {
                <button
                    type="button"
                    class="button bare"
                    aria-label=word
                    title=word
                    disabled=move || place.get().is_none_or(is_off)
                    on:click=move |_| deed(desk)
                >
                    {icon(picture)}
                </button>
            }
        };
    view! {
        <Show when=move || chosen.get().is_some()>
            <div class="style-tools">
                <TextField label=words::name_of_style() text=name take class="quiet" />
                <div class="button-row">
                    {button(words::style_earlier(), Icon::Up, |(position, _)| position == 0, |desk| shift(desk, -1))}
                    {button(words::style_later(), Icon::Down, |(position, count)| position + 1 == count, |desk| shift(desk, 1))}
                    {button(words::duplicate_style(), Icon::Duplicate, |_| false, duplicate)}
                    {button(words::remove_style(), Icon::Remove, |_| false, remove)}
                </div>
            </div>
        </Show>
    }
}

fn chosen_position(layout: &Layout) -> Option<usize> {
    let name = layout.background.as_ref()?;
    layout.backgrounds.iter().position(|background| background.name == *name)
}

fn rename(desk: Desk, typed: &str) -> Result<(), String> {
    if typed.is_empty() {
        return Err(words::name_it().to_owned());
    }
    let is_taken = desk.layout.with_untracked(|layout| {
        let others = layout
            .backgrounds
            .iter()
            .filter(|background| Some(&background.name) != layout.background.as_ref());
        others.into_iter().any(|background| background.name == typed)
    });
    if is_taken {
        return Err(words::style_name_taken().to_owned());
    }
    let changed = desk.change(words::step_rename_style(), |layout| {
        if let Some(position) = chosen_position(layout) {
            typed.clone_into(&mut layout.backgrounds[position].name);
            layout.background = Some(typed.to_owned());
        }
    });
    changed.map_err(|error| error.told())
}

/// Moves the chosen style so many places down the list.
fn shift(desk: Desk, by: isize) {
    desk.change_or_say(words::step_order_styles(), |layout| {
        let Some(from) = chosen_position(layout) else { return };
        if let Some(to) = from.checked_add_signed(by).filter(|&to| to < layout.backgrounds.len()) {
            layout.backgrounds.swap(from, to);
        }
    });
}

/// Puts another style like the chosen one behind it, and chooses it.
fn duplicate(desk: Desk) {
    desk.change_or_say(words::duplicate_style(), |layout| {
        let Some(from) = chosen_position(layout) else { return };
        let mut copy = layout.backgrounds[from].clone();
        copy.name = unused_name(layout, &copy.name);
        layout.background = Some(copy.name.clone());
        layout.backgrounds.insert(from + 1, copy);
    });
}

/// Takes the chosen style out of the layout; none is chosen then.
fn remove(desk: Desk) {
    desk.change_or_say(words::remove_style(), |layout| {
        if let Some(position) = chosen_position(layout) {
            layout.backgrounds.remove(position);
            layout.background = None;
        }
    });
}
