//! How little power could do, whatever the excitation: a bound that no network, splitter or search can pass for bays in their places.
//!
//! Currents I reach |Σ Iᵢfᵢ|² = tr(F X) W of ERP in a direction with X = I Iᴴ, for a power tr(R X). People grow with ERP along a curve
//! for each direction. Both are relaxed: X to any mixture of currents, each curve to the least concave one above it, and a mask to a price
//! on what exceeds it. What is left is a concave function over a set whose best linear step is an eigenvector, so the method of Frank
//! and Wolfe gives with each step a value that nothing exceeds.
//!
//! # Source
//! Frank and Wolfe, *An algorithm for quadratic programming*, 1956 (from memory).

use faer::{Mat, Side};
use num_complex::Complex64 as C64;
use rayon::prelude::*;

use super::apart::Apart;
use super::search::Search;
use super::solved::Solved;
use super::{Audience, Bounds, Goal, Harnessing};
use crate::mount::{MountError, MountPlan};

/// The curves are sampled so finely that between two samples a curve over 6 dB rises by less than 1e-4 of its people above the chord.
const STEP_DB: f64 = 0.25;
const FROM_DBW: f64 = -60.0;
const SAMPLES: usize = 481;
/// So many samples below the most that a direction can get; what is reached below is given away.
const DEEP: usize = 160;
/// Steps of the ascent for one power.
const ROUNDS: usize = 120;
/// How far down a floor is sought, dB, and halvings on the way: to 0.01 dB.
const LOWEST_DB: f64 = -60.0;
const HALVINGS: usize = 13;
/// Turns of the whole that are compared, degrees apart.
const TURN_DEG: f64 = 20.0;

/// What exceeds a mask costs so much of the people wanted, for each time the mask.
const PRICE: f64 = 2.0;

/// Power into the bays below which no currents in them reach so many people under the masks, W: losses, mismatch and the bays' own limits
/// left out. None where even `most_w` does not do.
///
/// # Errors
/// Those of [`MountPlan::solved`].
pub fn least_power_floor_w(
    plan: &MountPlan,
    audience: &dyn Audience,
    bounds: &Bounds,
    people: f64,
    most_w: f64,
) -> Result<Option<f64>, MountError> {
    let solved = Solved::new(plan.clone(), &plan.solved()?, bounds);
    let crowd = Crowd::new(audience);
    Ok(Towards::new(&solved, audience, bounds, 0.0).floor_w(&crowd, people, most_w))
}

/// The lowest of the floors in all places that the search for [`super::shaped`] begins with, by every 20° of bearing, at most `most_w`;
/// and how many places those are. Errors as [`super::shaped`].
pub fn least_power_floor_anywhere_w(
    plan: &MountPlan,
    harness: &Harnessing,
    audience: &dyn Audience,
    bounds: &Bounds,
    people: f64,
    most_w: f64,
) -> Result<(f64, usize), MountError> {
    super::check(plan, audience, bounds)?;
    let crowd = Crowd::new(audience);
    let search = Search::new(plan, harness, audience, bounds, Goal::LeastPower { people });
    let families = search.families();
    let mut apart = Apart::new(plan, audience, bounds);
    search.prepare(&mut apart, &families);
    let solved: Vec<Solved> = families
        .par_iter()
        .filter_map(|places| search.solved(&apart, places).ok())
        .collect();
    let (mut floor_w, mut places) = (most_w, 0);
    for solved in &solved {
        for turn_deg in search.turns(TURN_DEG) {
            places += 1;
            let towards = Towards::new(solved, audience, bounds, turn_deg);
            floor_w = towards.floor_w(&crowd, people, floor_w).unwrap_or(floor_w);
        }
    }
    Ok((floor_w, places))
}

/// People behind each direction at every sampled ERP.
struct Crowd<'a> {
    audience: &'a dyn Audience,
    people: Vec<Vec<f32>>,
    erp_w: Vec<f64>,
}

impl<'a> Crowd<'a> {
    fn new(audience: &'a dyn Audience) -> Self {
        let dbw = |i: usize| FROM_DBW + STEP_DB * i as f64;
        Self {
            audience,
            people: (0..audience.directions().len())
                .map(|d| {
                    (0..SAMPLES)
                        .map(|i| audience.people_behind(d, dbw(i) as f32) as f32)
                        .collect()
                })
                .collect(),
            erp_w: (0..SAMPLES).map(|i| 10f64.powf(dbw(i) / 10.0)).collect(),
        }
    }

    /// The least concave curve above the people behind a direction, up to the most it can get: its corners, ERP in W and people.
    fn curve(&self, direction: usize, most_w: f64) -> Vec<(f64, f64)> {
        let top_dbw = 10.0 * most_w.max(1e-30).log10();
        let last = (((top_dbw - FROM_DBW) / STEP_DB).floor().max(0.0) as usize).min(SAMPLES - 1);
        let first = last.saturating_sub(DEEP);
        let people = &self.people[direction];
        let mut corners = vec![(0.0, f64::from(people[first]))];
        let sampled = (first + 1..=last).map(|i| (self.erp_w[i], f64::from(people[i])));
        let top = (most_w, self.audience.people_behind(direction, top_dbw as f32));
        for point in sampled.filter(|p| p.0 < most_w).chain([top]) {
            while let [.., a, b] = corners[..] {
                if (b.1 - a.1) * (point.0 - a.0) > (point.1 - a.1) * (b.0 - a.0) {
                    break;
                }
                corners.pop();
            }
            corners.push(point);
        }
        corners
    }
}

/// Value and slope of a curve.
fn on_curve(corners: &[(f64, f64)], erp_w: f64) -> (f64, f64) {
    let next = corners.partition_point(|c| c.0 <= erp_w);
    match (next.checked_sub(1).map(|i| corners[i]), corners.get(next)) {
        (Some(a), Some(b)) => {
            let slope = (b.1 - a.1) / (b.0 - a.0);
            (a.1 + slope * (erp_w - a.0), slope)
        }
        (Some(a), None) => (a.1, 0.0),
        (None, _) => (0.0, 0.0),
    }
}

/// Fields of currents that are scaled so that the sum of their squares is the power, conjugate: by plane.
type Planes = Vec<Vec<C64>>;

/// Fields towards the people, and towards the masks with what these allow, W.
struct Towards {
    people: Vec<Planes>,
    masks: Vec<(Planes, f64)>,
}

impl Towards {
    fn new(solved: &Solved, audience: &dyn Audience, bounds: &Bounds, turned_deg: f64) -> Self {
        let resistance = solved.resistance_ohm();
        // R/2 = L Lᵀ: peak amperes.
        let mut lower: Vec<Vec<f64>> = Vec::with_capacity(resistance.len());
        for (i, own) in resistance.iter().enumerate() {
            let mut row: Vec<f64> = Vec::with_capacity(i + 1);
            for (j, r) in own[..=i].iter().enumerate() {
                let other = if j < i { &lower[j] } else { &row };
                let known: f64 = row.iter().zip(other).map(|(x, y)| x * y).sum();
                let left = 0.5 * r - known;
                row.push(if j < i {
                    left / lower[j][j]
                } else {
                    left.max(1e-12).sqrt()
                });
            }
            lower.push(row);
        }
        let scaled = |field: Vec<C64>| {
            let mut out: Vec<C64> = Vec::with_capacity(field.len());
            for (i, f) in field.into_iter().enumerate() {
                let known: C64 = out.iter().zip(&lower[i]).map(|(x, l)| x.conj() * l).sum();
                out.push(((f - known) / lower[i][i]).conj());
            }
            out
        };
        let all = |planes: Planes| planes.into_iter().map(scaled).collect::<Planes>();
        Self {
            people: solved
                .fields_towards(audience, turned_deg)
                .into_iter()
                .map(all)
                .collect(),
            masks: solved
                .fields_to_masks(bounds, turned_deg)
                .into_iter()
                .map(|(planes, allowed_w)| (all(planes), allowed_w))
                .collect(),
        }
    }

    /// The power that may do, none where `most_w` does not.
    fn floor_w(&self, crowd: &Crowd, people: f64, most_w: f64) -> Option<f64> {
        if !self.may_reach(crowd, people, most_w) {
            return None;
        }
        let (mut low_db, mut high_db) = (LOWEST_DB, 0.0);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low_db + high_db);
            if self.may_reach(crowd, people, most_w * 10f64.powf(middle / 10.0)) {
                high_db = middle;
            } else {
                low_db = middle;
            }
        }
        // Lower than it was sought there may be none.
        let floor_w = most_w * 10f64.powf(low_db / 10.0);
        Some(if low_db > LOWEST_DB { floor_w } else { 0.0 })
    }

    /// Whether the bound leaves so many people possible.
    fn may_reach(&self, crowd: &Crowd, people: f64, power_w: f64) -> bool {
        let curves: Vec<Vec<(f64, f64)>> = self
            .people
            .iter()
            .enumerate()
            .map(|(d, planes)| {
                let most: f64 = planes.iter().flatten().map(|a| a.norm_sqr()).sum();
                crowd.curve(d, power_w * most)
            })
            .collect();
        let n = self.people.first().and_then(|p| p.first()).map_or(0, Vec::len);
        let alike = |i: usize, j: usize| C64::from(if i == j { power_w / n as f64 } else { 0.0 });
        let mut mixture = Mat::<C64>::from_fn(n, n, alike);
        for round in 0..ROUNDS {
            let mut slopes = Mat::<C64>::zeros(n, n);
            let (mut reached, mut spent) = (0.0, 0.0);
            let mut add = |planes: &Planes, erp_w: f64, (value, slope): (f64, f64)| {
                reached += value;
                spent += slope * erp_w;
                for a in planes {
                    for (i, x) in a.iter().enumerate() {
                        for (j, y) in a.iter().enumerate() {
                            slopes[(i, j)] += slope * x * y.conj();
                        }
                    }
                }
            };
            let erp_w = |planes: &Planes| planes.iter().map(|a| form(&mixture, a)).sum::<f64>();
            for (planes, curve) in self.people.iter().zip(&curves) {
                let erp_w = erp_w(planes);
                add(planes, erp_w, on_curve(curve, erp_w));
            }
            for (planes, allowed_w) in &self.masks {
                let erp_w = erp_w(planes);
                if erp_w > *allowed_w {
                    let slope = -PRICE * people / allowed_w;
                    add(planes, erp_w, (slope * (erp_w - allowed_w), slope));
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
            if reached + power_w * values[top].re.max(0.0) - spent < people {
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
