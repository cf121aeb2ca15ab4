//! One sticker: its name, how it may turn, its border, its size.

use leptos::prelude::*;
use stickleaf_sheet::{Sticker, Turns, Wanted};

use crate::icons::{Icon, icon};
use crate::panels::fields::{Choice, LengthField, NumberField, TextField};
use crate::panels::finish::{FinishFields, GoneNote};
use crate::panels::replace_art::ReplaceArt;
use crate::panels::rough_size::RoughSize;
use crate::panels::thumbnail::Thumbnail;
use crate::state::{Desk, Offer, use_desk};
use crate::words::{self, Told};

/// How far a sticker tilts when nothing else is said, in degrees (a choice of ours: lively, but words stay readable).
const TILT: f64 = 15.0;

/// Which kind of turns is chosen.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Upright,
    Tilt,
    Quarter,
    Any,
}

/// Everything about one sticker.
#[component]
pub fn StickerPanel(
    /// Its id.
    id: String,
) -> impl IntoView {
    let desk = use_desk();
    let id = StoredValue::new(id);
    let sticker = Memo::new(move |_| desk.layout.with(|layout| layout.sticker(&id.get_value()).cloned()));
    Effect::new(move |_| {
        // The sticker may go away, by undo for example.
        if sticker.with(Option::is_none) {
            desk.panel.set(None);
        }
    });
    let name = Memo::new(move |_| {
        sticker.with(|sticker| sticker.as_ref().map(|sticker| sticker.name.clone()).unwrap_or_default())
    });
    let rename = move |name: String| {
        if name.trim().is_empty() {
            return Err(words::name_it().to_owned());
        }
        edit(desk, &id.get_value(), words::sticker_name(), |sticker| sticker.name = name.trim().to_owned())
    };
    let size = move || {
        let unit = desk.unit.get();
        let size = desk.layout.with(|layout| {
            layout.sticker(&id.get_value()).map(|sticker| sticker.cut_line(&layout.rules).bounds().size())
        });
        size.map(|size| {
            words::size_with_border(
                &words::number(unit, size.width),
                &words::number(unit, size.height),
                unit.symbol(),
            )
        })
    };
    let put = move |_| {
        desk.act(|editor| editor.place_copy(&id.get_value(), None));
    };
    let remove = move |_| {
        let gone = name.get_untracked();
        desk.panel.set(None);
        desk.change_or_say(words::remove_sticker(), |layout| {
            let id = id.get_value();
            layout.pieces.retain(|piece| *piece.sticker != *id);
            layout.stickers.retain(|sticker| *sticker.id != *id);
        });
        desk.say(words::sticker_removed(&gone), Some(Offer::Undo));
    };
    view! {
        <div class="sticker-head">
            <Thumbnail id=id.get_value() />
            <TextField label=words::sticker_name() text=name take=Callback::new(rename) />
        </div>
        <p class="hint">{size}</p>
        <GoneNote id sticker />
        <RoughSize id sticker />
        <ReplaceArt id />
        <WantedFields id sticker />
        <TurnFields id sticker />
        <FlipSwitch id sticker />
        <BorderField id sticker />
        <FinishFields id sticker />
        <div class="button-row">
            <button type="button" class="button primary-soft" on:click=put>{icon(Icon::Plus)} <span>{words::put_one_on()}</span></button>
            <button type="button" class="button bare" on:click=remove>{icon(Icon::Remove)} <span>{words::remove_sticker()}</span></button>
        </div>
    }
}

#[component]
fn WantedFields(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let wanted = Memo::new(move |_| {
        sticker.with(|sticker| sticker.as_ref().map(|sticker| sticker.wanted).unwrap_or_default())
    });
    let is_exact = Signal::derive(move || Some(matches!(wanted.get(), Wanted::Exactly(_))));
    let set = move |wanted: Wanted| {
        edit(desk, &id.get_value(), words::how_many(), |sticker| sticker.wanted = wanted)
    };
    let choose = move |is_exact: bool| {
        let count = wanted.get_untracked().least();
        if let Err(why) = set(if is_exact { Wanted::Exactly(count) } else { Wanted::AtLeast(count) }) {
            desk.say_error(why);
        }
    };
    let text = Signal::derive(move || wanted.get().least().to_string());
    let set_count = move |text: String| {
        let count = text.trim().parse().map_err(|_| words::whole_number_from_0().to_owned())?;
        set(match wanted.get_untracked() {
            Wanted::Exactly(_) => Wanted::Exactly(count),
            Wanted::AtLeast(_) => Wanted::AtLeast(count),
        })
    };
    view! {
        <h3>{words::how_many()}</h3>
        <Choice
            label=words::how_many()
            options=vec![(true, words::exactly()), (false, words::at_least())]
            chosen=is_exact
            take=Callback::new(choose)
        />
        <TextField label=words::copies() text take=Callback::new(set_count) keys="numeric" class="line" />
    }
}

#[component]
fn TurnFields(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let turns = Memo::new(move |_| {
        sticker.with(|sticker| sticker.as_ref().map(|sticker| sticker.turns.clone()).unwrap_or_default())
    });
    let kind = Signal::derive(move || turns.with(kind_of));
    let choose = move |kind: Kind| {
        let turns = match kind {
            Kind::Upright => Turns::None,
            Kind::Tilt => Turns::Within(TILT),
            Kind::Quarter => Turns::Only(vec![0.0, 90.0, 180.0, 270.0]),
            Kind::Any => Turns::Any,
        };
        if let Err(why) = edit(desk, &id.get_value(), words::may_turn(), |sticker| sticker.turns = turns) {
            desk.say_error(why);
        }
    };
    let tilt = Signal::derive(move || {
        turns.with(|turns| if let Turns::Within(degrees) = turns { *degrees } else { TILT })
    });
    let set_tilt = move |degrees: f64| {
        if !(0.0..=180.0).contains(&degrees) {
            return Err(words::degrees_range().to_owned());
        }
        edit(desk, &id.get_value(), words::may_turn(), |sticker| sticker.turns = Turns::Within(degrees))
    };
    let listed = Signal::derive(move || {
        turns.with(|turns| match turns {
            Turns::Only(list) => list.iter().map(f64::to_string).collect::<Vec<_>>().join(" "),
            _ => String::new(),
        })
    });
    let set_listed = move |text: String| {
        let turns: Result<Vec<f64>, _> = text.split_whitespace().map(str::parse).collect();
        let turns = turns.ok().filter(|turns| !turns.is_empty() && turns.iter().all(|turn| turn.is_finite()));
        let turns = turns.ok_or_else(|| words::turns_list().to_owned())?;
        edit(desk, &id.get_value(), words::may_turn(), |sticker| sticker.turns = Turns::Only(turns))
    };
    view! {
        <h3>{words::may_turn()}</h3>
        <Choice
            label=words::may_turn()
            options=vec![
                (Kind::Upright, words::turns_none()),
                (Kind::Tilt, words::turns_within()),
                (Kind::Quarter, words::turns_quarter()),
                (Kind::Any, words::turns_any()),
            ]
            chosen=kind
            take=Callback::new(choose)
        />
        <Show when=move || turns.with(|turns| matches!(turns, Turns::Within(_)))>
            <NumberField label=words::tilt_degrees() value=tilt take=Callback::new(set_tilt) class="line" />
        </Show>
        <Show when=move || turns.with(|turns| matches!(turns, Turns::Only(_)))>
            <TextField label=words::turns_listed() text=listed take=Callback::new(set_listed) class="line" />
        </Show>
    }
}

/// Whether the sticker may lie as in a mirror.
#[component]
fn FlipSwitch(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let may_flip =
        Memo::new(move |_| sticker.with(|sticker| sticker.as_ref().is_some_and(|sticker| sticker.mirror)));
    let toggle = move |event| {
        let mirror = event_target_checked(&event);
        if let Err(why) =
            edit(desk, &id.get_value(), words::may_be_flipped(), |sticker| sticker.mirror = mirror)
        {
            desk.say_error(why);
        }
    };
    view! {
        <label class="check">
            <input type="checkbox" role="switch" prop:checked=move || may_flip.get() on:change=toggle />
            <span>{words::may_be_flipped()}</span>
        </label>
    }
}

fn kind_of(turns: &Turns) -> Option<Kind> {
    match turns {
        Turns::None => Some(Kind::Upright),
        Turns::Any => Some(Kind::Any),
        Turns::Within(_) => Some(Kind::Tilt),
        Turns::Only(_) => Some(Kind::Quarter),
    }
}

#[component]
fn BorderField(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let own = Memo::new(move |_| sticker.with(|sticker| sticker.as_ref().and_then(|sticker| sticker.border)));
    let rule = move || desk.layout.with(|layout| layout.rules.border);
    let set = move |border: Option<f64>| {
        edit(desk, &id.get_value(), words::own_border(), |sticker| sticker.border = border)
    };
    let toggle = move |event| {
        let border =
            event_target_checked(&event).then(|| desk.layout.with_untracked(|layout| layout.rules.border));
        if let Err(why) = set(border) {
            desk.say_error(why);
        }
    };
    view! {
        <h3>{words::border()}</h3>
        <label class="check">
            <input type="checkbox" prop:checked=move || own.get().is_some() on:change=toggle />
            <span>{words::own_border()}</span>
        </label>
        <Show when=move || own.get().is_some()>
            <LengthField label=words::border() mm=Signal::derive(move || own.get().unwrap_or_else(rule)) take=Callback::new(move |mm| set(Some(mm))) class="line" />
        </Show>
    }
}

fn edit(desk: Desk, id: &str, label: &str, edit: impl FnOnce(&mut Sticker)) -> Result<(), String> {
    let changed = desk.change(label, |layout| {
        if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| &*sticker.id == id) {
            edit(sticker);
        }
    });
    changed.map_err(|error| error.told())
}
