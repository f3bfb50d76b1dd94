//! Feeding a stack: splitter, harness and coupled bays solved together. Currents make the pattern; splitters do not set currents.

pub mod harness;
pub mod solve;
pub mod splitter;
pub mod synthesis;
pub mod tolerance;

pub use harness::{CutLength, cutting_list, trimmed};
pub use solve::Fed;
pub use splitter::{InputMatch, Splitter};
pub use synthesis::{Excitation, NullFill};
pub use tolerance::{Band, tolerance_band};

use num_complex::Complex64 as C64;

use crate::array::{ArrayError, within};
use crate::line::{LineConstants, TwoPort};

/// A cut length of cable.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Cable {
    /// What it is made of.
    pub line: LineConstants,
    /// Physical length, m.
    pub length_m: f64,
}

impl Cable {
    /// The cable as a two-port at a frequency and conductor temperature.
    ///
    /// # Errors
    /// [`crate::line::LineError`] for a negative length or a frequency or temperature out of range.
    pub fn two_port(&self, freq_mhz: f64, conductor_c: f64) -> Result<TwoPort, crate::line::LineError> {
        self.line.loss_db(freq_mhz, self.length_m, conductor_c)?;
        Ok(TwoPort::line(
            self.line.z0_ohm,
            self.line.gamma_per_m(freq_mhz, conductor_c)?,
            self.length_m,
        ))
    }

    /// Its phase lag, degrees.
    pub fn phase_deg(&self, freq_mhz: f64) -> f64 {
        self.line.phase_deg_per_m(freq_mhz) * self.length_m
    }
}

/// What happens where the branch cable meets its bay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// Connected, as it should be.
    Connected,
    /// The joint is open: cable and bay both hang free.
    Open,
    /// The joint is shorted: cable and bay both see zero ohm.
    Short,
}

/// One way of the splitter to one bay.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Branch {
    /// The cable.
    pub cable: Cable,
    /// Share of the power this way is made for, in any scale.
    pub share: f64,
    /// The joint at the bay.
    pub end: End,
}

/// A splitter and its branches, in the order of the bays.
#[derive(Debug, Clone, PartialEq)]
pub struct Feed {
    /// System impedance at the input and the splitter's ports, ohm.
    pub z0_ohm: f64,
    /// The splitter.
    pub splitter: Splitter,
    /// One branch a bay.
    pub branches: Vec<Branch>,
    /// Temperature of the branch cables, °C.
    pub conductor_c: f64,
}

impl Feed {
    /// An equal feed: `ways` branches of one length.
    pub fn equal(splitter: Splitter, ways: usize, cable: Cable) -> Self {
        let branch = Branch {
            cable,
            share: 1.0,
            end: End::Connected,
        };
        Self {
            z0_ohm: 50.0,
            splitter,
            branches: vec![branch; ways],
            conductor_c: 20.0,
        }
    }

    /// A feed for wanted shares and phases: branch lengths follow from the phases, the shortest being `shortest_m`.
    ///
    /// # Errors
    /// [`ArrayError::Range`] for a negative share or length.
    pub fn for_excitation(
        splitter: Splitter,
        wanted: &[Excitation],
        line: LineConstants,
        shortest_m: f64,
        freq_mhz: f64,
    ) -> Result<Self, ArrayError> {
        let phases: Vec<f64> = wanted.iter().map(|e| e.phase_deg).collect();
        let lengths = cutting_list(&phases, line, shortest_m, freq_mhz)?;
        let branches = wanted
            .iter()
            .zip(lengths)
            .map(|(e, cut)| Branch {
                cable: Cable {
                    line,
                    length_m: cut.length_m,
                },
                share: e.share,
                end: End::Connected,
            })
            .collect();
        let feed = Self {
            z0_ohm: 50.0,
            splitter,
            branches,
            conductor_c: 20.0,
        };
        feed.check(wanted.len())?;
        Ok(feed)
    }

    pub(crate) fn check(&self, bays: usize) -> Result<(), ArrayError> {
        within(
            "system-impedance-in-ohm",
            self.z0_ohm,
            self.z0_ohm > 0.0,
            "a-figure-above-0",
        )?;
        if self.branches.len() != bays {
            return Err(ArrayError::Length {
                what: "branches",
                given: self.branches.len(),
                wanted: bays,
            });
        }
        for b in &self.branches {
            within("power-share-of-a-branch", b.share, b.share >= 0.0, "from-0")?;
            let length_m = b.cable.length_m;
            within(
                "length-of-a-branch-cable-in-m",
                length_m,
                (0.0..1e4).contains(&length_m),
                "from-0-to-10-km",
            )?;
        }
        let total: f64 = self.branches.iter().map(|b| b.share).sum();
        within(
            "sum-of-the-power-shares",
            total,
            total > 0.0,
            "at-least-one-share-above-0",
        )?;
        Ok(())
    }

    /// Shares as ratios of the whole.
    pub(crate) fn shares(&self) -> Vec<f64> {
        let total: f64 = self.branches.iter().map(|b| b.share).sum();
        self.branches.iter().map(|b| b.share / total).collect()
    }
}

/// One, complex.
pub(crate) const ONE: C64 = C64::new(1.0, 0.0);
