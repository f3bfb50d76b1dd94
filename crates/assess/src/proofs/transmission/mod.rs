//! From transmitter to bays: every loss, every rating, the pattern, the radiated power by plane and direction.

mod built;
mod height;
mod line;

pub use built::{USUAL_SPACING_WAVELENGTHS, antenna_inputs_ohm};
pub use height::{centre_agl_m, effective_ground_amsl_m, ground_amsl_m};
pub use line::{JOINT_LOSS_DB, joints_to_splitter, line_constants};

use crate::case::Case;
use antenna::array::{ArrayError, Bay, Pole, Stack};
use antenna::direction::Plane as WavePlane;
use antenna::feed::{Fed, Feed};
use antenna::line::Vswr;
use antenna::mount::{Answered, MountError, MountPlan};
use antenna::pattern::Pattern;
use built::radiate;
use line::{conditions, joints, joints_before_splitter, steps};
use station::chain::{self, ChainFault};
use station::design::Emission;
use station::licence::{Plane, Polarisation};
use std::sync::Arc;

/// What leaves the antennas.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// One for each emission, in the order of the file.
    pub emissions: Vec<EmissionPath>,
}

/// One emission's way into the air.
#[derive(Debug, Clone)]
pub struct EmissionPath {
    /// Its tag.
    pub tag: String,
    /// Carrier, MHz.
    pub frequency_mhz: Option<f64>,
    /// The steps from transmitter to splitter, or why there are none.
    pub steps: Result<Vec<Step>, ChainFault>,
    /// The joints, in order.
    pub joints: Vec<JointCheck>,
    /// The antenna, or why it could not be computed.
    pub radiating: Result<Radiating, NoPattern>,
    /// Loss of steps and joints up to the splitter's input, dB.
    pub line_loss_db: f64,
    /// Loss by reflection at the antenna system, dB.
    pub mismatch_db: f64,
    /// VSWR at the antenna system's input and at the transmitter.
    pub vswr: Option<(f64, f64)>,
    /// The transmitter's rated output, W.
    pub rated_w: Option<f64>,
    /// Power that just meets the licence in its strictest direction, W.
    pub licence_w: Option<f64>,
    /// Power the transmitter is set to, W.
    pub power_w: Option<f64>,
    /// Whether the file states the power.
    pub power_stated: bool,
    /// Strongest ERP by plane.
    pub planes: Vec<PlaneErp>,
    /// Strongest ERP as the licence counts it, W.
    pub erp_w: Option<f64>,
}

/// Strongest radiation in one plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaneErp {
    /// The plane.
    pub plane: Plane,
    /// ERP, W.
    pub erp_w: f64,
    /// Towards, degrees from true north.
    pub azimuth_deg: f64,
    /// Elevation, degrees, below the horizon negative.
    pub elev_deg: f64,
    /// ERP towards the horizon at that azimuth, W.
    pub horizon_w: f64,
}

/// One thing the power goes through.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Its tag.
    pub tag: String,
    /// Its shelf id.
    pub shelf: String,
    /// What it is.
    pub kind: StepKind,
    /// Its own loss, dB; `None` when the shelf does not say.
    pub loss_db: Option<f64>,
    /// Power into it, W; once the power is known.
    pub power_in_w: Option<f64>,
    /// What it may carry here, derated, W; `None` cannot be proved.
    pub allowed_w: Option<f64>,
}

/// What a step is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StepKind {
    /// A line of a length, m.
    Line {
        /// Its length.
        length_m: f64,
    },
    /// A filter, an arrester, a change-over.
    Inline,
    /// The splitter's input; its excess loss is counted with the antenna.
    Splitter,
    /// Tails to the bays, each of a length, m; counted with the antenna.
    Tails {
        /// Length of one.
        length_m: f64,
        /// How many.
        count: u32,
    },
}

/// One joint and what it bears.
#[derive(Debug, Clone, PartialEq)]
pub struct JointCheck {
    /// Tags of the two sides.
    pub between: (String, String),
    /// How many alike.
    pub count: u32,
    /// Connectors as text, where known.
    pub sides: (Option<String>, Option<String>),
    /// Shelf ids of connectors fitted.
    pub fitted: Vec<String>,
    /// Shelf id of the adapter, when one is needed.
    pub adapter: Option<String>,
    /// Nothing on the shelf joins the sides.
    pub impossible: bool,
    /// A side's connector is not known.
    pub not_known: bool,
    /// Its loss, dB.
    pub loss_db: f64,
    /// Power through one of it, W.
    pub power_w: Option<f64>,
    /// What it may carry here, derated, W.
    pub allowed_w: Option<f64>,
}

/// The antenna as it radiates.
#[derive(Debug, Clone)]
pub struct Radiating {
    /// Tag of the antenna.
    pub tag: String,
    /// Site it stands on.
    pub site: String,
    /// Gain by plane and direction, losses of splitter and tails included.
    pub pattern: Arc<Pattern>,
    /// The stack as the array model has it.
    pub stack: Arc<Stack>,
    /// The answer of the wires, for fields near it and currents; none for a draft by the array model.
    pub answered: Option<Arc<Answered>>,
    /// The bays on their mast as wires.
    pub mount: Arc<MountPlan>,
    /// How much further than the stated stand-off the bays are from the mast's axis, m: half a lattice, to its face.
    pub axis_offset_m: f64,
    /// How they are fed.
    pub feed: Arc<Feed>,
    /// Cable of the branches: its tag and shelf id, where the chain has one.
    pub tails: Option<(String, String)>,
    /// What flows into it.
    pub fed: Arc<Fed>,
    /// Bays.
    pub bays: u32,
    /// From bay to bay, m.
    pub spacing_m: f64,
    /// Height of its centre above ground, m.
    pub centre_agl_m: f64,
    /// Ground under the mast above the sea, m.
    pub ground_amsl_m: f64,
    /// Loss between the splitter's input and the air, dB.
    pub feed_loss_db: f64,
    /// Planes its bays are made for.
    pub polarisation: Polarisation,
    /// The mast's effect is in it.
    pub mast_included: bool,
    /// It was solved as wires; else it is the array model's draft.
    pub wires: bool,
    /// Power of one bay at most, of 1 W accepted.
    pub strongest_bay_ratio: f64,
    /// What one bay may carry, W.
    pub bay_rated_w: Option<f64>,
    /// What one branch of the splitter may carry, W.
    pub branch_rated_w: Option<f64>,
    /// Ways of the splitter; `None` without one.
    pub ways: Option<u32>,
    /// The bay whose share lies furthest from what the splitter gives it; `None` without a splitter.
    pub division: Option<Division>,
}

/// What a bay is to get of the power, and what its way of the splitter gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Division {
    /// From the top, 1 first.
    pub bay: usize,
    /// Share the design asks for, 0 to 1.
    pub wanted: f64,
    /// Share the splitter gives, 0 to 1.
    pub given: f64,
    /// What the splitter gives every bay, from the top, where its ratings say it; empty when it divides equally.
    pub made: Vec<f64>,
}

/// Why there is no pattern.
#[derive(Debug, Clone, PartialEq)]
pub enum NoPattern {
    /// The emission names no antenna, or one without a bay from the shelf.
    NotChosen,
    /// Its frequency, height or number of bays is not known: the path in the file.
    NotKnown(String),
    /// The array model refuses.
    Refused(ArrayError),
    /// The wires cannot be built or solved.
    Unbuildable(MountError),
}

impl EmissionPath {
    /// Loss between transmitter and splitter, reflection included, dB.
    pub fn loss_db(&self) -> f64 {
        self.line_loss_db + self.mismatch_db
    }

    /// ERP in a plane towards a direction, W, at the power set.
    pub fn erp_w(&self, plane: Plane, azimuth_deg: f64, elev_deg: f64) -> Option<f64> {
        let radiating = self.radiating.as_ref().ok()?;
        let gain = radiating
            .pattern
            .gain_ratio(wave_plane(plane), azimuth_deg, elev_deg);
        Some(self.power_w? * 10f64.powf(-self.loss_db() / 10.0) * gain)
    }

    /// Strongest ERP of all elevations in a plane towards an azimuth, W, at the power set.
    pub fn strongest_erp_w(&self, plane: Plane, azimuth_deg: f64) -> Option<f64> {
        let radiating = self.radiating.as_ref().ok()?;
        let gain_db = radiating.pattern.strongest_dbd(wave_plane(plane), azimuth_deg);
        Some(self.power_w? * 10f64.powf((gain_db - self.loss_db()) / 10.0))
    }
}

/// The antenna crate's name for a plane.
pub fn wave_plane(plane: Plane) -> WavePlane {
    match plane {
        Plane::Vertical => WavePlane::Vertical,
        Plane::Horizontal => WavePlane::Horizontal,
    }
}

/// Computes every emission's way into the air.
pub fn evaluate(case: &Case) -> Outcome {
    Outcome {
        emissions: case.station.emissions.iter().map(|e| path(case, e)).collect(),
    }
}

fn path(case: &Case, emission: &Emission) -> EmissionPath {
    let frequency_mhz = emission.frequency.value().map(|f| f.mhz());
    let walked = chain::walk(case.station, case.shelf, emission);
    let radiating = radiate(case, emission, frequency_mhz, walked.as_ref().ok());
    let vswr_antenna = radiating.as_ref().ok().and_then(|r| r.fed.input_vswr().ok());
    let mut out = EmissionPath {
        tag: emission.tag.clone(),
        frequency_mhz,
        steps: Err(ChainFault::NoTransmitter {
            emission: emission.tag.clone(),
        }),
        joints: Vec::new(),
        radiating,
        line_loss_db: 0.0,
        mismatch_db: vswr_antenna.map_or(0.0, Vswr::mismatch_loss_db),
        vswr: None,
        rated_w: None,
        licence_w: None,
        power_w: None,
        power_stated: emission.power.is_some(),
        planes: Vec::new(),
        erp_w: None,
    };
    match walked {
        Err(fault) => out.steps = Err(fault),
        Ok(chain) => {
            let at = conditions(case, emission, vswr_antenna);
            out.rated_w = chain.links[0]
                .shelf
                .and_then(|s| s.transmitter.as_ref())
                .map(|t| t.output.w());
            out.joints = joints(&chain, frequency_mhz, &at);
            let steps = steps(&chain, frequency_mhz, &at);
            let before = steps
                .iter()
                .position(|s| matches!(s.kind, StepKind::Splitter))
                .unwrap_or(steps.len());
            out.line_loss_db = steps[..before].iter().filter_map(|s| s.loss_db).sum::<f64>()
                + joints_before_splitter(&chain, &out.joints)
                    .map(|j| j.loss_db)
                    .sum::<f64>();
            out.steps = Ok(steps);
            out.vswr = vswr_antenna.and_then(|v| {
                v.seen_through(out.line_loss_db)
                    .ok()
                    .map(|at_tx| (v.ratio(), at_tx.ratio()))
            });
        }
    }
    set_power(case, emission, &mut out);
    out
}

/// Sets the transmitter's power: as stated, else what the licence allows, held to the rating.
fn set_power(case: &Case, emission: &Emission, out: &mut EmissionPath) {
    out.licence_w = crate::proofs::licence::allowed_power_w(emission, out);
    let stated = emission.power.map(|p| p.w());
    out.power_w = stated.or(match (out.licence_w, out.rated_w) {
        (Some(licence), Some(rated)) => Some(licence.min(rated)),
        (Some(licence), None) => Some(licence),
        (None, rated) => rated,
    });
    let Some(power_w) = out.power_w else { return };
    carry(power_w, out);
    let _ = case;
    let Ok(radiating) = &out.radiating else { return };
    let into_w = power_w * 10f64.powf(-out.loss_db() / 10.0);
    out.planes = radiating
        .polarisation
        .planes()
        .iter()
        .map(|plane| {
            let peak = radiating.pattern.peak(wave_plane(*plane));
            PlaneErp {
                plane: *plane,
                erp_w: into_w * 10f64.powf(peak.gain_dbd / 10.0),
                azimuth_deg: peak.bearing_deg,
                elev_deg: peak.elev_deg,
                horizon_w: into_w
                    * radiating
                        .pattern
                        .gain_ratio(wave_plane(*plane), peak.bearing_deg, 0.0),
            }
        })
        .collect();
    out.erp_w = crate::proofs::licence::counted_erp_w(emission, out);
}

/// Carries the power through the chain, so that each step and joint knows what it bears.
fn carry(power_w: f64, out: &mut EmissionPath) {
    let Ok(steps) = &mut out.steps else { return };
    let mut now = power_w;
    let mut joints = out.joints.iter_mut();
    if let Some(joint) = joints.next() {
        joint.power_w = Some(now);
        now *= 10f64.powf(-joint.loss_db / 10.0);
    }
    let bays = out.radiating.as_ref().map_or(1, |r| r.bays).max(1);
    for step in steps.iter_mut() {
        step.power_in_w = Some(now);
        now *= 10f64.powf(-step.loss_db.unwrap_or(0.0) / 10.0);
        if step.kind == StepKind::Splitter {
            now /= f64::from(bays);
        }
        if let Some(joint) = joints.next() {
            joint.power_w = Some(now);
            now *= 10f64.powf(-joint.loss_db / 10.0);
        }
    }
}

/// A bay of the stack near its middle, for drawings.
pub fn middle_bay(stack: &Stack) -> Option<&Bay> {
    stack.bays.get(stack.bays.len() / 2)
}

/// The pole of a stack, for drawings.
pub fn pole(stack: &Stack) -> Option<&Pole> {
    stack.pole.as_ref()
}
