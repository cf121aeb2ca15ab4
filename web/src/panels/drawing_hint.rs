//! What to do while a tool draws on the sheet or several pieces are chosen, how large it becomes, and how to stop.

use kurbo::Rect;
use leptos::prelude::*;
use stickleaf_editor::{Editor, Sketch, Tool};

use crate::state::use_desk;
use crate::words;

/// Shown above the sheet while a tool other than the plain hand is taken up.
#[component]
pub fn DrawingHint() -> impl IntoView {
    let desk = use_desk();
    let tool = Memo::new(move |_| desk.read_at_rest(Editor::tool));
    let told = move || match tool.get() {
        Tool::DrawBlob => words::drawing_blob(),
        Tool::Choose => words::choosing_several(),
        Tool::DrawZone | Tool::Move => words::drawing_zone(),
    };
    let size = Memo::new(move |_| {
        let unit = desk.unit.get();
        desk.read(|editor| match editor.sketch() {
            Some(Sketch::Blob(path)) => {
                let first = path.first().copied().unwrap_or_default();
                let bounds =
                    path.iter().fold(Rect::from_points(first, first), |all, &point| all.union_pt(point));
                Some(words::size(
                    &words::number(unit, bounds.width()),
                    &words::number(unit, bounds.height()),
                    unit.symbol(),
                ))
            }
            _ => None,
        })
    });
    // What was said of the last line is no longer of interest once the next one begins.
    let is_begun = Memo::new(move |_| size.with(Option::is_some));
    Effect::new(move |_| {
        if is_begun.get() {
            desk.notice.set(None);
        }
    });
    view! {
        <div class="drawing-hint" class:choosing=move || tool.get() == Tool::Choose>
            <span role="status" class:word-hidden=move || is_begun.get()>{told}</span>
            <strong class="drawing-size" aria-hidden="true">{move || size.get()}</strong>
            <button type="button" class="button" on:click=move |_| desk.act(|editor| editor.set_tool(Tool::Move))>
                {move || if tool.get() == Tool::Choose { words::done_choosing() } else { words::stop_drawing() }}
            </button>
        </div>
    }
}
