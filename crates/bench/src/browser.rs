//! `browser`: the packer in the real page, in one worker: its pace beside the native library's, and strip instances.

mod pace;
mod page;
mod strips;

use crate::options::BrowserCommand;
use crate::trouble::Trouble;
use crate::{Outcome, output};
use page::Page;

/// Measures what was asked for and prints the tables.
pub fn run(typed: &BrowserCommand) -> Result<Outcome, Trouble> {
    let cases = strips::asked(typed)?;
    let mut page = Page::open()?;
    let (mut text, mut is_sound) = (String::new(), true);
    if typed.runs > 0 {
        let paces = pace::measure(&mut page, typed.seed, typed.runs)?;
        is_sound &= paces.iter().all(|pace| pace.is_same);
        text.push_str(&pace::report(&paces, typed));
        output::keep(&typed.output.table, &text)?;
    }
    let mut strips = Vec::new();
    for case in &cases {
        strips.push(strips::measure(&mut page, case, typed)?);
        let so_far = format!("{text}{}", strips::report(&cases, &strips, typed));
        output::keep(&typed.output.table, &so_far)?;
    }
    if !strips.is_empty() {
        is_sound &= strips.iter().all(strips::Shortened::is_sound);
        text.push_str(&strips::report(&cases, &strips, typed));
    }
    output::finish(&typed.output.table, &text)?;
    Ok(if is_sound { Outcome::Sound } else { Outcome::Lacking })
}
