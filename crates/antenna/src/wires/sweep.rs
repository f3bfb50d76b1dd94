//! Many frequencies from few solutions.
//!
//! Currents of a linear antenna are, over a band, very nearly rational functions of frequency with one denominator for all of
//! them. A few solutions fix it; more are added, each first predicted and then solved, until a prediction holds and the one
//! before it nearly did.
//! An antenna that does not follow gets every frequency solved. The matrix elements themselves could be interpolated too
//! (with e^(−jkR) taken out), but that leaves the factorisation, the larger part, at every frequency.
//!
//! # Source
//! Barycentric rational interpolation with weights from the least singular vector of the Loewner matrix: Nakatsukasa, Sète &
//! Trefethen, *The AAA algorithm for rational approximation*, 2018 (from memory), here with one denominator for a vector.

use super::Complex;
use super::cuts;
use super::far_field::FarField;
use super::fault::WireFault;
use super::geometry::WireModel;
use super::solve::{Solution, solve};
use faer::{Mat, Side};

/// Fewest frequencies for which interpolation is tried.
const LEAST: usize = 9;
/// A prediction that holds by luck does not count: the one before must have come within this many tolerances.
const COMING: f64 = 50.0;

/// An antenna over a band, on one mesh.
#[derive(Clone, Debug)]
pub struct Sweep {
    /// One for each frequency asked for.
    pub solutions: Vec<Solution>,
    /// Whether that one was solved rather than interpolated.
    pub solved: Vec<bool>,
    /// Relative error of the last prediction against its solution, which then joined the others; 0 when all were solved.
    pub check: f64,
}

/// Solves over rising frequencies, MHz, interpolating once a prediction agrees with its solution within `tolerance` (relative, of the admittance matrix and of the currents; 1e-3 is a hundredth of a decibel).
///
/// # Errors
/// Those of [`solve`], and [`WireFault::BadFrequency`] when the frequencies do not rise.
pub fn sweep(model: &WireModel, frequencies_mhz: &[f64], tolerance: f64) -> Result<Sweep, WireFault> {
    for (index, &f) in frequencies_mhz.iter().enumerate() {
        let rises = index == 0 || f > frequencies_mhz[index - 1];
        if !(f.is_finite() && f > 0.0 && rises) {
            return Err(WireFault::BadFrequency { frequency_mhz: f });
        }
    }
    let Some(&highest) = frequencies_mhz.last() else {
        return Ok(Sweep {
            solutions: Vec::new(),
            solved: Vec::new(),
            check: 0.0,
        });
    };
    let model = one_mesh(model, highest);
    let mut known: Vec<(usize, Solution)> = Vec::new();
    let solve_at = |index: usize| -> Result<(usize, Solution), WireFault> {
        Ok((
            index,
            solve(&WireModel {
                frequency_mhz: frequencies_mhz[index],
                ..model.clone()
            })?,
        ))
    };
    let last = frequencies_mhz.len() - 1;
    let (mut holds, mut check) = (false, 0.0);
    if last + 1 >= LEAST {
        for index in [0, last, last / 2, last / 4, last - last / 4] {
            known.push(solve_at(index)?);
        }
        let mut before = f64::INFINITY;
        while !holds && known.len() <= last {
            let next = widest_gap(&known, frequencies_mhz);
            let fit = Rational::new(&known, frequencies_mhz);
            let (_, solution) = solve_at(next)?;
            check = fit.error(&known, &solution, frequencies_mhz[next]);
            holds = check < tolerance && before < COMING * tolerance;
            before = check;
            known.push((next, solution));
        }
    }
    let fit = holds.then(|| Rational::new(&known, frequencies_mhz));
    let mut solutions = Vec::new();
    let mut solved = Vec::new();
    for (index, &frequency_mhz) in frequencies_mhz.iter().enumerate() {
        let stored = known.iter().find(|k| k.0 == index).map(|k| k.1.clone());
        solved.push(stored.is_some() || fit.is_none());
        solutions.push(match (stored, &fit) {
            (Some(solution), _) => solution,
            (None, Some(fit)) => fit.solution(&known, &model, frequency_mhz),
            (None, None) => solve_at(index)?.1,
        });
    }
    Ok(Sweep {
        solutions,
        solved,
        check,
    })
}

/// The model with the segments that the highest frequency wants, so that every frequency has the same unknowns.
fn one_mesh(model: &WireModel, highest_mhz: f64) -> WireModel {
    let mut fixed = WireModel {
        frequency_mhz: highest_mhz,
        ..model.clone()
    };
    let places_exist = model
        .ports
        .iter()
        .map(|p| p.wire)
        .chain(model.loads.iter().map(|l| l.wire))
        .all(|w| w < model.wires.len());
    if places_exist && model.wires.iter().all(|w| w.length_m() > 0.0 && w.radius_m > 0.0) {
        let segments: Vec<usize> = (0..model.wires.len())
            .map(|w| cuts::segments_of(&fixed, w))
            .collect();
        fixed
            .wires
            .iter_mut()
            .zip(segments)
            .for_each(|(wire, n)| wire.segments = Some(n));
    }
    fixed
}

/// The frequency farthest from those already solved.
fn widest_gap(known: &[(usize, Solution)], frequencies_mhz: &[f64]) -> usize {
    let distance = |i: usize| {
        let away = |k: &(usize, Solution)| (frequencies_mhz[i] - frequencies_mhz[k.0]).abs();
        known.iter().map(away).fold(f64::INFINITY, f64::min)
    };
    (0..frequencies_mhz.len())
        .max_by(|a, b| distance(*a).total_cmp(&distance(*b)))
        .unwrap_or(0)
}

/// Barycentric weights over some of the known frequencies, fitted to the others.
struct Rational {
    support: Vec<usize>,
    at_mhz: Vec<f64>,
    weights: Vec<Complex>,
}

impl Rational {
    /// All known ones but one are support; that one, in mid-band, fits the weights: its many currents are equations enough.
    fn new(known: &[(usize, Solution)], frequencies_mhz: &[f64]) -> Self {
        let mut inner: Vec<usize> = (0..known.len()).collect();
        inner.sort_by_key(|i| known[*i].0);
        let fitted = [inner[inner.len() / 2]];
        let support: Vec<usize> = inner.into_iter().filter(|i| !fitted.contains(i)).collect();
        let at_mhz: Vec<f64> = support.iter().map(|i| frequencies_mhz[known[*i].0]).collect();
        let m = support.len();
        let mut gram = Mat::<Complex>::zeros(m, m);
        for &row in &fitted {
            let f = frequencies_mhz[known[row].0];
            let slopes: Vec<Vec<Complex>> = support
                .iter()
                .zip(&at_mhz)
                .map(|(s, at)| {
                    differences(&known[row].1, &known[*s].1)
                        .map(|d| d / (f - at))
                        .collect()
                })
                .collect();
            for i in 0..m {
                for j in 0..m {
                    gram[(i, j)] += slopes[i]
                        .iter()
                        .zip(&slopes[j])
                        .map(|(a, b)| a.conj() * b)
                        .sum::<Complex>();
                }
            }
        }
        let weights = match gram.self_adjoint_eigen(Side::Lower) {
            Ok(eigen) => (0..m).map(|i| eigen.U()[(i, 0)]).collect(),
            Err(_) => vec![Complex::ONE; m],
        };
        Self {
            support,
            at_mhz,
            weights,
        }
    }

    /// What each supporting solution contributes at a frequency.
    fn shares(&self, frequency_mhz: f64) -> Vec<Complex> {
        let parts: Vec<Complex> = self
            .weights
            .iter()
            .zip(&self.at_mhz)
            .map(|(w, at)| w / (frequency_mhz - at))
            .collect();
        let total: Complex = parts.iter().sum();
        parts.iter().map(|p| p / total).collect()
    }

    fn solution(&self, known: &[(usize, Solution)], model: &WireModel, frequency_mhz: f64) -> Solution {
        let shares = self.shares(frequency_mhz);
        let template = &known[self.support[0]].1;
        let mut mixed = template.clone();
        let mix = |pick: &dyn Fn(&Solution) -> Complex| -> Complex {
            self.support
                .iter()
                .zip(&shares)
                .map(|(s, share)| pick(&known[*s].1) * share)
                .sum()
        };
        for (i, row) in mixed.admittance.iter_mut().enumerate() {
            for (j, y) in row.iter_mut().enumerate() {
                *y = mix(&|s| s.admittance[i][j]);
            }
        }
        for (port, currents) in mixed.embedded.iter_mut().enumerate() {
            for (index, ends) in currents.iter_mut().enumerate() {
                *ends = [0, 1].map(|e| mix(&|s| s.embedded[port][index][e]));
            }
        }
        mixed.frequency_mhz = frequency_mhz;
        mixed.far_field = FarField::new(
            &WireModel {
                frequency_mhz,
                ..model.clone()
            },
            &mixed.mesh,
        );
        mixed
    }

    /// Relative distance of the prediction from a solution: the larger of admittances and currents, root of squares each.
    fn error(&self, known: &[(usize, Solution)], truth: &Solution, frequency_mhz: f64) -> f64 {
        let shares = self.shares(frequency_mhz);
        let mut worst = 0.0f64;
        for part in [admittances, currents] {
            let mut predicted: Vec<Complex> = part(truth).map(|v| -v).collect();
            for (s, share) in self.support.iter().zip(&shares) {
                predicted
                    .iter_mut()
                    .zip(part(&known[*s].1))
                    .for_each(|(sum, v)| *sum += v * share);
            }
            let size =
                |values: &mut dyn Iterator<Item = Complex>| values.map(|v| v.norm_sqr()).sum::<f64>().sqrt();
            worst = worst.max(size(&mut predicted.into_iter()) / size(&mut part(truth)));
        }
        worst
    }
}

fn admittances(solution: &Solution) -> Box<dyn Iterator<Item = Complex> + '_> {
    Box::new(solution.admittance.iter().flatten().copied())
}

fn currents(solution: &Solution) -> Box<dyn Iterator<Item = Complex> + '_> {
    Box::new(solution.embedded.iter().flatten().flatten().copied())
}

fn differences<'a>(a: &'a Solution, b: &'a Solution) -> impl Iterator<Item = Complex> + 'a {
    currents(a).zip(currents(b)).map(|(a, b)| a - b)
}
