//! Line of sight with short-term effects [4.2], and the field strength a loss stands for [4.10].

use crate::lane::{LN_10, Lane};

/// Wavelength in m, with the standard's rounded speed of light.
pub fn wavelength_m(freq_ghz: f64) -> f64 {
    0.2998 / freq_ghz
}

/// Free-space loss and what short-term enhancement takes off it, dB.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineOfSight<L> {
    /// Free-space loss over the true distance of the antennas, `Lbfs`.
    pub lbfs_db: L,
    /// Multipath and focusing correction for p %, `Esp`.
    pub esp_db: L,
    /// The same for β0 %, `Esβ`.
    pub esb_db: L,
    /// Loss not exceeded for p %, `Lb0p`.
    pub lb0p_db: L,
    /// Loss not exceeded for β0 %, `Lb0β`.
    pub lb0b_db: L,
}

/// What of [4.2] depends on frequency and time percentage only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    scale_db: f64,
    log_p_over_50: f64,
}

impl Constants {
    /// For a frequency in GHz and a time percentage.
    pub fn new(freq_ghz: f64, time_pct: f64) -> Constants {
        Constants {
            scale_db: 92.4 + 20.0 * freq_ghz.log10(),
            log_p_over_50: (time_pct / 50.0).log10(),
        }
    }

    /// Free-space loss, dB, `Lbfs`.
    #[inline(always)]
    pub fn free_space_db<L: Lane>(&self, path_km: L, hts_m: L, hrs_m: L) -> L {
        let rise_km = (hts_m - hrs_m) * L::splat(1e-3);
        L::splat(self.scale_db) + L::splat(10.0) * (path_km * path_km + rise_km * rise_km).log10()
    }

    /// Line-of-sight losses of a path whose horizons lie `dlt + dlr` away.
    ///
    /// # Source
    /// Rec. ITU-R P.1812-7, § 4.2.
    #[inline(always)]
    pub fn line_of_sight<L: Lane>(&self, ends: (L, L, L), horizons_km: L, ln_beta0_pct: L) -> LineOfSight<L> {
        let s = L::splat;
        let lbfs_db = self.free_space_db(ends.0, ends.1, ends.2);
        let scale = s(2.6) * (s(1.0) - (s(-0.1) * horizons_km).exp());
        let esp_db = scale * s(self.log_p_over_50);
        let esb_db = scale * ((ln_beta0_pct - s(LN_50)) * s(1.0 / LN_10));
        LineOfSight {
            lbfs_db,
            esp_db,
            esb_db,
            lb0p_db: lbfs_db + esp_db,
            lb0b_db: lbfs_db + esb_db,
        }
    }
}

/// Natural logarithm of 50.
const LN_50: f64 = 3.912_023_005_428_146;

/// Field strength in dB(µV/m) that a basic transmission loss leaves of 1 kW ERP (half-wave dipole).
///
/// # Source
/// Rec. ITU-R P.1812-7, § 4.10.
///
/// # Example
/// ```
/// // Free space at 1 km and 100 MHz, against the textbook's 106.9 dB(µV/m).
/// let field = propagation::p1812::field_1kw_dbuv_m(72.4, 0.1);
/// assert!((field - 106.9).abs() < 0.1);
/// ```
pub fn field_1kw_dbuv_m(loss_db: f64, freq_ghz: f64) -> f64 {
    199.36 + 20.0 * freq_ghz.log10() - loss_db
}
