//! A second receiving aerial below the first. Rec. ITU-R P.530 § 6.2.1.

use super::multipath::{HopGeometry, Multipath};
use crate::out_of_range::{OutOfRange, Range};

/// The second aerial of a space-diversity receiver.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiversityAerial {
    /// Vertical separation of the two aerials, m, 3 to 23.
    pub separation_m: f64,
    /// How much less gain the second has, dB (0 for equal aerials).
    pub gain_difference_db: f64,
}

/// Cap of the improvement by space diversity [P].
pub const GREATEST_IMPROVEMENT: f64 = 200.0;

const METHOD: &str = "Rec. ITU-R P.530 § 6.2.1";
const SEPARATION: Range = Range {
    quantity: "separation_m",
    low: 3.0,
    high: 23.0,
    unit: "m",
    method: METHOD,
};
const FREQ: Range = Range {
    quantity: "freq_ghz",
    low: 2.0,
    high: 11.0,
    unit: "GHz",
    method: METHOD,
};
const PATH: Range = Range {
    quantity: "path_km",
    low: 25.0,
    high: 240.0,
    unit: "km",
    method: METHOD,
};

/// How many times rarer a fade becomes with the second aerial, narrow band, before the cap of [`GREATEST_IMPROVEMENT`] [P].
///
/// # Errors
/// [`OutOfRange`] outside 3 to 23 m, 2 to 11 GHz, 25 to 240 km.
///
/// # Source
/// Rec. ITU-R P.530 § 6.2.1 [M].
pub fn space_diversity_improvement(
    hop: &HopGeometry,
    fading: &Multipath,
    aerial: DiversityAerial,
    fade_db: f64,
) -> Result<f64, OutOfRange> {
    SEPARATION.check(aerial.separation_m)?;
    FREQ.check(hop.freq_ghz)?;
    PATH.check(hop.path_km)?;
    let exponent = -0.04
        * aerial.separation_m.powf(0.87)
        * hop.freq_ghz.powf(-0.12)
        * hop.path_km.powf(0.48)
        * fading.p0_pct.powf(-1.04);
    Ok((1.0 - exponent.exp()) * 10f64.powf((fade_db - aerial.gain_difference_db) / 10.0))
}
