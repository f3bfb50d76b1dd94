//! Mean ground, refractivity, effective Earth, surface impedance.

use super::conditions::{Constants, Ground, Refusal, Refused, refuse_unless};
use super::warnings::Warnings;
use crate::p1812::Polarisation;

/// What the mean height of a path and the air give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Preparation {
    /// Mean height of the middle eight tenths of the path, m.
    pub h_sys_m: f64,
    /// Surface refractivity, N-units, `Ns`.
    pub n_s: f64,
    /// Curvature of the effective Earth, 1/m, `γe`.
    pub gamma_e_per_m: f64,
    /// Effective Earth radius, m, `ae`.
    pub a_e_m: f64,
    /// Surface impedance, real and imaginary, `Zg`.
    pub impedance: [f64; 2],
}

/// Curvature of the true Earth, 1/m.
const GAMMA_EARTH_PER_M: f64 = 157e-9;

/// Refractivity and effective Earth from the mean height of the ground.
pub(super) fn prepare(h_sys_m: f64, constants: &Constants) -> Preparation {
    let n_s = if h_sys_m == 0.0 {
        constants.n0
    } else {
        constants.n0 * (-h_sys_m / 9460.0).exp()
    };
    let gamma_e_per_m = GAMMA_EARTH_PER_M * (1.0 - 0.04665 * (n_s / 179.3).exp());
    Preparation {
        h_sys_m,
        n_s,
        gamma_e_per_m,
        a_e_m: 1.0 / gamma_e_per_m,
        impedance: constants.impedance,
    }
}

impl Preparation {
    /// Refuses an effective Earth that the method does not hold for.
    pub(super) fn check(&self, warnings: Warnings) -> Result<(), Refused> {
        refuse_unless(self.n_s >= 150.0, Refusal::SurfaceRefractivityLow, warnings)?;
        refuse_unless(self.n_s <= 400.0, Refusal::SurfaceRefractivityHigh, warnings)?;
        let radius_holds = (4_000_000.0..=13_333_333.0).contains(&self.a_e_m);
        refuse_unless(radius_holds, Refusal::EarthRadius, warnings)?;
        let resistive = self.impedance[0] > self.impedance[1].abs();
        refuse_unless(resistive, Refusal::GroundImpedance, warnings)
    }
}

/// Surface impedance of the ground, real and imaginary: `√(εc − 1)`, over `εc` for vertical polarisation.
pub(super) fn surface_impedance(freq_mhz: f64, ground: Ground, polarisation: Polarisation) -> [f64; 2] {
    let (re, im) = (
        ground.permittivity,
        18_000.0 * ground.conductivity_s_per_m / freq_mhz,
    );
    let [a, b] = complex_root(re - 1.0, im);
    match polarisation {
        Polarisation::Horizontal => [a, b],
        Polarisation::Vertical => {
            let square = re * re + im * im;
            [(a * re + b * im) / square, (b * re - a * im) / square]
        }
    }
}

/// Root of a complex number with a real part that is not negative.
fn complex_root(re: f64, im: f64) -> [f64; 2] {
    let a = ((re.hypot(im) + re) / 2.0).sqrt();
    [a, im / (2.0 * a)]
}
