//! The best that any ranking could do with the same readings.
//!
//! Truths are drawn from the library's own model of the work, with the bench's faults, severities and shares; so their law is known
//! and Bayes' rule over many drawn installations is the best there is. It knows that law, ours does not: how severe faults are and
//! how many stations are healthy. Of all answers it gives the one most probably right.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use antenna::fault::{AsBuilt, Cloud, Fault, FaultKind, Installation, Library, Log, Noise, Reading};
use antenna::feed::End;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, StandardNormal};

use crate::stations::{Case, Fallible, PART_AT, nearest_entry};

/// Installations drawn for each kind.
const DRAWN: usize = 1000;
/// Truths for each station.
const TRUTHS: usize = 2;
/// What is less probable than this is not weighed.
const HARDLY: f64 = 1e-3;

/// Kinds of fault in a class, and its members.
pub type Class = (BTreeSet<FaultKind>, Vec<Fault>);

/// For each truth whether ours and the best answer were right.
pub struct Compared {
    pub truth: FaultKind,
    pub ours: bool,
    pub best: bool,
    /// The same by fixed classes: the class of the fault named first holds the true kind, and the class that most probably does.
    pub ours_by_class: bool,
    pub best_by_class: bool,
}

/// Truths drawn for one station, each read at the points that the library asks for.
pub fn compared(
    case: &Case,
    of: &Installation,
    sigma_db: f64,
    points: usize,
    seed: u64,
    classes: &[Class],
) -> Fallible<Vec<Compared>> {
    let library = &case.library;
    let mut dice = ChaCha8Rng::seed_from_u64(0xbe57_0000 + seed);
    let kinds: Vec<FaultKind> = {
        let mut kinds: Vec<FaultKind> = library.faults().iter().map(Fault::kind).collect();
        kinds.sort();
        kinds.dedup();
        kinds
    };
    let cloud = Cloud::new(
        of,
        library.points(),
        &AsBuilt::USUAL,
        &kinds,
        DRAWN,
        &mut dice,
        &severity,
    )?;
    let shares = shares(&kinds);
    let noise = Noise::even(sigma_db, library.points().len());
    let mut alike = Alike {
        library,
        points,
        noise: &noise,
        known: HashMap::new(),
    };
    let mut out = Vec::new();
    for _ in 0..TRUTHS {
        let truth = (drawn_from(&shares, &mut dice), dice.random_range(0..DRAWN));
        let drawn = &cloud.drawn(truth.0)[truth.1];
        let mut read = |column: usize| {
            let phase = dice.random_range(0.0..std::f64::consts::TAU);
            let unit: f64 = StandardNormal.sample(&mut dice);
            Reading::alone(drawn.dbw_at(column, phase) + sigma_db * unit, sigma_db)
        };
        let mut log = Log {
            forward: Some(read(0)),
            reflected: Some(read(1)),
            ..Log::default()
        };
        while log.fields.len() < points
            && let Some(p) = library.next_point(&log, &noise)
        {
            let reading = read(p + 2);
            log.fields.push((p, reading));
        }
        let near = nearest_entry(library, kinds[truth.0], &drawn.row());
        let first = library
            .ranked(&log, points, &noise, PART_AT)
            .swap_remove(0)
            .faults;
        let (best, of_kind) = best_answer(&cloud, &shares, truth, &log, &mut alike);
        let in_class = |class: &Class| -> f64 {
            let of = kinds.iter().zip(&of_kind).filter(|(k, _)| class.0.contains(k));
            of.map(|(_, p)| p).sum()
        };
        let of_first = classes.iter().find(|c| c.1.contains(&first[0]));
        let best_class = classes.iter().max_by(|a, b| in_class(a).total_cmp(&in_class(b)));
        let holds = |class: Option<&Class>| class.is_some_and(|c| c.0.contains(&kinds[truth.0]));
        out.push(Compared {
            truth: kinds[truth.0],
            ours: first[0].kind() == kinds[truth.0] || first.contains(&library.faults()[near]),
            best: library.faults()[best].kind() == kinds[truth.0] || alike.holds(best, near),
            ours_by_class: holds(of_first),
            best_by_class: holds(best_class),
        });
    }
    Ok(out)
}

/// The entry of the library that is most probably the true kind or one that no reading parts from the truth; the truth itself is left
/// out of the drawn. With it the probability of every kind.
fn best_answer(
    cloud: &Cloud,
    shares: &[f64],
    truth: (usize, usize),
    log: &Log,
    alike: &mut Alike<'_>,
) -> (usize, Vec<f64>) {
    let logs = cloud.log_densities(log);
    let top = logs.iter().flatten().copied().fold(f64::NEG_INFINITY, f64::max);
    let mut weights: Vec<(f64, usize, usize)> = Vec::new();
    for (k, (of_kind, share)) in logs.iter().zip(shares).enumerate() {
        let weight = |(i, l): (usize, &f64)| (share * (l - top).exp(), k, i);
        weights.extend(
            of_kind
                .iter()
                .enumerate()
                .map(weight)
                .filter(|w| (w.1, w.2) != truth),
        );
    }
    let total: f64 = weights.iter().map(|w| w.0).sum();
    let mut of_kind = vec![0.0; shares.len()];
    weights.iter().for_each(|w| of_kind[w.1] += w.0 / total);
    weights.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut of_entry: BTreeMap<usize, f64> = BTreeMap::new();
    let mut left = total;
    for (weight, k, i) in weights {
        if left < HARDLY * total {
            break;
        }
        left -= weight;
        let near = nearest_entry(alike.library, cloud.kinds()[k], &cloud.drawn(k)[i].row());
        *of_entry.entry(near).or_default() += weight / total;
    }
    let kind_of = |i: usize| alike.library.faults()[i].kind();
    let entries: Vec<(usize, f64, FaultKind)> = of_entry
        .into_iter()
        .filter(|e| e.1 > HARDLY)
        .map(|(i, weight)| (i, weight, kind_of(i)))
        .collect();
    let mut best = (f64::NEG_INFINITY, 0);
    for &(i, _, kind) in &entries {
        let mut right = cloud
            .kinds()
            .iter()
            .position(|k| *k == kind)
            .map_or(0.0, |k| of_kind[k]);
        for &(j, weight, other) in &entries {
            if other != kind && alike.holds(i, j) {
                right += weight;
            }
        }
        if right > best.0 {
            best = (right, i);
        }
    }
    (best.1, of_kind)
}

/// What no reading parts, asked once.
struct Alike<'a> {
    library: &'a Library,
    points: usize,
    noise: &'a Noise,
    known: HashMap<(usize, usize), bool>,
}

impl Alike<'_> {
    fn holds(&mut self, i: usize, j: usize) -> bool {
        let (library, points, noise) = (self.library, self.points, self.noise);
        *self
            .known
            .entry((i.min(j), i.max(j)))
            .or_insert_with(|| library.alike(i, j, points, noise, PART_AT))
    }
}

/// As the bench draws them.
fn severity(kind: FaultKind, dice: &mut ChaCha8Rng) -> Fault {
    match kind {
        FaultKind::Healthy => Fault::Healthy,
        FaultKind::UpsideDown(bay) => Fault::UpsideDown { bay },
        FaultKind::DeadBay(bay) => Fault::DeadBay {
            bay,
            end: if dice.random_bool(0.5) {
                End::Open
            } else {
                End::Short
            },
        },
        FaultKind::Swapped(first, second) => Fault::Swapped { first, second },
        FaultKind::WrongVelocity(branch) => Fault::WrongVelocity {
            branch,
            velocity_ratio: dice.random_range(0.65..0.83),
        },
        FaultKind::WaterInFeeder => Fault::WaterInFeeder {
            extra_db: dice.random_range(2.0..6.0),
        },
        FaultKind::WaterInBranch(branch) => Fault::WaterInBranch {
            branch,
            extra_db: dice.random_range(3.0..9.0),
        },
        FaultKind::Detuned(bay) => {
            let sign = if dice.random_bool(0.5) { 1.0 } else { -1.0 };
            Fault::Detuned {
                bay,
                by_mhz: sign * dice.random_range(4.0..8.0),
            }
        }
    }
}

/// Three in ten are healthy, every sort of fault is as frequent, every place of it.
fn shares(kinds: &[FaultKind]) -> Vec<f64> {
    let same = |a: &FaultKind, b: &FaultKind| std::mem::discriminant(a) == std::mem::discriminant(b);
    let places = |k: &FaultKind| kinds.iter().filter(|o| same(o, k)).count() as f64;
    let share = |k: &FaultKind| {
        if *k == FaultKind::Healthy {
            0.3
        } else {
            0.7 / 7.0 / places(k)
        }
    };
    kinds.iter().map(share).collect()
}

fn drawn_from(shares: &[f64], dice: &mut ChaCha8Rng) -> usize {
    let mut left: f64 = dice.random_range(0.0..1.0);
    for (i, share) in shares.iter().enumerate() {
        left -= share;
        if left < 0.0 {
            return i;
        }
    }
    shares.len() - 1
}
