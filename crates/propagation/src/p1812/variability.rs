//! The normal distribution [Attachment 2], and the spread over locations [4.7, 4.9].

use crate::lane::Lane;

/// Inverse complementary cumulative normal distribution, `I(x)`, by the standard's rational fit.
///
/// # Units
/// - `x`: probability, 0 to 1; clipped to 10⁻⁶ … 1 − 10⁻⁶ as the standard does
/// - returns: standard deviations, positive below one half
///
/// # Source
/// Rec. ITU-R P.1812-7, Attachment 2 to Annex 1.
///
/// # Example
/// ```
/// // One tenth of a normal distribution lies above 1.2816 standard deviations.
/// let tenth: f64 = propagation::p1812::variability::inverse_normal(0.1);
/// assert!((tenth - 1.2816).abs() < 5e-4);
/// ```
#[inline(always)]
pub fn inverse_normal<L: Lane>(x: L) -> L {
    let s = L::splat;
    let x = x.max(s(1e-6)).min(s(1.0 - 1e-6));
    let lower = s(0.5).ge(x);
    let t = (s(-2.0) * L::select(lower, x, s(1.0) - x).ln()).sqrt();
    let c = (s(2.515516698) + t * (s(0.802853) + t * s(0.010328)))
        / (s(1.0) + t * (s(1.432788) + t * (s(0.189269) + t * s(0.001308))));
    L::select(lower, t - c, c - t)
}

/// Loss added for a location percentage at a receiver on land, dB; 0 at 50 %.
pub fn location_loss_db(location_pct: f64, spread_db: f64) -> f64 {
    -inverse_normal(location_pct / 100.0) * spread_db
}

/// Standard deviation of the field over a square of ground, dB, `σL`, where none is customary.
///
/// # Units
/// - `square_m`: side of the prediction square, m
/// - `rx_agl_m`, `clutter_m`: receiving antenna and clutter above ground, m
///
/// # Source
/// Rec. ITU-R P.1812-7, § 4.7.
pub fn location_spread_db(freq_ghz: f64, square_m: f64, rx_agl_m: f64, clutter_m: f64) -> f64 {
    let clear = ((rx_agl_m - clutter_m) / 10.0).clamp(0.0, 1.0);
    (0.52 + 0.024 * freq_ghz) * square_m.powf(0.28) * (1.0 - clear)
}
