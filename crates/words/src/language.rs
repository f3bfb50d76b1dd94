//! The languages there are message files for.

use quantity::Locale;
use serde::{Deserialize, Serialize};

/// A language that sentences can be said in.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    Default,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
pub enum Language {
    /// English: every message exists in it.
    #[default]
    #[serde(rename = "en")]
    English,
    /// French: the same messages.
    #[serde(rename = "fr")]
    French,
}

impl Language {
    /// All languages, English first.
    pub const ALL: &'static [Language] = &[Language::English, Language::French];

    /// The tag of BCP 47: `en`.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::French => "fr",
        }
    }

    /// The language of a tag such as `fr` or `fr-CA`.
    pub fn from_tag(tag: &str) -> Option<Language> {
        let primary = tag
            .split(['-', '_'])
            .next()
            .unwrap_or_default()
            .to_ascii_lowercase();
        Language::ALL.iter().copied().find(|l| l.tag() == primary)
    }

    /// How numbers are written in it.
    pub fn locale(self) -> &'static Locale {
        match self {
            Language::English => &Locale::ENGLISH,
            Language::French => &Locale::FRENCH,
        }
    }
}
