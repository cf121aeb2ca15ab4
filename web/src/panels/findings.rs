//! What breaks a rule, and what is worth a look.

use std::collections::BTreeMap;

use leptos::prelude::*;
use stickleaf_editor::Editor;
use stickleaf_sheet::{Finding, LengthUnit, MM_PER_INCH, Mark, Rule, StickerId};

use crate::finishing::thicken;
use crate::icons::{Icon, icon};
use crate::panels::drawer::panels_are_a_drawer;
use crate::panels::pieces::Pieces;
use crate::panels::room::EmptyRoom;
use crate::state::{Desk, use_desk};
use crate::words;

/// How many broken rules get an offer to mend them: working one out takes a moment.
const OFFERS: usize = 6;

/// How much of the sheet is seen about the spot of a finding at least, in millimetres.
const SEEN_MM: f64 = 40.0;

/// How much room the pieces of a finding get when they are looked at, as a part of their size.
const ROOM: f64 = 1.3;

/// Where a finding is.
#[derive(Clone, PartialEq)]
struct Spot {
    pieces: Vec<usize>,
    mark: Option<Mark>,
}

impl Spot {
    fn of(finding: &Finding) -> Spot {
        Spot { pieces: finding.pieces.clone(), mark: finding.mark }
    }
}

/// One line of the list.
#[derive(Clone, PartialEq)]
struct Line {
    text: String,
    spot: Spot,
    is_broken: bool,
    /// Which finding of the editor it is, if it may be mended.
    finding: Option<usize>,
    /// The sticker whose thin part it is about.
    thin: Option<StickerId>,
    /// The single findings of a group, each a line of its own.
    members: Vec<Member>,
}

/// A single finding of a group.
#[derive(Clone, PartialEq)]
struct Member {
    text: String,
    spot: Spot,
    /// The sticker whose thin part it is about.
    thin: Option<StickerId>,
}

/// The sticker that has a thin part, if the finding is about one.
fn thin_sticker(finding: &Finding) -> Option<StickerId> {
    finding.sticker.clone().filter(|_| finding.rule == Rule::ThinPart)
}

/// The findings, the hard ones first, warnings grouped by their rule.
#[component]
pub fn Findings() -> impl IntoView {
    let desk = use_desk();
    let lines = Memo::new(move |_| {
        let unit = desk.unit.get();
        desk.read(|editor| {
            let sentence =
                |finding: &Finding| words::sentence(&words::finding(finding, editor.layout(), unit));
            let findings = editor.findings();
            let broken = findings.iter().enumerate().filter(|(_, finding)| finding.is_broken());
            let hard = broken.enumerate().map(|(nth, (index, finding))| Line {
                text: sentence(finding),
                spot: Spot::of(finding),
                is_broken: true,
                finding: (nth < OFFERS).then_some(index),
                thin: None,
                members: Vec::new(),
            });
            let mut groups: BTreeMap<Rule, Vec<&Finding>> = BTreeMap::new();
            for warning in findings.iter().filter(|finding| !finding.is_broken()) {
                groups.entry(warning.rule).or_default().push(warning);
            }
            let soft = groups.into_iter().map(|(rule, group)| {
                let text = match group[..] {
                    [only] => sentence(only),
                    _ => words::warning_group(rule, group.len()),
                };
                let spot = Spot::of(group[0]);
                let members = group.iter().map(|finding| Member {
                    text: sentence(finding),
                    spot: Spot::of(finding),
                    thin: thin_sticker(finding),
                });
                let members = if group.len() > 1 { members.collect() } else { Vec::new() };
                let thin = if group.len() > 1 { None } else { thin_sticker(group[0]) };
                Line { text, spot, is_broken: false, finding: None, thin, members }
            });
            hard.chain(soft).collect::<Vec<Line>>()
        })
    });
    let is_clean = Memo::new(move |_| lines.with(Vec::is_empty));
    let why_at_most = Memo::new(move |_| desk.read(|editor| words::why_at_most(editor.score().ceiling)));
    let holds = Memo::new(move |_| lines.with(|lines| !lines.iter().any(|line| line.is_broken)));
    view! {
        <div class="findings">
            <Show when=move || holds.get()>
                <div class="all-well">
                    {icon(Icon::Check)}
                    <div>
                        <strong>{words::rules_hold_title()}</strong>
                        <Show when=move || is_clean.get()><p>{words::no_findings()}</p></Show>
                    </div>
                </div>
            </Show>
            <ul class="finding-list" role="list" aria-label=words::findings()>
                {move || lines.get().into_iter().map(|line| view! { <FindingLine line /> }).collect_view()}
            </ul>
            <p class="hint why-at-most">{move || why_at_most.get()}</p>
            <EmptyRoom />
            <Pieces />
        </div>
    }
}

#[component]
fn FindingLine(line: Line) -> impl IntoView {
    let desk = use_desk();
    let Line { text, spot, is_broken, finding, thin, members } = line;
    let picture = if is_broken { Icon::Caution } else { Icon::Findings };
    let has_members = !members.is_empty();
    let member = move |Member { text, spot, thin }: Member| {
        view! {
            <button type="button" class="finding-member" on:click=move |_| show(desk, &spot)>{text}</button>
            {thin.map(|id| view! { <Thicken id /> })}
        }
    };
    view! {
        <li class="finding" class:broken=is_broken>
            {if has_members {
                view! {
                    <details>
                        <summary>{icon(picture)} <span class="finding-text">{text}</span> <span class="turner">{icon(Icon::Down)}</span></summary>
                        {members.into_iter().map(member).collect_view()}
                    </details>
                }.into_any()
            } else {
                view! {
                    <button type="button" class="finding-button" on:click=move |_| show(desk, &spot)>
                        {icon(picture)} <span class="finding-text">{text}</span>
                    </button>
                }.into_any()
            }}
            {finding.map(|finding| view! { <Mend finding /> })}
            {thin.map(|id| view! { <Thicken id /> })}
        </li>
    }
}

/// Offers the smallest change that mends a broken rule, if one was found.
#[component]
fn Mend(finding: usize) -> impl IntoView {
    let desk = use_desk();
    // While a piece is carried the offers would change with every step; they are worked out when it lies.
    let fix = Memo::new(move |_| {
        desk.finished.track();
        let fix = desk.peek(|editor| (!editor.is_busy()).then(|| editor.proposed_fix(finding)).flatten())?;
        let name = desk.peek(|editor| words::piece_name(editor.layout(), fix.piece));
        Some(words::mend(&name, &short(desk.unit.get(), fix.distance), fix.distance > 0.0, fix.degrees))
    });
    let mend = move |_| {
        desk.act(|editor| editor.fix(finding));
    };
    view! {
        {move || fix.get().map(|word| view! {
            <button type="button" class="button fix" on:click=mend>{icon(Icon::Check)} <span>{word}</span></button>
        })}
    }
}

/// Offers to make the cut line wider where it is too thin.
#[component]
fn Thicken(id: StickerId) -> impl IntoView {
    let desk = use_desk();
    let name = desk.peek(|editor| editor.layout().sticker(&id).map(|sticker| sticker.name.clone()));
    let label = words::thicken_of(&name.unwrap_or_default());
    view! {
        <button type="button" class="button fix" aria-label=label on:click=move |_| thicken(desk, &id)>
            {icon(Icon::Grow)} <span>{words::thicken_here()}</span>
        </button>
    }
}

/// A push as one reads it: one too small to write is a little less than the least that can be written.
fn short(unit: LengthUnit, mm: f64) -> String {
    let least = match unit {
        LengthUnit::Millimetres => 0.01,
        LengthUnit::Inches => 0.001 * MM_PER_INCH,
        LengthUnit::InchFractions => MM_PER_INCH / 64.0,
    };
    if mm < least { words::less_than(&words::length(unit, least)) } else { words::length(unit, mm) }
}

/// Chooses the pieces of a finding and brings its spot into view. Where the panel is a drawer it makes way for it.
fn show(desk: Desk, spot: &Spot) {
    if panels_are_a_drawer() {
        desk.panel.set(None);
    }
    desk.act(|editor| {
        look_at(editor, spot);
        editor.select(spot.pieces.clone());
    });
}

/// Looks at the one or two pieces about a spot; what is about more of them is looked at with the whole sheet.
fn look_at(editor: &mut Editor, spot: &Spot) {
    let (Some(mark), 1..=2) = (spot.mark, spot.pieces.len()) else {
        editor.fit();
        return;
    };
    let middle = mark.middle();
    let reach = spot
        .pieces
        .iter()
        .filter_map(|&piece| editor.lines().get(piece))
        .map(|line| {
            let bounds = line.bounds();
            let across = (middle.x - bounds.x0).max(bounds.x1 - middle.x);
            across.max(middle.y - bounds.y0).max(bounds.y1 - middle.y)
        })
        .fold(0.0, f64::max);
    editor.look_at(middle, SEEN_MM.max(2.0 * reach * ROOM));
}
