//! Plain shapes to rough a layout in with: which, how large, how many.

use leptos::html::Dialog;
use leptos::prelude::*;
use stickleaf_outline::{LEAST_SIDE, MOST_SIDE, PlainShape, path};
use stickleaf_sheet::Wanted;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use crate::icons::{Icon, icon};
use crate::panels::fields::{Choice, LengthField, TextField};
use crate::panels::modal::modal;
use crate::rough::{rough_in, toggle_blob_tool, unused_name};
use crate::state::{Desk, use_desk};
use crate::words::{self, Told};

/// What is asked for; handles only.
#[derive(Clone, Copy)]
struct Plan {
    shape: RwSignal<PlainShape>,
    width: RwSignal<f64>,
    height: RwSignal<f64>,
    /// The name that was typed; nothing for the shape's word.
    name: RwSignal<Option<String>>,
    wanted: RwSignal<Wanted>,
    trouble: RwSignal<Option<String>>,
}

impl Plan {
    fn new() -> Plan {
        let usual = PlainShape::Disc.usual_size();
        Plan {
            shape: RwSignal::new(PlainShape::Disc),
            width: RwSignal::new(usual.width),
            height: RwSignal::new(usual.height),
            name: RwSignal::new(None),
            wanted: RwSignal::new(Wanted::AtLeast(1)),
            trouble: RwSignal::new(None),
        }
    }

    fn choose(self, shape: PlainShape) {
        let usual = shape.usual_size();
        self.shape.set(shape);
        self.width.set(usual.width);
        self.height.set(usual.height);
        self.trouble.set(None);
    }

    fn name_now(self, desk: Desk) -> String {
        let typed = self.name.get();
        typed.unwrap_or_else(|| desk.layout.with(|layout| unused_name(layout, self.shape.get())))
    }
}

/// Shown while the desk's `shapes_are_shown` says so.
#[component]
pub fn RoughDialog() -> impl IntoView {
    let desk = use_desk();
    let is_open = desk.shapes_are_shown;
    let dialog = modal(is_open.into());
    view! {
        <dialog class="dialog rough-dialog" node_ref=dialog aria-labelledby="rough-title" on:close=move |_| is_open.set(false)>
            <h2 id="rough-title">{words::rough_in()}</h2>
            <Show when=move || is_open.get()>
                <RoughBody dialog />
            </Show>
        </dialog>
    }
}

#[component]
fn RoughBody(dialog: NodeRef<Dialog>) -> impl IntoView {
    let desk = use_desk();
    let is_open = desk.shapes_are_shown;
    let plan = Plan::new();
    let draw = move |_| {
        is_open.set(false);
        toggle_blob_tool(desk);
    };
    let put = move |_| {
        if !points_to_mistake(dialog) {
            put(desk, plan);
        }
    };
    view! {
        <p class="hint">{words::rough_in_text()}</p>
        <button type="button" class="button draw-instead" on:click=draw>
            {icon(Icon::Draw)} <span>{words::draw_blob()}</span>
        </button>
        <Shapes plan />
        <Sizes plan />
        <Wishes plan />
        <p class="field-trouble" role="alert">{move || plan.trouble.get()}</p>
        <div class="dialog-buttons">
            <button type="button" class="button bare" on:click=move |_| is_open.set(false)>
                <span>{words::cancel()}</span>
            </button>
            <button type="button" class="button primary" on:click=put>
                {icon(Icon::Plus)} <span>{words::put_on_sheet()}</span>
            </button>
        </div>
    }
}

/// The shapes as small pictures.
#[component]
fn Shapes(plan: Plan) -> impl IntoView {
    let button = move |shape: PlainShape| {
        view! {
            <button
                type="button"
                class="shape"
                aria-pressed=move || (plan.shape.get() == shape).to_string()
                on:click=move |_| plan.choose(shape)
            >
                {picture(shape)}
                <span>{words::shape(shape)}</span>
            </button>
        }
    };
    view! {
        <div class="shapes" role="group" aria-label=words::shape_name()>
            {PlainShape::ALL.into_iter().map(button).collect_view()}
        </div>
    }
}

/// The shape in its usual size, all of them at one scale.
fn picture(shape: PlainShape) -> impl IntoView {
    let usual = shape.usual_size();
    let outline = shape.outline(usual.width, usual.height).ok();
    let data = outline.map(|outline| path::write(outline.points())).unwrap_or_default();
    view! {
        <svg viewBox="-21 -13 42 26" aria-hidden="true">
            <path d=data></path>
        </svg>
    }
}

#[component]
fn Sizes(plan: Plan) -> impl IntoView {
    let desk = use_desk();
    let is_disc = move || plan.shape.get() == PlainShape::Disc;
    let set = move |side: RwSignal<f64>| {
        Callback::new(move |mm: f64| {
            if !(LEAST_SIDE..=MOST_SIDE).contains(&mm) {
                return Err(words::sides_allowed(desk.unit.get_untracked()));
            }
            side.set(mm);
            if plan.shape.get_untracked() == PlainShape::Disc {
                plan.width.set(mm);
                plan.height.set(mm);
            }
            plan.trouble.set(None);
            Ok(())
        })
    };
    let width_word =
        Signal::derive(move || (if is_disc() { words::across() } else { words::width() }).to_owned());
    view! {
        <div class="field-row">
            <LengthField label=width_word mm=plan.width take=set(plan.width) />
            <Show when=move || !is_disc()>
                <LengthField label=words::height() mm=plan.height take=set(plan.height) />
            </Show>
        </div>
    }
}

#[component]
fn Wishes(plan: Plan) -> impl IntoView {
    let desk = use_desk();
    let name = Signal::derive(move || plan.name_now(desk));
    let rename = move |name: String| {
        let name = name.trim().to_owned();
        // An emptied field goes back to the shape's word.
        plan.name.set((!name.is_empty()).then_some(name));
        Ok(())
    };
    let count = Signal::derive(move || plan.wanted.get().least().to_string());
    let set_count = move |text: String| {
        let count: u32 = text.trim().parse().map_err(|_| words::whole_number_from_0().to_owned())?;
        plan.wanted.update(|wanted| {
            *wanted = match wanted {
                Wanted::Exactly(_) => Wanted::Exactly(count),
                Wanted::AtLeast(_) => Wanted::AtLeast(count),
            }
        });
        Ok(())
    };
    let is_exact = Signal::derive(move || Some(matches!(plan.wanted.get(), Wanted::Exactly(_))));
    let choose = move |is_exact: bool| {
        plan.wanted.update(|wanted| {
            let count = wanted.least();
            *wanted = if is_exact { Wanted::Exactly(count) } else { Wanted::AtLeast(count) };
        });
    };
    view! {
        <TextField label=words::sticker_name() text=name take=Callback::new(rename) />
        <div class="field-row wanted-row">
            <TextField label=words::how_many() text=count take=Callback::new(set_count) keys="numeric" />
            <Choice
                label=words::how_many()
                options=vec![(false, words::at_least()), (true, words::exactly())]
                chosen=is_exact
                take=Callback::new(choose)
            />
        </div>
    }
}

/// Puts what was asked for on the sheet and closes the dialog; says beside the button why that cannot be.
fn put(desk: Desk, plan: Plan) {
    let (width, height) = (plan.width.get_untracked(), plan.height.get_untracked());
    match plan.shape.get_untracked().outline(width, height) {
        Ok(outline) => {
            let name = untrack(|| plan.name_now(desk));
            desk.shapes_are_shown.set(false);
            rough_in(desk, &name, outline, plan.wanted.get_untracked());
        }
        Err(why) => plan.trouble.set(Some(words::sentence(&why.told()))),
    }
}

/// True if a field of the dialog holds what makes no sense; that field has the focus then.
fn points_to_mistake(dialog: NodeRef<Dialog>) -> bool {
    let mistake = dialog
        .get_untracked()
        .and_then(|dialog| dialog.query_selector("[aria-invalid='true']").ok().flatten())
        .and_then(|field| field.dyn_into::<HtmlElement>().ok());
    if let Some(field) = &mistake {
        // What is shown can take the focus.
        let _ = field.focus();
    }
    mistake.is_some()
}
