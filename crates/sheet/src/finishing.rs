//! Finishing a sticker's cut line for the blade: what is too thin made wider, and how far the line has moved for it.

use stickleaf_outline::{MovedOut, WideSpot, moved_out};

use crate::rules::Rules;
use crate::sticker::Sticker;

/// The most thin parts of one sticker that are widened at once.
const MOST_SPOTS: usize = 64;

/// The sticker with its cut line made as wide as the rules ask where it is thinnest; nothing if no part is too thin.
///
/// The part that a check names is gone afterwards. Another one may be the thinnest then.
pub fn thickened(sticker: &Sticker, rules: &Rules) -> Option<Sticker> {
    let thin = sticker.thin_part(rules)?;
    let mut wider = sticker.clone();
    wider.wide_spots.push(WideSpot { at: thin.at, width: rules.thinnest });
    Some(wider)
}

/// The sticker with every part widened that is too thin, one after the other; as it is if there is none.
pub fn thickened_all(sticker: &Sticker, rules: &Rules) -> Sticker {
    let mut all = sticker.clone();
    for _ in 0..MOST_SPOTS {
        let Some(wider) = thickened(&all, rules) else { break };
        all = wider;
    }
    all
}

/// How far rounding and widening have moved the cut line from where the border alone would have it; nothing if it is
/// there.
pub fn moved_by_finish(sticker: &Sticker, rules: &Rules) -> Option<MovedOut> {
    moved_out(&sticker.plain_line(rules), &sticker.cut_line(rules))
}
