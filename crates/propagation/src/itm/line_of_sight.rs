//! Two rays over a rough ground, inside the smooth-Earth horizon.

use super::attenuation::PathTerms;
use super::diffraction::{DiffractionLine, sigma_m};
use super::roughness::share_at;
use std::f64::consts::{FRAC_PI_2, LN_10, PI};

/// `Alos(x)`: attenuation of the direct and the reflected ray, blended with the diffraction line, dB.
pub(super) fn two_ray_db(path: &PathTerms<'_>, line: &DiffractionLine, x: f64) -> f64 {
    let g = path.geometry;
    let wave_number = path.constants.wave_number;
    let [he1, he2] = g.effective_m;
    let sum = he1 + he2;
    let sin_psi = sum / (x * x + sum * sum).sqrt();
    let spread_m = sigma_m(g.delta_h_m * share_at(x));

    let [zr, zi] = path.constants.impedance;
    let damping = (-(wave_number * spread_m * sin_psi).min(10.0)).exp();
    // (sin ψ − Z)/(sin ψ + Z)
    let (nr, ni, dr, di) = (sin_psi - zr, -zi, sin_psi + zr, zi);
    let scale = damping / (dr * dr + di * di);
    let mut r = [(nr * dr + ni * di) * scale, (ni * dr - nr * di) * scale];
    let q = r[0] * r[0] + r[1] * r[1];
    if q < 0.25 || q < sin_psi {
        let up = (sin_psi / q).sqrt();
        r = [r[0] * up, r[1] * up];
    }
    let mut phase = 2.0 * wave_number * he1 * he2 / x;
    if phase > FRAC_PI_2 {
        phase = PI - FRAC_PI_2 * FRAC_PI_2 / phase;
    }
    let (sin, cos) = phase.sin_cos();
    let (re, im) = (cos + r[0], -sin + r[1]);
    let two_rays_db = -10.0 / LN_10 * (re * re + im * im).ln();
    let diffraction_db = line.slope_db_per_m * x + line.intercept_db;
    let weight = 1.0 / (1.0 + path.constants.freq_mhz * g.delta_h_m / path.d_sml_m().max(10_000.0));
    weight * two_rays_db + (1.0 - weight) * diffraction_db
}
