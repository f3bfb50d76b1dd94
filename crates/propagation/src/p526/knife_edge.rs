//! One knife edge. Rec. ITU-R P.526-15 § 4.1.

/// Diffraction parameter ν of one edge, dimensionless, positive when the edge stands above the ray.
///
/// # Units
/// - `height_m`: height of the edge above the straight ray, m; `d1_m`, `d2_m`: distances from the ends, m; `wavelength_m`: m
///
/// # Source
/// Rec. ITU-R P.526-15 § 4.1, eq. (26) [M].
pub fn knife_edge_nu(height_m: f64, d1_m: f64, d2_m: f64, wavelength_m: f64) -> f64 {
    height_m * (2.0 / wavelength_m * (1.0 / d1_m + 1.0 / d2_m)).sqrt()
}

/// Loss over a single knife edge, in dB.
///
/// Fit to the Fresnel–Kirchhoff integral; for an edge thin against the first Fresnel zone. At ν = −0.78 and below the edge is clear
/// of the ray and the loss is 0. Against the exact integral: within 0.13 dB from −0.78 to 20; below, the exact field swings by up
/// to 1.4 dB about the 0 dB taken here (`tools/witness/fresnel.py`).
///
/// # Units
/// - `nu`: dimensionless, positive when the edge stands above the ray
/// - returns: dB, never negative
///
/// # Source
/// Rec. ITU-R P.526-15 § 4.1, eq. (31) [form M, values C].
///
/// # Example
/// ```
/// // Grazing incidence costs 6 dB.
/// assert!((propagation::p526::knife_edge_loss_db(0.0) - 6.03).abs() < 0.01);
/// ```
pub fn knife_edge_loss_db(nu: f64) -> f64 {
    crate::p1812::bullington::knife_edge_db(nu).max(0.0)
}
