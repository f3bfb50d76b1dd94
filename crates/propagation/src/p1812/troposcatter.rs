//! Loss by scatter in the troposphere [4.4].

use crate::lane::Lane;

/// What of troposcatter depends on frequency, refractivity and time percentage only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    /// Frequency term, dB, `Lf`.
    pub lf_db: f64,
    fixed_db: f64,
}

impl Constants {
    /// For a frequency in GHz, sea-level refractivity `n0` in N-units and a time percentage up to 50.
    pub fn new(freq_ghz: f64, n0: f64, time_pct: f64) -> Constants {
        let lf_db = 25.0 * freq_ghz.log10() - 2.5 * (freq_ghz / 2.0).log10().powi(2);
        let time_db = 10.125 * (50.0 / time_pct).log10().max(0.0).powf(0.7);
        Constants {
            lf_db,
            fixed_db: 190.1 + lf_db - 0.15 * n0 - time_db,
        }
    }

    /// Troposcatter loss, dB, `Lbs`.
    ///
    /// # Source
    /// Rec. ITU-R P.1812-7, § 4.4.
    #[inline(always)]
    pub fn loss_db<L: Lane>(&self, path_km: L, theta_mrad: L) -> L {
        L::splat(self.fixed_db) + L::splat(20.0) * path_km.log10() + L::splat(0.573) * theta_mrad
    }
}
