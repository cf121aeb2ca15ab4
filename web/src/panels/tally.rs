//! The tally: how many, how many at most, how dense, the smallest gap, and whether the rules hold.

use leptos::prelude::*;
use stickleaf_sheet::Finding;

use crate::icons::{Icon, icon};
use crate::state::{Panel, use_desk};
use crate::words;

/// Always in sight on the desk; follows a piece while it moves.
#[component]
pub fn Tally() -> impl IntoView {
    let desk = use_desk();
    let unit = desk.unit;
    let figures = Memo::new(move |_| {
        let unit = unit.get();
        desk.read(|editor| {
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
    let broken = Memo::new(move |_| {
        let unit = unit.get();
        desk.read(|editor| {
            let mut broken = editor.findings().iter().filter(|finding| finding.is_broken());
            let first = words::finding(broken.next()?, editor.layout(), unit);
            Some(words::rules_broken(1 + broken.count(), &first))
        })
    });
    view! {
        <div class="tally" role="status" aria-label=words::tally() class:broken=move || broken.get().is_some()>
            <span class="tally-figures">
                {move || figures.get().into_iter().map(|part| view! { <span class="tally-part">{part}</span> " · " }).collect_view()}
            </span>
            {move || match broken.get() {
                None => view! { <span class="tally-rules holds">{icon(Icon::Check)} <span>{words::all_rules_hold()}</span></span> }.into_any(),
                Some(sentence) => view! {
                    <button type="button" class="tally-rules" on:click=move |_| desk.panel.set(Some(Panel::Findings))>
                        {icon(Icon::Caution)} <span>{sentence}</span>
                    </button>
                }.into_any(),
            }}
        </div>
    }
}

/// How many findings spoil the sheet.
pub fn broken_count(findings: &[Finding]) -> usize {
    findings.iter().filter(|finding| finding.is_broken()).count()
}
