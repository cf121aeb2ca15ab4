//! What can be done with the chosen zone without dragging.

use kurbo::{Rect, Vec2};
use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::panels::hand_habits::StepButton;
use crate::state::{Desk, Panel, use_desk};
use crate::words;

/// Shown in the place of the hand bar while a zone is chosen: nudges, size, another one like it, away with it.
#[component]
pub fn ZoneBar() -> impl IntoView {
    let desk = use_desk();
    let name = Memo::new(move |_| {
        desk.read(|editor| {
            let zone = editor.chosen_zone().and_then(|zone| editor.layout().zones().get(zone));
            zone.map(|zone| zone.name.clone()).unwrap_or_default()
        })
    });
    let button = move |word: &'static str, picture: Icon, deed: fn(Desk)| {
        view! {
            <button type="button" class="hand-button" aria-label=word title=word on:click=move |_| deed(desk)>
                {icon(picture)}
            </button>
        }
    };
    let with_zone = move |deed: fn(&mut stickleaf_editor::Editor, usize)| {
        move |_| {
            desk.act(|editor| {
                if let Some(zone) = editor.chosen_zone() {
                    deed(editor, zone);
                }
            });
        }
    };
    view! {
        <div class="hand zone-hand" role="toolbar" aria-label=move || words::zone_called(&name.get())>
            <span class="hand-title">{move || name.get()}</span>
            <div class="hand-group">
                {button(words::nudge_left(), Icon::Left, |desk| shift(desk, Vec2::new(-1.0, 0.0), Vec2::ZERO))}
                {button(words::nudge_up(), Icon::Up, |desk| shift(desk, Vec2::new(0.0, -1.0), Vec2::ZERO))}
                {button(words::nudge_down(), Icon::Down, |desk| shift(desk, Vec2::new(0.0, 1.0), Vec2::ZERO))}
                {button(words::nudge_right(), Icon::Right, |desk| shift(desk, Vec2::new(1.0, 0.0), Vec2::ZERO))}
            </div>
            <div class="hand-group">
                {button(words::zone_smaller(), Icon::Minus, |desk| shift(desk, Vec2::ZERO, Vec2::new(-1.0, -1.0)))}
                {button(words::zone_larger(), Icon::Plus, |desk| shift(desk, Vec2::ZERO, Vec2::new(1.0, 1.0)))}
            </div>
            <StepButton />
            <div class="hand-group words">
                <button type="button" class="hand-button" on:click=with_zone(|editor, zone| editor.duplicate_zone(zone))>
                    {icon(Icon::Duplicate)} <span>{words::duplicate()}</span>
                </button>
                <button type="button" class="hand-button" on:click=with_zone(|editor, zone| editor.remove_zone(zone))>
                    {icon(Icon::Remove)} <span>{words::remove()}</span>
                </button>
                <button type="button" class="hand-button" on:click=move |_| desk.panel.set(Some(Panel::Background))>
                    {icon(Icon::Tune)} <span>{words::numbers()}</span>
                </button>
            </div>
        </div>
    }
}

/// Moves the chosen zone, and makes it larger to the right and down, by so many steps.
fn shift(desk: Desk, by: Vec2, growth: Vec2) {
    desk.act(|editor| {
        let step = editor.habits.step.length();
        let zone = editor.chosen_zone().and_then(|zone| Some((zone, editor.layout().zones().get(zone)?)));
        let Some((zone, bounds)) = zone.map(|(index, zone)| (index, zone.outline.bounds())) else { return };
        let size = bounds.size() + (growth * step).to_size();
        editor.fit_zone(zone, Rect::from_origin_size(bounds.origin() + by * step, size));
    });
}
