//! Drawn installations themselves, the yardstick of [`super::ranking`]: for each kind of fault many, of every severity and as work turns out.
//!
//! What readings say of a kind of fault is the mean of what they say of its drawn installations. No normal law is laid over how a reading
//! scatters by the work, which in a null is anything but normal; coupler leak and scatter come in every phase alike. It takes thousands of
//! them for each station and the law of the severities, which nobody has of a real one.

use rand_chacha::ChaCha8Rng;

use super::aerial::Sight;
use super::installation::InstallationError;
use super::{AsBuilt, Fault, FaultKind, FieldPoint, Installation, Log, Reading};

/// Phases between which coupler leak and scatter are sampled, over half a turn.
const PHASES: usize = 8;

/// Drawn installations by kind of fault.
#[derive(Debug, Clone)]
pub struct Cloud {
    kinds: Vec<FaultKind>,
    drawn: Vec<Vec<Drawn>>,
}

/// One drawn installation: its severity, and what meets at each meter: forward, reflected, then the points.
#[derive(Debug, Clone)]
pub struct Drawn {
    /// The fault as it was drawn.
    pub fault: Fault,
    /// The wave, dBW, and the other one's ratio to it.
    waves: Vec<(f32, f32)>,
}

impl Cloud {
    /// Draws `each` installations of every kind.
    ///
    /// # Errors
    /// [`InstallationError`] when one cannot be computed.
    pub fn new(
        of: &Installation,
        points: &[FieldPoint],
        built: &AsBuilt,
        kinds: &[FaultKind],
        each: usize,
        dice: &mut ChaCha8Rng,
        severity: &dyn Fn(FaultKind, &mut ChaCha8Rng) -> Fault,
    ) -> Result<Self, InstallationError> {
        let mut sight = Sight::new(points);
        let mut one = |kind: FaultKind| {
            let fault = severity(kind, dice);
            let station = built.drawn(of, dice);
            let seen = fault.as_it_comes(&station, dice)?.seen(&mut sight)?;
            Ok(Drawn {
                fault,
                waves: seen.waves_dbw(),
            })
        };
        let drawn = kinds
            .iter()
            .map(|k| (0..each).map(|_| one(*k)).collect())
            .collect::<Result<_, InstallationError>>()?;
        Ok(Self {
            kinds: kinds.to_vec(),
            drawn,
        })
    }

    /// The kinds, in order.
    pub fn kinds(&self) -> &[FaultKind] {
        &self.kinds
    }

    /// The drawn installations of a kind.
    pub fn drawn(&self, kind: usize) -> &[Drawn] {
        &self.drawn[kind]
    }

    /// Logarithm of the density of the readings for every drawn installation, but for a constant.
    pub fn log_densities(&self, log: &Log) -> Vec<Vec<f64>> {
        let meters = [log.forward, log.reflected].into_iter().enumerate();
        let read: Vec<(usize, Reading)> = meters
            .filter_map(|(c, r)| Some((c, r?)))
            .chain(log.fields.iter().map(|(p, r)| (p + 2, *r)))
            .collect();
        self.drawn
            .iter()
            .map(|of_kind| {
                of_kind
                    .iter()
                    .map(|d| read.iter().map(|(c, r)| d.log_density(*c, r)).sum())
                    .collect()
            })
            .collect()
    }
}

impl Drawn {
    /// One reading free of noise, the other wave in a phase, dBW.
    pub fn dbw_at(&self, column: usize, phase_rad: f64) -> f64 {
        let (dbw, ratio) = self.waves[column];
        let (dbw, ratio) = (f64::from(dbw), f64::from(ratio));
        let sum = 1.0 + ratio * ratio + 2.0 * ratio * phase_rad.cos();
        dbw + 10.0 * sum.max(1e-4 * (1.0 + ratio * ratio)).log10()
    }

    /// What it reads in the mean over the phases, in the order of [`super::Readings::row`], dBW.
    pub fn row(&self) -> Vec<f64> {
        let stronger = |&(dbw, ratio): &(f32, f32)| f64::from(dbw) + 20.0 * f64::from(ratio).max(1.0).log10();
        self.waves.iter().map(stronger).collect()
    }

    fn log_density(&self, column: usize, r: &Reading) -> f64 {
        let one = |phase: f64| {
            let off = (r.dbw - self.dbw_at(column, phase)) / r.sigma_db;
            (-0.5 * off * off).exp()
        };
        if self.waves[column].1 == 0.0 {
            let off = (r.dbw - self.dbw_at(column, 0.0)) / r.sigma_db;
            return -0.5 * off * off;
        }
        let phase = |i: usize| std::f64::consts::PI * (i as f64 + 0.5) / PHASES as f64;
        ((0..PHASES).map(|i| one(phase(i))).sum::<f64>() / PHASES as f64)
            .max(1e-300)
            .ln()
    }
}
