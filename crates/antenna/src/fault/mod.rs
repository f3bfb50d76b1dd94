//! What a wrong part does to the readings, and which wrong part the readings speak for.

pub mod field_test;
pub mod installation;
pub mod ranking;

pub use field_test::usual_points;
pub use installation::{FieldPoint, Installation, Readings, Wet};
pub use ranking::{Classes, Library, Log, Ranked};

use serde::{Deserialize, Serialize};

use crate::array::PortModel;
use crate::feed::End;

/// One thing wrong with an installation. Bays and branches count from 0, in the order of the stack.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "fault")]
pub enum Fault {
    /// Nothing is wrong.
    Healthy,
    /// A bay is mounted the wrong way up.
    UpsideDown {
        /// Which.
        bay: usize,
    },
    /// A bay gets nothing: its joint is open or shorted.
    DeadBay {
        /// Which.
        bay: usize,
        /// How the joint failed.
        end: End,
    },
    /// Two branch cables are swapped.
    Swapped {
        /// One branch.
        first: usize,
        /// The other.
        second: usize,
    },
    /// A branch was cut from cable of another velocity.
    WrongVelocity {
        /// Which branch.
        branch: usize,
        /// The velocity it really has.
        velocity_ratio: f64,
    },
    /// Water stands in the main feeder.
    WaterInFeeder {
        /// Loss it adds, dB.
        extra_db: f64,
    },
    /// Water stands in a branch cable.
    WaterInBranch {
        /// Which branch.
        branch: usize,
        /// Loss it adds, dB.
        extra_db: f64,
    },
    /// A bay is tuned elsewhere.
    Detuned {
        /// Which.
        bay: usize,
        /// How far its tuning has moved, MHz.
        by_mhz: f64,
    },
}

/// A fault without its severity: what is to be found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FaultKind {
    /// Nothing is wrong.
    Healthy,
    /// A bay the wrong way up.
    UpsideDown(usize),
    /// A bay that gets nothing.
    DeadBay(usize),
    /// Two branches swapped.
    Swapped(usize, usize),
    /// A branch of another velocity.
    WrongVelocity(usize),
    /// Water in the main feeder.
    WaterInFeeder,
    /// Water in a branch.
    WaterInBranch(usize),
    /// A bay tuned elsewhere.
    Detuned(usize),
}

impl Fault {
    /// The fault without its severity.
    pub fn kind(&self) -> FaultKind {
        match *self {
            Fault::Healthy => FaultKind::Healthy,
            Fault::UpsideDown { bay } => FaultKind::UpsideDown(bay),
            Fault::DeadBay { bay, .. } => FaultKind::DeadBay(bay),
            Fault::Swapped { first, second } => FaultKind::Swapped(first.min(second), first.max(second)),
            Fault::WrongVelocity { branch, .. } => FaultKind::WrongVelocity(branch),
            Fault::WaterInFeeder { .. } => FaultKind::WaterInFeeder,
            Fault::WaterInBranch { branch, .. } => FaultKind::WaterInBranch(branch),
            Fault::Detuned { bay, .. } => FaultKind::Detuned(bay),
        }
    }

    /// The installation with this fault in it: an edit of the same model. A bay number that does not exist changes nothing.
    pub fn applied(&self, to: &Installation) -> Installation {
        let mut out = to.clone();
        match *self {
            Fault::Healthy => {}
            Fault::UpsideDown { bay } => {
                if let Some(b) = out.stack.bays.get_mut(bay) {
                    *b = b.clone().upside_down();
                }
            }
            Fault::DeadBay { bay, end } => {
                if let Some(b) = out.feed.branches.get_mut(bay) {
                    b.end = end;
                }
            }
            Fault::Swapped { first, second } => {
                let n = out.feed.branches.len();
                if first < n && second < n {
                    // The cables' bay ends are swapped: each bay now hangs on the other's port and cable.
                    out.feed.branches.swap(first, second);
                    out.feed.splitter = swapped_ports(&out.feed.splitter, first, second);
                }
            }
            Fault::WrongVelocity {
                branch,
                velocity_ratio,
            } => {
                if let Some(b) = out.feed.branches.get_mut(branch) {
                    b.cable.line.velocity_ratio = velocity_ratio;
                }
            }
            Fault::WaterInFeeder { extra_db } => {
                out.wet = Some(Wet {
                    extra_db,
                    ..Wet::DEFAULT
                })
            }
            Fault::WaterInBranch { branch, extra_db } => {
                if let Some(b) = out.feed.branches.get_mut(branch) {
                    let f = out.stack.frequency_mhz;
                    b.cable.line.b_db_per_100m += extra_db / b.cable.length_m.max(0.01) * 100.0 / f;
                }
            }
            Fault::Detuned { bay, by_mhz } => {
                if let Some(b) = out.stack.bays.get_mut(bay) {
                    b.port = detuned(b.port, by_mhz);
                }
            }
        }
        out
    }
}

fn detuned(port: PortModel, by_mhz: f64) -> PortModel {
    match port {
        PortModel::Tuned {
            z0_ohm,
            tuned_mhz,
            slope_ohm_per_mhz,
            moved_mhz,
        } => PortModel::Tuned {
            z0_ohm,
            tuned_mhz,
            slope_ohm_per_mhz,
            moved_mhz: moved_mhz + by_mhz,
        },
        PortModel::Known(z) => PortModel::Known(
            z - num_complex::Complex64::i() * crate::array::element::SLOPE_16_MM_TUBE * by_mhz,
        ),
        PortModel::Bare => PortModel::Bare,
    }
}

fn swapped_ports(splitter: &crate::feed::Splitter, first: usize, second: usize) -> crate::feed::Splitter {
    let crate::feed::Splitter::Measured(s) = splitter else {
        return splitter.clone();
    };
    let place = |i: usize| match i {
        i if i == first + 1 => second + 1,
        i if i == second + 1 => first + 1,
        i => i,
    };
    crate::feed::Splitter::Measured(crate::array::Matrix::from_fn(s.nrows(), s.ncols(), |i, j| {
        s[(place(i), place(j))]
    }))
}
