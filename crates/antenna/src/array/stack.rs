//! Stacks of bays: geometry, checks and the port matrix.

use num_complex::Complex64 as C64;

use super::element::{Bay, ElementKind, wave_number};
use super::mutual::mutual_impedance_ohm;
use super::{ArrayError, Matrix, Pole, within};
use crate::direction::{Direction, dot, minus, norm};
use crate::line::wavelength_m;

/// Bays, the pole beside them, and the frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct Stack {
    /// Frequency, MHz.
    pub frequency_mhz: f64,
    /// Bays, lowest first by custom.
    pub bays: Vec<Bay>,
    /// A round pole, if any.
    pub pole: Option<Pole>,
}

/// A usual stack in a few words: equal bays one above another.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct StackPlan {
    /// Frequency, MHz.
    pub frequency_mhz: f64,
    /// Number of bays.
    pub bays: usize,
    /// Centre to centre, m.
    pub spacing_m: f64,
    /// What each bay is.
    pub element: ElementKind,
    /// Where the bays face, clockwise from true north, degrees.
    pub bearing_deg: f64,
    /// Pole radius, m; none in free space.
    pub pole_radius_m: Option<f64>,
    /// Distance of the bays' axis from the pole's axis, m. Ignored without a pole.
    pub stand_off_m: f64,
}

impl StackPlan {
    /// The stack, its middle at height 0 and the pole (or the bays, without one) at the origin.
    ///
    /// # Errors
    /// Whatever [`Stack::check`] finds.
    pub fn stack(&self) -> Result<Stack, ArrayError> {
        let f = self.frequency_mhz;
        within("frequency-in-mhz", f, f > 0.0, "a-frequency-above-0")?;
        if self.bays > 1 {
            within(
                "spacing-of-the-bays-in-m",
                self.spacing_m,
                self.spacing_m > 0.0,
                "a-distance-above-0",
            )?;
        }
        let ahead = Direction::new(self.bearing_deg, 0.0).unit();
        let out_m = if self.pole_radius_m.is_some() {
            self.stand_off_m
        } else {
            0.0
        };
        let middle = (self.bays as f64 - 1.0) / 2.0;
        let bays = (0..self.bays)
            .map(|i| {
                let up = (i as f64 - middle) * self.spacing_m;
                let place = [ahead[0] * out_m, ahead[1] * out_m, up];
                Bay::half_wave(self.element, self.bearing_deg, place, f)
            })
            .collect();
        let pole = self.pole_radius_m.map(|radius_m| Pole {
            east_m: 0.0,
            north_m: 0.0,
            radius_m,
        });
        let stack = Stack {
            frequency_mhz: f,
            bays,
            pole,
        };
        stack.check()?;
        Ok(stack)
    }
}

impl Stack {
    /// Refuses what the model cannot answer: no bay, lengths at full wave, bays that touch, a bay inside the pole.
    ///
    /// # Errors
    /// The first of these as an [`ArrayError`], with the bay's number.
    pub fn check(&self) -> Result<(), ArrayError> {
        let f = self.frequency_mhz;
        within("frequency-in-mhz", f, f > 0.0, "a-frequency-above-0")?;
        if self.bays.is_empty() || self.bays.len() > 64 {
            return Err(ArrayError::BayCount {
                count: self.bays.len(),
            });
        }
        for (i, bay) in self.bays.iter().enumerate() {
            bay.check(f)?;
            self.check_pole(i, bay)?;
            for (j, other) in self.bays.iter().enumerate().skip(i + 1) {
                check_apart(i, bay, j, other)?;
            }
        }
        Ok(())
    }

    fn check_pole(&self, index: usize, bay: &Bay) -> Result<(), ArrayError> {
        let Some(pole) = self.pole else { return Ok(()) };
        within(
            "radius-of-the-pole-in-m",
            pole.radius_m,
            pole.radius_m > 0.0,
            "a-radius-above-0",
        )?;
        let distance_m = (bay.position_m[0] - pole.east_m).hypot(bay.position_m[1] - pole.north_m);
        let tube_m = bay.arms.iter().map(|a| a.radius_m).fold(0.0, f64::max);
        if distance_m <= pole.radius_m + tube_m {
            return Err(ArrayError::InsidePole {
                bay: index + 1,
                distance_m,
                radius_m: pole.radius_m,
            });
        }
        Ok(())
    }

    /// Height between the outermost ends and largest horizontal distance from the axis of height, m.
    pub fn extent_m(&self) -> (f64, f64) {
        let (mut low, mut high, mut out) = (f64::INFINITY, f64::NEG_INFINITY, 0.0f64);
        for bay in &self.bays {
            let reach = |i: usize| {
                bay.arms
                    .iter()
                    .map(|a| (a.axis[i] * a.half_m).abs())
                    .fold(0.0, f64::max)
            };
            low = low.min(bay.position_m[2] - reach(2));
            high = high.max(bay.position_m[2] + reach(2));
            out = out.max(bay.position_m[0].hypot(bay.position_m[1]) + reach(0).hypot(reach(1)));
        }
        ((high - low).max(0.0), out)
    }

    /// Distance from which the far field of the whole stack holds: 2D²/λ, m.
    pub fn far_field_m(&self) -> f64 {
        let d = self.extent_m().0.max(self.extent_m().1);
        2.0 * d * d / wavelength_m(self.frequency_mhz)
    }

    /// Impedances between the bays' connectors, ohm, in free space: induced EMF off the diagonal, each bay's own model on it.
    ///
    /// # Errors
    /// Whatever [`Self::check`] finds.
    pub fn port_matrix_ohm(&self) -> Result<Matrix, ArrayError> {
        self.check()?;
        let k = wave_number(self.frequency_mhz);
        let n = self.bays.len();
        let mut own: Vec<(usize, f64, C64)> = Vec::new();
        let mut turns = Vec::with_capacity(n);
        let mut z = Matrix::zeros(n, n);
        for (m, bay) in self.bays.iter().enumerate() {
            let alike = own
                .iter()
                .find(|o| self.bays[o.0].arms == bay.arms && self.bays[o.0].port == bay.port);
            let (ratio, lone) = match alike {
                Some(o) => (o.1, o.2),
                None => {
                    let fresh = (bay.turns(), bay.self_impedance_ohm(self.frequency_mhz));
                    own.push((m, fresh.0, fresh.1));
                    fresh
                }
            };
            turns.push(ratio);
            z[(m, m)] = lone;
        }
        // Equal bays at equal distances couple alike: an even stack has N − 1 couplings, not N²/2.
        let mut known: Vec<(usize, usize, C64, C64)> = Vec::new();
        for m in 0..n {
            for q in m + 1..n {
                let (a, b) = match known.iter().find(|c| self.couple_alike((c.0, c.1), (m, q))) {
                    Some(c) => (c.2, c.3),
                    None => {
                        let (a, b) = between(&self.bays[m], &self.bays[q], k);
                        known.push((m, q, a, b));
                        (a, b)
                    }
                };
                z[(m, q)] = a * (turns[m] * turns[q]);
                z[(q, m)] = b * (turns[m] * turns[q]);
            }
        }
        Ok(z)
    }

    fn couple_alike(&self, (a, b): (usize, usize), (m, q): (usize, usize)) -> bool {
        let offset = |i: usize, j: usize| minus(self.bays[j].position_m, self.bays[i].position_m);
        norm(minus(offset(a, b), offset(m, q))) < 1e-9
            && self.bays[a].arms == self.bays[m].arms
            && self.bays[b].arms == self.bays[q].arms
    }

    /// The same antenna moved so that the mean of its bays is the origin; far fields change in phase only.
    pub(crate) fn centred(&self) -> Stack {
        let n = self.bays.len().max(1) as f64;
        let mean: [f64; 3] =
            std::array::from_fn(|i| self.bays.iter().map(|b| b.position_m[i]).sum::<f64>() / n);
        let mut out = self.clone();
        for bay in &mut out.bays {
            bay.position_m = minus(bay.position_m, mean);
        }
        if let Some(pole) = &mut out.pole {
            pole.east_m -= mean[0];
            pole.north_m -= mean[1];
        }
        out
    }

    /// The same antenna at another frequency: lengths and places stay.
    pub fn at_frequency(&self, frequency_mhz: f64) -> Stack {
        Stack {
            frequency_mhz,
            ..self.clone()
        }
    }
}

/// Coupling of two bays at their dipoles: volts at m per ampere at q, and volts at q per ampere at m. They differ only where a
/// bay's own phasing is not reciprocal (quadrature weights).
fn between(m: &Bay, q: &Bay, k: f64) -> (C64, C64) {
    let (mut at_m, mut at_q) = (C64::default(), C64::default());
    for a in &m.arms {
        for b in &q.arms {
            let z = mutual_impedance_ohm(&m.filament(a), &q.filament(b), k);
            at_m += a.weight.conj() * b.weight * z;
            at_q += b.weight.conj() * a.weight * z;
        }
    }
    (at_m, at_q)
}

/// Refuses bays whose conductors come closer than their tubes are thick.
fn check_apart(i: usize, bay: &Bay, j: usize, other: &Bay) -> Result<(), ArrayError> {
    for a in &bay.arms {
        for b in &other.arms {
            let needed = a.radius_m + b.radius_m;
            let distance_m = segment_distance_m(
                (bay.position_m, a.axis, a.half_m),
                (other.position_m, b.axis, b.half_m),
            );
            let overlap = distance_m < 1e-6;
            // Collinear ends may touch in theory (0.5 λ); overlapping along one line may not.
            let beside = perpendicular_offset_m(bay, a.axis, other) > needed * 0.5;
            if (beside && distance_m < needed) || (!beside && overlap && ends_overlap(bay, a, other, b)) {
                return Err(ArrayError::Touching {
                    first: i + 1,
                    second: j + 1,
                    distance_m,
                    needed_m: (needed - distance_m).max(0.001),
                });
            }
        }
    }
    Ok(())
}

fn perpendicular_offset_m(bay: &Bay, axis: [f64; 3], other: &Bay) -> f64 {
    let d = minus(other.position_m, bay.position_m);
    let along = dot(d, axis);
    norm([
        d[0] - along * axis[0],
        d[1] - along * axis[1],
        d[2] - along * axis[2],
    ])
}

fn ends_overlap(bay: &Bay, a: &super::Arm, other: &Bay, b: &super::Arm) -> bool {
    let along = dot(minus(other.position_m, bay.position_m), a.axis).abs();
    along < a.half_m + b.half_m * dot(a.axis, b.axis).abs() - 1e-6
}

/// Shortest distance between two segments given by centre, axis and half-length, m.
fn segment_distance_m(p: ([f64; 3], [f64; 3], f64), q: ([f64; 3], [f64; 3], f64)) -> f64 {
    let w = minus(p.0, q.0);
    let (b, d, e) = (dot(p.1, q.1), dot(p.1, w), dot(q.1, w));
    let den = 1.0 - b * b;
    let mut s = if den < 1e-12 { 0.0 } else { (b * e - d) / den };
    s = s.clamp(-p.2, p.2);
    let t = (b * s + e).clamp(-q.2, q.2);
    s = (b * t - d).clamp(-p.2, p.2);
    norm(std::array::from_fn(|i| w[i] + s * p.1[i] - t * q.1[i]))
}
