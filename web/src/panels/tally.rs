//! The tally: how many, how many at most, how dense, the smallest gap, and whether the rules hold.

use leptos::prelude::*;
use stickleaf_sheet::Finding;

use crate::icons::{Icon, icon};
use crate::state::{Panel, use_desk};
use crate::words;

/// Always in sight on the desk; follows a piece while it moves. Only its words change then, not its elements.
#[component]
pub fn Tally() -> impl IntoView {
    let desk = use_desk();
    let unit = desk.unit;
    let figures = Memo::new(move |_| {
        let unit = unit.get();
        desk.read_on_beat(|editor| {
            let score = editor.score();
            let mut parts = vec![
                words::placed(score.placed),
                words::at_most(score.ceiling.most),
                words::dense(score.density),
            ];
            parts.extend(score.smallest_gap.map(|gap| words::smallest_gap(&words::tenths(unit, gap))));
            parts
        })
    });
    let part = move |index: usize| {
        let part = Memo::new(move |_| figures.with(|parts| parts.get(index).cloned()));
        let dot = move || part.with(Option::is_some).then_some(" · ");
        view! { <span class="tally-part">{move || part.get()}</span> {dot} }
    };
    let broken = Memo::new(move |_| {
        let unit = unit.get();
        desk.read_on_beat(|editor| {
            let mut broken = editor.findings().iter().filter(|finding| finding.is_broken());
            let first = words::finding(broken.next()?, editor.layout(), unit);
            Some(words::rules_broken(1 + broken.count(), &first))
        })
    });
    let is_broken = Memo::new(move |_| broken.with(Option::is_some));
    view! {
        <div class="tally" role="status" aria-label=words::tally() class:broken=move || is_broken.get()>
            <span class="tally-figures">{part(0)} {part(1)} {part(2)} {part(3)}</span>
            <Show
                when=move || is_broken.get()
                fallback=|| view! { <span class="tally-rules holds">{icon(Icon::Check)} <span>{words::all_rules_hold()}</span></span> }
            >
                <button type="button" class="tally-rules" on:click=move |_| desk.panel.set(Some(Panel::Findings))>
                    {icon(Icon::Caution)} <span>{move || broken.get()}</span>
                </button>
            </Show>
        </div>
    }
}

/// How many findings spoil the sheet.
pub fn broken_count(findings: &[Finding]) -> usize {
    findings.iter().filter(|finding| finding.is_broken()).count()
}
