//! Which language the page speaks.
//!
//! It is settled once, before anything is said: what the artist chose, else what the browser prefers. A change loads
//! the page again, which costs nothing since every change is on the device.

use std::cell::Cell;

/// A language that the page speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Language {
    /// English.
    English,
    /// German.
    German,
}

impl Language {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// Its tag after BCP 47, for the page's `lang`, for numbers, and for keeping the choice.
    pub fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// Its name in itself, so that those who speak it find it.
    pub fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::German => "Deutsch",
        }
    }

    /// The language of a tag, whatever region it names; none if the page does not speak it.
    pub fn from_tag(tag: &str) -> Option<Self> {
        let primary = tag.split('-').next().unwrap_or(tag);
        Self::ALL.into_iter().find(|language| language.tag().eq_ignore_ascii_case(primary))
    }
}

thread_local! {
    static SPOKEN: Cell<Language> = const { Cell::new(Language::English) };
}

/// The language spoken now.
pub fn spoken() -> Language {
    SPOKEN.get()
}

/// From now on the page speaks this language. What was said before stays as it was.
pub fn speak(language: Language) {
    SPOKEN.set(language);
}

/// The phrase in the language spoken.
pub fn pick(english: &'static str, german: &'static str) -> &'static str {
    match spoken() {
        Language::English => english,
        Language::German => german,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_lead_to_languages_whatever_their_region() {
        assert_eq!(Language::from_tag("de-AT"), Some(Language::German));
        assert_eq!(Language::from_tag("EN"), Some(Language::English));
        assert_eq!(Language::from_tag("fr-CH"), None);
        assert_eq!(Language::from_tag(""), None);
    }

    #[test]
    fn phrases_follow_the_language() {
        speak(Language::German);
        assert_eq!(pick("sheet", "Bogen"), "Bogen");
        speak(Language::English);
        assert_eq!(pick("sheet", "Bogen"), "sheet");
    }
}
