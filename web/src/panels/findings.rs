//! What breaks a rule, and what is worth a look.

use std::collections::BTreeMap;

use leptos::prelude::*;
use stickleaf_editor::{Editor, FIX_REACH, MendedAll, NoFix};
use stickleaf_sheet::{Finding, LengthUnit, MM_PER_INCH, Mark, Rule, StickerId};

use crate::browser::time;
use crate::canvas::{Flash, focus_sheet};
use crate::finishing::thicken;
use crate::icons::{Icon, icon};
use crate::panels::drawer::panels_are_a_drawer;
use crate::panels::pieces::Pieces;
use crate::panels::room::EmptyRoom;
use crate::state::{Desk, Offer, use_desk};
use crate::words;

/// How many broken rules get an offer to mend them: working one out takes a moment.
const OFFERS: usize = 6;

/// How long after a change, and after one another, the offers are worked out, in milliseconds.
const OFFER_AFTER_MS: u32 = 30;

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
    /// The how many-th broken rule it is, and which finding of the editor, if an offer to mend it is worked out.
    finding: Option<(u32, usize)>,
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

/// The findings, the hard ones first, warnings grouped by their rule. While a piece is carried they are those of where it
/// last rested: the sheet itself shows its distances at every step.
#[component]
pub fn Findings() -> impl IntoView {
    let desk = use_desk();
    let lines = Memo::new(move |_| {
        let unit = desk.unit.get();
        desk.read_at_rest(|editor| {
            let sentence =
                |finding: &Finding| words::sentence(&words::finding(finding, editor.layout(), unit));
            let findings = editor.findings();
            let broken = findings.iter().enumerate().filter(|(_, finding)| finding.is_broken());
            let hard = broken.enumerate().map(|(nth, (index, finding))| Line {
                text: sentence(finding),
                spot: Spot::of(finding),
                is_broken: true,
                finding: (nth < OFFERS).then_some((nth as u32, index)),
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
    let why_at_most =
        Memo::new(move |_| desk.read_at_rest(|editor| words::why_at_most(editor.score().ceiling)));
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
            <Show when=move || !holds.get()><MendAll /></Show>
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
            {finding.map(|(nth, finding)| view! { <Mend finding nth /> })}
            {thin.map(|id| view! { <Thicken id /> })}
        </li>
    }
}

/// Offers the smallest change that mends a broken rule, or says why there is none.
#[component]
fn Mend(finding: usize, nth: u32) -> impl IntoView {
    let desk = use_desk();
    let offer = RwSignal::new(None);
    // While a piece is carried the offers would change with every step; they are worked out when it lies, one after the
    // other, so that the page can answer in between.
    Effect::new(move |_| {
        desk.finished.track();
        let unit = desk.unit.get();
        offer.set(None);
        let asked = desk.finished.get_untracked();
        time::after(OFFER_AFTER_MS * (nth + 1), move || {
            if desk.finished.try_get_untracked() == Some(asked) {
                let _ = offer.try_set(desk.peek(|editor| offered(editor, finding, unit)));
            }
        });
    });
    let mend = move |_| {
        // What is offered may have become impossible; then the next offer says so.
        desk.act(|editor| {
            let _ = editor.fix(finding);
        });
    };
    view! {
        {move || offer.get().map(|offer| match offer {
            Ok(word) => view! {
                <button type="button" class="button fix" on:click=mend>{icon(Icon::Check)} <span>{word}</span></button>
            }.into_any(),
            Err(why) => view! { <p class="hint no-fix">{why}</p> }.into_any(),
        })}
    }
}

/// What mends a finding, in words, or why nothing does; nothing while the hand is at work.
fn offered(editor: &Editor, finding: usize, unit: LengthUnit) -> Option<Result<String, String>> {
    if editor.is_busy() || editor.is_previewing() {
        return None;
    }
    match editor.proposed_fix(finding) {
        Ok(fix) => {
            let name = words::piece_name(editor.layout(), fix.piece);
            let is_moved = fix.distance > 0.0;
            Some(Ok(words::mend(&name, &short(unit, fix.distance), is_moved, fix.degrees)))
        }
        Err(NoFix::NoRoom) => Some(Err(words::no_fix_near(&words::length(unit, FIX_REACH)))),
        Err(NoFix::Locked) => Some(Err(words::no_fix_locked().to_owned())),
        Err(NoFix::NotByMoving) => None,
    }
}

/// Mends all that moving mends, one piece after the other.
#[component]
fn MendAll() -> impl IntoView {
    let desk = use_desk();
    let mend = move |_| {
        let MendedAll { moved, left } = desk.act(Editor::fix_all);
        if left == 0 {
            desk.say(words::mended_all(moved), Some(Offer::Undo));
        } else {
            desk.say_attention(words::mended_some(moved, left), Some(Offer::PlaceThese));
        }
    };
    view! {
        <button type="button" class="button fix-all" on:click=mend>
            {icon(Icon::Check)} <span>{words::fix_all()}</span>
        </button>
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

/// Chooses the pieces of a finding, brings its spot into view and lets them light up. Where the panel is a drawer it makes
/// way for it, and the keys that follow are the sheet's.
fn show(desk: Desk, spot: &Spot) {
    if panels_are_a_drawer() {
        desk.panel.set(None);
        focus_sheet();
    }
    desk.act(|editor| {
        look_at(editor, spot);
        editor.select(spot.pieces.clone());
    });
    desk.flash.set(Some(Flash { pieces: spot.pieces.clone(), since_ms: time::now_ms() }));
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
