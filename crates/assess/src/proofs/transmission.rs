//! From transmitter to bays: every loss, every rating, the pattern, the radiated power by plane and direction.

use crate::case::Case;
use antenna::array::{ArrayError, Bay, ElementKind, Pole, Stack, StackPlan};
use antenna::direction::Plane as WavePlane;
use antenna::feed::{Cable as FeedCable, Excitation, Fed, Feed, InputMatch, Splitter, synthesis};
use antenna::line::rating::{Conditions, Service, connector_rating_w, derated, line_rating_w};
use antenna::line::{LineConstants, Vswr, wavelength_m};
use antenna::mount::{Answered, Mast, MountError, MountPlan};
use antenna::pattern::Pattern;
use antenna::wires::Complex;
use quantity::Height;
use station::chain::{self, Chain, ChainFault, Mating, Part};
use station::design::{Antenna, Emission};
use station::licence::{Plane, Polarisation};
use station::place::{AntennaModel, MastKind};
use station::shelf::ShelfItem;
use std::sync::Arc;

/// Loss of one mated pair of connectors, dB. Common practice, no source; a good pair is below it.
pub const JOINT_LOSS_DB: f64 = 0.02;
/// Bays stand this many wavelengths apart where nothing else is said. Common practice, no source.
pub const USUAL_SPACING_WAVELENGTHS: f64 = 0.9;

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

/// Joints between transmitter and splitter; those beyond it are part of the tails.
fn joints_before_splitter<'a>(
    chain: &Chain,
    joints: &'a [JointCheck],
) -> impl Iterator<Item = &'a JointCheck> {
    let splitter = chain
        .links
        .iter()
        .position(|l| l.shelf.is_some_and(|s| s.splitter.is_some()));
    joints.iter().take(splitter.unwrap_or(joints.len()))
}

/// Loss of a joint: the mated pair, and the adapter where one is needed, dB.
fn joint_loss_db(mating: &Mating) -> f64 {
    let adapter_db = match mating {
        Mating::Adapter { adapter, .. } => adapter.inline.as_ref().map_or(0.0, |i| i.loss.db()),
        _ => 0.0,
    };
    JOINT_LOSS_DB + adapter_db
}

/// Losses of the joints from the transmitter to the splitter, or to the antenna where there is none, dB.
pub fn joints_to_splitter(chain: &Chain) -> Vec<f64> {
    let splitter = chain
        .links
        .iter()
        .position(|l| l.shelf.is_some_and(|s| s.splitter.is_some()));
    let joints = chain.joints.iter().take(splitter.unwrap_or(chain.joints.len()));
    joints.map(|j| joint_loss_db(&j.mating)).collect()
}

fn conditions(case: &Case, emission: &Emission, vswr: Option<Vswr>) -> Conditions {
    let site = emission
        .antenna
        .as_deref()
        .and_then(|a| case.station.antenna(a))
        .and_then(|a| case.station.site(&a.site));
    let hottest = site
        .and_then(|s| s.climate.hottest.value())
        .map_or(40.0, |t| t.celsius());
    let altitude = site.and_then(|s| ground_amsl_m(case, s)).unwrap_or(0.0);
    Conditions {
        ambient_c: hottest.max(40.0),
        altitude_amsl_m: altitude,
        sunlit: true,
        vswr: vswr.unwrap_or(Vswr::ONE),
        service: Service::Continuous,
    }
}

/// Height of a site's ground above the sea: as stated, else from the terrain.
pub fn ground_amsl_m(case: &Case, site: &station::place::Site) -> Option<f64> {
    match site.ground.value() {
        Some(height) => Some(height.m()),
        None => {
            let at = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()).ok()?;
            case.world.spot(at).ok().map(|s| s.height_m)
        }
    }
}

fn steps(chain: &Chain, frequency_mhz: Option<f64>, at: &Conditions) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut beyond_splitter = false;
    for link in &chain.links[1..] {
        let shelf = link.shelf;
        let (kind, loss_db, rated_w) = match link.part {
            Part::Antenna(_) => continue,
            Part::Cable(cable) => {
                let temperature = cable.temperature.value().map_or(40.0, |t| t.celsius());
                let length_m = cable.length.m();
                let line = shelf.and_then(line_constants);
                let loss = line
                    .zip(frequency_mhz)
                    .and_then(|(l, f)| l.loss_db(f, length_m, temperature).ok());
                let rated = shelf
                    .zip(line)
                    .zip(frequency_mhz)
                    .and_then(|((s, l), f)| line_rated_w(s, &l, f));
                let kind = if beyond_splitter {
                    StepKind::Tails {
                        length_m,
                        count: cable.count.unwrap_or(1),
                    }
                } else {
                    StepKind::Line { length_m }
                };
                (kind, loss, rated)
            }
            Part::Item(_) => match shelf.and_then(|s| s.splitter.as_ref()) {
                Some(splitter) => {
                    beyond_splitter = true;
                    (
                        StepKind::Splitter,
                        Some(splitter.excess.db()),
                        splitter.power.map(|p| p.w()),
                    )
                }
                None => {
                    let inline = shelf.and_then(|s| s.inline.as_ref());
                    (
                        StepKind::Inline,
                        inline.map(|i| i.loss.db()),
                        inline.and_then(|i| i.power).map(|p| p.w()),
                    )
                }
            },
        };
        let allowed_w = match kind {
            // Lines get hot: derated for place, sun and standing waves. Boxes carry their maker's continuous rating.
            StepKind::Line { .. } | StepKind::Tails { .. } => {
                rated_w.and_then(|w| derated(w, at).ok()).map(|d| d.average_w)
            }
            _ => rated_w,
        };
        let shelf_id = shelf.map(|s| s.id.clone()).unwrap_or_default();
        steps.push(Step {
            tag: link.part.tag().to_owned(),
            shelf: shelf_id,
            kind,
            loss_db,
            power_in_w: None,
            allowed_w,
        });
    }
    steps
}

/// The line constants of a shelf item.
pub fn line_constants(shelf: &ShelfItem) -> Option<LineConstants> {
    let line = shelf.line.as_ref()?;
    LineConstants::new(line.a, line.b, line.velocity.unwrap_or(0.85), 50.0).ok()
}

fn line_rated_w(shelf: &ShelfItem, line: &LineConstants, frequency_mhz: f64) -> Option<f64> {
    let at_100 = shelf.line.as_ref()?.power_100mhz?.w();
    let alpha_100 = line.attenuation_db_per_100m(100.0, 20.0).ok()?;
    let alpha = line.attenuation_db_per_100m(frequency_mhz, 20.0).ok()?;
    line_rating_w(at_100, alpha_100, alpha).ok()
}

fn joints(chain: &Chain, frequency_mhz: Option<f64>, at: &Conditions) -> Vec<JointCheck> {
    chain
        .joints
        .iter()
        .enumerate()
        .map(|(i, joint)| {
            let (fitted, adapter): (&[&ShelfItem], Option<&ShelfItem>) = match &joint.mating {
                Mating::Direct { fitted } => (fitted, None),
                Mating::Adapter { fitted, adapter } => (fitted, Some(adapter)),
                Mating::Impossible | Mating::NotKnown => (&[], None),
            };
            let weakest = fitted
                .iter()
                .copied()
                .chain(adapter)
                .filter_map(|s| {
                    s.ports
                        .iter()
                        .filter_map(|p| p.power)
                        .map(|p| p.w())
                        .reduce(f64::min)
                })
                .reduce(f64::min);
            let ambient = Conditions {
                sunlit: false,
                service: Service::Intermittent,
                ..*at
            };
            let allowed_w = weakest
                .zip(frequency_mhz)
                .and_then(|(w, f)| connector_rating_w(w, f).ok())
                .and_then(|w| derated(w, &ambient).ok())
                .map(|d| d.average_w.min(d.hot_spot_w));
            JointCheck {
                between: (
                    chain.links[i].part.tag().to_owned(),
                    chain.links[i + 1].part.tag().to_owned(),
                ),
                count: joint.count,
                sides: (
                    joint.near.as_ref().map(|c| c.to_string()),
                    joint.far.as_ref().map(|c| c.to_string()),
                ),
                fitted: fitted.iter().map(|s| s.id.clone()).collect(),
                adapter: adapter.map(|s| s.id.clone()),
                impossible: joint.mating == Mating::Impossible,
                not_known: joint.mating == Mating::NotKnown,
                loss_db: joint_loss_db(&joint.mating),
                power_w: None,
                allowed_w,
            }
        })
        .collect()
}

/// What an emission's antenna is to be, before anything is computed of it.
struct Chosen<'a> {
    antenna: &'a Antenna,
    site: &'a station::place::Site,
    bay: &'a station::shelf::BayRatings,
    /// Frequency its bays and harness are cut for: that of the first emission on it.
    frequency_mhz: f64,
    /// Frequency of this emission.
    operating_mhz: f64,
    bays: u32,
    spacing_m: f64,
    ground_amsl_m: f64,
    centre_agl_m: f64,
    polarisation: Polarisation,
}

fn choose<'a>(
    case: &'a Case,
    emission: &Emission,
    frequency_mhz: Option<f64>,
) -> Result<Chosen<'a>, NoPattern> {
    let antenna = emission
        .antenna
        .as_deref()
        .and_then(|tag| case.station.antenna(tag))
        .ok_or(NoPattern::NotChosen)?;
    let element = antenna
        .element
        .as_deref()
        .and_then(|id| case.shelf.get(id))
        .ok_or(NoPattern::NotChosen)?;
    let bay = element.bay.as_ref().ok_or(NoPattern::NotChosen)?;
    let missing = |key: &str| NoPattern::NotKnown(format!("antennas.{}.{key}", antenna.tag));
    let operating_mhz =
        frequency_mhz.ok_or_else(|| NoPattern::NotKnown(format!("emissions.{}.frequency", emission.tag)))?;
    let frequency_mhz = case
        .station
        .emissions
        .iter()
        .filter(|e| e.antenna == emission.antenna)
        .find_map(|e| e.frequency.value())
        .map_or(operating_mhz, |f| f.mhz());
    let bays = *antenna.bays.value().ok_or_else(|| missing("bays"))?;
    let site = case.station.site(&antenna.site).ok_or_else(|| missing("site"))?;
    let ground_amsl_m =
        ground_amsl_m(case, site).ok_or_else(|| NoPattern::NotKnown(format!("sites.{}.ground", site.tag)))?;
    let height = antenna.height.value().ok_or_else(|| missing("height"))?;
    Ok(Chosen {
        antenna,
        site,
        bay,
        frequency_mhz,
        operating_mhz,
        bays,
        spacing_m: antenna
            .spacing
            .value()
            .map_or(USUAL_SPACING_WAVELENGTHS * wavelength_m(frequency_mhz), |s| s.m()),
        ground_amsl_m,
        centre_agl_m: centre_agl_m(case, site, ground_amsl_m, *height).ok_or_else(|| missing("height"))?,
        polarisation: antenna.polarisation.unwrap_or(bay.polarisation),
    })
}

impl Chosen<'_> {
    fn stack(&self) -> Result<(StackPlan, Stack, bool), NoPattern> {
        stack(
            self.antenna,
            self.site,
            self.frequency_mhz,
            self.bays,
            self.spacing_m,
            self.polarisation,
        )
    }

    /// The same bays as wires on their mast.
    fn mount(&self, plan: &StackPlan) -> MountPlan {
        let mut mount = mount_plan(plan, self.site);
        let bays = mount.bays.len();
        // From the top in the file, from the bottom in the plan.
        for (bay, azimuth) in mount.bays.iter_mut().rev().zip(&self.antenna.bay_azimuths) {
            (bay.bearing_deg, bay.facing_deg) = (azimuth.deg(), azimuth.deg());
        }
        for number in &self.antenna.inverted_bays {
            if let Some(i) = bays.checked_sub(*number as usize)
                && i < bays
            {
                mount.bays[i].inverted = true;
            }
        }
        mount
    }

    fn feed(&self, chain: Option<&Chain>) -> Result<Feed, NoPattern> {
        feed(self.antenna, chain, self.frequency_mhz, self.bays, self.spacing_m)
    }

    /// Whether the bays are solved as wires on their mast, not by the array model.
    fn as_wires(&self, case: &Case) -> bool {
        case.station.study.antennas != Some(AntennaModel::Array)
    }
}

/// Impedance at the input of an emission's splitter over a list of frequencies, ohm: the bays and the feed as they are built
/// for the emission's own frequency.
///
/// # Errors
/// [`NoPattern`]: what is not chosen or known, or cannot be solved.
pub fn antenna_inputs_ohm(
    case: &Case,
    emission: &Emission,
    freqs_mhz: &[f64],
) -> Result<Vec<Complex>, NoPattern> {
    let walked = chain::walk(case.station, case.shelf, emission);
    let chosen = choose(case, emission, emission.frequency.value().map(|f| f.mhz()))?;
    let (plan, stack, _) = chosen.stack()?;
    let feed = chosen.feed(walked.as_ref().ok())?;
    if !chosen.as_wires(case) {
        let at = |f: &f64| feed.solve(&stack.at_frequency(*f)).map(|fed| fed.input_ohm());
        return freqs_mhz
            .iter()
            .map(at)
            .collect::<Result<_, _>>()
            .map_err(NoPattern::Refused);
    }
    // The bays keep the matching they were given at their own frequency.
    let mount = chosen.mount(&plan);
    let tuned = mount.solved().map_err(NoPattern::Unbuildable)?;
    freqs_mhz
        .iter()
        .map(|f| {
            let mounted = mount
                .solved_with(*f, tuned.matching())
                .map_err(NoPattern::Unbuildable)?;
            let fed = feed
                .solve_ports(mounted.ports_ohm(), *f)
                .map_err(NoPattern::Refused)?;
            Ok(fed.input_ohm())
        })
        .collect()
}

fn radiate(
    case: &Case,
    emission: &Emission,
    frequency_mhz: Option<f64>,
    chain: Option<&Chain>,
) -> Result<Radiating, NoPattern> {
    let chosen = choose(case, emission, frequency_mhz)?;
    let (plan, stack, mast_included) = chosen.stack()?;
    let stack = stack.at_frequency(chosen.operating_mhz);
    let feed = chosen.feed(chain)?;
    let wires = chosen.as_wires(case);
    let mount = chosen.mount(&plan);
    let (pattern, fed, mast_included, answered) = if wires {
        let solved =
            super::mounted::solved(&mount, &feed, chosen.operating_mhz).map_err(NoPattern::Unbuildable)?;
        (
            Arc::new(solved.pattern.clone()),
            Arc::new(solved.fed.clone()),
            true,
            Some(solved),
        )
    } else {
        let (pattern, fed) = super::drafted::of(&stack, &feed).map_err(NoPattern::Refused)?;
        (pattern, fed, mast_included, None)
    };
    let Chosen {
        antenna,
        site,
        bay,
        bays,
        spacing_m,
        ground_amsl_m: ground,
        centre_agl_m,
        polarisation,
        ..
    } = chosen;
    let accepted = fed.accepted_w();
    let strongest = fed.bay_w.iter().fold(0.0, |a: f64, b| a.max(*b));
    let splitter = splitter(chain);
    Ok(Radiating {
        tag: antenna.tag.clone(),
        site: site.tag.clone(),
        bays,
        spacing_m,
        centre_agl_m,
        ground_amsl_m: ground,
        feed_loss_db: -10.0 * fed.efficiency_ratio().log10(),
        polarisation,
        mast_included,
        wires,
        strongest_bay_ratio: strongest / accepted,
        bay_rated_w: bay.power.map(|p| p.w()),
        branch_rated_w: splitter.and_then(|s| s.branch_power).map(|p| p.w()),
        ways: splitter.map(|s| s.ways),
        pattern,
        stack: Arc::new(stack),
        answered,
        axis_offset_m: mount
            .bays
            .first()
            .map_or(0.0, |bay| bay.stand_off_m - plan.stand_off_m),
        mount: Arc::new(mount),
        feed: Arc::new(feed),
        tails: tails(chain).map(|(cable, shelf)| (cable.tag.clone(), shelf.id.clone())),
        fed,
    })
}

/// Cable from the splitter to the bays.
fn tails<'a>(chain: Option<&Chain<'a>>) -> Option<(&'a station::design::Cable, &'a ShelfItem)> {
    let chain = chain?;
    splitter(Some(chain))?;
    let last = chain.links.len().checked_sub(2)?;
    match chain.links[last].part {
        Part::Cable(cable) => Some((cable, chain.links[last].shelf?)),
        _ => None,
    }
}

/// Height of the antenna's centre above the ground at the mast, whatever it was stated above.
pub fn centre_agl_m(
    case: &Case,
    site: &station::place::Site,
    ground_amsl_m: f64,
    height: Height,
) -> Option<f64> {
    match height {
        Height::AboveGround(h) => Some(h.m()),
        Height::AboveSea(h) => Some(h.m() - ground_amsl_m),
        Height::Effective(h) => {
            // Effective height is over the mean ground from 3 to 15 km, all round (Rec. ITU-R P.1546-6 § 4.3 [M]).
            let at = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()).ok()?;
            let rows = mean_ground_m(case, at)?;
            let mean = rows.iter().sum::<f64>() / rows.len() as f64;
            Some(mean + h.m() - ground_amsl_m)
        }
    }
}

/// Mean ground from 3 to 15 km above the sea at every 10°, m: what effective heights stand on (Rec. ITU-R P.1546-6 § 4.3).
pub fn mean_ground_m(case: &Case, at: terrain::Position) -> Option<Vec<f64>> {
    let step_m = 100.0;
    let mut profile = terrain::Profile::default();
    (0..36)
        .map(|i| {
            case.world
                .radial_into(at, f64::from(i) * 10.0, 15.0, step_m, &mut profile)
                .ok()?;
            let far: Vec<f64> = profile
                .distances_km
                .iter()
                .zip(&profile.heights_m)
                .filter(|(d, _)| **d >= 3.0 - 1e-9)
                .map(|(_, h)| *h)
                .collect();
            (!far.is_empty()).then(|| far.iter().sum::<f64>() / far.len() as f64)
        })
        .collect()
}

fn stack(
    antenna: &Antenna,
    site: &station::place::Site,
    frequency_mhz: f64,
    bays: u32,
    spacing_m: f64,
    polarisation: Polarisation,
) -> Result<(StackPlan, Stack, bool), NoPattern> {
    let element = match polarisation {
        Polarisation::Vertical => ElementKind::Vertical,
        Polarisation::Horizontal => ElementKind::Horizontal,
        Polarisation::Mixed => ElementKind::Crossed { right_handed: true },
    };
    // The array model knows a round pole; a lattice is left to the wires.
    let pole = matches!(site.mast.kind.value(), Some(MastKind::Pole))
        .then(|| site.mast.width.value().map(|w| w.m() / 2.0))
        .flatten();
    let plan = StackPlan {
        frequency_mhz,
        bays: bays as usize,
        spacing_m,
        element,
        bearing_deg: antenna.azimuth.value().map_or(0.0, |a| a.deg()),
        pole_radius_m: pole,
        stand_off_m: antenna
            .stand_off
            .value()
            .map_or(0.25 * wavelength_m(frequency_mhz), |s| s.m()),
    };
    let mut stack = plan.stack().map_err(NoPattern::Refused)?;
    one_a_bay("the list of the bays' azimuths", antenna.bay_azimuths.len(), bays)?;
    for (bay, azimuth) in stack.bays.iter_mut().rev().zip(&antenna.bay_azimuths) {
        let up = bay.position_m[2];
        let one = StackPlan {
            bays: 1,
            bearing_deg: azimuth.deg(),
            ..plan
        };
        *bay = one.stack().map_err(NoPattern::Refused)?.bays.swap_remove(0);
        bay.position_m[2] = up;
    }
    for number in &antenna.inverted_bays {
        // Bays are numbered from the top; the stack counts from the bottom.
        if let Some(i) = (bays as usize).checked_sub(*number as usize)
            && i < stack.bays.len()
        {
            stack.bays[i] = stack.bays[i].clone().upside_down();
        }
    }
    Ok((plan, stack, pole.is_some()))
}

/// The same bays as wires beside the site's mast. A lattice's legs, panels and bracing follow from its face width in usual
/// proportions (common practice, no source): three legs when guyed, four when it stands by itself.
fn mount_plan(plan: &StackPlan, site: &station::place::Site) -> MountPlan {
    let width = site.mast.width.value().map(|w| w.m());
    let legs = match site.mast.kind.value() {
        Some(MastKind::GuyedLattice) => Some(3),
        Some(MastKind::SelfSupportingLattice) => Some(4),
        _ => None,
    };
    let Some((legs, face_m)) = legs.zip(width) else {
        return MountPlan::proof_of(plan, None);
    };
    let mast = Mast::Lattice {
        legs,
        face_m,
        panel_m: 1.2 * face_m,
        leg_radius_m: face_m / 24.0,
        horizontal_radius_m: face_m / 48.0,
        diagonal_radius_m: face_m / 48.0,
        face_bearing_deg: plan.bearing_deg,
    };
    // Stated from the face; the wires count from the mast's axis.
    let face_from_axis = if legs == 3 {
        face_m / (2.0 * 3f64.sqrt())
    } else {
        face_m / 2.0
    };
    MountPlan::proof_of(
        &StackPlan {
            stand_off_m: plan.stand_off_m + face_from_axis,
            ..*plan
        },
        Some(mast),
    )
}

fn splitter<'a>(chain: Option<&Chain<'a>>) -> Option<&'a station::shelf::SplitterRatings> {
    chain?
        .links
        .iter()
        .find_map(|l| l.shelf.and_then(|s| s.splitter.as_ref()))
}

fn feed(
    antenna: &Antenna,
    chain: Option<&Chain>,
    frequency_mhz: f64,
    bays: u32,
    spacing_m: f64,
) -> Result<Feed, NoPattern> {
    let ratings = splitter(chain);
    let excess_loss_db = ratings.map_or(0.0, |s| s.excess.db());
    let splitter = match ratings.and_then(|s| s.isolated) {
        Some(true) => Splitter::Isolated { excess_loss_db },
        _ if bays == 1 => Splitter::Reactive {
            excess_loss_db,
            input: InputMatch::Ideal,
        },
        _ => Splitter::quarter_wave(bays as usize, frequency_mhz, excess_loss_db),
    };
    let (line, length_m) =
        match tails(chain).and_then(|(cable, shelf)| Some((line_constants(shelf)?, cable.length.m()))) {
            Some(tail) => tail,
            None => (
                LineConstants::lossless(0.85, 50.0).map_err(|e| NoPattern::Refused(e.into()))?,
                0.0,
            ),
        };
    let tilt = antenna.tilt.value().map_or(0.0, |t| t.deg());
    let upper = antenna.upper_half.value().map_or(0.5, |p| p.pct() / 100.0);
    let own = own_excitation(antenna, bays)?;
    let mut feed = if let Some(wanted) = own {
        Feed::for_excitation(splitter, &wanted, line, length_m, frequency_mhz).map_err(NoPattern::Refused)?
    } else if bays > 1 && (tilt != 0.0 || (upper - 0.5).abs() > 1e-9) {
        let heights: Vec<f64> = (0..bays)
            .map(|i| (f64::from(i) - f64::from(bays - 1) / 2.0) * spacing_m)
            .collect();
        let wanted: Vec<Excitation> =
            synthesis::tilted_and_filled(&heights, frequency_mhz, tilt, upper).map_err(NoPattern::Refused)?;
        Feed::for_excitation(splitter, &wanted, line, length_m, frequency_mhz).map_err(NoPattern::Refused)?
    } else {
        Feed::equal(splitter, bays as usize, FeedCable { line, length_m })
    };
    feed.conductor_c = 40.0;
    Ok(feed)
}

/// Shares and phases stated bay by bay, from the bottom; none where none are.
fn own_excitation(antenna: &Antenna, bays: u32) -> Result<Option<Vec<Excitation>>, NoPattern> {
    let (shares, phases) = (&antenna.bay_shares, &antenna.bay_phases);
    if shares.is_empty() && phases.is_empty() {
        return Ok(None);
    }
    one_a_bay("the list of the bays' shares", shares.len(), bays)?;
    one_a_bay("the list of the bays' phases", phases.len(), bays)?;
    Ok(Some(
        (0..bays as usize)
            .rev()
            .map(|i| Excitation {
                share: shares.get(i).map_or(1.0, |s| s.pct()),
                phase_deg: phases.get(i).map_or(0.0, |p| p.deg()),
            })
            .collect(),
    ))
}

/// A list that says something of every bay, or of none.
fn one_a_bay(what: &'static str, given: usize, bays: u32) -> Result<(), NoPattern> {
    let wanted = bays as usize;
    if given == 0 || given == wanted {
        return Ok(());
    }
    Err(NoPattern::Refused(ArrayError::Length { what, given, wanted }))
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
