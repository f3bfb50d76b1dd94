//! A flat passive reflector between two legs.

use super::error::{HopError, positive};
use crate::p525::{free_space_loss_db, wavelength_m};
use std::f64::consts::PI;

/// A flat passive reflector and its two legs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatReflector {
    /// Longer side, m.
    pub width_m: f64,
    /// Other side, m.
    pub height_m: f64,
    /// Half the angle between the two legs, degrees.
    pub half_angle_deg: f64,
    /// Transmitter to reflector, km.
    pub leg1_km: f64,
    /// Reflector to receiver, km.
    pub leg2_km: f64,
    /// Frequency, GHz.
    pub freq_ghz: f64,
}

/// What a reflector gives and costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReflectorGain {
    /// Gain, counted once for both legs, dB.
    pub gain_db: f64,
    /// Free-space loss of both legs less the gain, dB.
    pub path_loss_db: f64,
    /// Each leg must be longer than this, `2a/λ`, km.
    pub far_field_km: f64,
    /// Both legs are; where not, the gain is less than stated.
    pub in_far_field: bool,
}

/// Gain and path loss of a flat reflector.
///
/// # Errors
/// [`HopError::BadValue`] for sides, legs or frequency that are not above 0, or a half angle outside 0 to 90°.
///
/// # Source
/// Aperture theory, `20 log(4π·a·cos ψ/λ²)` [C].
pub fn flat_reflector(reflector: &FlatReflector) -> Result<ReflectorGain, HopError> {
    let FlatReflector {
        width_m,
        height_m,
        half_angle_deg,
        leg1_km,
        leg2_km,
        freq_ghz,
    } = *reflector;
    for (quantity, value) in [
        ("width_m", width_m),
        ("height_m", height_m),
        ("leg1_km", leg1_km),
        ("leg2_km", leg2_km),
        ("freq_ghz", freq_ghz),
    ] {
        positive(quantity, value)?;
    }
    if !(0.0..90.0).contains(&half_angle_deg) {
        let expected = "under-a-right-angle";
        return Err(HopError::BadValue {
            quantity: "half_angle_deg",
            value: half_angle_deg,
            expected,
        });
    }
    let area_m2 = width_m * height_m;
    let wavelength_m = wavelength_m(freq_ghz * 1e3);
    let seen_m2 = area_m2 * half_angle_deg.to_radians().cos();
    let gain_db = 20.0 * (4.0 * PI * seen_m2 / wavelength_m.powi(2)).log10();
    let far_field_km = 2.0 * area_m2 / wavelength_m / 1e3;
    Ok(ReflectorGain {
        gain_db,
        path_loss_db: free_space_loss_db(freq_ghz, leg1_km) + free_space_loss_db(freq_ghz, leg2_km) - gain_db,
        far_field_km,
        in_far_field: leg1_km > far_field_km && leg2_km > far_field_km,
    })
}
