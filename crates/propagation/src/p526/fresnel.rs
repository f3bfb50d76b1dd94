//! Fresnel zones.

/// Radius of the first Fresnel zone, m: `17.3·√(d1·d2/(f·d))`.
///
/// # Units
/// - `freq_ghz`: GHz; `d1_km`, `d2_km`: distances from the two ends, km
///
/// # Source
/// Rec. ITU-R P.530-18 § 2.2.1 [V]; P.526 § 3.
pub fn fresnel_radius_m(freq_ghz: f64, d1_km: f64, d2_km: f64) -> f64 {
    17.3 * (d1_km * d2_km / (freq_ghz * (d1_km + d2_km))).sqrt()
}

/// Radius of the `n`-th Fresnel zone, m: √n times the first.
pub fn fresnel_zone_radius_m(n: u32, freq_ghz: f64, d1_km: f64, d2_km: f64) -> f64 {
    fresnel_radius_m(freq_ghz, d1_km, d2_km) * f64::from(n).sqrt()
}

/// Loss of an obstruction by average terrain, dB; `None` below 15 dB, where the approximation does not hold.
///
/// # Units
/// - `clearance_m`: of the ray over the ground, m, negative when obstructed; `first_zone_m`: first Fresnel radius there, m
///
/// # Source
/// Rec. ITU-R P.530-18 § 2.2.1, `A = 10 − 20·h/F1` for A > 15 dB [V].
pub fn average_terrain_obstruction_db(clearance_m: f64, first_zone_m: f64) -> Option<f64> {
    let loss_db = 10.0 - 20.0 * clearance_m / first_zone_m;
    (loss_db > 15.0).then_some(loss_db)
}
