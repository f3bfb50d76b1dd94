//! What a wrong part does to the readings, and which wrong part the readings speak for.

pub mod aerial;
pub mod as_built;
pub mod cloud;
pub mod field_test;
mod gauss;
mod information;
pub mod installation;
pub mod ranking;
pub mod severities;

pub use aerial::Aerial;
pub use as_built::AsBuilt;
pub use cloud::{Cloud, Drawn};
pub use field_test::usual_points;
pub use installation::{FieldPoint, Installation, InstallationError, Readings, Wet};
pub use ranking::{Classes, Library, Log, Noise, Ranked, Reading};

use rand::Rng;
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};

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
    ///
    /// # Errors
    /// [`InstallationError`] where the bay's other metal cannot be solved.
    pub fn applied(&self, to: &Installation) -> Result<Installation, InstallationError> {
        let mut out = to.clone();
        match *self {
            Fault::Healthy => {}
            Fault::UpsideDown { bay } => out.aerial = out.aerial.upside_down(bay)?,
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
                });
            }
            Fault::WaterInBranch { branch, extra_db } => {
                let freq_mhz = out.aerial.frequency_mhz();
                if let Some(b) = out.feed.branches.get_mut(branch) {
                    b.cable.line.b_db_per_100m += extra_db / b.cable.length_m.max(0.01) * 100.0 / freq_mhz;
                }
            }
            Fault::Detuned { bay, by_mhz } => out.aerial = out.aerial.detuned(bay, by_mhz)?,
        }
        Ok(out)
    }

    /// The installation with a fault of this kind and about this severity, one of many: as it lies between the severities of
    /// [`severities`], and with what goes with it left open.
    ///
    /// # Errors
    /// As [`Self::applied`].
    pub(crate) fn drawn(
        &self,
        to: &Installation,
        dice: &mut ChaCha8Rng,
    ) -> Result<Installation, InstallationError> {
        let about =
            |value: f64, ratio: f64, dice: &mut ChaCha8Rng| value * (1.0 + dice.random_range(-ratio..ratio));
        let mut drawn = *self;
        match &mut drawn {
            Fault::Healthy | Fault::UpsideDown { .. } | Fault::DeadBay { .. } | Fault::Swapped { .. } => {}
            Fault::WrongVelocity {
                branch,
                velocity_ratio,
            } => {
                let cable = to.feed.branches.get(*branch).map(|b| b.cable);
                let turn_deg = cable.map_or(360.0, |c| c.phase_deg(to.aerial.frequency_mhz()));
                let half_a_step = (0.5 * severities::PHASE_STEP_DEG / turn_deg.max(1.0)).min(0.1);
                *velocity_ratio = about(*velocity_ratio, half_a_step, dice).min(1.0);
            }
            Fault::WaterInFeeder { extra_db } | Fault::WaterInBranch { extra_db, .. } => {
                *extra_db = about(*extra_db, severities::HALF_A_LOSS_STEP, dice);
            }
            Fault::Detuned { by_mhz, .. } => {
                let half = 0.5 * severities::DETUNED_STEP_MHZ;
                *by_mhz += dice.random_range(-half..half);
            }
        }
        drawn.as_it_comes(to, dice)
    }

    /// The installation with this fault, and with what goes with it left open: water lies anywhere and slows what it fills.
    ///
    /// # Errors
    /// As [`Self::applied`].
    pub(crate) fn as_it_comes(
        &self,
        to: &Installation,
        dice: &mut ChaCha8Rng,
    ) -> Result<Installation, InstallationError> {
        match *self {
            Fault::WaterInFeeder { extra_db } => {
                let wet = Wet {
                    extra_db,
                    length_m: dice.random_range(1.0..6.0),
                    ratio: dice.random_range(0.84..0.96),
                };
                Ok(Installation {
                    wet: Some(wet),
                    ..to.clone()
                })
            }
            Fault::WaterInBranch { branch, .. } => {
                let mut out = self.applied(to)?;
                let slower = dice.random_range(0.96..1.0);
                if let Some(b) = out.feed.branches.get_mut(branch) {
                    b.cable.line.velocity_ratio *= slower;
                    b.cable.line.z0_ohm *= slower;
                }
                Ok(out)
            }
            _ => self.applied(to),
        }
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
