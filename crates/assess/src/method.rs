//! Methods: formula in words, clause, validity, and the test that witnesses it.

use serde::Serialize;
use station::Mark;
use words::Message;

/// How a figure is found. What it says is a message with three attributes: `method-line-loss` for `LINE_LOSS`.
#[derive(Debug, PartialEq, Serialize)]
pub struct Method {
    /// Stable id.
    pub id: &'static str,
    /// How good the method is.
    pub mark: Mark,
}

impl Method {
    /// The formula, set as one would write it.
    pub fn formula(&self) -> Message {
        Message::new(self.code())
    }

    /// Where it stands: standard and clause, or `common practice, no source`.
    pub fn clause(&self) -> Message {
        self.part("clause")
    }

    /// Where it holds.
    pub fn validity(&self) -> Message {
        self.part("validity")
    }

    /// The test that witnesses it.
    pub fn witness(&self) -> Message {
        self.part("witness")
    }

    fn code(&self) -> String {
        format!("method-{}", self.id.to_ascii_lowercase().replace('_', "-"))
    }

    fn part(&self, name: &str) -> Message {
        Message::new(format!("{}.{name}", self.code()))
    }
}
