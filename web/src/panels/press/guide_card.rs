//! The guide to draw on, and what it shows.

use leptos::prelude::*;
use stickleaf_press::guide::{self, Parts};

use crate::icons::{Icon, icon};
use crate::messages::{GuideParts, PressOrder};
use crate::panels::press::exports::{file_name, save_text};
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::state::use_desk;
use crate::words;

const GUIDE: MadeFile = MadeFile {
    ending: ".guide.png",
    media_type: "image/png",
    text: words::guide_text,
    button: words::save_guide,
};

/// A part of the guide: its word, and its place among the parts.
type Part = (fn() -> &'static str, fn(&mut GuideParts) -> &mut bool);

const PARTS: [Part; 5] = [
    (words::guide_cut_lines, |parts| &mut parts.cut_lines),
    (words::guide_outlines, |parts| &mut parts.outlines),
    (words::guide_numbers, |parts| &mut parts.numbers),
    (words::guide_zones, |parts| &mut parts.zones),
    (words::guide_margin, |parts| &mut parts.margin),
];

/// The card of the guide.
#[component]
pub fn GuideCard() -> impl IntoView {
    let desk = use_desk();
    let all = GuideParts { cut_lines: true, outlines: true, numbers: true, zones: true, margin: true };
    let parts = RwSignal::new(all);
    let facts = Signal::derive(move || desk.layout.with(|layout| words::pixels_of(&layout.sheet)));
    let order = Signal::derive(move || PressOrder::Guide(parts.get()));
    let name = file_name(desk, Signal::stored(".guide.svg"));
    let save_svg = move |_| {
        let GuideParts { cut_lines, outlines, numbers, zones, margin } = parts.get_untracked();
        let parts = Parts { cut_lines, outlines, numbers, zones, margin };
        let svg = desk.peek(|editor| guide::write(editor.layout(), parts));
        save_text(desk, &name.get_untracked(), "image/svg+xml", &svg);
    };
    view! {
        <MadeCard file=GUIDE order facts>
            <div class="guide-parts" role="group" aria-label=words::guide_shows()>
                {PARTS.map(|(word, part)| {
                    let is_shown = move || *part(&mut parts.get());
                    let turn = move |_| parts.update(|parts| {
                        let shown = part(parts);
                        *shown = !*shown;
                    });
                    view! {
                        <button type="button" class="guide-part" aria-pressed=move || is_shown().to_string() on:click=turn>
                            {word()}
                        </button>
                    }
                }).collect_view()}
            </div>
            <button type="button" class="button" on:click=save_svg>
                {icon(Icon::Save)} <span>{words::save_guide_svg()}</span>
            </button>
        </MadeCard>
    }
}
