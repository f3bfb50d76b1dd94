//! How little power could do, whatever the excitation: a bound that no network, splitter or search can pass for bays in their places.
//!
//! Currents I reach |Σ Iᵢfᵢ|² = tr(F X) W of ERP in a direction with X = I Iᴴ, for a power tr(R X). People grow with ERP along a curve
//! for each direction. Both are relaxed: X to any mixture of currents, each curve to the least concave one above it. What is left is a
//! concave function over a set whose best linear step is an eigenvector, so the method of Frank and Wolfe gives with each step a
//! value that nothing exceeds.
//!
//! # Source
//! Frank and Wolfe, *An algorithm for quadratic programming*, 1956 (from memory).

use faer::{Mat, Side};
use num_complex::Complex64 as C64;

use super::seen::Solved;
use super::{Audience, Bounds};
use crate::mount::{MountError, MountPlan};

/// Steps of the curves, dB, and how far they reach below the most that a direction can get.
const STEP_DB: f64 = 0.25;
const DEEP_DB: f64 = 60.0;
/// Steps of the ascent for one power.
const ROUNDS: usize = 200;
/// Halvings of the bracket of power.
const HALVINGS: usize = 9;

/// Power into the bays below which no currents in them reach so many people, W: masks, limits, losses and mismatch left out. None
/// where even `most_w` may not do.
///
/// # Errors
/// Those of [`MountPlan::solved`].
pub fn least_power_floor_w(
    plan: &MountPlan,
    audience: &dyn Audience,
    people: f64,
    most_w: f64,
) -> Result<Option<f64>, MountError> {
    let bounds = Bounds {
        masks: Vec::new(),
        power_w: most_w,
        bay_w: None,
        stand_off_m: (0.0, 0.0),
        share_spread_db: 0.0,
    };
    let mounted = plan.solved()?;
    let solved = Solved::new(plan.clone(), &mounted, &bounds);
    let towards = Towards::new(&solved, audience);
    let may = |power_w: f64| towards.may_reach(audience, people, power_w);
    if !may(most_w) {
        return Ok(None);
    }
    let (mut low_db, mut high_db) = (-20.0, 0.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low_db + high_db);
        if may(most_w * 10f64.powf(middle / 10.0)) {
            high_db = middle;
        } else {
            low_db = middle;
        }
    }
    Ok(Some(most_w * 10f64.powf(low_db / 10.0)))
}

/// For each direction the field of currents that are scaled so that the sum of their squares is the power: conjugate, plane by plane.
struct Towards(Vec<Vec<Vec<C64>>>);

impl Towards {
    fn new(solved: &Solved, audience: &dyn Audience) -> Self {
        let resistance = solved.resistance_ohm();
        let n = resistance.len();
        // R/2 = L Lᵀ: peak amperes.
        let mut lower = vec![vec![0.0; n]; n];
        for i in 0..n {
            for j in 0..=i {
                let known: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
                let left = 0.5 * resistance[i][j] - known;
                lower[i][j] = if i == j {
                    left.max(1e-12).sqrt()
                } else {
                    left / lower[j][j]
                };
            }
        }
        let scaled = |field: Vec<C64>| {
            let mut out: Vec<C64> = Vec::with_capacity(n);
            for (i, f) in field.into_iter().enumerate() {
                let known: C64 = out.iter().zip(&lower[i]).map(|(x, l)| x.conj() * l).sum();
                out.push(((f - known) / lower[i][i]).conj());
            }
            out
        };
        Self(
            solved
                .fields_towards(audience)
                .into_iter()
                .map(|planes| planes.into_iter().map(scaled).collect())
                .collect(),
        )
    }

    /// Whether the bound leaves so many people possible.
    fn may_reach(&self, audience: &dyn Audience, people: f64, power_w: f64) -> bool {
        let curves: Vec<Curve> = self
            .0
            .iter()
            .enumerate()
            .map(|(d, planes)| {
                let most_w = power_w * planes.iter().flatten().map(|a| a.norm_sqr()).sum::<f64>();
                Curve::new(most_w, |dbw| audience.people_behind(d, dbw))
            })
            .collect();
        let n = self.0.first().and_then(|p| p.first()).map_or(0, Vec::len);
        let mut mixture = Mat::<C64>::from_fn(n, n, |i, j| {
            C64::from(if i == j { power_w / n as f64 } else { 0.0 })
        });
        for round in 0..ROUNDS {
            let mut slopes = Mat::<C64>::zeros(n, n);
            let (mut reached, mut spent) = (0.0, 0.0);
            for (planes, curve) in self.0.iter().zip(&curves) {
                let erp_w: f64 = planes.iter().map(|a| form(&mixture, a)).sum();
                let (value, slope) = curve.at(erp_w);
                reached += value;
                spent += slope * erp_w;
                for a in planes {
                    for i in 0..n {
                        for j in 0..n {
                            slopes[(i, j)] += slope * a[i] * a[j].conj();
                        }
                    }
                }
            }
            if reached >= people {
                return true;
            }
            let Ok(eigen) = slopes.self_adjoint_eigen(Side::Lower) else {
                return true;
            };
            let (values, vectors) = (eigen.S(), eigen.U());
            let top = (0..n)
                .max_by(|a, b| values[*a].re.total_cmp(&values[*b].re))
                .unwrap_or(0);
            if reached + power_w * values[top].re - spent < people {
                return false;
            }
            let step = 2.0 / (round as f64 + 3.0);
            for i in 0..n {
                for j in 0..n {
                    let one = vectors[(i, top)] * vectors[(j, top)].conj() * power_w;
                    mixture[(i, j)] = mixture[(i, j)] * (1.0 - step) + one * step;
                }
            }
        }
        true
    }
}

/// aᴴ Y a.
fn form(mixture: &Mat<C64>, a: &[C64]) -> f64 {
    let n = a.len();
    (0..n)
        .map(|j| {
            let along: C64 = (0..n).map(|i| a[i].conj() * mixture[(i, j)]).sum();
            (along * a[j]).re
        })
        .sum()
}

/// The least concave curve above the people behind a direction, by ERP in W: its corners.
struct Curve(Vec<(f64, f64)>);

impl Curve {
    fn new(most_w: f64, people: impl Fn(f32) -> f64) -> Self {
        let top_dbw = 10.0 * most_w.max(1e-30).log10();
        let mut corners = vec![(0.0, people((top_dbw - DEEP_DB) as f32))];
        let steps = (DEEP_DB / STEP_DB) as usize;
        for i in 1..=steps {
            // Each step has the people of its upper end, so that nothing between two is overlooked.
            let from_dbw = top_dbw - DEEP_DB + STEP_DB * (i - 1) as f64;
            let point = (10f64.powf(from_dbw / 10.0), people((from_dbw + STEP_DB) as f32));
            while let [.., a, b] = corners[..] {
                if (b.1 - a.1) * (point.0 - a.0) > (point.1 - a.1) * (b.0 - a.0) {
                    break;
                }
                corners.pop();
            }
            corners.push(point);
        }
        Self(corners)
    }

    /// Value and slope.
    fn at(&self, erp_w: f64) -> (f64, f64) {
        let next = self.0.partition_point(|c| c.0 <= erp_w);
        match (next.checked_sub(1).map(|i| self.0[i]), self.0.get(next)) {
            (Some(a), Some(b)) => {
                let slope = (b.1 - a.1) / (b.0 - a.0);
                (a.1 + slope * (erp_w - a.0), slope)
            }
            (Some(a), None) => (a.1, 0.0),
            (None, _) => (0.0, 0.0),
        }
    }
}
