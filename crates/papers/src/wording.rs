//! Words of the papers, from the message files.

use crate::paper::PaperError;
use words::{Language, Message, say_best};

/// Says words of one language.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Wording(Language);

impl Wording {
    /// The language of a sheet.
    pub(crate) fn of(tag: &str) -> Self {
        Self(Language::from_tag(tag).unwrap_or_default())
    }

    /// A message without arguments.
    pub(crate) fn word(self, code: &'static str) -> Result<String, PaperError> {
        self.say(&Message::new(code))
    }

    /// A message.
    pub(crate) fn say(self, message: &Message) -> Result<String, PaperError> {
        Ok(say_best(message, self.0)?.text)
    }
}
