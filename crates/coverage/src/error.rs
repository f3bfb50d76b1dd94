//! Why a coverage could not be computed.

use propagation::out_of_range::OutOfRange;
use propagation::p1812::{InputError, ProfileError};
use terrain::ground::GroundError;
use thiserror::Error;

/// Why a coverage could not be computed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CoverageError {
    /// Stopped on request.
    #[error("cancelled")]
    Cancelled,
    /// A number of the study that makes none.
    #[error("{what} `{value}`: expected {expected}")]
    Study {
        /// Which number.
        what: &'static str,
        /// The value given.
        value: f64,
        /// What was expected.
        expected: &'static str,
    },
    /// The ground gives no answer.
    #[error(transparent)]
    Ground(#[from] GroundError),
    /// A condition outside P.1812's range.
    #[error(transparent)]
    Input(#[from] InputError),
    /// A profile P.1812 does not take.
    #[error(transparent)]
    Profile(#[from] ProfileError),
    /// A condition that the Irregular Terrain Model refuses.
    #[error("irregular terrain model: {0}")]
    Itm(#[from] propagation::itm::Refused),
    /// A profile that the Irregular Terrain Model does not take.
    #[error("irregular terrain model: {0}")]
    ItmProfile(#[from] propagation::itm::ProfileError),
    /// A frequency or height outside a method for receiving situations.
    #[error(transparent)]
    Situation(#[from] OutOfRange),
    /// The land-cover table has too many different rows.
    #[error(
        "the land-cover table has more than {} different kinds of surroundings: merge classes",
        crate::cover_row::MAX_ROWS
    )]
    TooManyRows,
    /// The field was predicted at one true height and another was asked for.
    #[error(
        "the field was predicted at the true height of {predicted_m} m, and {wanted_m} m is wanted: compute it at that height, or by cover"
    )]
    OtherHeight {
        /// Height of the prediction, m.
        predicted_m: f64,
        /// Height asked for, m.
        wanted_m: f64,
    },
    /// Studies that cannot be computed together.
    #[error(
        "studies computed together differ in {what}: only frequency, polarisation, time percentage and N0 may differ"
    )]
    NotTogether {
        /// In what they differ.
        what: &'static str,
    },
    /// A study that a survey does not answer.
    #[error("the survey of the ground has another {what}: survey the ground again, or compute without one")]
    OtherSurvey {
        /// What differs.
        what: &'static str,
    },
    /// Ground that would take too much memory to be kept.
    #[error(
        "a survey of this ground takes {} MB, more than {} MB: a larger step, a smaller radius, or compute without one",
        bytes / 1_000_000,
        most / 1_000_000
    )]
    SurveyTooLarge {
        /// Memory it would take, bytes.
        bytes: usize,
        /// Most it may take, bytes.
        most: usize,
    },
    /// Two fields whose receivers do not stand at the same points.
    #[error("the two fields have different receivers: compute both with one site, radius, step and azimuths")]
    OtherLattice,
    /// The place lies at the site itself, so no path leads to it.
    #[error("the place lies at the site itself ({distance_m:.1} m away): no path leads there")]
    AtTheSite {
        /// Distance, m.
        distance_m: f64,
    },
    /// No tile under the site or on the way.
    #[error(
        "ground is missing from {from_km:.2} km of the path: add the tile, or treat missing ground as sea"
    )]
    MissingGround {
        /// Where it starts, km from the site.
        from_km: f64,
    },
    /// A table of the crate or a user that cannot be read.
    #[error("{table}, line {line}: {expected}")]
    Table {
        /// Which table.
        table: &'static str,
        /// Line, the header being line 1.
        line: u64,
        /// What was expected there.
        expected: String,
    },
    /// An outline could not be drawn.
    #[error("contour of {level_db} dB: {reason}")]
    Contour {
        /// Level of the contour, dB or dBµV/m.
        level_db: f64,
        /// What the library says.
        reason: String,
    },
}
