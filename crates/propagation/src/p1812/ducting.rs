//! Loss by ducting and reflection from layers [4.5].

use super::effective_earth::Incidence;
use crate::lane::{LN_10, Lane};

/// What ducting needs to know of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ducted<L> {
    /// Length, km.
    pub path_km: L,
    /// Antennas above sea level, m, `hts`, `hrs`.
    pub antennas_m: (L, L),
    /// Antennas above the ducting surface, m, `hte`, `hre`.
    pub effective_m: (L, L),
    /// Horizon angles, mrad.
    pub theta_mrad: (L, L),
    /// Horizon distances, km.
    pub horizon_km: (L, L),
    /// Terrain roughness, m, `hm`.
    pub roughness_m: L,
    /// Share over sea.
    pub sea_ratio: L,
    /// Distances to the coast, km.
    pub coast_km: (L, L),
}

/// Ducting loss and its parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ducting<L> {
    /// Site shielding at the transmitter, dB, `Ast`.
    pub ast_db: L,
    /// Site shielding at the receiver, dB, `Asr`.
    pub asr_db: L,
    /// Coastal coupling at the transmitter, dB, `Act`.
    pub act_db: L,
    /// Coastal coupling at the receiver, dB, `Acr`.
    pub acr_db: L,
    /// Fixed coupling losses, dB, `Af`.
    pub af_db: L,
    /// Corrected angle, mrad, `θ′`.
    pub theta1_mrad: L,
    /// Length between the horizons, at most 40 km, `dI`.
    pub di_km: L,
    /// Roughness factor `μ3`.
    pub mu3: L,
    /// Exponent `α`.
    pub alpha: L,
    /// Geometry factor `μ2`.
    pub mu2: L,
    /// Time for which this path ducts, per cent, `β`.
    pub beta_pct: L,
    /// Exponent `Γ`.
    pub gamma: L,
    /// Time-percentage term, dB, `A(p)`.
    pub ap_db: L,
    /// Time-percentage and angular losses, dB, `Ad(p)`.
    pub adp_db: L,
    /// Ducting loss, dB, `Lba`.
    pub lba_db: L,
}

/// What of ducting depends on frequency, time percentage and the Earth's radius only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    /// Low-frequency term, dB, `Alf`.
    pub alf_db: f64,
    /// Specific attenuation, dB/mrad, `γd`.
    pub gamma_d: f64,
    fixed_db: f64,
    freq_ghz: f64,
    f_third: f64,
    ln_p: f64,
    ae_km: f64,
}

impl Constants {
    /// For a frequency in GHz, a time percentage, and the median radius.
    pub fn new(freq_ghz: f64, time_pct: f64, ae_km: f64) -> Constants {
        let alf_db = if freq_ghz < 0.5 {
            45.375 - 137.0 * freq_ghz + 92.5 * freq_ghz * freq_ghz
        } else {
            0.0
        };
        let f_third = freq_ghz.powf(1.0 / 3.0);
        Constants {
            alf_db,
            gamma_d: 5e-5 * ae_km * f_third,
            fixed_db: 102.45 + 20.0 * freq_ghz.log10() + alf_db,
            freq_ghz,
            f_third,
            ln_p: time_pct.ln(),
            ae_km,
        }
    }

    /// Ducting and layer-reflection loss.
    ///
    /// # Source
    /// Rec. ITU-R P.1812-7, § 4.5.
    #[inline(always)]
    pub fn loss<L: Lane>(&self, path: &Ducted<L>, beta0: &Incidence<L>) -> Ducting<L> {
        let s = L::splat;
        let (dlt, dlr) = path.horizon_km;
        let ast_db = self.shielding_db(path.theta_mrad.0, dlt);
        let asr_db = self.shielding_db(path.theta_mrad.1, dlr);
        let act_db = coastal_db(path.coast_km.0, dlt, path.antennas_m.0, path.sea_ratio);
        let acr_db = coastal_db(path.coast_km.1, dlr, path.antennas_m.1, path.sea_ratio);
        let couplings_db = ast_db + asr_db + act_db + acr_db;
        let af_db = s(self.fixed_db) + s(20.0) * (dlt + dlr).log10() + couplings_db;

        let flat_mrad = path.path_km * s(1000.0 / self.ae_km);
        let theta1_mrad =
            flat_mrad + path.theta_mrad.0.min(s(0.1) * dlt) + path.theta_mrad.1.min(s(0.1) * dlr);
        let di_km = (path.path_km - dlt - dlr).min(s(40.0));
        let rough_m = (path.roughness_m - s(10.0)).max(s(0.0));
        let ln_mu3 = s(-4.6e-5) * rough_m * (s(43.0) + s(6.0) * di_km);

        let ln_d = path.path_km.ln();
        let alpha = (s(-0.6) - s(3.5e-9) * (ln_d * s(3.1)).exp() * beta0.tau).max(s(-3.4));
        let roots = path.effective_m.0.sqrt() + path.effective_m.1.sqrt();
        let spread = s(500.0 / self.ae_km) * path.path_km * path.path_km / (roots * roots);
        let ln_mu2 = (spread.ln() * alpha).min(s(0.0));
        let ln_beta = beta0.beta0_pct.ln() + ln_mu2 + ln_mu3;

        let log_beta = ln_beta * s(1.0 / LN_10);
        let gamma = exponent(log_beta, (ln_d * s(1.13)).exp() * s(1e-6));
        let ln_ratio = s(self.ln_p) - ln_beta;
        let ap_db = s(-12.0)
            + (s(1.2) + s(3.7e-3) * path.path_km) * (ln_ratio * s(1.0 / LN_10))
            + s(12.0) * (ln_ratio * gamma).exp();
        let adp_db = s(self.gamma_d) * theta1_mrad + ap_db;
        Ducting {
            ast_db,
            asr_db,
            act_db,
            acr_db,
            af_db,
            theta1_mrad,
            di_km,
            mu3: ln_mu3.exp(),
            alpha,
            mu2: ln_mu2.exp(),
            beta_pct: ln_beta.exp(),
            gamma,
            ap_db,
            adp_db,
            lba_db: af_db + adp_db,
        }
    }

    /// A loss that ducting cannot fall below, dB, cheap enough to show that it does not matter.
    ///
    /// Shielding is left out (never negative), coastal coupling taken at its most (−6 dB at each end, where the path has
    /// sea), horizon angles at their least, and `β` anywhere under `β0`. With `x = −log β` the last term of `A(p)` is
    /// `12 · 10^f`, and `log f` is concave for `x ≤ 49` and p ≤ 50 %, so `f` is least at an end of that range; beyond it the
    /// linear term alone is greater than with `x = 49`.
    ///
    /// # Units
    /// - `horizons_km`: `dlt + dlr`; `ln_beta0_pct`: an upper bound of `ln β0`
    #[inline(always)]
    pub fn floor_db<L: Lane>(&self, path: &Floored<L>, ln_beta0_pct: L, sea: bool) -> L {
        let s = L::splat;
        let log_beta0 = ln_beta0_pct * s(1.0 / LN_10);
        let log_p = s(self.ln_p / LN_10);
        let ratio = log_p - log_beta0;
        let growth = (path.path_km.ln() * s(1.13)).exp() * s(1e-6);
        let power = power(ratio, log_beta0, growth).min(power(log_p + s(49.0), s(-49.0), growth));
        let rising = L::select(s(0.0).lt(ratio), s(12.0) * power.pow10(), s(0.0));
        let per_decade = s(1.2) + s(3.7e-3) * path.path_km;
        let time_db = (per_decade * ratio + rising).min(per_decade * (log_p + s(49.0)) + s(12.0)) - s(12.0);
        let least_mrad = path.path_km * s(1000.0 / self.ae_km)
            + path.theta_mrad.0.min(s(0.0))
            + path.theta_mrad.1.min(s(0.0));
        s(self.fixed_db - if sea { 12.0 } else { 0.0 })
            + s(20.0) * path.horizons_km.log10()
            + s(self.gamma_d) * least_mrad
            + time_db
    }

    /// Shielding by the site's own horizon, dB.
    #[inline(always)]
    fn shielding_db<L: Lane>(&self, theta_mrad: L, horizon_km: L) -> L {
        let s = L::splat;
        let excess = (theta_mrad - s(0.1) * horizon_km).max(s(0.0));
        let near = s(1.0) + s(0.361) * excess * (s(self.freq_ghz) * horizon_km).sqrt();
        s(20.0) * near.log10() + s(0.264 * self.f_third) * excess
    }
}

/// What the floor of ducting needs to know of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Floored<L> {
    /// Length, km.
    pub path_km: L,
    /// Horizon angles, mrad.
    pub theta_mrad: (L, L),
    /// Sum of the horizon distances, km.
    pub horizons_km: L,
}

/// `log (p/β)^Γ` for `log p/β`, `log β` and `10⁻⁶ D^1.13`.
#[inline(always)]
fn power<L: Lane>(log_ratio: L, log_beta: L, growth: L) -> L {
    log_ratio * exponent(log_beta, growth)
}

/// `Γ`.
#[inline(always)]
fn exponent<L: Lane>(log_beta: L, growth: L) -> L {
    let s = L::splat;
    let fall = s(9.51) - log_beta * (s(4.8) - s(0.198) * log_beta);
    s(1.076) * ((s(2.0058) - log_beta).ln() * s(-1.012) - fall * growth).exp()
}

/// Coupling of an antenna near the sea into a duct over it, dB, negative or 0.
#[inline(always)]
fn coastal_db<L: Lane>(coast_km: L, horizon_km: L, antenna_m: L, sea_ratio: L) -> L {
    let s = L::splat;
    let counts = sea_ratio.ge(s(0.75)) & s(5.0).ge(coast_km) & horizon_km.ge(coast_km);
    if !L::any(counts) {
        return s(0.0);
    }
    let near = (s(-0.25) * coast_km * coast_km).exp();
    let low = s(1.0) + (s(0.07) * (s(50.0) - antenna_m)).tanh();
    L::select(counts, s(-3.0) * near * low, s(0.0))
}
