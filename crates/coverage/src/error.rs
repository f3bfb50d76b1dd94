//! Why a coverage could not be computed.

use propagation::out_of_range::OutOfRange;
use propagation::p1812::{InputError, ProfileError};
use terrain::ground::GroundError;
use thiserror::Error;
use words::Message;

/// Why a coverage could not be computed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CoverageError {
    /// Stopped on request.
    Cancelled,
    /// A number of the study that makes none.
    Study {
        /// Tag of the number; what was expected of it stands in its message.
        what: &'static str,
        /// The value given.
        value: f64,
    },
    /// The ground gives no answer.
    Ground(#[from] GroundError),
    /// A condition outside P.1812's range.
    Input(#[from] InputError),
    /// A profile P.1812 does not take.
    Profile(#[from] ProfileError),
    /// A condition that the Irregular Terrain Model refuses.
    Itm(#[from] propagation::itm::Refused),
    /// A profile that the Irregular Terrain Model does not take.
    ItmProfile(#[from] propagation::itm::ProfileError),
    /// A frequency or height outside a method for receiving situations.
    Situation(#[from] OutOfRange),
    /// The land-cover table has too many different rows.
    TooManyRows,
    /// The field was predicted at one true height and another was asked for.
    OtherHeight {
        /// Height of the prediction, m.
        predicted_m: f64,
        /// Height asked for, m.
        wanted_m: f64,
    },
    /// Studies that cannot be computed together.
    NotTogether {
        /// Tag of what they differ in.
        what: &'static str,
    },
    /// A study that a survey does not answer.
    OtherSurvey {
        /// Tag of what differs.
        what: &'static str,
    },
    /// Ground that would take too much memory to be kept.
    SurveyTooLarge {
        /// Memory it would take, bytes.
        bytes: usize,
        /// Most it may take, bytes.
        most: usize,
    },
    /// Two fields whose receivers do not stand at the same points.
    OtherLattice,
    /// The place lies at the site itself, so no path leads to it.
    AtTheSite {
        /// Distance, m.
        distance_m: f64,
    },
    /// No tile under the site or on the way.
    MissingGround {
        /// Where it starts, km from the site.
        from_km: f64,
    },
    /// A table of the crate or a user that cannot be read.
    Table {
        /// Tag of the table.
        table: &'static str,
        /// Line, the header being line 1.
        line: u64,
        /// What was expected there.
        expected: Message,
    },
    /// An outline could not be drawn.
    Contour {
        /// Level of the contour, dB or dBµV/m.
        level_db: f64,
        /// Why.
        reason: Message,
    },
}
