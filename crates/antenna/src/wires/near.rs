//! The field close to given currents: electric and magnetic, for currents that run linearly along short segments.
//!
//! # Source
//! Retarded potentials of a line current and of its charge dI/ds (any textbook of electromagnetics; Harrington, from memory):
//! E = −jkη/4π ∫ I ŝ g ds + jη/(4πk) ∫ I′ (1 + jkR)/R · g R̂ ds and H = 1/4π ∫ I (1 + jkR)/R · g ŝ × R̂ ds with g = e^(−jkR)/R.

use super::vector::{Point, dot, length, scale, sub};
use super::{Complex, FREE_SPACE_OHM};
use crate::quadrature::gauss_legendre;

/// Points of the quadrature on a segment that lies at least its own length away, and on a nearer one.
const FAR_POINTS: usize = 3;
const NEAR_POINTS: usize = 12;

/// A straight piece of wire with its current, amperes peak.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Index of the wire it belongs to.
    pub wire: usize,
    /// Where it starts, metres.
    pub start_m: Point,
    /// Where it ends, metres.
    pub end_m: Point,
    /// Current at its start, along it, A peak.
    pub start_a: Complex,
    /// Current at its end, A peak.
    pub end_a: Complex,
}

/// Electric (V/m) and magnetic (A/m) field vectors at a place, peak.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearField {
    /// Electric field, V/m peak.
    pub electric_v_m: [Complex; 3],
    /// Magnetic field, A/m peak.
    pub magnetic_a_m: [Complex; 3],
}

impl NearField {
    /// Root mean square of the electric field over time and all its directions, V/m.
    pub fn electric_rms_v_m(&self) -> f64 {
        rms(&self.electric_v_m)
    }

    /// Root mean square of the magnetic field, A/m.
    pub fn magnetic_rms_a_m(&self) -> f64 {
        rms(&self.magnetic_a_m)
    }

    /// Electric field of a plane wave that is as strong as the stronger of both fields here, V/m rms.
    pub fn equivalent_v_m(&self) -> f64 {
        self.electric_rms_v_m()
            .max(FREE_SPACE_OHM * self.magnetic_rms_a_m())
    }
}

fn rms(parts: &[Complex; 3]) -> f64 {
    (0.5 * parts.iter().map(|c| c.norm_sqr()).sum::<f64>()).sqrt()
}

/// Fields of all pieces at a place outside the wires, free space.
///
/// # Units
/// - `wave_number_per_m`: 2π/λ; `at_m`: the place, metres, in the pieces' axes
pub fn near_field(pieces: &[Piece], wave_number_per_m: f64, at_m: Point) -> NearField {
    let rules = [FAR_POINTS, NEAR_POINTS].map(gauss_legendre);
    let k = wave_number_per_m;
    let mut out = NearField {
        electric_v_m: [Complex::ZERO; 3],
        magnetic_a_m: [Complex::ZERO; 3],
    };
    let over = 1.0 / (4.0 * std::f64::consts::PI);
    let (by_current, by_charge) = (
        Complex::new(0.0, -k * FREE_SPACE_OHM * over),
        Complex::new(0.0, FREE_SPACE_OHM * over / k),
    );
    for piece in pieces {
        let span = sub(piece.end_m, piece.start_m);
        let long = length(span);
        let along = scale(span, 1.0 / long);
        let slope = (piece.end_a - piece.start_a) / long;
        let to_start = sub(at_m, piece.start_m);
        let rule = &rules[usize::from(beside_m(piece, at_m) < long)];
        for &(x, weight) in rule {
            let t = 0.5 * (x + 1.0);
            let current = piece.start_a + (piece.end_a - piece.start_a) * t;
            let toward = sub(to_start, scale(along, t * long));
            let distance = length(toward);
            let ray = scale(toward, 1.0 / distance);
            let wave = Complex::from_polar(0.5 * weight * long / distance, -k * distance);
            let steep = wave * Complex::new(1.0, k * distance) / distance;
            let (a, q, m) = (
                by_current * current * wave,
                by_charge * slope * steep,
                current * steep * over,
            );
            let turn = cross(along, ray);
            for i in 0..3 {
                out.electric_v_m[i] += a * along[i] + q * ray[i];
                out.magnetic_a_m[i] += m * turn[i];
            }
        }
    }
    out
}

/// Distance of a place from a piece, m.
pub(crate) fn beside_m(piece: &Piece, at_m: Point) -> f64 {
    let span = sub(piece.end_m, piece.start_m);
    let from = sub(at_m, piece.start_m);
    let t = (dot(from, span) / dot(span, span)).clamp(0.0, 1.0);
    length(sub(from, scale(span, t)))
}

fn cross(a: Point, b: Point) -> Point {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wires::far_field::Direction;
    use crate::wires::{Port, Solution, Wire, WireModel, solve};

    fn dipole() -> Solution {
        solve(&WireModel {
            wires: vec![Wire::new("dipole", [0.0, 0.0, -0.71], [0.0, 0.0, 0.71], 0.004)],
            ports: vec![Port {
                wire: 0,
                position: 0.5,
            }],
            frequency_mhz: 98.0,
            ..WireModel::default()
        })
        .unwrap()
    }

    fn pieces(solution: &Solution) -> Vec<Piece> {
        solution.pieces(&solution.drive(&[Complex::from(50.0)]).currents)
    }

    /// A thin half-wave dipole with a sinusoidal current: its near field in closed form (three spherical waves from ends and
    /// middle; Jordan and Balmain, Balanis: from memory), E_z = −jη I₀/4π (e^(−jkR₁)/R₁ + e^(−jkR₂)/R₂ − 2 cos(kH) e^(−jkr)/r).
    #[test]
    fn ref_near_field_of_a_sinusoidal_dipole() {
        let k = std::f64::consts::TAU * 98.0 / crate::wires::LIGHT_M_PER_US;
        let half = std::f64::consts::FRAC_PI_2 / k;
        let n = 60;
        let at = |i: usize| -half + 2.0 * half * i as f64 / n as f64;
        let current = |z: f64| Complex::from((k * (half - z.abs())).sin());
        let pieces: Vec<Piece> = (0..n)
            .map(|i| Piece {
                wire: 0,
                start_m: [0.0, 0.0, at(i)],
                end_m: [0.0, 0.0, at(i + 1)],
                start_a: current(at(i)),
                end_a: current(at(i + 1)),
            })
            .collect();
        for place in [
            [0.5, 0.0, 0.1],
            [1.2, 0.3, 0.9],
            [0.3, 0.0, -0.2],
            [4.0, 1.0, 2.0],
        ] {
            let near = near_field(&pieces, k, place);
            let wave = |z: f64| {
                let r = length(sub(place, [0.0, 0.0, z]));
                Complex::from_polar(1.0 / r, -k * r)
            };
            let want = Complex::new(0.0, -FREE_SPACE_OHM / (4.0 * std::f64::consts::PI))
                * (wave(half) + wave(-half));
            let got = near.electric_v_m[2];
            assert!(
                (got - want).norm() < 0.005 * want.norm(),
                "{place:?}: {got} {want}"
            );
        }
    }

    #[test]
    fn prop_far_away_it_is_the_far_field() {
        let solution = dipole();
        let pieces = pieces(&solution);
        let r = 400.0;
        let drive = solution.drive(&[Complex::from(50.0)]);
        let towards = Direction {
            azimuth_deg: 30.0,
            elevation_deg: 20.0,
        };
        let far = solution.far_field.at(&drive.currents, &[towards])[0];
        let (se, ce) = 20f64.to_radians().sin_cos();
        let (sa, ca) = 30f64.to_radians().sin_cos();
        let near = near_field(
            &pieces,
            solution.far_field.wave_number_per_m(),
            [r * ce * ca, r * ce * sa, r * se],
        );
        let far_rms = far[0].norm() / r * std::f64::consts::FRAC_1_SQRT_2;
        assert!((near.electric_rms_v_m() / far_rms - 1.0).abs() < 1e-3);
        // A plane wave: E/H is the impedance of free space.
        assert!((near.electric_rms_v_m() / near.magnetic_rms_a_m() / FREE_SPACE_OHM - 1.0).abs() < 1e-3);
    }

    /// Ampère's law round the middle of the dipole, close by: H = I/(2πρ).
    #[test]
    fn prop_ampere_close_to_the_wire() {
        let solution = dipole();
        let drive = solution.drive(&[Complex::from(50.0)]);
        let near = near_field(
            &pieces(&solution),
            solution.far_field.wave_number_per_m(),
            [0.03, 0.0, 0.0],
        );
        let want = drive.amperes[0].norm() / (std::f64::consts::TAU * 0.03) * std::f64::consts::FRAC_1_SQRT_2;
        assert!((near.magnetic_rms_a_m() / want - 1.0).abs() < 0.03);
    }
}
