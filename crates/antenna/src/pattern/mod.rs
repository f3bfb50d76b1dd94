//! Patterns: gain in dBd by plane towards any bearing and elevation, sampled once and asked often; and their files.

pub mod cuts;
pub mod nsma;
pub mod sampled;
pub mod table;

pub use cuts::{Cut, Null, Peak};
pub use nsma::{FileCut, PatternFile};
pub use sampled::Pattern;

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
    #[error("line {line}: `{text}`: expected {wanted}")]
    Line {
        /// Line number, from 1.
        line: usize,
        /// What stood there.
        text: String,
        /// What would have been accepted.
        wanted: &'static str,
    },
    /// The text ends before all points are there.
    #[error("line {line}: {wanted} points announced, the text ends after {found}")]
    Short {
        /// Line of the announcement.
        line: usize,
        /// Points announced.
        wanted: usize,
        /// Points found.
        found: usize,
    },
    /// Something that must be there is not.
    #[error("missing: {what}")]
    Missing {
        /// What.
        what: &'static str,
    },
    /// A CSV grid that is not full or not even.
    #[error(
        "{rows} rows for {bearings} bearings and {elevs} elevations: give a full grid of equal steps, bearings from 0 to below 360, elevations from -90 to 90"
    )]
    Grid {
        /// Different bearings found.
        bearings: usize,
        /// Different elevations found.
        elevs: usize,
        /// Rows found.
        rows: usize,
    },
    /// Not CSV at all.
    #[error("not a CSV table: {why}")]
    Csv {
        /// The reader's own words.
        why: String,
    },
}
