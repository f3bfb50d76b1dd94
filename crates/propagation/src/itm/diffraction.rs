//! Diffraction: knife edges and smooth Earth blended, and the straight line through two distances that stands for it.

use super::attenuation::PathTerms;
use super::roughness::share_at;
use std::f64::consts::LN_10;

/// Logarithm of 4/3 of the true Earth's radius in this step, 6370 km, in m.
const LN_FOUR_THIRDS_EARTH: f64 = 15.954792100000127;

/// Parts of the diffraction loss at one distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiffractionAt {
    /// Distance, m.
    pub distance_m: f64,
    /// Two knife edges, dB, `Ak`.
    pub knife_edges_db: f64,
    /// Smooth Earth, dB, `Ase`.
    pub smooth_earth_db: f64,
    /// Clutter, dB, `Afo`.
    pub clutter_db: f64,
    /// Weight of the smooth Earth, `w`.
    pub weight: f64,
    /// Diffraction loss, dB, `Adif`.
    pub loss_db: f64,
}

/// The diffraction line: slope and intercept, with the two points it goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiffractionLine {
    /// At the nearer distance.
    pub near: DiffractionAt,
    /// At the farther distance.
    pub far: DiffractionAt,
    /// Slope, dB/m, `Md`.
    pub slope_db_per_m: f64,
    /// Loss at no distance, dB, `Ad0`.
    pub intercept_db: f64,
}

/// What of the diffraction does not depend on distance.
struct Ends {
    /// `x_1 + x_2`.
    x_sum: f64,
    /// `H(x_1, K_1) + H(x_2, K_2)`.
    height_db: f64,
    /// `1 + …` under the root of the blend: its height part, and what distance divides.
    height_root: f64,
    numerator_m: f64,
    clutter_db: f64,
}

/// The diffraction line of a path.
pub(super) fn diffraction_line(path: &PathTerms<'_>) -> DiffractionLine {
    let ends = ends(path);
    let x3 = path.d_sml_m().max(path.d_ml_m() + 5.0 * path.x0_m());
    let x4 = x3 + 10.0 * path.x0_m();
    let near = at(path, &ends, x3);
    let far = at(path, &ends, x4);
    let slope_db_per_m = (far.loss_db - near.loss_db) / (x4 - x3);
    DiffractionLine {
        near,
        far,
        slope_db_per_m,
        intercept_db: near.loss_db - slope_db_per_m * x3,
    }
}

fn ends(path: &PathTerms<'_>) -> Ends {
    let g = path.geometry;
    let [h1, h2] = path.heights_m;
    let [he1, he2] = g.effective_m;
    let (mut x_sum, mut height_db) = (0.0, 0.0);
    for j in 0..2 {
        let radius_m = 0.5 * g.horizon_m[j] * g.horizon_m[j] / g.effective_m[j];
        let term = smooth_earth_term(path, radius_m, g.horizon_m[j] / 1000.0);
        x_sum += term.x;
        height_db += height_function_db(&term);
    }
    let q = h1 * h2 + 10.0;
    let sigma_m = sigma_m(g.delta_h_m * share_at(path.d_sml_m()));
    let clutter_db = (5.0 / LN_10 * (1e-5 * h1 * h2 * path.constants.freq_mhz * sigma_m).ln_1p()).min(15.0);
    Ends {
        x_sum,
        height_db,
        height_root: (1.0 + (he1 * he2 - h1 * h2) / q).sqrt(),
        numerator_m: path.d_ml_m() - path.theta_los_rad * path.preparation.a_e_m,
        clutter_db,
    }
}

fn at(path: &PathTerms<'_>, ends: &Ends, x: f64) -> DiffractionAt {
    let g = path.geometry;
    let a_e_m = path.preparation.a_e_m;
    let theta = x / a_e_m - path.theta_los_rad;
    let beyond_m = x - path.d_ml_m();

    let nu2 =
        |dl: f64| 0.0795775 * path.constants.wave_number * theta * theta * dl * beyond_m / (beyond_m + dl);
    let knife_edges_db = knife_edge_db(nu2(g.horizon_m[0])) + knife_edge_db(nu2(g.horizon_m[1]));

    let x_between = smooth_earth_term(path, beyond_m / theta, beyond_m / 1000.0).x;
    let x0 = ends.x_sum + x_between;
    let smooth_earth_db = 0.05751 * x0 - 10.0 / LN_10 * x0.ln() - ends.height_db - 20.0;

    let rough = (g.delta_h_m * share_at(x) * path.constants.wave_number).min(6283.2);
    let weight = 25.1 / (25.1 + ((ends.height_root + ends.numerator_m / x) * rough).sqrt());
    let loss_db = weight * smooth_earth_db + (1.0 - weight) * knife_edges_db + ends.clutter_db;
    DiffractionAt {
        distance_m: x,
        knife_edges_db,
        smooth_earth_db,
        clutter_db: ends.clutter_db,
        weight,
        loss_db,
    }
}

/// What the smooth Earth makes of one radius and its distance.
struct SmoothEarthTerm {
    x: f64,
    k: f64,
    ln_k: f64,
}

/// `x_k` and `K_k` of one radius and its distance in km.
#[inline(always)]
fn smooth_earth_term(path: &PathTerms<'_>, radius_m: f64, distance_km: f64) -> SmoothEarthTerm {
    // C = (4/3 · 6370 km / a)^(1/3), by its logarithm, which K wants too.
    let ln_c = (LN_FOUR_THIRDS_EARTH - radius_m.ln()) / 3.0;
    let c = ln_c.exp();
    let k = path.constants.smooth_earth_k * c;
    SmoothEarthTerm {
        x: (1.607 - k) * c * c * path.constants.freq_third * distance_km,
        k,
        ln_k: path.constants.ln_smooth_earth_k + ln_c,
    }
}

/// `Fr(v²)`: loss over one knife edge, dB.
#[inline(always)]
fn knife_edge_db(nu2: f64) -> f64 {
    if nu2 < 5.76 {
        6.02 + 9.11 * nu2.sqrt() - 1.27 * nu2
    } else {
        12.953 + 10.0 / LN_10 * nu2.ln()
    }
}

/// `H(x, K)`: height gain over a smooth Earth, dB.
fn height_function_db(term: &SmoothEarthTerm) -> f64 {
    let SmoothEarthTerm { x, k, ln_k } = *term;
    if x < 200.0 {
        let w = -ln_k;
        if k < 1e-5 || x * w * w * w > 5495.0 {
            return if x > 1.0 { -117.0 + 17.372 * x.ln() } else { -117.0 };
        }
        return 2.5e-5 * x * x / k - 8.686 * w - 15.0;
    }
    let ln_x = x.ln();
    let far = 0.05751 * x - 4.343 * ln_x;
    if x >= 2000.0 {
        return far;
    }
    let w = 0.0134 * x * (-0.005 * x).exp();
    (1.0 - w) * far + w * (17.372 * ln_x - 117.0)
}

/// `σh`: standard deviation of the ground from its roughness, m.
#[inline(always)]
pub(super) fn sigma_m(delta_h_m: f64) -> f64 {
    0.78 * delta_h_m * (-0.5 * delta_h_m.sqrt().sqrt()).exp()
}
