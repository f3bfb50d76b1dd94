//! Bending of the ray by the lower air, told as a larger Earth.

/// Mean radius of the Earth, km.
pub const EARTH_RADIUS_KM: f64 = 6371.0;

/// Effective Earth radius factor of the standard atmosphere, 4/3.
pub const K_MEDIAN: f64 = 4.0 / 3.0;

/// Effective Earth radius factor from the gradient of refractivity in the lowest kilometre.
///
/// `None` at −157 N/km and below: rays there bend as much as the ground or more, no finite positive radius describes it.
///
/// # Units
/// - `dn_dh_per_km`: N units per km, negative in ordinary air (−39 gives 4/3)
///
/// # Source
/// Rec. ITU-R P.453 and P.530, `k = 157/(157 + dN/dh)` [M].
pub fn effective_radius_factor(dn_dh_per_km: f64) -> Option<f64> {
    let denominator = 157.0 + dn_dh_per_km;
    (denominator > 0.0).then(|| 157.0 / denominator)
}

/// Rise of the ground between two ends against the chord, m, `d1·d2/(12.74·k)`.
///
/// # Units
/// - `d1_km`, `d2_km`: distances from the two ends, km; `k`: effective radius factor
pub fn earth_bulge_m(d1_km: f64, d2_km: f64, k: f64) -> f64 {
    d1_km * d2_km / (12.74 * k)
}
