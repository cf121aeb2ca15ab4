//! What the artist settled once for all visits: the language, the unit and what the hand
//! does. Kept on the device, for this browser.

use leptos::prelude::window;
use stickleaf_editor::{Habits, Step};
use stickleaf_sheet::LengthUnit;

use crate::browser::keep::{keep, kept};
use crate::words::language::Language;

const LANGUAGE: &str = "stickleaf.language";
const UNIT: &str = "stickleaf.unit";
const STEP: &str = "stickleaf.step";
const SLIDE: &str = "stickleaf.slide";
const FINGERS: &str = "stickleaf.fingers";
const PEN_OFFER: &str = "stickleaf.pen-offer";

/// The language that was chosen, else the first of the browser's that the page speaks, else English.
pub fn language() -> Language {
    let wished = || {
        let languages = window().navigator().languages();
        languages.iter().filter_map(|tag| tag.as_string()).find_map(|tag| Language::from_tag(&tag))
    };
    kept(LANGUAGE).as_deref().and_then(Language::from_tag).or_else(wished).unwrap_or(Language::English)
}

/// Keeps the choice of a language; false if the browser keeps nothing.
pub fn keep_language(language: Language) -> bool {
    keep(LANGUAGE, language.tag())
}

/// The unit that was chosen, else millimetres.
pub fn unit() -> LengthUnit {
    let name = kept(UNIT);
    let is_kept = |unit: &LengthUnit| name.as_deref() == Some(unit_name(*unit));
    [LengthUnit::Inches, LengthUnit::InchFractions].into_iter().find(is_kept).unwrap_or_default()
}

/// Keeps the choice of a unit; without storage it holds for this visit.
pub fn keep_unit(unit: LengthUnit) {
    keep(UNIT, unit_name(unit));
}

/// What the hand was to do; else middle steps, carried pieces that slide along others, and fingers that move pieces.
pub fn habits() -> Habits {
    let step = kept(STEP).and_then(|name| Step::ALL.into_iter().find(|step| step_name(*step) == name));
    Habits {
        step: step.unwrap_or_default(),
        stick: kept(SLIDE).is_none_or(|word| word != "no"),
        fingers_only_look: kept(FINGERS).is_some_and(|word| word == "look"),
    }
}

/// Keeps what the hand is to do; without storage it holds for this visit.
pub fn keep_habits(habits: Habits) {
    keep(STEP, step_name(habits.step));
    keep(SLIDE, if habits.stick { "yes" } else { "no" });
    keep(FINGERS, if habits.fingers_only_look { "look" } else { "move" });
}

/// Whether it was answered already that only the pen may move pieces.
pub fn pen_offer_is_answered() -> bool {
    kept(PEN_OFFER).is_some()
}

/// Keeps that it was answered; without storage it is asked again in the next visit.
pub fn keep_pen_offer_answered() {
    keep(PEN_OFFER, "answered");
}

fn step_name(step: Step) -> &'static str {
    match step {
        Step::Small => "small",
        Step::Middle => "middle",
        Step::Large => "large",
    }
}

fn unit_name(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Millimetres => "mm",
        LengthUnit::Inches => "in",
        LengthUnit::InchFractions => "in fractions",
    }
}
