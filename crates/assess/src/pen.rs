//! A pen: sentences and numbers in one language, for the sheets and papers that are made of an outcome.

use crate::said::Shown;
use crate::say::{joined, show_number, signed};
use crate::unit::Unit;
use quantity::{Digits, Locale};
use words::{Language, Message, WordsError, say_best};

/// Writes in one language.
#[derive(Clone, Copy)]
pub struct Pen {
    language: Language,
    locale: &'static Locale,
}

impl Pen {
    /// One that writes in a language.
    pub fn of(language: Language) -> Self {
        Self {
            language,
            locale: language.locale(),
        }
    }

    /// Its numbers' form.
    pub fn locale(self) -> &'static Locale {
        self.locale
    }

    /// Its language.
    pub fn language(self) -> Language {
        self.language
    }

    /// A sentence; in English where the language lacks it.
    ///
    /// # Errors
    /// [`WordsError`] for a sentence that is missing: a fault of ours.
    pub fn text(self, message: &Message) -> Result<String, WordsError> {
        Ok(say_best(message, self.language)?.text)
    }

    /// A sentence without arguments.
    ///
    /// # Errors
    /// As [`Pen::text`].
    pub fn word(self, code: &'static str) -> Result<String, WordsError> {
        self.text(&Message::new(code))
    }

    /// A number with its unit, apart.
    pub fn shown(self, number: f64, unit: Unit) -> Shown {
        show_number(number, unit, self.locale)
    }

    /// A number with its unit, together.
    pub fn joined(self, number: f64, unit: Unit) -> String {
        joined(&self.shown(number, unit))
    }

    /// A number in hand, with its sign.
    pub fn signed(self, number: f64, unit: Unit) -> Shown {
        signed(number, unit, self.locale)
    }

    /// A number without a unit.
    pub fn plain(self, number: f64, places: u8) -> String {
        self.locale.number(number, Digits::Decimals(places))
    }
}
