//! Receiving below the roofs or the treetops. Rec. ITU-R P.2108-1 § 3.1.
//!
//! For a field predicted at the clutter top. A prediction by P.1812 at the true height already holds clutter: never add both.

use crate::out_of_range::{OutOfRange, Range};
use crate::p526::knife_edge_loss_db;

/// What stands around the receiver.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surroundings {
    /// Open or rural ground, or water.
    Open,
    /// Buildings or trees.
    BuiltUpOrTrees,
}

const FREQ: Range = Range {
    quantity: "freq_ghz",
    low: 0.03,
    high: 3.0,
    unit: "GHz",
    method: "Rec. ITU-R P.2108-1 § 3.1",
};
const HEIGHT: Range = Range {
    quantity: "height_m",
    low: 0.1,
    high: 3000.0,
    unit: "m",
    method: "Rec. ITU-R P.2108-1 § 3.1 (lower limit ours)",
};

/// Mean width of a street, m, the Recommendation's default.
pub const STREET_WIDTH_M: f64 = 27.0;

/// Loss from the clutter top down to a lower aerial, dB; 0 at and above the top.
///
/// # Units
/// - `freq_ghz`: GHz, 0.03 to 3; `height_m`: aerial above ground, m; `clutter_top_m`: representative clutter height R, m
///
/// # Errors
/// [`OutOfRange`] outside 0.03 to 3 GHz or for a height that is not positive.
///
/// # Source
/// Rec. ITU-R P.2108-1 § 3.1 [form V]: open `(21.8 + 6.2 log f)·log(R/h)`; built-up or trees `J(ν) − 6.03`,
/// `ν = 0.342·√(f·h_d·θ)`, `θ = atan(h_d/27)` in degrees.
///
/// # Example
/// ```
/// use propagation::p2108::{height_gain_loss_db, Surroundings};
/// let car_db = height_gain_loss_db(0.098, 1.5, 10.0, Surroundings::Open).unwrap();
/// assert!((car_db - 12.81).abs() < 0.02);
/// ```
pub fn height_gain_loss_db(
    freq_ghz: f64,
    height_m: f64,
    clutter_top_m: f64,
    surroundings: Surroundings,
) -> Result<f64, OutOfRange> {
    FREQ.check(freq_ghz)?;
    HEIGHT.check(height_m)?;
    if height_m >= clutter_top_m {
        return Ok(0.0);
    }
    Ok(match surroundings {
        Surroundings::Open => (21.8 + 6.2 * freq_ghz.log10()) * (clutter_top_m / height_m).log10(),
        Surroundings::BuiltUpOrTrees => {
            let below_top_m = clutter_top_m - height_m;
            let theta_deg = (below_top_m / STREET_WIDTH_M).atan().to_degrees();
            let nu = 0.342 * (freq_ghz * below_top_m * theta_deg).sqrt();
            (knife_edge_loss_db(nu) - 6.03).max(0.0)
        }
    })
}
