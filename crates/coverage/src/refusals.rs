//! How the refusals of this crate are told: a message by code with typed arguments each, said by `words`.

use words::{Message, said_in_english};

use crate::cover_row::MAX_ROWS;
use crate::error::CoverageError;
use quantity::Digits;

said_in_english!(CoverageError);

impl From<&CoverageError> for Message {
    fn from(error: &CoverageError) -> Self {
        match error {
            CoverageError::Cancelled => Message::new("coverage-cancelled"),
            CoverageError::Study { what, value } => Message::new("coverage-study")
                .tag("what", *what)
                .given("value", *value),
            CoverageError::Ground(error) => error.into(),
            CoverageError::Input(error) => error.into(),
            CoverageError::Profile(error) => error.into(),
            CoverageError::Itm(error) => Message::new("coverage-itm").message("why", error),
            CoverageError::ItmProfile(error) => Message::new("coverage-itm").message("why", error),
            CoverageError::Situation(error) => error.into(),
            CoverageError::TooManyRows => {
                Message::new("coverage-too-many-rows").count("most", MAX_ROWS as i64)
            }
            CoverageError::OtherHeight {
                predicted_m,
                wanted_m,
            } => Message::new("coverage-other-height")
                .given_in("predicted", *predicted_m, "m")
                .given_in("wanted", *wanted_m, "m"),
            CoverageError::NotTogether { what } => Message::new("coverage-not-together").tag("what", *what),
            CoverageError::OtherSurvey { what } => Message::new("coverage-other-survey").tag("what", *what),
            CoverageError::SurveyTooLarge { bytes, most } => Message::new("coverage-survey-too-large")
                .count("megabytes", (bytes / 1_000_000) as i64)
                .count("most", (most / 1_000_000) as i64),
            CoverageError::OtherLattice => Message::new("coverage-other-lattice"),
            CoverageError::AtTheSite { distance_m } => {
                Message::new("coverage-at-the-site").amount("distance", *distance_m, Digits::Decimals(1), "m")
            }
            CoverageError::MissingGround { from_km } => {
                Message::new("coverage-missing-ground").amount("from", *from_km, Digits::Decimals(2), "km")
            }
            CoverageError::Table {
                table,
                line,
                expected,
            } => Message::new("coverage-table")
                .tag("table", *table)
                .text("line", line.to_string())
                .message("expected", expected.clone()),
            CoverageError::Contour { level_db, reason } => Message::new("coverage-contour")
                .given_in("level", *level_db, "dB")
                .message("why", reason.clone()),
        }
    }
}
