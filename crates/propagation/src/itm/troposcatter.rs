//! Scatter from the troposphere, far beyond the horizons.

use super::attenuation::PathTerms;
use std::f64::consts::{LN_10, SQRT_2};

/// Scatter loss at one distance, with the frequency gain it used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScatterAt {
    /// Scatter loss, dB, `Ascat`; 1001 where the method gives none.
    pub loss_db: f64,
    /// Frequency gain, dB, `H0`, handed to the next call.
    pub h0_db: f64,
}

/// What stands for "no scatter" in the method, dB.
const NO_SCATTER_DB: f64 = 1001.0;
/// State before the first call.
pub const FIRST_CALL: f64 = -1.0;

/// Scatter loss at distance `x`; `before` is the frequency gain of the call before, [`FIRST_CALL`] at first.
pub(super) fn scatter(path: &PathTerms<'_>, x: f64, before: f64) -> ScatterAt {
    let Some(h0_db) = (if before > 15.0 {
        Some(before)
    } else {
        frequency_gain_db(path, x, before)
    }) else {
        return ScatterAt {
            loss_db: NO_SCATTER_DB,
            h0_db: before,
        };
    };
    let theta = x / path.preparation.a_e_m - path.theta_los_rad;
    let loss_db = distance_db(theta * x)
        + 10.0 / LN_10 * (47.7 * path.constants.wave_number * theta.powi(4)).ln()
        - 0.1 * (path.preparation.n_s - 301.0) * (-theta * x / 40e3).exp()
        + h0_db;
    ScatterAt { loss_db, h0_db }
}

/// `H0`, or `None` where both ends stand too low for scatter.
fn frequency_gain_db(path: &PathTerms<'_>, x: f64, before: f64) -> Option<f64> {
    let g = path.geometry;
    let n_s = path.preparation.n_s;
    let mut difference_m = g.horizon_m[0] - g.horizon_m[1];
    let mut ratio = g.effective_m[1] / g.effective_m[0];
    if difference_m < 0.0 {
        difference_m = -difference_m;
        ratio = 1.0 / ratio;
    }
    let theta = g.theta_rad[0] + g.theta_rad[1] + x / path.preparation.a_e_m;
    let r = g
        .effective_m
        .map(|h| 2.0 * path.constants.wave_number * theta * h);
    if r[0] < 0.2 && r[1] < 0.2 {
        return None;
    }
    let s = (x - difference_m) / (x + difference_m);
    let q = (ratio / s).clamp(0.1, 10.0);
    let s = s.max(0.1);
    let cross_m = (x - difference_m) * (x + difference_m) * theta * 0.25 / x;
    let eta = cross_m / 1755.6
        * (1.0
            + (0.031 - n_s * 2.32e-3 + n_s * n_s * 5.67e-6) * (-(cross_m / 8000.0).min(1.7).powi(6)).exp());
    let h00 = 0.5 * (gain_db(r[0], eta) + gain_db(r[1], eta));
    let mut h0 = (h00 + h00.min(6.0 * (0.6 - eta.max(1.0).log10()) * s.log10() * q.log10())).max(0.0);
    if eta < 1.0 {
        let root = (1.0 + SQRT_2 / r[0]) * (1.0 + SQRT_2 / r[1]);
        let low = 10.0 * (root * root * (r[0] + r[1]) / (r[0] + r[1] + 2.0 * SQRT_2)).log10();
        h0 = eta * h0 + (1.0 - eta) * low;
    }
    Some(if h0 > 15.0 && before >= 0.0 { before } else { h0 })
}

/// `h0(r, η)`, dB.
fn gain_db(r: f64, eta: f64) -> f64 {
    const A: [f64; 5] = [25.0, 80.0, 177.0, 395.0, 705.0];
    const B: [f64; 5] = [24.0, 45.0, 68.0, 80.0, 105.0];
    let eta = eta.clamp(1.0, 5.0);
    let i = eta as usize;
    let t = eta - i as f64;
    let r2 = 1.0 / (r * r);
    let curve = |k: usize| 10.0 * ((A[k - 1] * r2 + B[k - 1]) * r2 + 1.0).log10();
    if t == 0.0 {
        curve(i)
    } else {
        (1.0 - t) * curve(i) + t * curve(i + 1)
    }
}

/// `F(y)`: attenuation function of angular distance times distance, dB.
fn distance_db(y: f64) -> f64 {
    let (a, b, c) = if y <= 10e3 {
        (133.4, 0.332e-3, -10.0)
    } else if y <= 70e3 {
        (104.6, 0.212e-3, -2.5)
    } else {
        (71.8, 0.157e-3, 5.0)
    };
    a + b * y + c * y.log10()
}
