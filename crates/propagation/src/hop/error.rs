//! Why a hop could not be computed.

use crate::out_of_range::OutOfRange;
use crate::p530::MultipathError;

/// A hop was refused.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HopError {
    /// Fewer than three points, or lists of unequal length.
    #[error("a profile needs at least three points, and as many heights as distances")]
    TooFewPoints,
    /// Distances must start at 0 and rise strictly.
    #[error("distance {index} of the profile is {distance_km} km; distances start at 0 and rise strictly")]
    DistancesNotRising {
        /// Position in the list, from 0.
        index: usize,
        /// The offending distance, km.
        distance_km: f64,
    },
    /// A height that is not a number.
    #[error("height {index} of the profile is not finite")]
    HeightNotFinite {
        /// Position in the list, from 0.
        index: usize,
    },
    /// An input that must be positive or finite is not.
    #[error("`{quantity}` is {value}; expected {expected}")]
    BadValue {
        /// Name of the argument, unit included.
        quantity: &'static str,
        /// What was given.
        value: f64,
        /// What is accepted.
        expected: &'static str,
    },
    /// Rain left out at 5 GHz or more.
    #[error("at {freq_ghz} GHz rain cannot be left out: give the rain rate exceeded 0.01 % of the year")]
    RainMissing {
        /// Frequency, GHz.
        freq_ghz: f64,
    },
    /// Outside a method.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Fading could not be estimated.
    #[error(transparent)]
    Multipath(#[from] MultipathError),
}

/// Refuses a value that is not finite and above zero.
pub(super) fn positive(quantity: &'static str, value: f64) -> Result<(), HopError> {
    if value > 0.0 && value.is_finite() {
        return Ok(());
    }
    Err(HopError::BadValue {
        quantity,
        value,
        expected: "a number above 0",
    })
}

/// Refuses a value that is not finite.
pub(super) fn finite(quantity: &'static str, value: f64) -> Result<(), HopError> {
    if value.is_finite() {
        return Ok(());
    }
    Err(HopError::BadValue {
        quantity,
        value,
        expected: "a finite number",
    })
}
