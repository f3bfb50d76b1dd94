//! An installation as its meters see it: transmitter, feeder, splitter, stack, and points in the field.

use num_complex::Complex64 as C64;
use serde::{Deserialize, Serialize};

use crate::array::{ArrayError, HALF_WAVE_DIRECTIVITY, Radiator, Stack};
use crate::chain::{Chain, ChainError, FoldBack, Stage};
use crate::direction::{Direction, Plane};
use crate::feed::{Cable, Feed};
use crate::line::LineConstants;

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
#[derive(Debug, Clone, PartialEq)]
pub struct Installation {
    /// The stack.
    pub stack: Stack,
    /// Splitter and branches.
    pub feed: Feed,
    /// Main feeder.
    pub feeder: Cable,
    /// Its conductor temperature, °C.
    pub conductor_c: f64,
    /// Water in it.
    pub wet: Option<Wet>,
    /// Forward power the transmitter holds, W.
    pub forward_w: f64,
    /// How it protects itself.
    pub fold_back: FoldBack,
    /// Directivity of the coupler behind its meters, dB: forward power that leaks into the reflected reading.
    pub coupler_directivity_db: f64,
    /// Field that reaches any place by scatter, dB against the strongest direction: no null is deeper on a meter.
    pub scatter_db: f64,
}

/// What makes an installation unanswerable.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum InstallationError {
    /// In the stack or its feed.
    #[error(transparent)]
    Array(#[from] ArrayError),
    /// In the feeder.
    #[error(transparent)]
    Chain(#[from] ChainError),
}

impl Installation {
    /// The chain of the main feeder, wet piece first.
    pub fn chain(&self) -> Chain {
        let line = |line: LineConstants, length_m: f64| Stage::Line {
            cable: Cable { line, length_m },
            conductor_c: self.conductor_c,
        };
        let dry = self.feeder.line;
        let mut stages = Vec::new();
        if let Some(w) = self.wet {
            let mut wet = dry;
            wet.z0_ohm *= w.ratio;
            wet.velocity_ratio *= w.ratio;
            wet.b_db_per_100m += w.extra_db / w.length_m * 100.0 / self.stack.frequency_mhz;
            stages.push(line(wet, w.length_m));
            stages.push(line(dry, (self.feeder.length_m - w.length_m).max(0.0)));
        } else {
            stages.push(line(dry, self.feeder.length_m));
        }
        Chain {
            z0_ohm: self.feed.z0_ohm,
            stages,
        }
    }

    /// What forward, reflected and field meters would read, free of noise.
    ///
    /// # Errors
    /// [`InstallationError`] for a stack, feed or feeder that cannot be computed.
    pub fn readings(&self, points: &[FieldPoint]) -> Result<Readings, InstallationError> {
        let fed = self.feed.solve(&self.stack)?;
        let f = self.stack.frequency_mhz;
        let chain = self.chain();
        let probe = chain.at(f, fed.input_ohm(), 1.0)?;
        let forward_w = self.fold_back.forward_w(self.forward_w, probe.vswr);
        let leak = 10f64.powf(-self.coupler_directivity_db / 10.0);
        let reflected_w = forward_w * (probe.input_reflection.norm_sqr() + leak);
        let radiated_w = forward_w * probe.delivered_w * fed.efficiency_ratio();
        let erp_dbw = self.erp_dbw(&fed.currents_a, radiated_w, points)?;
        Ok(Readings {
            forward_dbw: 10.0 * forward_w.log10(),
            reflected_dbw: 10.0 * reflected_w.log10(),
            erp_dbw,
        })
    }

    fn erp_dbw(
        &self,
        currents_a: &[C64],
        radiated_w: f64,
        points: &[FieldPoint],
    ) -> Result<Vec<f64>, ArrayError> {
        let radiator = Radiator::new(&self.stack, currents_a)?;
        let per_field = 4.0 * std::f64::consts::PI / radiator.checked_integral()? / HALF_WAVE_DIRECTIVITY;
        // Scatter is fed by whatever is radiated, as if by one dipole of the stack's size.
        let scatter_w = radiated_w * self.stack.bays.len() as f64 * 10f64.powf(self.scatter_db / 10.0);
        let mut rows: Vec<(f64, crate::array::radiator::Row<'_>)> = Vec::new();
        let mut out = Vec::with_capacity(points.len());
        for p in points {
            let elev_deg = p.towards.elev_deg;
            let at = rows.iter().position(|r| r.0 == elev_deg).unwrap_or_else(|| {
                rows.push((elev_deg, radiator.row(elev_deg)));
                rows.len() - 1
            });
            let field = rows[at].1.field(p.towards.bearing_deg);
            let direct_w = radiated_w * per_field * field.plane(p.plane).norm_sqr();
            out.push(10.0 * (direct_w + scatter_w).log10());
        }
        Ok(out)
    }
}
