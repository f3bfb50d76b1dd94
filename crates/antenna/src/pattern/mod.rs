//! Patterns: gain in dBd by plane towards any bearing and elevation, sampled once and asked often; and their files.

pub mod cuts;
pub mod laid;
pub mod nsma;
pub mod sampled;
pub mod table;

pub use cuts::{Cut, Null, Peak};
pub use laid::{CutApart, CutKind, MeasuredPattern, PatternForm};
pub use nsma::{FileCut, PatternFile};
pub use sampled::Pattern;

use words::Message;

/// Lowest gain a pattern returns, dBd: the inside of a null.
pub const FLOOR_DBD: f64 = -100.0;

/// A ratio to a half-wave dipole as dBd, never below [`FLOOR_DBD`].
pub fn dbd(ratio: f64) -> f64 {
    if ratio > 1e-10 {
        10.0 * ratio.log10()
    } else {
        FLOOR_DBD
    }
}

/// What is wrong with a pattern file.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PatternFileError {
    /// A line that cannot be read.
    Line {
        /// Line number, from 1.
        line: usize,
        /// What stood there.
        text: String,
        /// Tag of what would have been accepted.
        wanted: &'static str,
    },
    /// The text ends before all points are there.
    Short {
        /// Line of the announcement.
        line: usize,
        /// Points announced.
        wanted: usize,
        /// Points found.
        found: usize,
    },
    /// Something that must be there is not.
    Missing {
        /// Tag of it.
        what: &'static str,
    },
    /// A column that must be there is not.
    Column {
        /// Its heading.
        name: &'static str,
    },
    /// A CSV grid that is not full or not even.
    Grid {
        /// Different bearings found.
        bearings: usize,
        /// Different elevations found.
        elevs: usize,
        /// Rows found.
        rows: usize,
    },
    /// Not CSV at all.
    Csv {
        /// The reader's own words.
        why: String,
    },
}

words::said_in_english!(PatternFileError);

impl From<&PatternFileError> for Message {
    fn from(error: &PatternFileError) -> Self {
        match error {
            PatternFileError::Line { line, text, wanted } => Message::new("pattern-line")
                .count("line", *line as i64)
                .text("text", text)
                .tag("wanted", *wanted),
            PatternFileError::Short { line, wanted, found } => Message::new("pattern-short")
                .count("line", *line as i64)
                .count("wanted", *wanted as i64)
                .count("found", *found as i64),
            PatternFileError::Missing { what } => Message::new("pattern-missing").tag("what", *what),
            PatternFileError::Column { name } => Message::new("pattern-column").text("name", *name),
            PatternFileError::Grid {
                bearings,
                elevs,
                rows,
            } => Message::new("pattern-grid")
                .count("bearings", *bearings as i64)
                .count("elevations", *elevs as i64)
                .count("rows", *rows as i64),
            PatternFileError::Csv { why } => Message::new("pattern-csv").text("why", why),
        }
    }
}
