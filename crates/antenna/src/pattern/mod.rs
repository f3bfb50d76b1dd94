//! Patterns: gain in dBd by plane towards any bearing and elevation, sampled once and asked often.

pub mod cuts;
pub mod sampled;

pub use cuts::{Cut, Peak};
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
