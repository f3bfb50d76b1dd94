//! Ranking of faults by likelihood over a library that includes the healthy installation.

use serde::Serialize;

use super::installation::InstallationError;
use super::{Fault, FaultKind, FieldPoint, Installation};
use crate::feed::End;

/// Prior share of healthy installations among those that are measured (practice has no figure; a half is neutral).
const PRIOR_HEALTHY: f64 = 0.5;

/// Predicted readings of every fault in every severity considered, at every point one could drive to.
#[derive(Debug, Clone)]
pub struct Library {
    points: Vec<FieldPoint>,
    faults: Vec<Fault>,
    /// Forward, reflected, then the points: dBW.
    rows: Vec<Vec<f64>>,
    priors: Vec<f64>,
}

/// What has been read so far, dBW.
#[derive(Debug, Clone, PartialEq)]
pub struct Log {
    /// Forward and reflected power.
    pub meters_dbw: [f64; 2],
    /// Point of the library and the reading there, as ERP.
    pub fields: Vec<(usize, f64)>,
    /// Noise of each reading, dB: normal, independent.
    pub sigma_db: f64,
}

/// A class of faults that no reading parts, with its weight of evidence.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ranked {
    /// The faults of the class, with the severities that belong to it.
    pub faults: Vec<Fault>,
    /// Probability after the readings, 0–1.
    pub probability: f64,
}

/// The library's entries in classes: indices into [`Library::faults`].
pub type Classes = Vec<Vec<usize>>;

impl Library {
    /// Predicts every fault of an installation at every point.
    ///
    /// # Errors
    /// [`InstallationError`] when the installation itself cannot be computed.
    pub fn new(of: &Installation, points: &[FieldPoint]) -> Result<Self, InstallationError> {
        let faults = considered(of);
        let rows = faults
            .iter()
            .map(|f| Ok(f.applied(of).readings(points)?.row()))
            .collect::<Result<_, InstallationError>>()?;
        let kinds: std::collections::HashSet<FaultKind> = faults.iter().map(Fault::kind).collect();
        let each_kind = (1.0 - PRIOR_HEALTHY) / (kinds.len() - 1).max(1) as f64;
        let priors = faults
            .iter()
            .map(|f| {
                let severities = faults.iter().filter(|o| o.kind() == f.kind()).count() as f64;
                if *f == Fault::Healthy {
                    PRIOR_HEALTHY
                } else {
                    each_kind / severities
                }
            })
            .collect();
        Ok(Self {
            points: points.to_vec(),
            faults,
            rows,
            priors,
        })
    }

    /// The points it was made for.
    pub fn points(&self) -> &[FieldPoint] {
        &self.points
    }

    /// Every fault and severity it knows, the healthy installation first.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Predicted readings of one entry: forward, reflected, then every point, dBW.
    pub fn row(&self, entry: usize) -> &[f64] {
        &self.rows[entry]
    }

    /// Faults in classes that no reading parts: two are in one class when even the `count` points best for that very pair leave
    /// them closer than `part_at` in units of noise (3: mistaken for each other in one of 15). Every pair of a class is that close.
    pub fn classes(&self, count: usize, sigma_db: f64, part_at: f64) -> Classes {
        let mut classes: Classes = Vec::new();
        for i in 0..self.faults.len() {
            let near = |c: &&mut Vec<usize>| {
                c.iter()
                    .all(|&j| self.best_distance(i, j, count, sigma_db) < part_at)
            };
            match classes.iter_mut().find(near) {
                Some(class) => class.push(i),
                None => classes.push(vec![i]),
            }
        }
        classes
    }

    /// Probability of every entry after the readings.
    pub fn posterior(&self, log: &Log) -> Vec<f64> {
        let logs: Vec<f64> = self
            .rows
            .iter()
            .zip(&self.priors)
            .map(|(row, prior)| {
                let meters = (0..2).map(|c| log.meters_dbw[c] - row[c]);
                let fields = log.fields.iter().map(|&(p, read)| read - row[p + 2]);
                let chi2: f64 = meters.chain(fields).map(|d| (d / log.sigma_db).powi(2)).sum();
                prior.ln() - 0.5 * chi2
            })
            .collect();
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = logs.iter().map(|l| (l - top).exp()).collect();
        let total: f64 = weights.iter().sum();
        weights.into_iter().map(|w| w / total).collect()
    }

    /// Classes ranked for the readings, most probable first.
    pub fn ranked(&self, log: &Log, classes: &Classes) -> Vec<Ranked> {
        let posterior = self.posterior(log);
        let mut out: Vec<Ranked> = classes
            .iter()
            .map(|class| Ranked {
                faults: class.iter().map(|&i| self.faults[i]).collect(),
                probability: class.iter().map(|&i| posterior[i]).sum(),
            })
            .collect();
        out.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        out
    }

    /// The point to drive to next: the one that best parts what is still probable.
    ///
    /// It lowers the sum over pairs of √(p_i·p_j)·exp(−d²/8) most, d their distance at the point in units of noise:
    /// Bhattacharyya's bound on mistaking one for the other (standard decision theory). None when all points are read.
    pub fn next_point(&self, log: &Log) -> Option<usize> {
        let posterior = self.posterior(log);
        let alive: Vec<usize> = (0..posterior.len()).filter(|&i| posterior[i] > 1e-5).collect();
        let scale = 1.0 / (8.0 * log.sigma_db * log.sigma_db);
        let confusion = |p: usize| -> f64 {
            let mut sum = 0.0;
            for (n, &i) in alive.iter().enumerate() {
                for &j in &alive[n + 1..] {
                    if self.faults[i].kind() != self.faults[j].kind() {
                        let d = self.rows[i][p + 2] - self.rows[j][p + 2];
                        sum += (posterior[i] * posterior[j]).sqrt() * (-d * d * scale).exp();
                    }
                }
            }
            sum
        };
        (0..self.points.len())
            .filter(|p| log.fields.iter().all(|(read, _)| read != p))
            .map(|p| (p, confusion(p)))
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(p, _)| p)
    }

    /// Distance of two entries in units of noise over both meters and the `count` points that part them best.
    fn best_distance(&self, i: usize, j: usize, count: usize, sigma_db: f64) -> f64 {
        let (a, b) = (&self.rows[i], &self.rows[j]);
        let square = |c: usize| ((a[c] - b[c]) / sigma_db).powi(2);
        let mut fields: Vec<f64> = (2..a.len()).map(square).collect();
        fields.sort_by(|x, y| y.total_cmp(x));
        (square(0) + square(1) + fields.iter().take(count).sum::<f64>()).sqrt()
    }
}

/// Faults and severities considered.
fn considered(of: &Installation) -> Vec<Fault> {
    let mut out = vec![Fault::Healthy];
    let n = of.feed.branches.len();
    for bay in 0..n {
        out.push(Fault::UpsideDown { bay });
        out.extend([End::Open, End::Short].map(|end| Fault::DeadBay { bay, end }));
        let built = of.feed.branches[bay].cable.line.velocity_ratio;
        // Solid dielectric 0.66, foam 0.78–0.88: what lies in a store.
        let stored = [0.66, 0.78, 0.82, 0.85, 0.88]
            .into_iter()
            .filter(|v: &f64| (v - built).abs() > 0.02);
        out.extend(stored.map(|velocity_ratio| Fault::WrongVelocity {
            branch: bay,
            velocity_ratio,
        }));
        out.extend(
            [3.0, 4.0, 5.0, 6.5, 8.0, 10.0].map(|extra_db| Fault::WaterInBranch {
                branch: bay,
                extra_db,
            }),
        );
        out.extend([-8.0, -6.5, -5.0, -4.0, 4.0, 5.0, 6.5, 8.0].map(|by_mhz| Fault::Detuned { bay, by_mhz }));
        out.extend((bay + 1..n).map(|second| Fault::Swapped { first: bay, second }));
    }
    out.extend([2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0].map(|extra_db| Fault::WaterInFeeder { extra_db }));
    out
}
