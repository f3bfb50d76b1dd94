//! Feeder theory: attenuation, rigid lines, match, ratings and two-ports.

pub mod attenuation;
pub mod mismatch;
pub mod rating;
pub mod rigid;
pub mod two_port;

pub use attenuation::LineConstants;
pub use mismatch::Vswr;
pub use rating::{Conditions, Derated, Service};
pub use rigid::RigidLine;
pub use two_port::TwoPort;

/// Speed of light in vacuum, m/s (exact by definition of the metre).
pub const LIGHT_M_PER_S: f64 = 299_792_458.0;

/// Wavelength in vacuum.
///
/// # Units
/// - `freq_mhz`: MHz, above 0
/// - returns: m
pub fn wavelength_m(freq_mhz: f64) -> f64 {
    LIGHT_M_PER_S / (freq_mhz * 1e6)
}

/// What makes a question about a line unanswerable.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LineError {
    /// A quantity outside what it can physically be, or outside the validity of the formula.
    Range {
        /// Tag of the quantity, its unit in it.
        what: &'static str,
        /// What stood there.
        value: f64,
        /// Tag of what would have been accepted.
        wanted: &'static str,
    },
}

/// Passes `value` on when `ok`, else names it.
pub(crate) fn within(
    what: &'static str,
    value: f64,
    ok: bool,
    wanted: &'static str,
) -> Result<f64, LineError> {
    if ok && value.is_finite() {
        Ok(value)
    } else {
        Err(LineError::Range { what, value, wanted })
    }
}
