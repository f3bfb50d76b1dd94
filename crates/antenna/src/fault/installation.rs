//! An installation as its meters see it: transmitter, line, splitter, bays on their mast, and points in the field.

use num_complex::Complex64 as C64;
use rand::Rng;
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};

use super::aerial::{Aerial, Sight};
use crate::array::ArrayError;
use crate::chain::{Chain, ChainError, FoldBack, Stage};
use crate::direction::{Direction, Plane};
use crate::feed::{Cable, Feed};
use crate::mount::MountError;

/// A piece of feeder with water in it: slower, of lower impedance, and lossy.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Wet {
    /// Loss the water adds, dB.
    pub extra_db: f64,
    /// Length of the wet piece at the lower end, m.
    pub length_m: f64,
    /// Impedance and velocity of the wet piece against the dry.
    pub ratio: f64,
}

impl Wet {
    /// Three metres at nine tenths (invented, a plausible case).
    pub const DEFAULT: Wet = Wet {
        extra_db: 0.0,
        length_m: 3.0,
        ratio: 0.9,
    };
}

/// Where the field is measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct FieldPoint {
    /// Direction from the antenna.
    pub towards: Direction,
    /// Plane of the measuring antenna.
    pub plane: Plane,
}

/// What the meters say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Readings {
    /// Forward power at the transmitter, dBW.
    pub forward_dbw: f64,
    /// Reflected power at the transmitter, dBW.
    pub reflected_dbw: f64,
    /// Power radiated towards each point, dBW ERP: the field there, less what the path was found to cost at acceptance.
    pub erp_dbw: Vec<f64>,
}

impl Readings {
    /// All of them in one row: forward, reflected, points.
    pub fn row(&self) -> Vec<f64> {
        let mut row = vec![self.forward_dbw, self.reflected_dbw];
        row.extend(&self.erp_dbw);
        row
    }
}

/// Everything between the transmitter's flange and the air.
#[derive(Debug, Clone)]
pub struct Installation {
    /// The bays on their mast.
    pub aerial: Aerial,
    /// Splitter and branches.
    pub feed: Feed,
    /// From the transmitter to the splitter, transmitter first. Water stands at the lower end of the longest line.
    pub line: Vec<Stage>,
    /// Water in it.
    pub wet: Option<Wet>,
    /// Forward power the transmitter holds, W.
    pub forward_w: f64,
    /// How it protects itself, where that is known.
    pub fold_back: Option<FoldBack>,
    /// Directivity of the coupler behind its meters, dB: forward power that leaks into the reflected reading.
    pub coupler_directivity_db: f64,
    /// Field that reaches any place by scatter, dB against the strongest direction: no null is deeper on a meter.
    pub scatter_db: f64,
}

/// What makes an installation unanswerable.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum InstallationError {
    /// In the stack or its feed.
    Array(#[from] ArrayError),
    /// In the line.
    Chain(#[from] ChainError),
    /// In the bays on their mast.
    Mount(#[from] MountError),
}

impl From<&InstallationError> for words::Message {
    fn from(error: &InstallationError) -> Self {
        match error {
            InstallationError::Array(error) => error.into(),
            InstallationError::Chain(error) => error.into(),
            InstallationError::Mount(error) => error.into(),
        }
    }
}

words::said_in_english!(InstallationError);

impl Installation {
    /// The chain from transmitter to splitter, with the water that stands in it.
    pub fn chain(&self) -> Chain {
        let mut stages = self.line.clone();
        if let Some(wet) = self.wet
            && let Some((at, cable, conductor_c)) = self.longest_line()
        {
            stages.splice(
                at..=at,
                wet.pieces(cable, conductor_c, self.aerial.frequency_mhz()),
            );
        }
        Chain {
            z0_ohm: self.feed.z0_ohm,
            stages,
        }
    }

    /// Place among the stages, cable and conductor temperature of the main feeder.
    fn longest_line(&self) -> Option<(usize, Cable, f64)> {
        let line = |(i, stage): (usize, &Stage)| match stage {
            Stage::Line { cable, conductor_c } => Some((i, *cable, *conductor_c)),
            _ => None,
        };
        self.line
            .iter()
            .enumerate()
            .filter_map(line)
            .max_by(|a, b| a.1.length_m.total_cmp(&b.1.length_m))
    }

    /// What forward, reflected and field meters would read, free of noise: the mean of their decibels over the phases in which
    /// coupler leak and scatter come, which is that of the stronger wave (mean value of a harmonic function).
    ///
    /// # Errors
    /// [`InstallationError`] for bays, feed or line that cannot be computed.
    pub fn readings(&self, points: &[FieldPoint]) -> Result<Readings, InstallationError> {
        Ok(self.seen(&mut Sight::new(points))?.readings())
    }

    /// The same with coupler leak and scatter each in a phase drawn at random: one day of many.
    ///
    /// # Errors
    /// As [`Self::readings`].
    pub fn readings_drawn(
        &self,
        points: &[FieldPoint],
        dice: &mut ChaCha8Rng,
    ) -> Result<Readings, InstallationError> {
        let seen = self.seen(&mut Sight::new(points))?;
        let mut drawn = |w: &Waves| w.dbw_at(dice.random_range(0.0..std::f64::consts::TAU));
        Ok(Readings {
            forward_dbw: seen.forward_dbw,
            reflected_dbw: drawn(&seen.reflected),
            erp_dbw: seen.fields.iter().map(drawn).collect(),
        })
    }

    pub(super) fn seen(&self, sight: &mut Sight<'_>) -> Result<Seen, InstallationError> {
        let freq_mhz = self.aerial.frequency_mhz();
        let fed = self.feed.solve_ports(&self.aerial.ports_ohm(), freq_mhz)?;
        let probe = self.chain().at(freq_mhz, fed.input_ohm(), 1.0)?;
        let forward_w = self.fold_back.map_or(self.forward_w, |guard| {
            guard.forward_w(self.forward_w, probe.vswr)
        });
        let radiated_w = forward_w * probe.delivered_w * fed.efficiency_ratio();
        let leak = 10f64.powf(-self.coupler_directivity_db / 20.0);
        // Scatter is fed by whatever is radiated, as if by one dipole of the stack's size.
        let scatter = (self.aerial.bays() as f64).sqrt() * 10f64.powf(self.scatter_db / 20.0);
        let gains = sight.gains(&self.aerial, &fed.currents_a, fed.radiated_w)?;
        let field = |gain: &f64| Waves {
            wave: (radiated_w * gain).sqrt(),
            other: radiated_w.sqrt() * scatter,
        };
        Ok(Seen {
            forward_dbw: 10.0 * forward_w.log10(),
            reflected: Waves {
                wave: forward_w.sqrt() * probe.input_reflection.norm(),
                other: forward_w.sqrt() * leak,
            },
            fields: gains.iter().map(field).collect(),
        })
    }
}

/// What meets at each meter.
pub(super) struct Seen {
    forward_dbw: f64,
    reflected: Waves,
    fields: Vec<Waves>,
}

impl Seen {
    /// In the mean over the phases.
    pub fn readings(&self) -> Readings {
        Readings {
            forward_dbw: self.forward_dbw,
            reflected_dbw: self.reflected.mean_dbw(),
            erp_dbw: self.fields.iter().map(Waves::mean_dbw).collect(),
        }
    }

    /// What meets at each meter, in the order of [`Readings::row`]: the wave, dBW, and the other one's ratio to it.
    pub fn waves_dbw(&self) -> Vec<(f32, f32)> {
        let of = |w: &Waves| (20.0 * w.wave.max(1e-12).log10(), w.other / w.wave.max(1e-12));
        let waves = std::iter::once(&self.reflected).chain(&self.fields).map(of);
        std::iter::once((self.forward_dbw, 0.0))
            .chain(waves)
            .map(|(dbw, ratio)| (dbw as f32, ratio as f32))
            .collect()
    }

    /// How far the phases scatter each reading, dB, in the order of [`Readings::row`]: standard deviations.
    pub fn phase_spreads_db(&self) -> Vec<f64> {
        let waves = std::iter::once(&self.reflected).chain(&self.fields);
        std::iter::once(0.0).chain(waves.map(Waves::spread_db)).collect()
    }
}

/// Two waves in a phase that nobody knows, √W each.
struct Waves {
    wave: f64,
    other: f64,
}

impl Waves {
    fn mean_dbw(&self) -> f64 {
        20.0 * self.wave.max(self.other).log10()
    }

    fn dbw_at(&self, phase_rad: f64) -> f64 {
        let sum = (self.wave + C64::from_polar(self.other, phase_rad)).norm_sqr();
        // Two waves never meet in quite opposite phase over the width of a reading.
        10.0 * sum.max(1e-4 * (self.wave.powi(2) + self.other.powi(2))).log10()
    }

    fn spread_db(&self) -> f64 {
        const PHASES: usize = 32;
        let mean = self.mean_dbw();
        let square = |i: usize| {
            let phase = std::f64::consts::TAU * (i as f64 + 0.5) / PHASES as f64;
            (self.dbw_at(phase) - mean).powi(2)
        };
        ((0..PHASES).map(square).sum::<f64>() / PHASES as f64).sqrt()
    }
}

impl Wet {
    /// The line it stands in: the wet part, towards the transmitter at the foot of the mast, then the dry.
    fn pieces(self, cable: Cable, conductor_c: f64, freq_mhz: f64) -> [Stage; 2] {
        let line = |line, length_m| Stage::Line {
            cable: Cable { line, length_m },
            conductor_c,
        };
        let mut wet = cable.line;
        wet.z0_ohm *= self.ratio;
        wet.velocity_ratio *= self.ratio;
        let length_m = self.length_m.min(cable.length_m);
        wet.b_db_per_100m += self.extra_db / length_m.max(0.01) * 100.0 / freq_mhz;
        [line(wet, length_m), line(cable.line, cable.length_m - length_m)]
    }
}
