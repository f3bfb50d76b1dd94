//! The antenna as a smooth function of its place on the mast.
//!
//! It is solved at Chebyshev points of the stand-off and at equal steps of the bearing within one repeat of the mast. Seen from the
//! bays' own bearing, port impedances and each bay's field are analytic in both, singular only where a conductor reaches the mast, so
//! polynomials in stand-off and harmonics of the mast's repeat in bearing converge geometrically, and how many points it takes follows
//! from the clearance. Currents of the feed come from the impedances between, fields by superposition.
//!
//! # Source
//! Trefethen, *Approximation Theory and Approximation Practice*, theorem 8.2: error ρ⁻ⁿ for functions analytic in the ellipse of
//! parameter ρ (from memory).

use std::f64::consts::{PI, TAU};

use rayon::prelude::*;

use super::grid::Solver;
use super::sphere::{Parts, Solved, Sphere, add_scaled, lagrange};
use super::{Found, Grid, Judged, MastPlace};
use crate::array::Matrix;
use crate::array::element::wave_number;
use crate::direction::Direction;
use crate::mount::{MountError, axis_distance_m};
use crate::pattern::dbd;

/// Solved at a few places, known between them.
pub(super) struct Smooth<'a> {
    solver: &'a Solver<'a>,
    stand_offs_m: Vec<f64>,
    bearings_deg: Vec<f64>,
    /// By stand-off, then by bearing.
    solved: Vec<Solved>,
    sphere: Sphere,
}

/// How an antenna radiates, as ratios to a half-wave dipole; bearings from the bays' own.
struct Radiated {
    field: Parts,
    /// Strongest gain of all elevations, dBd, degree by degree.
    strongest_dbd: Vec<f64>,
}

impl<'a> Smooth<'a> {
    /// Solves enough places between two stand-offs for so many digits.
    pub(super) fn new(
        solver: &'a Solver<'a>,
        (low_m, high_m): (f64, f64),
        digits: f64,
    ) -> Result<Self, MountError> {
        let sphere = Sphere::new(solver, high_m);
        let stand_offs_m = chebyshev(low_m, high_m, stand_offs(solver, (low_m, high_m), digits)?);
        let count = bearings(solver, low_m, digits)?;
        let repeat_deg = solver.repeat_deg().unwrap_or(360.0);
        let bearings_deg: Vec<f64> = (0..count).map(|i| repeat_deg * i as f64 / count as f64).collect();
        let places: Vec<MastPlace> = stand_offs_m
            .iter()
            .flat_map(|&stand_off_m| {
                bearings_deg.iter().map(move |&bearing_deg| MastPlace {
                    bearing_deg,
                    stand_off_m,
                })
            })
            .collect();
        // The first alone fills the mast's block for all that follow.
        let mut solved = vec![sphere.solved(solver, places[0])?];
        let others: Result<Vec<Solved>, MountError> = places[1..]
            .par_iter()
            .map(|place| sphere.solved(solver, *place))
            .collect();
        solved.extend(others?);
        Ok(Self {
            solver,
            stand_offs_m,
            bearings_deg,
            solved,
            sphere,
        })
    }

    /// Places [`Self::new`] would solve.
    pub(super) fn places(
        solver: &Solver,
        (low_m, high_m): (f64, f64),
        digits: f64,
    ) -> Result<usize, MountError> {
        Ok(stand_offs(solver, (low_m, high_m), digits)? * bearings(solver, low_m, digits)?)
    }

    /// Two places as far from the solved ones as can be: nearest to the mast, and in the middle.
    pub(super) fn between(&self) -> Vec<MastPlace> {
        let n = self.stand_offs_m.len();
        if n < 2 {
            return Vec::new();
        }
        let half = self.solver.repeat_deg().unwrap_or(0.0) / self.bearings_deg.len() as f64 / 2.0;
        [(0, 1), (n / 2, 0)]
            .into_iter()
            .map(|(i, j)| MastPlace {
                bearing_deg: self.bearings_deg[j % self.bearings_deg.len()] + half,
                stand_off_m: 0.5 * (self.stand_offs_m[i] + self.stand_offs_m[(i + 1).min(n - 1)]),
            })
            .collect()
    }

    /// Every place of a grid.
    pub(super) fn every(&self, grid: &Grid) -> Vec<Found> {
        let turns = grid.bearings_deg();
        let at = |stand_off_m: &f64| -> Vec<Found> {
            let mut known: Vec<(f64, Option<Radiated>)> = Vec::new();
            let mut out = Vec::new();
            for &bearing_deg in &turns {
                let alike = self.solver.within_repeat_deg(bearing_deg);
                let place = MastPlace {
                    bearing_deg,
                    stand_off_m: *stand_off_m,
                };
                let seat = known
                    .iter()
                    .position(|(b, _)| (b - alike).abs() < 1e-9)
                    .unwrap_or_else(|| {
                        known.push((alike, self.radiated(place)));
                        known.len() - 1
                    });
                out.extend(known[seat].1.as_ref().map(|r| self.judge(r, place)));
            }
            out
        };
        grid.stand_offs_m().par_iter().flat_map_iter(at).collect()
    }

    /// One place; none where the feed has no answer.
    pub(super) fn judged(&self, place: MastPlace) -> Option<Found> {
        self.radiated(place).map(|r| self.judge(&r, place))
    }

    fn judge(&self, radiated: &Radiated, place: MastPlace) -> Found {
        let own = |bearing: f64| (bearing - place.bearing_deg).rem_euclid(360.0);
        let strongest = |bearing: f64| {
            let x = own(bearing);
            let (i, t) = (x as usize, x - x.floor());
            let at = |i: usize| radiated.strongest_dbd[i % 360];
            at(i) * (1.0 - t) + at(i + 1) * t
        };
        let judged: Judged = self.solver.wish.judged_by(strongest, |d| {
            let towards = Direction::new(own(d.bearing_deg), d.elev_deg);
            dbd(self.sphere.power_towards(&radiated.field, towards))
        });
        judged.at(place)
    }

    /// How far what is told of a place lies from what is solved there, dB; none where the feed has no answer.
    pub(super) fn error_db(&self, place: MastPlace) -> Option<f64> {
        let solved = self.sphere.solved(self.solver, place).ok()?;
        let worst_dbw = |r: Radiated| self.judge(&r, place).worst_place_dbw;
        let (there, told) = (self.radiated_by(&solved)?, self.radiated(place)?);
        Some((worst_dbw(there) - worst_dbw(told)).abs())
    }

    fn radiated(&self, place: MastPlace) -> Option<Radiated> {
        let weights = self.weights(place);
        let n = self.solver.plan.bays.len();
        let mut mixed = Solved {
            ports_ohm: Matrix::zeros(n, n),
            fields: vec![self.sphere.zeros(); n],
        };
        for (solved, &w) in self.solved.iter().zip(&weights) {
            for i in 0..n {
                for j in 0..n {
                    mixed.ports_ohm[(i, j)] += solved.ports_ohm[(i, j)] * w;
                }
                add_scaled(&mut mixed.fields[i].re, &solved.fields[i].re, w as f32);
                add_scaled(&mut mixed.fields[i].im, &solved.fields[i].im, w as f32);
            }
        }
        self.radiated_by(&mixed)
    }

    fn radiated_by(&self, solved: &Solved) -> Option<Radiated> {
        let freq_mhz = self.solver.plan.frequency_mhz;
        let fed = self.solver.feed.solve_ports(&solved.ports_ohm, freq_mhz).ok()?;
        let scale = 1.0 / fed.accepted_w().sqrt();
        let mut field = self.sphere.zeros();
        for (bay, current) in solved.fields.iter().zip(&fed.currents_a) {
            let (re, im) = ((current.re * scale) as f32, (current.im * scale) as f32);
            add_scaled(&mut field.re, &bay.re, re);
            add_scaled(&mut field.re, &bay.im, -im);
            add_scaled(&mut field.im, &bay.re, im);
            add_scaled(&mut field.im, &bay.im, re);
        }
        let strongest_dbd = self.sphere.strongest_dbd(&field);
        Some(Radiated { field, strongest_dbd })
    }

    /// Share of every solved place in another one.
    fn weights(&self, place: MastPlace) -> Vec<f64> {
        let off = lagrange(&self.stand_offs_m, place.stand_off_m);
        let round: Vec<f64> = match self.solver.repeat_deg() {
            None => vec![1.0],
            Some(repeat_deg) => self
                .bearings_deg
                .iter()
                .map(|b| {
                    odd_kernel(
                        (place.bearing_deg - b) / repeat_deg * TAU,
                        self.bearings_deg.len(),
                    )
                })
                .collect(),
        };
        off.iter()
            .flat_map(|a| round.iter().map(move |b| a * b))
            .collect()
    }
}

/// Stand-offs that give so many digits: by the nearest that a conductor comes to the mast, and by how the phase turns on the way to
/// the mast and back.
fn stand_offs(solver: &Solver, (low_m, high_m): (f64, f64), digits: f64) -> Result<usize, MountError> {
    let half_m = 0.5 * (high_m - low_m);
    if half_m < 1e-6 {
        return Ok(1);
    }
    // Where a polynomial stops: as far beyond an end as the bay clears the mast there.
    let clear_m = clearance_m(solver, low_m)?.min(clearance_m(solver, high_m)?);
    let x = 1.0 + clear_m / half_m;
    let by_mast = digits * std::f64::consts::LN_10 / (x + (x * x - 1.0).sqrt()).ln();
    let turned = 2.0 * wave_number(solver.plan.frequency_mhz) * half_m;
    let by_phase = turned + 1.8 * digits.powf(2.0 / 3.0) * turned.cbrt();
    Ok(by_mast.max(by_phase).ceil() as usize)
}

/// Bearings within one repeat of the mast, an odd number: its harmonics fade with the ratio of its reach to the bay's distance.
fn bearings(solver: &Solver, low_m: f64, digits: f64) -> Result<usize, MountError> {
    let Some(repeat_deg) = solver.repeat_deg() else {
        return Ok(1);
    };
    let reach_m = solver.plan.mast.reach_m();
    let fade = (1.0 + clearance_m(solver, low_m)? / reach_m).ln() * 360.0 / repeat_deg;
    let harmonics = digits * std::f64::consts::LN_10 / fade;
    Ok(2 * (harmonics.ceil() as usize).max(2) - 1)
}

/// Room between the bays' conductors and the circle round the mast, m.
fn clearance_m(solver: &Solver, stand_off_m: f64) -> Result<f64, MountError> {
    let place = MastPlace {
        bearing_deg: 0.0,
        stand_off_m,
    };
    let (model, ports) = solver.plan.at_place(place).built()?;
    let nearest = ports
        .iter()
        .flat_map(|p| &model.wires[p.wires.clone()])
        .map(|w| axis_distance_m(w.start_m, w.end_m))
        .fold(f64::INFINITY, f64::min);
    Ok((nearest - solver.plan.mast.reach_m()).max(1e-3))
}

fn chebyshev(low: f64, high: f64, count: usize) -> Vec<f64> {
    (0..count)
        .map(|i| 0.5 * (low + high) - 0.5 * (high - low) * ((i as f64 + 0.5) / count as f64 * PI).cos())
        .collect()
}

/// Interpolating kernel of an odd number of equal steps.
fn odd_kernel(x: f64, count: usize) -> f64 {
    let half = 0.5 * x;
    if half.sin().abs() < 1e-12 {
        return 1.0;
    }
    (count as f64 * half).sin() / (count as f64 * half.sin())
}
