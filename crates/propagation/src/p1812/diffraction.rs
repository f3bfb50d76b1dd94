//! Delta-Bullington diffraction for two radii, and the loss not exceeded for p % [4.3.4, 4.3.5].

use super::bullington;
use super::variability::inverse_normal;
use crate::lane::Lane;

/// Diffraction for one effective radius of the Earth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diffraction<L> {
    /// Edge parameter over the actual path, `ν`.
    pub nu_actual: L,
    /// Edge parameter over the smooth path, `ν`.
    pub nu_smooth: L,
    /// Bullington loss over the actual path, dB, `Lbulla`.
    pub lbulla_db: L,
    /// Bullington loss over the smooth path, dB, `Lbulls`.
    pub lbulls_db: L,
    /// Spherical-Earth loss, dB, `Ldsph`.
    pub ldsph_db: L,
    /// Diffraction loss, dB, `Ld`.
    pub ld_db: L,
}

/// Delta-Bullington loss for one radius.
///
/// # Units
/// - `edges_nu`: edge parameters over the actual and the smooth path
/// - `ldsph_db`: spherical-Earth loss
///
/// # Source
/// Rec. ITU-R P.1812-7, § 4.3.4.
#[inline(always)]
pub fn delta_bullington<L: Lane>(edges_nu: (L, L), path_km: L, ldsph_db: L) -> Diffraction<L> {
    let (nu_actual, nu_smooth) = edges_nu;
    let lbulla_db = bullington::loss_db(nu_actual, path_km);
    let lbulls_db = bullington::loss_db(nu_smooth, path_km);
    let ld_db = lbulla_db + (ldsph_db - lbulls_db).max(L::splat(0.0));
    Diffraction {
        nu_actual,
        nu_smooth,
        lbulla_db,
        lbulls_db,
        ldsph_db,
        ld_db,
    }
}

/// What of [4.3.5] depends on the time percentage only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    time_pct: f64,
    normal_p: f64,
}

impl Constants {
    /// For a time percentage of 1 to 50.
    pub fn new(time_pct: f64) -> Constants {
        Constants {
            time_pct,
            normal_p: inverse_normal(time_pct / 100.0),
        }
    }

    /// Whether the time percentage is below β0.
    #[inline(always)]
    pub fn below<L: Lane>(&self, beta0_pct: L) -> L::Mask {
        L::splat(self.time_pct).lt(beta0_pct)
    }

    /// Share of the way from the median to the β0 diffraction loss, `Fi`, 1 to 0.
    #[inline(always)]
    pub fn interpolation<L: Lane>(&self, beta0_pct: L) -> L {
        let s = L::splat;
        let between = s(self.normal_p) / inverse_normal(beta0_pct * s(0.01));
        L::select(s(self.time_pct).lt(beta0_pct), s(1.0), between)
    }
}
