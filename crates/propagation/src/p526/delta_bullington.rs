//! Diffraction over ground and the round Earth together. Rec. ITU-R P.526-15 § 4.5.2.
//!
//! The steps are those of [`crate::p1812`], at the k asked for instead of that method's two radii.

use super::bullington::{Bullington, PathEnds, bullington};
use crate::p525::wavelength_m;
use crate::p1812::bullington::{loss_db, smooth_edge};
use crate::p1812::profile::{Path, Zone};
use crate::p1812::smooth_earth::{fit, obstruction, surface_for_diffraction};
use crate::p1812::spherical_earth::{Constants, Polarisation, Smooth, Surfaces};
use crate::refractivity::EARTH_RADIUS_KM;

/// Diffraction loss of a path, with its parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeltaBullington {
    /// Bullington's edge over the actual ground.
    pub actual: Bullington,
    /// Bullington's loss over the smooth Earth that fits the ground, dB.
    pub smooth_db: f64,
    /// Loss over a spherical Earth under the same smooth heights, dB.
    pub spherical_db: f64,
    /// Height of the transmitting aerial over the smooth surface, m.
    pub tx_above_smooth_m: f64,
    /// Height of the receiving aerial over the smooth surface, m.
    pub rx_above_smooth_m: f64,
    /// Diffraction loss: actual plus what the spherical Earth takes beyond the smooth construction, dB.
    pub loss_db: f64,
}

/// Diffraction loss of a profile; `None` when it has no point between its ends.
///
/// Land only; the plane of polarisation matters at low frequencies alone.
///
/// # Shape
/// As for [`bullington`]; the end heights are the ground under the aerials, which stand above it.
///
/// # Source
/// Rec. ITU-R P.526-15 § 4.5.2 [M], with the steps of P.1812-7 § 4.3.1 to 4.3.4 [V].
pub fn delta_bullington(
    distance_km: &[f64],
    height_amsl_m: &[f64],
    ends: &PathEnds,
    polarisation: Polarisation,
) -> Option<DeltaBullington> {
    let actual = bullington(distance_km, height_amsl_m, ends)?;
    let (zone, clutter_m) = (
        vec![Zone::Inland; distance_km.len()],
        vec![0.0; distance_km.len()],
    );
    let path = Path {
        d_km: distance_km,
        h_m: height_amsl_m,
        clutter_m: &clutter_m,
        zone: &zone,
    };
    let ground_m = (height_amsl_m[0], height_amsl_m[path.last()]);
    let surface = surface_for_diffraction(
        &fit(&path),
        &obstruction(&path, ends.tx_amsl_m, ends.rx_amsl_m),
        ground_m,
    );
    let above_m = (ends.tx_amsl_m - surface.tx_m, ends.rx_amsl_m - surface.rx_m);
    let radius_km = EARTH_RADIUS_KM * ends.k;
    let nu = smooth_edge(&path, above_m, radius_km).nu_root_m / wavelength_m(ends.freq_ghz * 1e3).sqrt();
    let smooth_db = loss_db(nu, path.length_km());
    let smooth = Smooth {
        path_km: path.length_km(),
        ht_m: above_m.0,
        hr_m: above_m.1,
        sea_ratio: 0.0,
    };
    let spherical_db = Constants::new(ends.freq_ghz, polarisation).loss_db(
        &smooth,
        radius_km,
        Surfaces {
            land: true,
            sea: false,
        },
    );
    Some(DeltaBullington {
        actual,
        smooth_db,
        spherical_db,
        tx_above_smooth_m: above_m.0,
        rx_above_smooth_m: above_m.1,
        loss_db: actual.loss_db + (spherical_db - smooth_db).max(0.0),
    })
}
