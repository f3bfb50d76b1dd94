//! Why a hop could not be computed.

use crate::out_of_range::OutOfRange;
use crate::p530::MultipathError;

/// A hop was refused.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HopError {
    /// Fewer than three points, or lists of unequal length.
    TooFewPoints,
    /// Distances must start at 0 and rise strictly.
    DistancesNotRising {
        /// Position in the list, from 0.
        index: usize,
        /// The offending distance, km.
        distance_km: f64,
    },
    /// A height that is not a number.
    HeightNotFinite {
        /// Position in the list, from 0.
        index: usize,
    },
    /// An input that must be positive or finite is not.
    BadValue {
        /// Name of the argument, unit included.
        quantity: &'static str,
        /// What was given.
        value: f64,
        /// Tag of what is accepted.
        expected: &'static str,
    },
    /// Rain left out at 5 GHz or more.
    RainMissing {
        /// Frequency, GHz.
        freq_ghz: f64,
    },
    /// Outside a method.
    OutOfRange(#[from] OutOfRange),
    /// Fading could not be estimated.
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
        expected: "above-zero",
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
        expected: "finite",
    })
}
