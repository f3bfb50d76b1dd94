//! The antenna as the file has it: bays, mast and feed built, solved, and as they radiate.

use super::height::{centre_agl_m, ground_amsl_m};
use super::line::line_constants;
use super::{Division, NoPattern, Radiating};
use crate::case::Case;
use antenna::array::{ArrayError, ElementKind, Stack, StackPlan};
use antenna::feed::{Cable as FeedCable, Excitation, Feed, InputMatch, Splitter, synthesis};
use antenna::line::{LineConstants, wavelength_m};
use antenna::mount::{Mast, MountPlan};
use antenna::wires::Complex;
use station::chain::{self, Chain, Part};
use station::design::{Antenna, Emission};
use station::licence::Polarisation;
use station::place::{AntennaModel, MastKind};
use station::shelf::ShelfItem;
use std::sync::Arc;

/// Bays stand this many wavelengths apart where nothing else is said. Common practice, no source.
pub const USUAL_SPACING_WAVELENGTHS: f64 = 0.9;

/// What an emission's antenna is to be, before anything is computed of it.
pub(super) struct Chosen<'a> {
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

pub(super) fn choose<'a>(
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

pub(super) fn radiate(
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
        let solved = crate::proofs::mounted::solved(&mount, &feed, chosen.operating_mhz)
            .map_err(NoPattern::Unbuildable)?;
        (
            Arc::new(solved.pattern.clone()),
            Arc::new(solved.fed.clone()),
            true,
            Some(solved),
        )
    } else {
        let (pattern, fed) = crate::proofs::drafted::of(&stack, &feed).map_err(NoPattern::Refused)?;
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
        division: splitter.and_then(|s| division(&feed, s)),
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
pub(super) fn tails<'a>(chain: Option<&Chain<'a>>) -> Option<(&'a station::design::Cable, &'a ShelfItem)> {
    let chain = chain?;
    splitter(Some(chain))?;
    let last = chain.links.len().checked_sub(2)?;
    match chain.links[last].part {
        Part::Cable(cable) => Some((cable, chain.links[last].shelf?)),
        _ => None,
    }
}

pub(super) fn stack(
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
    one_a_bay("azimuths", antenna.bay_azimuths.len(), bays)?;
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

/// The same bays as wires beside the site's mast. A lattice has three legs when guyed, four when it stands by itself (common
/// practice, no source); its panels and tubes are the file's, or of the usual proportions that are listed as assumptions.
pub(super) fn mount_plan(plan: &StackPlan, site: &station::place::Site) -> MountPlan {
    let width = site.mast.width.value().map(|w| w.m());
    let legs = match site.mast.kind.value() {
        Some(MastKind::GuyedLattice) => Some(3),
        Some(MastKind::SelfSupportingLattice) => Some(4),
        _ => None,
    };
    let Some((legs, face_m)) = legs.zip(width) else {
        return MountPlan::proof_of(plan, None);
    };
    let usual = station::assumptions::lattice(face_m);
    let metres =
        |known: &station::Known<quantity::Length>, usual_m: f64| known.value().map_or(usual_m, |l| l.m());
    let bracing_m = metres(&site.mast.bracing, usual.bracing_m);
    let mast = Mast::Lattice {
        legs,
        face_m,
        panel_m: metres(&site.mast.panel, usual.panel_m),
        leg_radius_m: metres(&site.mast.leg, usual.leg_m) / 2.0,
        horizontal_radius_m: bracing_m / 2.0,
        diagonal_radius_m: bracing_m / 2.0,
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

/// The bay whose share lies furthest from what the splitter gives it. A splitter that says nothing of it divides equally.
fn division(feed: &Feed, ratings: &station::shelf::SplitterRatings) -> Option<Division> {
    let count = feed.branches.len();
    let made_pct: f64 = ratings.shares.iter().map(|s| s.pct()).sum();
    let total: f64 = feed.branches.iter().map(|b| b.share).sum();
    let made: Vec<f64> = if ratings.shares.len() == count && made_pct > 0.0 {
        ratings.shares.iter().map(|s| s.pct() / made_pct).collect()
    } else {
        Vec::new()
    };
    let from_top = feed.branches.iter().rev().enumerate();
    let apart = |wanted: f64, given: f64| (wanted - given).abs();
    let (bay, wanted, given) = from_top
        .map(|(i, branch)| {
            let given = made.get(i).copied().unwrap_or(1.0 / count as f64);
            (i + 1, branch.share / total, given)
        })
        .max_by(|a, b| apart(a.1, a.2).total_cmp(&apart(b.1, b.2)))?;
    Some(Division {
        bay,
        wanted,
        given,
        made,
    })
}

pub(super) fn splitter<'a>(chain: Option<&Chain<'a>>) -> Option<&'a station::shelf::SplitterRatings> {
    chain?
        .links
        .iter()
        .find_map(|l| l.shelf.and_then(|s| s.splitter.as_ref()))
}

pub(super) fn feed(
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
pub(super) fn own_excitation(antenna: &Antenna, bays: u32) -> Result<Option<Vec<Excitation>>, NoPattern> {
    let (shares, phases) = (&antenna.bay_shares, &antenna.bay_phases);
    if shares.is_empty() && phases.is_empty() {
        return Ok(None);
    }
    one_a_bay("shares", shares.len(), bays)?;
    one_a_bay("bay-phases", phases.len(), bays)?;
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
pub(super) fn one_a_bay(what: &'static str, given: usize, bays: u32) -> Result<(), NoPattern> {
    let wanted = bays as usize;
    if given == 0 || given == wanted {
        return Ok(());
    }
    Err(NoPattern::Refused(ArrayError::Length { what, given, wanted }))
}
