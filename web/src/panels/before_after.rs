//! Two lines on each other: how one was, faint, and how it becomes, bold.

use kurbo::{Point, Rect};
use leptos::prelude::*;
use stickleaf_outline::{Outline, path};

/// How much room is left round the lines, as a part of their longer side.
const ROOM: f64 = 0.06;

/// A picture of lines in the same coordinates; either may be missing. Readers are told the same in words beside it.
pub fn before_after(before: Option<&Outline>, after: Option<&Outline>) -> impl IntoView + use<> {
    let bounds: Option<Rect> =
        before.into_iter().chain(after).map(Outline::bounds).reduce(|all, one| all.union(one));
    bounds.map(|bounds| {
        let side = bounds.width().max(bounds.height()) * (1.0 + 2.0 * ROOM);
        let Point { x, y } = bounds.center();
        let (width, height) = (bounds.width() + side * ROOM, bounds.height() + side * ROOM);
        let view_box = format!("{:.3} {:.3} {width:.3} {height:.3}", x - width / 2.0, y - height / 2.0);
        let before = before.map(|line| path::write(line.points()));
        let after = after.map(|line| path::write(line.points()));
        view! {
            <svg class="before-after" viewBox=view_box aria-hidden="true">
                {after.map(|data| view! { <path class="after" d=data></path> })}
                {before.map(|data| view! { <path class="before" d=data></path> })}
            </svg>
        }
    })
}
