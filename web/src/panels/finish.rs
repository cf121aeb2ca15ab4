//! The cut line of one sticker, finished for the blade: rounded corners, wider spots, and how far the line moved.

use leptos::prelude::*;
use stickleaf_outline::{MovedOut, Outline, Radii};
use stickleaf_sheet::{Sticker, moved_by_finish};

use crate::finishing::thicken;
use crate::icons::{Icon, icon};
use crate::panels::before_after::before_after;
use crate::panels::fields::LengthField;
use crate::state::{Desk, use_desk};
use crate::words::{self, Told};

/// No larger radius is taken, in millimetres.
pub const MOST_RADIUS: f64 = 100.0;

/// How the cut line is finished, and what that changes.
#[derive(Clone, PartialEq)]
struct Shown {
    before: Outline,
    after: Outline,
    moved: Option<MovedOut>,
    border: f64,
}

/// The radii of the cut line, its thin part if it has one, and a picture of what moved.
#[component]
pub fn FinishFields(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let radii = Memo::new(move |_| {
        sticker.with(|sticker| sticker.as_ref().map(|sticker| sticker.radii).unwrap_or_default())
    });
    let spots = Memo::new(move |_| {
        sticker.with(|sticker| sticker.as_ref().map_or(0, |sticker| sticker.wide_spots.len()))
    });
    let is_rounded = move || radii.get() != Radii::default();
    let rules = Memo::new(move |_| desk.layout.with(|layout| layout.rules));
    let thin = Memo::new(move |_| {
        let rules = rules.get();
        let thin = sticker.with(|sticker| sticker.as_ref()?.thin_part(&rules))?;
        let unit = desk.unit.get();
        Some(words::thin_here(&words::length(unit, thin.width), &words::length(unit, rules.thinnest)))
    });
    let shown = Memo::new(move |_| {
        let (rules, finished) = (rules.get(), is_rounded() || spots.get() > 0);
        sticker.with(|sticker| {
            let sticker = sticker.as_ref().filter(|_| finished)?;
            Some(Shown {
                before: sticker.plain_line(&rules),
                after: (*sticker.cut_line(&rules)).clone(),
                moved: moved_by_finish(sticker, &rules),
                border: sticker.border_width(&rules),
            })
        })
    });
    let toggle = move |event| {
        let usual = rules.get_untracked().inner_radius.max(0.1);
        let radii = match event_target_checked(&event) {
            true => Radii { inner: usual, outer: usual },
            false => Radii::default(),
        };
        if let Err(why) = set_radii(desk, &id.get_value(), radii) {
            desk.say_error(why);
        }
    };
    let set = move |radii: Radii| {
        let is_sound = |mm: f64| (0.0..=MOST_RADIUS).contains(&mm);
        if !(is_sound(radii.inner) && is_sound(radii.outer)) {
            return Err(words::radius_range().to_owned());
        }
        set_radii(desk, &id.get_value(), radii)
    };
    let take_back = move |_| {
        let changed = desk.change(words::take_wide_back(), |layout| {
            if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| *sticker.id == *id.get_value()) {
                sticker.wide_spots.clear();
            }
        });
        if let Err(error) = changed {
            desk.say_error(error);
        }
    };
    view! {
        <h3>{words::cut_line()}</h3>
        <label class="check">
            <input type="checkbox" prop:checked=is_rounded on:change=toggle />
            <span>{words::round_for_blade()}</span>
        </label>
        <Show when=is_rounded>
            <LengthField
                label=words::rounded_inward()
                mm=Signal::derive(move || radii.get().inner)
                take=Callback::new(move |inner| set(Radii { inner, ..radii.get_untracked() }))
                class="line"
            />
            <LengthField
                label=words::rounded_outward()
                mm=Signal::derive(move || radii.get().outer)
                take=Callback::new(move |outer| set(Radii { outer, ..radii.get_untracked() }))
                class="line"
            />
        </Show>
        {move || thin.get().map(|text| view! {
            <p class="hint">{text}</p>
            <button type="button" class="button primary-soft" on:click=move |_| thicken(desk, &id.get_value())>
                {icon(Icon::Grow)} <span>{words::thicken_here()}</span>
            </button>
        })}
        <Show when=move || { spots.get() > 0 }>
            <p class="hint">{move || words::wide_spots(spots.get())}</p>
            <button type="button" class="button bare" on:click=take_back>
                {icon(Icon::Undo)} <span>{words::take_wide_back()}</span>
            </button>
        </Show>
        {move || shown.get().map(|shown| {
            let unit = desk.unit.get();
            let text = match shown.moved {
                None => words::line_stays().to_owned(),
                Some(moved) => {
                    words::line_moved(&words::length(unit, moved.most), moved.area, &words::length(unit, shown.border))
                }
            };
            view! {
                <div class="finish-picture">
                    {before_after(Some(&shown.before), Some(&shown.after))}
                    <p class="hint">{words::before_and_after()}</p>
                </div>
                <p class="hint" role="status">{text}</p>
            }
        })}
    }
}

fn set_radii(desk: Desk, id: &str, radii: Radii) -> Result<(), String> {
    let changed = desk.change(words::step_round(), |layout| {
        if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| *sticker.id == *id) {
            sticker.radii = radii;
        }
    });
    changed.map_err(|error| error.told())
}

/// Says of a sticker that its drawing is gone from its picture, and lets it be kept; nothing for others.
#[component]
pub fn GoneNote(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let is_gone =
        Memo::new(move |_| sticker.with(|sticker| sticker.as_ref().is_some_and(|sticker| sticker.is_gone)));
    let keep = move |_| {
        let changed = desk.change(words::keep_it(), |layout| {
            if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| *sticker.id == *id.get_value()) {
                sticker.is_gone = false;
            }
        });
        if let Err(error) = changed {
            desk.say_error(error);
        }
    };
    view! {
        <Show when=move || is_gone.get()>
            <p class="rough-note">{words::gone_hint()}</p>
            <button type="button" class="button primary-soft" on:click=keep>
                {icon(Icon::Check)} <span>{words::keep_it()}</span>
            </button>
        </Show>
    }
}
