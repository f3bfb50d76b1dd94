//! The chain from transmitter to antenna as two-ports: loss with mismatch, power and voltage at every joint, over the band.

pub mod touchstone;

pub use touchstone::{Overlay, Touchstone, TouchstoneError};

use num_complex::Complex64 as C64;
use serde::Serialize;

use crate::feed::Cable;
use crate::line::two_port::reflection;
use crate::line::{LineError, TwoPort, Vswr, within};

/// The FM broadcast band, MHz.
pub const FM_BAND_MHZ: (f64, f64) = (87.5, 108.0);

/// One part between transmitter and antenna.
#[derive(Debug, Clone, PartialEq)]
pub enum Stage {
    /// A length of line at a conductor temperature, °C.
    Line {
        /// The line.
        cable: Cable,
        /// Conductor temperature, °C.
        conductor_c: f64,
    },
    /// A matched part known by its loss alone: connector pair, adapter, filter, arrester.
    Loss {
        /// Its loss, dB.
        loss_db: f64,
    },
    /// A part measured as a two-port.
    Measured(Touchstone),
    /// A fixed two-port, the same at every frequency.
    Fixed(TwoPort),
}

/// Parts in order, transmitter first.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// Impedance the transmitter and its meters are made for, ohm.
    pub z0_ohm: f64,
    /// The parts.
    pub stages: Vec<Stage>,
}

/// What stands at one plane of the chain.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlaneReading {
    /// Power towards the antenna against the system impedance, W.
    pub forward_w: f64,
    /// Power coming back, W.
    pub reflected_w: f64,
    /// Net power, W.
    pub net_w: f64,
    /// Peak voltage at this very plane, V.
    pub voltage_peak_v: f64,
    /// Peak voltage at the worst place of the standing wave next to this plane, V: √(2·P_f·Z0)·(1+|Γ|). Rate against this.
    pub worst_voltage_peak_v: f64,
}

/// The chain's answer at one frequency.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChainAnswer {
    /// Frequency, MHz.
    pub freq_mhz: f64,
    /// Reflection coefficient at the transmitter.
    #[serde(serialize_with = "pair")]
    pub input_reflection: C64,
    /// VSWR at the transmitter.
    pub vswr: Vswr,
    /// Loss from the power accepted at the transmitter's flange to the power into the antenna, dB.
    pub loss_db: f64,
    /// Power into the antenna, W.
    pub delivered_w: f64,
    /// Planes: before the first part, between parts, and at the antenna: one more than there are parts.
    pub planes: Vec<PlaneReading>,
}

impl ChainAnswer {
    /// Return loss at the transmitter, dB.
    pub fn return_loss_db(&self) -> f64 {
        return_loss_db(self.input_reflection)
    }
}

/// Return loss of a reflection coefficient, dB; 120 where less comes back than any meter shows.
pub(crate) fn return_loss_db(reflection: C64) -> f64 {
    -20.0 * reflection.norm().max(1e-6).log10()
}

/// How a transmitter protects itself: it lowers its power so that the reflected power stays what it was at the limit (common
/// practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FoldBack {
    /// VSWR from which it reduces.
    pub limit: Vswr,
}

impl FoldBack {
    /// Forward power it gives at a VSWR, W.
    pub fn forward_w(&self, rated_w: f64, vswr: Vswr) -> f64 {
        if vswr <= self.limit {
            return rated_w;
        }
        rated_w * self.limit.reflected_ratio() / vswr.reflected_ratio()
    }
}

/// What makes a chain unanswerable.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ChainError {
    /// A line or quantity is out of range.
    Line(#[from] LineError),
    /// A measured part cannot be used here.
    Part {
        /// Number of the part, from 1.
        part: usize,
        /// What is wrong with it.
        why: TouchstoneError,
    },
    /// Nothing gets through.
    Cut {
        /// Number of the part, from 1.
        part: usize,
        /// The frequency.
        freq_mhz: f64,
    },
}

impl Chain {
    /// Solves the chain at a frequency for a load and a forward power at the transmitter.
    ///
    /// # Units
    /// - `load_ohm`: impedance of the antenna's input
    /// - `forward_w`: power towards the antenna at the transmitter, W: what its meter reads
    ///
    /// # Errors
    /// [`ChainError`] for a part out of range, a measured part without that frequency, or a load that reflects everything.
    pub fn at(&self, freq_mhz: f64, load_ohm: C64, forward_w: f64) -> Result<ChainAnswer, ChainError> {
        within("forward-power-in-w", forward_w, forward_w >= 0.0, "from-0")?;
        within(
            "resistance-of-the-load-in-ohm",
            load_ohm.re,
            load_ohm.re > 0.0,
            "a-figure-above-0",
        )?;
        let parts: Vec<TwoPort> = (0..self.stages.len())
            .map(|i| self.stage_two_port(i, freq_mhz))
            .collect::<Result<_, _>>()?;
        let whole = parts.iter().fold(TwoPort::THROUGH, |sum, p| sum.then(*p));
        let input_reflection = reflection(whole.input_ohm(load_ohm), self.z0_ohm);
        let vswr = Vswr::from_reflection(input_reflection.norm())?;
        let wave = C64::from((2.0 * forward_w * self.z0_ohm).sqrt());
        let mut volts = wave * (1.0 + input_reflection);
        let mut amperes = wave * (1.0 - input_reflection) / self.z0_ohm;
        let mut planes = vec![self.reading(volts, amperes)];
        for part in &parts {
            (volts, amperes) = part.onward(volts, amperes);
            planes.push(self.reading(volts, amperes));
        }
        let (first, last) = (planes[0].net_w, planes[planes.len() - 1].net_w);
        // By the network alone, so that it holds at zero power too.
        let (v1, i1) = (1.0 + input_reflection, (1.0 - input_reflection) / self.z0_ohm);
        let (v2, i2) = whole.onward(v1, i1);
        let loss_db = 10.0 * ((v1 * i1.conj()).re / (v2 * i2.conj()).re).log10();
        debug_assert!(first >= last * (1.0 - 1e-9));
        Ok(ChainAnswer {
            freq_mhz,
            input_reflection,
            vswr,
            loss_db,
            delivered_w: last,
            planes,
        })
    }

    /// The same over a list of frequencies, the load given for each.
    ///
    /// # Errors
    /// As [`Self::at`], the first that fails.
    pub fn sweep(
        &self,
        freqs_mhz: &[f64],
        forward_w: f64,
        load_ohm: impl Fn(f64) -> C64,
    ) -> Result<Vec<ChainAnswer>, ChainError> {
        freqs_mhz
            .iter()
            .map(|&f| self.at(f, load_ohm(f), forward_w))
            .collect()
    }

    /// Loss of the chain into a matched load, dB.
    ///
    /// # Errors
    /// As [`Self::at`].
    pub fn matched_loss_db(&self, freq_mhz: f64) -> Result<f64, ChainError> {
        Ok(self.at(freq_mhz, C64::from(self.z0_ohm), 1.0)?.loss_db)
    }

    fn stage_two_port(&self, index: usize, freq_mhz: f64) -> Result<TwoPort, ChainError> {
        match &self.stages[index] {
            Stage::Line { cable, conductor_c } => Ok(cable.two_port(freq_mhz, *conductor_c)?),
            Stage::Loss { loss_db } => {
                within("loss-of-a-part-in-db", *loss_db, *loss_db >= 0.0, "from-0")?;
                Ok(TwoPort::attenuator(*loss_db, self.z0_ohm))
            }
            Stage::Fixed(net) => Ok(*net),
            Stage::Measured(file) => {
                let part = index + 1;
                let s = file
                    .two_port_at(freq_mhz)
                    .map_err(|why| ChainError::Part { part, why })?;
                s.chain(file.z0_ohm).ok_or(ChainError::Cut { part, freq_mhz })
            }
        }
    }

    fn reading(&self, volts: C64, amperes: C64) -> PlaneReading {
        let z0 = self.z0_ohm;
        let (onward, back) = ((volts + amperes * z0) / 2.0, (volts - amperes * z0) / 2.0);
        PlaneReading {
            forward_w: onward.norm_sqr() / (2.0 * z0),
            reflected_w: back.norm_sqr() / (2.0 * z0),
            net_w: 0.5 * (volts * amperes.conj()).re,
            voltage_peak_v: volts.norm(),
            worst_voltage_peak_v: onward.norm() + back.norm(),
        }
    }
}

impl FoldBack {
    /// Stretches of a sweep in which the transmitter would reduce its power: first and last frequency of each, MHz, the edges set
    /// by straight lines between the answers.
    ///
    /// # Shape
    /// `answers`: by rising frequency, as [`Chain::sweep`] gives them
    pub fn reduces_mhz(&self, answers: &[ChainAnswer]) -> Vec<(f64, f64)> {
        let limit = self.limit.ratio();
        let over = |a: &ChainAnswer| a.vswr.ratio() > limit;
        let edge = |a: &ChainAnswer, b: &ChainAnswer| {
            let t = (limit - a.vswr.ratio()) / (b.vswr.ratio() - a.vswr.ratio());
            a.freq_mhz + t * (b.freq_mhz - a.freq_mhz)
        };
        let mut out: Vec<(f64, f64)> = Vec::new();
        for (i, a) in answers.iter().enumerate().filter(|(_, a)| over(a)) {
            let before = i.checked_sub(1).map(|j| &answers[j]);
            let after = answers.get(i + 1);
            if before.is_none_or(|b| !over(b)) {
                out.push((before.map_or(a.freq_mhz, |b| edge(b, a)), a.freq_mhz));
            }
            if let Some(last) = out.last_mut() {
                last.1 = after.filter(|b| !over(b)).map_or(a.freq_mhz, |b| edge(a, b));
            }
        }
        out
    }
}

/// Frequencies of a sweep, both ends included, MHz.
pub fn sweep_mhz(from_mhz: f64, to_mhz: f64, count: usize) -> Vec<f64> {
    let steps = count.saturating_sub(1).max(1) as f64;
    (0..count)
        .map(|i| from_mhz + (to_mhz - from_mhz) * i as f64 / steps)
        .collect()
}

/// Peak voltage of two programmes on one line, V: carriers drift through phase, so the peaks add.
pub fn combined_peak_v(peaks_v: &[f64]) -> f64 {
    peaks_v.iter().sum()
}

fn pair<S: serde::Serializer>(c: &C64, to: S) -> Result<S::Ok, S::Error> {
    [c.re, c.im].serialize(to)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::line::LineConstants;
    use crate::line::mismatch::total_loss_db;

    fn feeder(length_m: f64) -> Stage {
        let line = LineConstants::new(0.1122, 0.000483, 0.89, 50.0).unwrap();
        Stage::Line {
            cable: Cable { line, length_m },
            conductor_c: 20.0,
        }
    }

    #[test]
    fn ref_one_decibel_of_line_and_a_load_of_two() {
        // Computed, and the same from a general network library: total 1.196 dB, VSWR 1.72 at the input.
        let chain = Chain {
            z0_ohm: 50.0,
            stages: vec![Stage::Loss { loss_db: 1.0 }],
        };
        let a = chain.at(98.0, C64::from(100.0), 1000.0).unwrap();
        assert!(
            (a.loss_db - 1.196).abs() < 0.005 && (a.vswr.ratio() - 1.72).abs() < 0.005,
            "{a:?}"
        );
        assert_eq!(a.planes.len(), 2);
    }

    #[test]
    fn ref_peak_voltage_of_a_kilowatt() {
        // √(2·1000·50) = 316.2 V matched; twice that at total reflection (standard theory).
        let chain = Chain {
            z0_ohm: 50.0,
            stages: vec![],
        };
        let a = chain.at(98.0, C64::from(50.0), 1000.0).unwrap();
        assert!((a.planes[0].voltage_peak_v - 316.23).abs() < 0.01);
        let bad = chain.at(98.0, C64::from(1e9), 1000.0).unwrap();
        assert!((bad.planes[0].worst_voltage_peak_v - 632.46).abs() < 0.01);
    }

    #[test]
    fn ref_fold_back_keeps_the_reflected_power() {
        let guard = FoldBack {
            limit: Vswr::new(1.5).unwrap(),
        };
        assert_eq!(guard.forward_w(1000.0, Vswr::new(1.4).unwrap()), 1000.0);
        let at_three = Vswr::new(3.0).unwrap();
        let w = guard.forward_w(1000.0, at_three);
        assert!((w * at_three.reflected_ratio() - 40.0).abs() < 1e-9);
    }

    #[test]
    fn prop_fold_back_is_told_by_stretches_of_the_band() {
        // A load tuned at 98 MHz: VSWR 1.5 where |X| = 20.4 Ω of 50 (Γ = 0.2), so 5.1 MHz off at 4 Ω per MHz.
        let chain = Chain {
            z0_ohm: 50.0,
            stages: vec![],
        };
        let load = |f: f64| C64::new(50.0, 4.0 * (f - 98.0));
        let answers = chain.sweep(&sweep_mhz(87.5, 108.0, 206), 1000.0, load).unwrap();
        let stretches = FoldBack {
            limit: Vswr::new(1.5).unwrap(),
        }
        .reduces_mhz(&answers);
        let off_mhz = 50.0 * 2.0 * 0.2 / (1.0f64 - 0.04).sqrt() / 4.0;
        assert_eq!(stretches.len(), 2);
        assert!(
            (stretches[0].0 - 87.5).abs() < 1e-9 && (stretches[0].1 - 98.0 + off_mhz).abs() < 0.01,
            "{stretches:?}"
        );
        assert!((stretches[1].0 - 98.0 - off_mhz).abs() < 0.01 && (stretches[1].1 - 108.0).abs() < 1e-9);
        assert!(
            FoldBack {
                limit: Vswr::new(9.0).unwrap()
            }
            .reduces_mhz(&answers)
            .is_empty()
        );
    }

    #[test]
    fn bad_loads_and_parts_are_refused() {
        let chain = Chain {
            z0_ohm: 50.0,
            stages: vec![Stage::Loss { loss_db: -1.0 }],
        };
        assert!(chain.at(98.0, C64::from(50.0), 1.0).is_err());
        let chain = Chain {
            z0_ohm: 50.0,
            stages: vec![feeder(10.0)],
        };
        assert!(chain.at(98.0, C64::new(-5.0, 3.0), 1.0).is_err());
        assert!(chain.at(98.0, C64::new(f64::NAN, 3.0), 1.0).is_err());
    }

    proptest! {
        #[test]
        fn prop_closed_formula_holds_for_any_load(r in 5.0..400.0f64, x in -200.0..200.0f64, m in 0.1..300.0f64) {
            let chain = Chain { z0_ohm: 50.0, stages: vec![feeder(m)] };
            let a = chain.at(98.0, C64::new(r, x), 500.0).unwrap();
            let load = Vswr::from_reflection(reflection(C64::new(r, x), 50.0).norm()).unwrap();
            let matched = chain.matched_loss_db(98.0).unwrap();
            prop_assert!((a.loss_db - total_loss_db(matched, load).unwrap()).abs() < 1e-6);
            prop_assert!((a.vswr.ratio() - load.seen_through(matched).unwrap().ratio()).abs() < 1e-6 * a.vswr.ratio());
        }

        #[test]
        fn prop_net_power_never_grows(losses in proptest::collection::vec(0.0..1.0f64, 1..6), r in 10.0..200.0f64) {
            let mut stages: Vec<Stage> = losses.iter().map(|&loss_db| Stage::Loss { loss_db }).collect();
            stages.insert(0, feeder(30.0));
            let a = Chain { z0_ohm: 50.0, stages }.at(101.0, C64::new(r, 20.0), 100.0).unwrap();
            prop_assert!(a.planes.windows(2).all(|w| w[1].net_w <= w[0].net_w + 1e-9));
        }
    }
}
