//! Splitters as scattering matrices: port 0 the input, then one port a branch.

use num_complex::Complex64 as C64;

use super::{Feed, ONE};
use crate::array::{ArrayError, Matrix, within};
use crate::line::TwoPort;

/// How a reactive splitter meets the impedance of its input.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum InputMatch {
    /// Not at all: a plain tee, N branches in parallel on the input.
    Plain,
    /// An ideal transformer: matched at every frequency.
    Ideal,
    /// A quarter-wave section of air line, as built.
    QuarterWave {
        /// Its impedance, ohm; √(50·50/N) for N equal branches of 50 Ω.
        z_ohm: f64,
        /// Where it is a quarter wave, MHz.
        centre_mhz: f64,
    },
}

/// Kinds of splitter. Ask the supplier which: they differ when a bay fails.
#[derive(Debug, Clone, PartialEq)]
pub enum Splitter {
    /// Hybrids or Wilkinson sections: every port matched. What returns never reaches a neighbour: its in-phase part goes back to
    /// the input, the rest is burnt in the loads.
    Isolated {
        /// Loss beyond the division, dB.
        excess_loss_db: f64,
    },
    /// A node: what returns goes to the other branches and to the input.
    Reactive {
        /// Loss beyond the division, dB.
        excess_loss_db: f64,
        /// The match at its input.
        input: InputMatch,
    },
    /// Known by measurement: scattering matrix against the feed's impedance, port 0 the input, for the frequency in hand.
    Measured(Matrix),
}

impl Splitter {
    /// A reactive splitter with the quarter-wave section that its number of ways wants, for equal shares at 50 Ω.
    pub fn quarter_wave(ways: usize, centre_mhz: f64, excess_loss_db: f64) -> Self {
        let z_ohm = 50.0 / (ways.max(1) as f64).sqrt();
        Self::Reactive {
            excess_loss_db,
            input: InputMatch::QuarterWave { z_ohm, centre_mhz },
        }
    }
}

impl Feed {
    /// Scattering of the bare splitter, and the two-port in front of it.
    pub(crate) fn splitter_network(&self, freq_mhz: f64) -> Result<(Matrix, TwoPort), ArrayError> {
        let n = self.branches.len();
        match &self.splitter {
            Splitter::Isolated { excess_loss_db } => {
                let pass = loss_ratio(*excess_loss_db)?;
                let shares = self.shares();
                Ok((
                    Matrix::from_fn(n + 1, n + 1, |i, j| through(i, j, &shares, pass)),
                    TwoPort::THROUGH,
                ))
            }
            Splitter::Reactive {
                excess_loss_db,
                input,
            } => {
                let pass = loss_ratio(*excess_loss_db)?;
                let scale = if *input == InputMatch::Ideal {
                    1.0
                } else {
                    n as f64
                };
                let turns: Vec<f64> = self.shares().iter().map(|s| (s * scale).sqrt()).collect();
                Ok((node(&turns, pass), input_section(*input, freq_mhz)?))
            }
            Splitter::Measured(s) => {
                if s.nrows() != n + 1 || s.ncols() != n + 1 {
                    return Err(ArrayError::Length {
                        what: "scattering",
                        given: s.nrows(),
                        wanted: n + 1,
                    });
                }
                Ok((s.clone(), TwoPort::THROUGH))
            }
        }
    }
}

fn loss_ratio(excess_loss_db: f64) -> Result<f64, ArrayError> {
    within(
        "excess-loss-of-the-splitter-in-db",
        excess_loss_db,
        excess_loss_db >= 0.0,
        "from-0",
    )?;
    Ok(10f64.powf(-excess_loss_db / 20.0))
}

fn through(i: usize, j: usize, shares: &[f64], pass: f64) -> C64 {
    match (i, j) {
        (0, 0) => C64::default(),
        (0, p) | (p, 0) => C64::from(shares[p - 1].sqrt() * pass),
        _ => C64::default(),
    }
}

/// Lossless junction: voltage t_i V₀ at each branch, Σ t_i I_i at the input; the loss is put on the way through.
fn node(turns: &[f64], pass: f64) -> Matrix {
    let y = 1.0 + turns.iter().map(|t| t * t).sum::<f64>();
    let t = |i: usize| if i == 0 { 1.0 } else { turns[i - 1] };
    Matrix::from_fn(turns.len() + 1, turns.len() + 1, |i, j| {
        let s = C64::from(2.0 * t(i) * t(j) / y) - if i == j { ONE } else { C64::default() };
        if (i == 0) != (j == 0) { s * pass } else { s }
    })
}

fn input_section(input: InputMatch, freq_mhz: f64) -> Result<TwoPort, ArrayError> {
    let InputMatch::QuarterWave { z_ohm, centre_mhz } = input else {
        return Ok(TwoPort::THROUGH);
    };
    within(
        "impedance-of-the-quarter-wave-section-in-ohm",
        z_ohm,
        z_ohm > 0.0,
        "a-figure-above-0",
    )?;
    within(
        "centre-of-the-quarter-wave-section-in-mhz",
        centre_mhz,
        centre_mhz > 0.0,
        "a-frequency-above-0",
    )?;
    let angle = std::f64::consts::FRAC_PI_2 * freq_mhz / centre_mhz;
    Ok(TwoPort::line(z_ohm, C64::new(0.0, angle), 1.0))
}
