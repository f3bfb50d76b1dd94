//! The fast array model: stacks of dipoles by superposition, in microseconds. A draft: no lattice, no pole ends, no ground.

pub mod element;
pub mod mutual;
pub mod near;
pub mod pole;
pub mod radiator;
pub mod stack;

pub use element::{Arm, Bay, ElementKind, PortModel};
pub use near::{Exposure, NearPoint};
pub use pole::Pole;
pub use radiator::Radiator;
pub use stack::{Stack, StackPlan};

use faer::Mat;
use num_complex::Complex64 as C64;

/// Impedance of free space, ohm.
pub const ETA_OHM: f64 = 376.730_313_7;
/// Directivity of a half-wave dipole, 4/Cin(2π): 2.1509 dBi.
pub const HALF_WAVE_DIRECTIVITY: f64 = 1.640_922_4;

/// A complex matrix.
pub type Matrix = Mat<C64>;

/// What makes an array unanswerable.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ArrayError {
    /// A quantity outside what it can be.
    Range {
        /// Tag of the quantity, its unit in it.
        what: &'static str,
        /// What stood there.
        value: f64,
        /// Tag of what would have been accepted.
        wanted: &'static str,
    },
    /// No bay, or too many.
    BayCount {
        /// How many were given.
        count: usize,
    },
    /// A list that should have one entry a bay.
    Length {
        /// Tag of the list.
        what: &'static str,
        /// Entries found.
        given: usize,
        /// Entries wanted.
        wanted: usize,
    },
    /// Two bays occupy the same space.
    Touching {
        /// Number of one, from 1.
        first: usize,
        /// Number of the other, from 1.
        second: usize,
        /// Distance between their conductors.
        distance_m: f64,
        /// How much further apart they must be.
        needed_m: f64,
    },
    /// A bay inside or on the pole.
    InsidePole {
        /// Number of the bay, from 1.
        bay: usize,
        /// Its distance from the pole's axis.
        distance_m: f64,
        /// The pole's radius.
        radius_m: f64,
    },
    /// Nothing is radiated, so nothing has a gain.
    Silent,
    /// A system of equations without a solution: a splitter or line that cuts the antenna off.
    Singular {
        /// Tag of the system.
        what: &'static str,
        /// The frequency.
        freq_mhz: f64,
    },
    /// A line in the feed is wrong.
    Line(#[from] crate::line::LineError),
}

/// Passes `value` on when `ok`, else names it.
pub(crate) fn within(
    what: &'static str,
    value: f64,
    ok: bool,
    wanted: &'static str,
) -> Result<f64, ArrayError> {
    if ok && value.is_finite() {
        Ok(value)
    } else {
        Err(ArrayError::Range { what, value, wanted })
    }
}
