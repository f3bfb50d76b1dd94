//! Trees in the ray.

use crate::out_of_range::{OutOfRange, Range};

const FREQ: Range = Range {
    quantity: "freq_ghz",
    low: 0.23,
    high: 95.0,
    unit: "GHz",
    method: "the foliage fit of Weissberger",
};
const DEPTH: Range = Range {
    quantity: "depth_m",
    low: 0.0,
    high: 400.0,
    unit: "m",
    method: "the foliage fit of Weissberger",
};

/// Loss through trees in leaf, dB.
///
/// # Units
/// - `freq_ghz`: GHz, 0.23 to 95; `depth_m`: length of the ray inside the foliage, m, up to 400
///
/// # Errors
/// [`OutOfRange`] outside those limits.
///
/// # Source
/// Weissberger's modified exponential decay: 1.33·f^0.284·d^0.588 beyond 14 m, 0.45·f^0.284·d up to 14 m [M].
pub fn foliage_loss_db(freq_ghz: f64, depth_m: f64) -> Result<f64, OutOfRange> {
    FREQ.check(freq_ghz)?;
    DEPTH.check(depth_m)?;
    let f = freq_ghz.powf(0.284);
    Ok(if depth_m > 14.0 {
        1.33 * f * depth_m.powf(0.588)
    } else {
        0.45 * f * depth_m
    })
}
