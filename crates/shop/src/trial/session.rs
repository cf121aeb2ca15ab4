//! A search for a setting, card after card: what scale was asked for, what was put on each card, and how it came out.

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use crate::trial::advice::{Advice, advice};
use crate::trial::belief::{CutOutcome, Trial};
use crate::trial::card::{Card, CardOptions};
use crate::trial::log::LogEntry;
use crate::trial::scale::{Scale, ScaleError};

/// How many settings the second and later cards hold at most.
const NEXT: usize = 3;

/// What settings are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ScaleKind {
    /// Numbers that rise; a force, say.
    #[default]
    Numbers,
    /// How often a line is gone over.
    Passes,
    /// The machine's own names.
    Names,
}

/// The scale that was asked for, as it was typed. Not all of it counts for each kind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct AskedScale {
    /// What settings are.
    pub kind: ScaleKind,
    /// The lightest number.
    pub from: f64,
    /// The strongest number.
    pub to: f64,
    /// From one number to the next.
    pub step: f64,
    /// The fewest passes.
    pub least_passes: u32,
    /// The most passes.
    pub most_passes: u32,
    /// The names, the lightest first.
    pub names: Vec<String>,
    /// Fields of other versions.
    #[serde(flatten)]
    pub more: Map<String, Value>,
}

impl Default for AskedScale {
    fn default() -> AskedScale {
        AskedScale {
            kind: ScaleKind::Numbers,
            from: 1.0,
            to: 10.0,
            step: 1.0,
            least_passes: 1,
            most_passes: 6,
            names: Vec::new(),
            more: Map::new(),
        }
    }
}

impl AskedScale {
    /// The scale.
    ///
    /// Errors: what was asked for makes none; see [`ScaleError`].
    pub fn scale(&self) -> Result<Scale, ScaleError> {
        match self.kind {
            ScaleKind::Numbers => Scale::stepped(self.from, self.to, self.step),
            ScaleKind::Passes => Scale::passes(self.least_passes, self.most_passes),
            ScaleKind::Names => Scale::named(self.names.clone()),
        }
    }
}

/// One cut on a card.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cut {
    /// The setting's position on the scale.
    pub setting: usize,
    /// How it came out; nothing until that is known.
    pub outcome: Option<CutOutcome>,
    /// The blade log has it; it is not changed any more.
    #[serde(default)]
    pub is_logged: bool,
}

/// A search, from its first card on.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Session {
    /// The scale that was asked for.
    pub asked: AskedScale,
    /// The cards, the first one first, each with its cuts from the lightest on; never none once it was begun.
    pub cards: Vec<Vec<Cut>>,
    /// Fields of other versions.
    #[serde(flatten)]
    pub more: Map<String, Value>,
}

impl Session {
    /// A search on this scale; its first card holds every setting.
    ///
    /// Errors: what was asked for makes no scale.
    pub fn begin(asked: AskedScale) -> Result<Session, ScaleError> {
        let all = card_of((0..asked.scale()?.count()).collect());
        Ok(Session { asked, cards: vec![all], more: Map::new() })
    }

    /// The trials whose outcomes are known, card by card.
    pub fn trials(&self) -> Vec<Trial> {
        let known = |cut: &Cut| cut.outcome.map(|outcome| Trial { setting: cut.setting, outcome });
        self.cards.iter().flatten().filter_map(known).collect()
    }

    /// What the outcomes say.
    ///
    /// Errors: the scale makes no sense, which happens with what another version kept.
    pub fn advice(&self) -> Result<Advice, ScaleError> {
        Ok(advice(self.asked.scale()?.count(), &self.trials(), NEXT))
    }

    /// The card of this number, from 0, as it is cut.
    ///
    /// Errors: the scale makes no sense.
    pub fn card(&self, number: usize, options: &CardOptions) -> Result<Card, ScaleError> {
        let cuts = self.cards.get(number).map_or(&[][..], |cuts| cuts);
        let settings: Vec<usize> = cuts.iter().map(|cut| cut.setting).collect();
        Ok(Card::new(&self.asked.scale()?, &settings, options))
    }

    /// Notes how a cut came out, or with `None` that it is not known. What the log has stays as it is.
    pub fn note(&mut self, card: usize, place: usize, outcome: Option<CutOutcome>) {
        let cut = self.cards.get_mut(card).and_then(|cuts| cuts.get_mut(place));
        if let Some(cut) = cut.filter(|cut| !cut.is_logged) {
            cut.outcome = outcome;
        }
    }

    /// The settings of a next card, the lightest first; none before an outcome is known or when all is settled.
    pub fn next(&self) -> Vec<usize> {
        if self.trials().is_empty() {
            return Vec::new();
        }
        let mut next = self.advice().map(|advice| advice.next).unwrap_or_default();
        next.sort_unstable();
        next
    }

    /// Begins the next card, if there is one.
    pub fn go_on(&mut self) {
        let next = self.next();
        if !next.is_empty() {
            self.cards.push(card_of(next));
        }
    }

    /// How many outcomes the log does not have yet. Passes alone say nothing of the setting they were cut with, so they
    /// are not for the log.
    pub fn unlogged(&self) -> usize {
        let is_new = |cut: &&Cut| cut.outcome.is_some() && !cut.is_logged;
        if self.asked.kind == ScaleKind::Passes {
            0
        } else {
            self.cards.iter().flatten().filter(is_new).count()
        }
    }

    /// What the log does not have yet, as entries like `of`, which names the work; from then on the log has it.
    pub fn to_log(&mut self, of: &LogEntry) -> Vec<LogEntry> {
        let Ok(scale) = self.asked.scale() else { return Vec::new() };
        if self.unlogged() == 0 {
            return Vec::new();
        }
        let mut entries = Vec::new();
        for cut in self.cards.iter_mut().flatten().filter(|cut| !cut.is_logged) {
            if let Some(outcome) = cut.outcome {
                cut.is_logged = true;
                entries.push(scale.entry(cut.setting, outcome, of));
            }
        }
        entries
    }
}

fn card_of(settings: Vec<usize>) -> Vec<Cut> {
    settings.into_iter().map(|setting| Cut { setting, outcome: None, is_logged: false }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::advice::Verdict;

    fn forces() -> Session {
        Session::begin(AskedScale { from: 2.0, to: 18.0, step: 2.0, ..AskedScale::default() }).unwrap()
    }

    #[test]
    fn a_search_goes_from_card_to_card() {
        let mut session = forces();
        assert_eq!((session.cards.len(), session.cards[0].len()), (1, 9));
        assert!(session.next().is_empty(), "nothing was cut yet");
        // 6 is not through, 14 too deep: 8, 10 and 12 are left.
        session.note(0, 2, Some(CutOutcome::NotThrough));
        session.note(0, 6, Some(CutOutcome::TooDeep));
        assert_eq!(session.next(), [3, 4, 5]);
        session.go_on();
        assert_eq!(session.card(1, &CardOptions::default()).unwrap().cells[1].label, "10");
        session.note(1, 1, Some(CutOutcome::Clean));
        assert_eq!(session.advice().unwrap().likeliest, 4);
        session.note(1, 1, None);
        assert_eq!(session.trials().len(), 2, "an outcome can be taken back");
    }

    #[test]
    fn the_log_gets_each_outcome_once_and_keeps_it() {
        let mut session = forces();
        session.note(0, 4, Some(CutOutcome::Clean));
        let of = LogEntry { machine: "Desk".into(), blade_m: 12.0, passes: 2, ..LogEntry::default() };
        let entries = session.to_log(&of);
        assert_eq!(entries, [LogEntry { setting: 10.0, outcome: CutOutcome::Clean, ..of.clone() }]);
        assert!(session.to_log(&of).is_empty());
        session.note(0, 4, Some(CutOutcome::TooDeep));
        assert_eq!(session.trials()[0].outcome, CutOutcome::Clean);
    }

    #[test]
    fn names_are_logged_by_their_place_and_passes_not_at_all() {
        let names = ["Soft", "Plain"].map(str::to_owned).to_vec();
        let asked = AskedScale { kind: ScaleKind::Names, names, ..AskedScale::default() };
        let mut session = Session::begin(asked).unwrap();
        session.note(0, 1, Some(CutOutcome::Clean));
        let entry = session.to_log(&LogEntry::default()).remove(0);
        assert_eq!((entry.setting, entry.setting_name.as_str()), (2.0, "Plain"));
        let mut passes =
            Session::begin(AskedScale { kind: ScaleKind::Passes, ..AskedScale::default() }).unwrap();
        passes.note(0, 3, Some(CutOutcome::Clean));
        assert!(passes.unlogged() == 0 && passes.to_log(&LogEntry::default()).is_empty());
    }

    #[test]
    fn what_was_kept_comes_back_and_what_makes_no_sense_is_no_panic() {
        let mut session = forces();
        session.note(0, 4, Some(CutOutcome::Clean));
        let text = serde_json::to_string(&session).unwrap();
        assert_eq!(serde_json::from_str::<Session>(&text).unwrap(), session);
        session.asked.to = -1.0;
        session.go_on();
        assert!(session.advice().is_err() && session.card(0, &CardOptions::default()).is_err());
        session.asked.to = 4.0;
        assert!(
            matches!(session.advice().unwrap().verdict, Verdict::Open { .. }),
            "a setting beyond the scale"
        );
    }
}
