//! Reads out what became of the chosen piece or zone, for those who do not see it.

use leptos::prelude::*;

use crate::state::use_desk;
use crate::words;

/// A quiet status line: which piece is chosen, where it lies, and which rules it breaks; or which zone, where, how large. Spoken when another piece is
/// chosen and when a change is finished, not while a piece is carried.
#[component]
pub fn ToldPiece() -> impl IntoView {
    let desk = use_desk();
    let chosen = Memo::new(move |_| desk.read_at_rest(|editor| editor.selection().to_vec()));
    let zone = Memo::new(move |_| desk.read_at_rest(|editor| editor.chosen_zone()));
    let told = Memo::new(move |_| {
        desk.finished.track();
        let unit = desk.unit.get();
        let pieces = chosen.get();
        desk.peek(|editor| {
            if let Some(zone) = zone.get().and_then(|zone| editor.layout().zones().get(zone)) {
                return words::zone_told(zone, unit);
            }
            let &[index] = &pieces[..] else {
                return if pieces.is_empty() { String::new() } else { words::chosen(pieces.len()) };
            };
            let layout = editor.layout();
            let Some(piece) = layout.pieces.get(index) else { return String::new() };
            let at = piece.placement.at;
            let (x, y) = (words::number(unit, at.x), words::length(unit, at.y));
            let place = words::piece_place(&x, &y, piece.placement.turn.to_signed_degrees());
            let broken: Vec<String> = editor
                .findings()
                .iter()
                .filter(|finding| finding.is_broken() && finding.pieces.contains(&index))
                .map(|finding| words::finding(finding, layout, unit))
                .collect();
            words::piece_told(&words::piece_name(layout, index), &place, piece.locked, &broken)
        })
    });
    view! { <p class="word-hidden" role="status" aria-label=words::chosen_piece()>{move || told.get()}</p> }
}
