//! Ranking of faults by likelihood over a library that includes the healthy installation.
//!
//! A reading is normal about what an entry predicts: its own noise, how far as-built work scatters that prediction, and for fields
//! one error common to all of them, the measuring set's calibration. Bayes' rule does the rest.

use std::collections::BTreeMap;

use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use serde::Serialize;

use super::aerial::Sight;
use super::gauss::{self, Learnt, Off};
use super::information::{Expected, information};
use super::installation::InstallationError;
use super::{AsBuilt, Fault, FaultKind, FieldPoint, Installation, severities};

/// A kind less probable than this is not weighed for what no reading parts from it.
const HARDLY: f64 = 1e-3;
/// Installations drawn for each entry, to see how far as-built work scatters its readings.
const DRAWN: usize = 40;
/// Entries weighed when the next point is chosen: the most probable.
const WEIGHED: usize = 60;

/// Predicted readings of every fault in every severity considered, at every point one could drive to.
#[derive(Debug, Clone)]
pub struct Library {
    points: Vec<FieldPoint>,
    faults: Vec<Fault>,
    /// Forward, reflected, then the points: dBW.
    rows: Vec<Vec<f64>>,
    scatters: Vec<Scatter>,
    priors: Vec<f64>,
}

/// How far an entry's readings scatter about its row by the work and by unknown phases.
#[derive(Debug, Clone)]
struct Scatter {
    /// By the work, over the drawn: column by column, each drawn one's distance from the mean over √(drawn − 1), dB.
    work: Vec<Vec<f64>>,
    /// By phases that differ from reading to reading: variances, dB².
    phases: Vec<f64>,
    /// Variance of each column altogether, dB².
    variances: Vec<f64>,
}

impl Scatter {
    fn new(work: Vec<Vec<f64>>, phases: Vec<f64>) -> Self {
        let square = |of: &Vec<f64>| of.iter().map(|d| d * d).sum::<f64>();
        Self {
            variances: work.iter().zip(&phases).map(|(w, p)| square(w) + p).collect(),
            work,
            phases,
        }
    }
}

/// One reading, normal about the truth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// What was read, dBW.
    pub dbw: f64,
    /// Standard deviation of its own error, dB, above 0.
    pub sigma_db: f64,
    /// Standard deviation of the error it shares with every other reading that has one, dB: calibration of the measuring set.
    pub common_db: f64,
}

impl Reading {
    /// A reading with an error of its own alone.
    pub fn alone(dbw: f64, sigma_db: f64) -> Self {
        Self {
            dbw,
            sigma_db,
            common_db: 0.0,
        }
    }
}

/// What has been read so far.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Log {
    /// Forward power at the transmitter.
    pub forward: Option<Reading>,
    /// Reflected power at the transmitter.
    pub reflected: Option<Reading>,
    /// Point of the library and the reading there, as ERP.
    pub fields: Vec<(usize, Reading)>,
}

/// Noise expected of readings still to be taken, dB: standard deviations.
#[derive(Debug, Clone, PartialEq)]
pub struct Noise {
    /// Of forward and reflected power.
    pub meters_db: f64,
    /// Of the field at each point of the library.
    pub points_db: Vec<f64>,
    /// Common to all fields.
    pub common_db: f64,
}

impl Noise {
    /// The same everywhere, nothing in common.
    pub fn even(sigma_db: f64, points: usize) -> Self {
        Self {
            meters_db: sigma_db,
            points_db: vec![sigma_db; points],
            common_db: 0.0,
        }
    }
}

/// A fault with those that no reading parts from it, and the weight of evidence for all of them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ranked {
    /// The fault itself, then the others by probability, with the severities that belong here.
    pub faults: Vec<Fault>,
    /// Probability after the readings, 0–1.
    pub probability: f64,
}

/// The library's entries in classes: indices into [`Library::faults`].
pub type Classes = Vec<Vec<usize>>;

impl Library {
    /// Predicts every fault of an installation at every point, each as drawn and as such work turns out.
    ///
    /// # Errors
    /// [`InstallationError`] when the installation itself cannot be computed.
    pub fn new(of: &Installation, points: &[FieldPoint], built: &AsBuilt) -> Result<Self, InstallationError> {
        let faults = severities::considered(of);
        let mut sight = Sight::new(points);
        let (mut rows, mut scatters) = (Vec::new(), Vec::new());
        for fault in &faults {
            let (row, scatter) = predicted(fault, of, &mut sight, built)?;
            rows.push(row);
            scatters.push(scatter);
        }
        let priors = severities::priors(&faults);
        Ok(Self {
            points: points.to_vec(),
            faults,
            rows,
            scatters,
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

    /// How far one of its readings scatters by the work and by unknown phases, dB: standard deviation.
    pub fn spread_db(&self, entry: usize, column: usize) -> f64 {
        self.scatters[entry].variances[column].sqrt()
    }

    /// Faults in classes that no reading parts: two are in one class when even the `count` points best for that very pair leave
    /// them closer than `part_at` in units of noise (3: mistaken for each other in one of 15). Every pair of a class is that close.
    pub fn classes(&self, count: usize, noise: &Noise, part_at: f64) -> Classes {
        let mut classes: Classes = Vec::new();
        for i in 0..self.faults.len() {
            let near = |c: &&mut Vec<usize>| c.iter().all(|&j| self.alike(i, j, count, noise, part_at));
            match classes.iter_mut().find(near) {
                Some(class) => class.push(i),
                None => classes.push(vec![i]),
            }
        }
        classes
    }

    /// Probability of every entry after the readings.
    pub fn posterior(&self, log: &Log) -> Vec<f64> {
        let logs: Vec<f64> = (0..self.faults.len())
            .map(|i| self.priors[i].ln() + self.log_likelihood(i, log))
            .collect();
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = logs.iter().map(|l| (l - top).exp()).collect();
        let total: f64 = weights.iter().sum();
        weights.into_iter().map(|w| w / total).collect()
    }

    fn log_likelihood(&self, entry: usize, log: &Log) -> f64 {
        gauss::log_density(&self.offs(entry, log))
    }

    /// How far the readings lie from an entry.
    fn offs(&self, entry: usize, log: &Log) -> Vec<Off> {
        let (row, scatter) = (&self.rows[entry], &self.scatters[entry]);
        let off = |column: usize, r: &Reading| Off {
            db: r.dbw - row[column],
            variance: r.sigma_db.powi(2) + scatter.phases[column],
            shared: scatter.work[column]
                .iter()
                .copied()
                .chain([r.common_db])
                .collect(),
        };
        let meters = [log.forward, log.reflected].into_iter().enumerate();
        let fields = log.fields.iter().map(|(p, r)| off(p + 2, r));
        meters
            .filter_map(|(c, r)| Some(off(c, &r?)))
            .chain(fields)
            .collect()
    }

    /// Probability of each kind of fault, in any severity, and its most probable entry; most probable first.
    pub fn kinds(&self, posterior: &[f64]) -> Vec<(f64, usize)> {
        let mut kinds: BTreeMap<FaultKind, (f64, usize)> = BTreeMap::new();
        for (i, fault) in self.faults.iter().enumerate() {
            let kind = kinds.entry(fault.kind()).or_insert((0.0, i));
            kind.0 += posterior[i];
            if posterior[i] > posterior[kind.1] {
                kind.1 = i;
            }
        }
        let mut out: Vec<(f64, usize)> = kinds.into_values().collect();
        out.sort_by(|a, b| b.0.total_cmp(&a.0));
        out
    }

    /// Faults ranked for the readings: the most probable kind in its most probable severity first, with all severities of it, and with
    /// it every fault that no `count` points could have parted from it, as [`Self::alike`] says; then the most probable kind that is
    /// left, and so on. What is hardly probable is listed by itself.
    pub fn ranked(&self, log: &Log, count: usize, noise: &Noise, part_at: f64) -> Vec<Ranked> {
        let posterior = self.posterior(log);
        let mut left: Vec<usize> = (0..self.faults.len()).collect();
        left.sort_by(|a, b| posterior[*b].total_cmp(&posterior[*a]));
        let mut out = Vec::new();
        while !left.is_empty() {
            let mut kinds: BTreeMap<FaultKind, f64> = BTreeMap::new();
            left.iter()
                .for_each(|&i| *kinds.entry(self.faults[i].kind()).or_default() += posterior[i]);
            let most = kinds.values().copied().fold(0.0, f64::max);
            let foremost = |i: &&usize| kinds[&self.faults[**i].kind()] >= most;
            let first = left.iter().find(foremost).copied().unwrap_or(left[0]);
            let kind = self.faults[first].kind();
            let weighed = most >= HARDLY;
            let (together, apart): (Vec<usize>, Vec<usize>) = left.into_iter().partition(|&i| {
                self.faults[i].kind() == kind || (weighed && self.alike(i, first, count, noise, part_at))
            });
            left = apart;
            let others = together.iter().copied().filter(|i| *i != first);
            out.push(Ranked {
                probability: together.iter().map(|&i| posterior[i]).sum(),
                faults: std::iter::once(first)
                    .chain(others)
                    .map(|i| self.faults[i])
                    .collect(),
            });
        }
        out
    }

    /// Whether the readings taken leave two entries closer than `part_at` in units of their noise: what was read does not part them.
    pub fn unparted(&self, i: usize, j: usize, log: &Log, part_at: f64) -> bool {
        let meters = [log.forward, log.reflected].into_iter().enumerate();
        let offs: Vec<Off> = meters
            .filter_map(|(c, r)| Some((c, r?)))
            .chain(log.fields.iter().map(|(p, r)| (p + 2, *r)))
            .map(|(c, r)| self.off(i, j, c, r.sigma_db, r.common_db))
            .collect();
        gauss::square_distance(&offs) < part_at * part_at
    }

    /// The point to drive to next: the one whose reading is expected to tell most of which kind of fault it is, their mutual information
    /// (Lindley, *On a measure of the information provided by an experiment*, 1956, from memory). What was read already says how the
    /// work turned out under each fault, and so what to expect at the other points. None when all points are read.
    pub fn next_point(&self, log: &Log, noise: &Noise) -> Option<usize> {
        let posterior = self.posterior(log);
        let mut alive: Vec<usize> = (0..posterior.len()).filter(|&i| posterior[i] > 1e-5).collect();
        alive.sort_by(|a, b| posterior[*b].total_cmp(&posterior[*a]));
        alive.truncate(WEIGHED);
        // Kind by kind.
        alive.sort_by_key(|&i| self.faults[i].kind());
        let learnt: Vec<Learnt> = alive.iter().map(|&i| Learnt::from(&self.offs(i, log))).collect();
        let unread = (0..self.points.len()).filter(|p| log.fields.iter().all(|(read, _)| read != p));
        let told = |p: usize| {
            let expected: Vec<Expected> = alive
                .iter()
                .zip(&learnt)
                .map(|(&i, learnt)| {
                    let scatter = &self.scatters[i];
                    let shared: Vec<f64> = scatter.work[p + 2]
                        .iter()
                        .copied()
                        .chain([noise.common_db])
                        .collect();
                    let (off_db, variance) = learnt.expected(&shared);
                    Expected {
                        kind: self.faults[i].kind(),
                        probability: posterior[i],
                        dbw: self.rows[i][p + 2] + off_db,
                        sigma_db: (variance + scatter.phases[p + 2] + noise.points_db[p].powi(2)).sqrt(),
                    }
                })
                .collect();
            information(&expected)
        };
        unread
            .map(|p| (told(p), p))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))
            .map(|(_, p)| p)
    }

    /// Difference of two entries in one reading, and its variance by noise and scatter.
    fn apart(&self, i: usize, j: usize, column: usize, sigma_db: f64) -> (f64, f64) {
        let scatter = 0.5 * (self.scatters[i].variances[column] + self.scatters[j].variances[column]);
        (
            self.rows[i][column] - self.rows[j][column],
            sigma_db.powi(2) + scatter,
        )
    }

    /// Whether no reading parts two entries: even both meters and the `count` points that tell most of this very pair leave them closer
    /// than `part_at` in units of noise.
    pub fn alike(&self, i: usize, j: usize, count: usize, noise: &Noise, part_at: f64) -> bool {
        let square = |p: usize| {
            let (apart, variance) = self.apart(i, j, p + 2, noise.points_db[p]);
            apart * apart / variance
        };
        let mut points: Vec<(usize, f64)> = (0..self.points.len()).map(|p| (p, square(p))).collect();
        points.sort_by(|a, b| b.1.total_cmp(&a.1));
        points.truncate(count);
        // More points never bring two closer: few are tried first.
        let steps = [2, 8, points.len()].map(|few| few.min(points.len()));
        steps.into_iter().all(|few| {
            let meters = (0..2).map(|c| self.off(i, j, c, noise.meters_db, 0.0));
            let fields = points[..few]
                .iter()
                .map(|(p, _)| self.off(i, j, p + 2, noise.points_db[*p], noise.common_db));
            let offs: Vec<Off> = meters.chain(fields).collect();
            gauss::square_distance(&offs) < part_at * part_at
        })
    }

    /// Two entries' difference in one reading, with the mean of their scatter.
    fn off(&self, i: usize, j: usize, column: usize, sigma_db: f64, common_db: f64) -> Off {
        let (a, b) = (&self.scatters[i], &self.scatters[j]);
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let work = a.work[column].iter().chain(&b.work[column]).map(|d| d * half);
        Off {
            db: self.rows[i][column] - self.rows[j][column],
            variance: sigma_db.powi(2) + 0.5 * (a.phases[column] + b.phases[column]),
            shared: work.chain([common_db]).collect(),
        }
    }
}

/// Mean readings of one fault and their scatter, over many installations built to one drawing.
fn predicted(
    fault: &Fault,
    of: &Installation,
    sight: &mut Sight<'_>,
    built: &AsBuilt,
) -> Result<(Vec<f64>, Scatter), InstallationError> {
    let drawn = fault.applied(of)?.seen(sight)?;
    let row = drawn.readings().row();
    if *built == AsBuilt::EXACT {
        let scatter = Scatter::new(vec![Vec::new(); row.len()], vec![0.0; row.len()]);
        return Ok((row, scatter));
    }
    // The same dice for every entry: what differs between two of them is the fault.
    let mut dice = ChaCha8Rng::seed_from_u64(0xb117);
    let many: Vec<Vec<f64>> = (0..DRAWN)
        .map(|_| {
            let station = built.drawn(of, &mut dice);
            Ok(fault.drawn(&station, &mut dice)?.seen(sight)?.readings().row())
        })
        .collect::<Result<_, InstallationError>>()?;
    let count = DRAWN as f64;
    let mean = |c: usize| many.iter().map(|row| row[c]).sum::<f64>() / count;
    let means: Vec<f64> = (0..row.len()).map(mean).collect();
    let deviations = |c: usize| {
        let off = |row: &Vec<f64>| (row[c] - means[c]) / (count - 1.0).sqrt();
        many.iter().map(off).collect()
    };
    let work = (0..row.len()).map(deviations).collect();
    let phases = drawn.phase_spreads_db().iter().map(|s| s * s).collect();
    Ok((means, Scatter::new(work, phases)))
}
