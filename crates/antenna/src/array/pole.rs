//! An upright metal cylinder beside the bays: endless, smooth, no other mast.

use num_complex::Complex64 as C64;

/// A vertical pole behind or between bays.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Pole {
    /// Axis: east of the origin, m.
    pub east_m: f64,
    /// Axis: north of the origin, m.
    pub north_m: f64,
    /// Radius, m.
    pub radius_m: f64,
}

/// Pole radius in wavelengths up to which a horizontal dipole is not changed by more than 0.2 dB, and the array model leaves
/// it alone (computed for the reference).
pub const HORIZONTAL_LIMIT_WAVELENGTHS: f64 = 0.02;

/// Terms of the azimuth factor of an upright element beside a cylinder, for one elevation.
///
/// P(φ) = Σ e_n jⁿ [J_n(κb) − J_n(κρ)·H_n(κb)/H_n(κρ)] cos nφ, κ = k cos ε. It contains the phase of the element's place
/// relative to the pole's axis.
///
/// # Source
/// Harrington, *Time-Harmonic Electromagnetic Fields*: line source beside a cylinder.
#[derive(Debug, Clone, Default)]
pub struct PoleSeries {
    terms: Vec<C64>,
}

impl PoleSeries {
    /// Terms for an element `distance_m` from the axis.
    pub fn new(k_per_m: f64, elev_deg: f64, distance_m: f64, radius_m: f64) -> Self {
        let kappa = (k_per_m * elev_deg.to_radians().cos().abs()).max(1e-6 * k_per_m);
        let (kb, ka) = (kappa * distance_m, kappa * radius_m);
        let last = (kb + 8.0) as i32;
        let mut terms = Vec::with_capacity(last as usize + 1);
        let mut phase = C64::from(1.0);
        for n in 0..=last {
            let at_surface = hankel2(n, ka);
            // Beyond the range of f64 the pole is too thin for this order to see it.
            let ratio = if at_surface.is_finite() {
                libm::jn(n, ka) / at_surface
            } else {
                C64::default()
            };
            let term = C64::from(libm::jn(n, kb)) - hankel2(n, kb) * ratio;
            if !term.is_finite() {
                break;
            }
            terms.push(phase * term * if n == 0 { 1.0 } else { 2.0 });
            phase *= C64::i();
        }
        Self { terms }
    }

    /// P at an azimuth seen from the pole, measured from the element's own.
    pub fn at(&self, azimuth_rad: f64) -> C64 {
        // cos nφ by Chebyshev's recurrence.
        let c = azimuth_rad.cos();
        let (mut before, mut now, mut sum) = (c, 1.0, C64::default());
        for term in &self.terms {
            sum += term * now;
            (before, now) = (now, 2.0 * c * now - before);
        }
        sum
    }
}

/// Hankel function of the second kind, integer order.
fn hankel2(n: i32, x: f64) -> C64 {
    C64::new(libm::jn(n, x), -libm::yn(n, x))
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    #[test]
    fn verif_a_vanishing_pole_leaves_a_plane_wave_phase() {
        // Jacobi–Anger: Σ e_n jⁿ J_n(x) cos nφ = e^{jx cos φ}. A pole of 1e-30 λ still scatters through its logarithm.
        let (k, b) = (2.0 * PI, 0.3);
        let thin = PoleSeries::new(k, 0.0, b, 1e-200);
        for deg in [0.0f64, 40.0, 133.0] {
            let a = deg.to_radians();
            let want = C64::from_polar(1.0, k * b * a.cos());
            assert!((thin.at(a) - want).norm() < 5e-3, "{deg}: {} {want}", thin.at(a));
        }
    }

    #[test]
    fn verif_field_vanishes_as_the_element_meets_the_metal() {
        let k = 2.0 * PI;
        let close = PoleSeries::new(k, 0.0, 0.0502, 0.05);
        assert!((0..12).all(|i| close.at(f64::from(i) * 0.5).norm() < 0.02));
    }
}
