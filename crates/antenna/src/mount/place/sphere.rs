//! Fields over the directions that fix them, from the bays' own bearing.

use std::f64::consts::TAU;

use super::MastPlace;
use super::grid::Solver;
use crate::array::Matrix;
use crate::array::element::wave_number;
use crate::direction::Direction;
use crate::mount::MountError;
use crate::pattern::dbd;

/// Directions are at least so dense: every 10° of bearing, 2.5° of elevation.
const LEAST_BEARINGS: usize = 36;
const LARGEST_ELEV_STEP_DEG: f64 = 2.5;
/// Phase of the outermost bay from one elevation to the next, radians: a cubic between four samples is then within 1e-3.
const ELEV_STEP_RAD: f64 = 0.35;

/// One place solved: what one ampere into each connector gives, the others open.
pub(super) struct Solved {
    pub(super) ports_ohm: Matrix,
    /// By bay.
    pub(super) fields: Vec<Parts>,
}

/// Real and imaginary parts, elevation by elevation.
#[derive(Clone)]
pub(super) struct Parts {
    pub(super) re: Vec<f32>,
    pub(super) im: Vec<f32>,
}

/// Directions that fix a field, bearings from the bays' own.
pub(super) struct Sphere {
    bearings: usize,
    elevs: usize,
    /// From the samples round the circle to every degree.
    to_degrees: Vec<Vec<f64>>,
}

impl Sphere {
    pub(super) fn new(solver: &Solver, high_m: f64) -> Self {
        let k = wave_number(solver.plan.frequency_mhz);
        // Powers have twice the harmonics of fields; the bay's own breadth counts as a metre.
        let harmonics = (k * (high_m + 1.0)).ceil() as usize + 2;
        let bearings = (4 * harmonics).max(LEAST_BEARINGS);
        let tall_m = solver
            .plan
            .bays
            .iter()
            .map(|b| b.height_m.abs())
            .fold(0.0, f64::max);
        let step_deg = (ELEV_STEP_RAD / (k * tall_m.max(0.1)))
            .to_degrees()
            .min(LARGEST_ELEV_STEP_DEG);
        let to_degrees = (0..360).map(|b| circle_weights(f64::from(b), bearings)).collect();
        Self {
            bearings,
            elevs: (180.0 / step_deg).ceil() as usize + 1,
            to_degrees,
        }
    }

    fn elev_deg(&self, index: usize) -> f64 {
        -90.0 + 180.0 * index as f64 / (self.elevs - 1) as f64
    }

    pub(super) fn solved(&self, solver: &Solver, place: MastPlace) -> Result<Solved, MountError> {
        let mounted = solver.solved(place)?;
        let bearings: Vec<f64> = (0..self.bearings)
            .map(|i| place.bearing_deg + 360.0 * i as f64 / self.bearings as f64)
            .collect();
        let elevs: Vec<f64> = (0..self.elevs).map(|e| self.elev_deg(e)).collect();
        let plane = solver.wish.plane as usize;
        let fields = mounted
            .alone(&bearings, &elevs)
            .iter()
            .map(|grid| Parts {
                re: grid.fields.iter().map(|f| f[plane].re as f32).collect(),
                im: grid.fields.iter().map(|f| f[plane].im as f32).collect(),
            })
            .collect();
        Ok(Solved {
            ports_ohm: mounted.ports_ohm().clone(),
            fields,
        })
    }

    /// The strongest elevation of every sampled bearing, by a parabola through three samples; between bearings by harmonics.
    pub(super) fn strongest_dbd(&self, field: &Parts) -> Vec<f64> {
        let power = |e: usize, b: usize| {
            let at = e * self.bearings + b;
            f64::from(field.re[at]).powi(2) + f64::from(field.im[at]).powi(2)
        };
        let strongest: Vec<f64> = (0..self.bearings)
            .map(|b| {
                let top = (0..self.elevs)
                    .max_by(|d, e| power(*d, b).total_cmp(&power(*e, b)))
                    .unwrap_or(0);
                let middle = power(top, b);
                if top == 0 || top + 1 == self.elevs {
                    return middle;
                }
                let (below, above) = (power(top - 1, b), power(top + 1, b));
                let bend = below - 2.0 * middle + above;
                if bend < 0.0 {
                    middle - (below - above).powi(2) / (8.0 * bend)
                } else {
                    middle
                }
            })
            .collect();
        self.to_degrees
            .iter()
            .map(|weights| {
                dbd(weights
                    .iter()
                    .zip(&strongest)
                    .map(|(w, p)| w * p)
                    .sum::<f64>()
                    .max(0.0))
            })
            .collect()
    }

    /// Harmonics round the circle, a cubic in elevation.
    pub(super) fn power_towards(&self, field: &Parts, towards: Direction) -> f64 {
        let weights = circle_weights(towards.bearing_deg, self.bearings);
        let y = (towards.elev_deg.clamp(-90.0, 90.0) + 90.0) / 180.0 * (self.elevs - 1) as f64;
        let first = (y.floor() as usize).saturating_sub(1).min(self.elevs - 4);
        let rows: Vec<f64> = (first..first + 4).map(|e| e as f64).collect();
        let (mut re, mut im) = (0.0, 0.0);
        for (row, up) in lagrange(&rows, y).into_iter().enumerate() {
            let at = (first + row) * self.bearings;
            for (b, across) in weights.iter().enumerate() {
                re += up * across * f64::from(field.re[at + b]);
                im += up * across * f64::from(field.im[at + b]);
            }
        }
        re * re + im * im
    }
}

impl Sphere {
    pub(super) fn zeros(&self) -> Parts {
        let cells = self.bearings * self.elevs;
        Parts {
            re: vec![0.0; cells],
            im: vec![0.0; cells],
        }
    }
}

#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
pub(super) fn add_scaled(to: &mut [f32], from: &[f32], factor: f32) {
    to.iter_mut().zip(from).for_each(|(a, b)| *a += factor * b);
}

/// Shares of samples in the polynomial through them.
pub(super) fn lagrange(at: &[f64], x: f64) -> Vec<f64> {
    (0..at.len())
        .map(|i| {
            let others = at.iter().enumerate().filter(|(j, _)| *j != i);
            others.map(|(_, a)| (x - a) / (at[i] - a)).product()
        })
        .collect()
}

/// Shares of equal steps round a circle, the first at 0°.
fn circle_weights(bearing_deg: f64, count: usize) -> Vec<f64> {
    (0..count)
        .map(|i| even_kernel(bearing_deg.to_radians() - TAU * i as f64 / count as f64, count))
        .collect()
}

/// Interpolating kernel of an even number of equal steps.
fn even_kernel(x: f64, count: usize) -> f64 {
    let half = 0.5 * x;
    if half.sin().abs() < 1e-12 {
        return 1.0;
    }
    (count as f64 * half).sin() / (count as f64 * half.tan())
}
