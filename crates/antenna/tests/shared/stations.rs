//! Seeded stations (invented) with one fault or none, and the field test driven on them.
//!
//! The truth is wires solved for every station anew: bays hung a little off, cut a little long, a fault as other metal wherever it
//! is metal, severities from a continuum. The library knows the drawing: the nominal wires (or the array model of them) and a few
//! severities, as edits of the network.

use std::sync::OnceLock;

use antenna::array::{ElementKind, StackPlan};
use antenna::chain::{FoldBack, Stage};
use antenna::direction::{Direction, Plane};
use antenna::fault::{
    Aerial, AsBuilt, Fault, FaultKind, FieldPoint, Installation, Library, Log, Noise, Reading, Readings, Wet,
    usual_points,
};
use antenna::feed::synthesis::tilted_and_filled;
use antenna::feed::{Cable, End, Feed, Splitter};
use antenna::line::{LineConstants, Vswr, wavelength_m};
use antenna::mount::{BayPlan, Mast, Matching, MountPlan};
use antenna::wires::Wire;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, Normal, StandardNormal};

/// Distance in units of noise below which two faults count as one class even at the points best for them: mistaken for each
/// other in one of 15.
pub const PART_AT: f64 = 3.0;

pub type Fallible<T> = Result<T, Box<dyn std::error::Error>>;

pub struct Case {
    pub library: Library,
    pub truth: Fault,
    /// Noise-free readings at every candidate point.
    pub clean: Readings,
}

/// What came of one station.
pub struct Outcome {
    pub truth: FaultKind,
    pub said: FaultKind,
    /// The same in its most probable severity.
    pub first: Fault,
    /// The kind said first is the true one, or what is listed with it, as no reading parts them, holds the true fault.
    pub right: bool,
    /// The true fault, as drawn, lies in one class with the healthy installation.
    pub hidden: bool,
    /// Kinds of fault listed first.
    pub class_kinds: usize,
}

/// What the library is made of.
#[derive(Clone, Copy, PartialEq)]
pub enum Known {
    /// The drawing, solved as wires.
    Wires,
    /// The drawing by the array model: a round pole at most.
    Array,
}

/// A drawing of which many stations were built.
struct Drawing {
    draft: StackPlan,
    plan: MountPlan,
    plane: Plane,
    aerial: Aerial,
    matching: Vec<Matching>,
}

const POLE: Option<f64> = Some(0.03);
/// Frequency in MHz, bays, spacing in wavelengths, element, radius of a pole in m or a lattice, stand-off in m.
const DRAWINGS: [(f64, usize, f64, ElementKind, Option<f64>, f64); 10] = [
    (98.0, 4, 0.9, ElementKind::Vertical, POLE, 0.75),
    (91.3, 2, 0.85, ElementKind::Vertical, POLE, 0.8),
    (104.2, 4, 0.8, ElementKind::Vertical, None, 0.9),
    (95.6, 4, 0.9, ElementKind::Horizontal, Some(0.045), 0.7),
    (
        100.7,
        4,
        0.75,
        ElementKind::Crossed { right_handed: true },
        None,
        0.8,
    ),
    (89.4, 6, 0.9, ElementKind::Vertical, None, 0.8),
    (106.1, 8, 0.9, ElementKind::Vertical, Some(0.05), 0.7),
    (99.1, 6, 0.8, ElementKind::Horizontal, Some(0.04), 0.9),
    (93.8, 4, 0.95, ElementKind::Slant { lean_deg: 45.0 }, POLE, 0.8),
    (
        102.5,
        2,
        0.9,
        ElementKind::Crossed { right_handed: true },
        POLE,
        0.75,
    ),
];

fn drawing(index: usize) -> &'static Drawing {
    static SOLVED: [OnceLock<Drawing>; DRAWINGS.len()] = [const { OnceLock::new() }; DRAWINGS.len()];
    SOLVED[index].get_or_init(|| drawn(index).expect("every drawing can be solved"))
}

fn drawn(index: usize) -> Fallible<Drawing> {
    let (frequency_mhz, bays, wavelengths, element, pole_radius_m, stand_off_m) = DRAWINGS[index];
    let draft = StackPlan {
        frequency_mhz,
        bays,
        spacing_m: wavelengths * wavelength_m(frequency_mhz),
        element,
        bearing_deg: 37.0 * index as f64,
        pole_radius_m,
        stand_off_m,
    };
    let lattice = Mast::Lattice {
        legs: 3,
        face_m: 0.4,
        panel_m: 0.4,
        leg_radius_m: 0.015,
        horizontal_radius_m: 0.006,
        diagonal_radius_m: 0.006,
        face_bearing_deg: draft.bearing_deg,
    };
    let plan = match pole_radius_m {
        Some(_) => MountPlan::proof_of(&draft, None),
        None => MountPlan::proof_of(&draft, Some(lattice)),
    };
    let mounted = plan.solved()?;
    Ok(Drawing {
        draft,
        plane: match element {
            ElementKind::Horizontal | ElementKind::Crossed { .. } => Plane::Horizontal,
            _ => Plane::Vertical,
        },
        matching: mounted.matching().to_vec(),
        aerial: Aerial::solved(plan.clone(), mounted),
        plan,
    })
}

pub fn case(seed: u64, known: Known) -> Fallible<Case> {
    Ok(case_and_station(seed, known)?.0)
}

/// A case, and the installation its library was made of.
pub fn case_and_station(seed: u64, known: Known) -> Fallible<(Case, Installation)> {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let drawing = drawing(dice.random_range(0..DRAWINGS.len()));
    let heights: Vec<f64> = drawing.plan.bays.iter().map(|b| b.height_m).collect();
    let f = drawing.plan.frequency_mhz;
    let station = fed(f, &heights, drawing.aerial.clone(), &mut dice)?;
    let points: Vec<FieldPoint> = usual_points(drawing.plane, 6);
    let truth = drawn_fault(&mut dice, station.feed.branches.len());
    let clean = built(drawing, &station, truth, &mut dice)?.readings_drawn(&points, &mut dice)?;
    let of = match known {
        Known::Wires => station,
        Known::Array => Installation {
            aerial: Aerial::array(drawing.draft.stack()?)?,
            ..station
        },
    };
    let case = Case {
        library: Library::new(&of, &points, &AsBuilt::USUAL)?,
        clean,
        truth,
    };
    Ok((case, of))
}

/// A station as drawn, and truth by the very model of the library: what the ranking loses by noise alone.
pub fn case_on_paper(seed: u64) -> Fallible<Case> {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let f = dice.random_range(88.0..108.0);
    let bays = [2, 4, 4, 6, 8][dice.random_range(0..5)];
    let (element, plane) = [
        (ElementKind::Vertical, Plane::Vertical),
        (ElementKind::Horizontal, Plane::Horizontal),
        (ElementKind::Slant { lean_deg: 45.0 }, Plane::Vertical),
        (ElementKind::Crossed { right_handed: true }, Plane::Horizontal),
    ][dice.random_range(0..4)];
    let draft = StackPlan {
        frequency_mhz: f,
        bays,
        spacing_m: dice.random_range(0.7..1.0) * wavelength_m(f),
        element,
        bearing_deg: dice.random_range(0.0..360.0),
        pole_radius_m: Some(dice.random_range(0.025..0.05)),
        stand_off_m: dice.random_range(0.6..1.0),
    };
    let stack = draft.stack()?;
    let heights: Vec<f64> = stack.bays.iter().map(|b| b.position_m[2]).collect();
    let station = fed(f, &heights, Aerial::array(stack)?, &mut dice)?;
    let points: Vec<FieldPoint> = usual_points(plane, 6);
    let truth = drawn_fault(&mut dice, bays);
    Ok(Case {
        library: Library::new(&station, &points, &AsBuilt::EXACT)?,
        clean: truth.applied(&station)?.readings(&points)?,
        truth,
    })
}

/// Feeder, splitter and cables to an antenna with bays at these heights, as drawn.
fn fed(f: f64, heights: &[f64], aerial: Aerial, dice: &mut ChaCha8Rng) -> Fallible<Installation> {
    let bays = heights.len();
    let wanted = tilted_and_filled(
        heights,
        f,
        dice.random_range(0.0..2.0),
        dice.random_range(0.5..0.7),
    )?;
    let splitter = if dice.random_bool(0.5) {
        Splitter::quarter_wave(bays, f, 0.1)
    } else {
        Splitter::Isolated { excess_loss_db: 0.15 }
    };
    let branch = LineConstants::new(0.4022, 0.000782, 0.85, 50.0)?;
    let line = LineConstants::new(0.1122, 0.000483, 0.89, 50.0)?;
    let cable = Cable {
        line,
        length_m: dice.random_range(30.0..120.0),
    };
    Ok(Installation {
        aerial,
        feed: Feed::for_excitation(splitter, &wanted, branch, dice.random_range(3.0..9.0), f)?,
        line: vec![
            Stage::Loss { loss_db: 0.1 },
            Stage::Line {
                cable,
                conductor_c: 20.0,
            },
        ],
        wet: None,
        forward_w: dice.random_range(100.0..5000.0),
        fold_back: Some(FoldBack {
            limit: Vswr::new(1.7)?,
        }),
        coupler_directivity_db: 30.0,
        scatter_db: -30.0,
    })
}

/// The station as it stands: built with the scatter of real work (invented, plausible), the fault in its metal where it is metal.
fn built(
    drawing: &Drawing,
    of: &Installation,
    fault: Fault,
    dice: &mut ChaCha8Rng,
) -> Fallible<Installation> {
    let mut normal = |sigma: f64| -> f64 {
        let unit: f64 = StandardNormal.sample(dice);
        sigma * unit
    };
    let mut plan = drawing.plan.clone();
    let mut matching = drawing.matching.clone();
    let mut lengths = Vec::new();
    for (bay, matched) in plan.bays.iter_mut().zip(&mut matching) {
        bay.height_m += normal(0.01);
        bay.stand_off_m += normal(0.01);
        bay.bearing_deg += normal(1.0);
        bay.facing_deg += normal(1.5);
        lengths.push(1.0 + normal(0.003));
        matched.turns *= 1.0 + normal(0.02);
        matched.series_ohm += normal(2.0);
    }
    if let Fault::Detuned { bay, by_mhz } = fault {
        lengths[bay] *= plan.frequency_mhz / (plan.frequency_mhz + by_mhz);
    }
    let reshape = |i: usize, wire: &mut Wire| {
        stretch(wire, lengths[i]);
        if fault == (Fault::UpsideDown { bay: i }) {
            half_turn(&plan.bays[i], wire);
        }
    };
    let mounted = plan.solved_reshaped(plan.frequency_mhz, &matching, reshape)?;
    let mut out = Installation {
        aerial: Aerial::solved(plan.clone(), mounted),
        ..of.clone()
    };
    for branch in &mut out.feed.branches {
        branch.cable.length_m += normal(0.005);
        branch.cable.line.velocity_ratio *= 1.0 + normal(0.004);
        branch.share *= 1.0 + normal(0.03);
    }
    if let Some(Stage::Line { cable, .. }) = out.line.last_mut() {
        cable.line.z0_ohm += normal(0.5);
        cable.line.a_db_per_100m *= 1.0 + normal(0.04);
    }
    out.coupler_directivity_db += normal(2.0);
    out.scatter_db += normal(2.0);
    Ok(match fault {
        Fault::Detuned { .. } | Fault::UpsideDown { .. } => out,
        Fault::WaterInFeeder { extra_db } => {
            out.wet = Some(Wet {
                extra_db,
                length_m: dice.random_range(1.5..5.0),
                ratio: dice.random_range(0.86..0.94),
            });
            out
        }
        Fault::WaterInBranch { branch, .. } => {
            // Water slows a cable, too, and lowers its impedance.
            let line = &mut out.feed.branches[branch].cable.line;
            let ratio = dice.random_range(0.97..1.0);
            line.velocity_ratio *= ratio;
            line.z0_ohm *= ratio;
            fault.applied(&out)?
        }
        _ => fault.applied(&out)?,
    })
}

/// A wire longer or shorter about its own middle.
pub fn stretch(wire: &mut Wire, ratio: f64) {
    for i in 0..3 {
        let (middle, half) = (
            0.5 * (wire.start_m[i] + wire.end_m[i]),
            0.5 * ratio * (wire.end_m[i] - wire.start_m[i]),
        );
        (wire.start_m[i], wire.end_m[i]) = (middle - half, middle + half);
    }
}

/// A bay's wire turned half round the direction the bay faces, through its middle: the bay upside down on its boom.
pub fn half_turn(bay: &BayPlan, wire: &mut Wire) {
    let axis = Direction::new(bay.facing_deg, 0.0).unit();
    let out = Direction::new(bay.bearing_deg, 0.0).unit();
    let centre = [out[0] * bay.stand_off_m, out[1] * bay.stand_off_m, bay.height_m];
    for end in [&mut wire.start_m, &mut wire.end_m] {
        let off: [f64; 3] = std::array::from_fn(|i| end[i] - centre[i]);
        let along: f64 = (0..3).map(|i| off[i] * axis[i]).sum();
        *end = std::array::from_fn(|i| centre[i] + 2.0 * along * axis[i] - off[i]);
    }
}

/// Three in ten are healthy; else a kind at random, then a bay and a severity.
fn drawn_fault(dice: &mut ChaCha8Rng, bays: usize) -> Fault {
    if dice.random_bool(0.3) {
        return Fault::Healthy;
    }
    let bay = dice.random_range(0..bays);
    match dice.random_range(0..7) {
        0 => Fault::UpsideDown { bay },
        1 => Fault::DeadBay {
            bay,
            end: if dice.random_bool(0.5) {
                End::Open
            } else {
                End::Short
            },
        },
        2 => Fault::Swapped {
            first: bay,
            second: (bay + dice.random_range(1..bays)) % bays,
        },
        3 => Fault::WrongVelocity {
            branch: bay,
            velocity_ratio: dice.random_range(0.65..0.83),
        },
        4 => Fault::WaterInFeeder {
            extra_db: dice.random_range(2.0..6.0),
        },
        5 => Fault::WaterInBranch {
            branch: bay,
            extra_db: dice.random_range(3.0..9.0),
        },
        _ => {
            let sign = if dice.random_bool(0.5) { 1.0 } else { -1.0 };
            Fault::Detuned {
                bay,
                by_mhz: sign * dice.random_range(4.0..8.0),
            }
        }
    }
}

/// The field test as it would be driven: meters first, then each next point where it tells most. One outcome for each count of
/// points.
///
/// # Shape
/// `counts`: rising
pub fn outcomes(case: &Case, sigma_db: f64, counts: &[usize], seed: u64) -> Vec<Outcome> {
    let mut dice = ChaCha8Rng::seed_from_u64(0x5eed_0000 + seed);
    let spread = Normal::new(0.0, sigma_db).expect("a positive deviation");
    let mut read = |dbw: f64| Reading::alone(dbw + spread.sample(&mut dice), sigma_db);
    let noise = Noise::even(sigma_db, case.library.points().len());
    let mut log = Log {
        forward: Some(read(case.clean.forward_dbw)),
        reflected: Some(read(case.clean.reflected_dbw)),
        ..Log::default()
    };
    counts
        .iter()
        .map(|&count| {
            while log.fields.len() < count
                && let Some(p) = case.library.next_point(&log, &noise)
            {
                log.fields.push((p, read(case.clean.erp_dbw[p])));
            }
            outcome(case, &log, &noise, count)
        })
        .collect()
}

fn outcome(case: &Case, log: &Log, noise: &Noise, points: usize) -> Outcome {
    let first = case
        .library
        .ranked(log, points, noise, PART_AT)
        .swap_remove(0)
        .faults;
    let truth = case.truth.kind();
    let near_truth = nearest_entry(&case.library, truth, &case.clean.row());
    let kinds: std::collections::BTreeSet<FaultKind> = first.iter().map(Fault::kind).collect();
    Outcome {
        truth,
        said: first[0].kind(),
        first: first[0],
        // A fault that hides among the healthy is rightly called healthy, with the list of what may hide there.
        right: first[0].kind() == truth || first.contains(&case.library.faults()[near_truth]),
        hidden: case.library.alike(0, near_truth, points, noise, PART_AT),
        class_kinds: kinds.len(),
    }
}

/// The library's entry of the true kind whose readings are nearest the truth's.
pub fn nearest_entry(library: &Library, kind: FaultKind, truth: &[f64]) -> usize {
    let distance = |row: &[f64]| row.iter().zip(truth).map(|(a, b)| (a - b).powi(2)).sum::<f64>();
    (0..library.faults().len())
        .filter(|&i| library.faults()[i].kind() == kind)
        .min_by(|&a, &b| distance(library.row(a)).total_cmp(&distance(library.row(b))))
        .unwrap_or(0)
}

/// What any model of four equal bays must say of a fault, by array theory.
pub fn moves_what_it_must(read: &dyn Fn(Fault) -> Readings) {
    let well = read(Fault::Healthy);
    // Half the amplitude is lost to a reversed bay of four: 6 dB in the main lobe, no more than coupling apart.
    let reversed = read(Fault::UpsideDown { bay: 1 });
    assert!(
        (well.erp_dbw[0] - reversed.erp_dbw[0] - 6.02).abs() < 1.0,
        "{}",
        well.erp_dbw[0] - reversed.erp_dbw[0]
    );
    // A dead bay of a reactive splitter is seen on the reflected meter and costs about 2.5 dB in the lobe.
    let dead = read(Fault::DeadBay {
        bay: 0,
        end: End::Open,
    });
    assert!(dead.reflected_dbw > well.reflected_dbw + 3.0);
    assert!((1.0..4.0).contains(&(well.erp_dbw[0] - dead.erp_dbw[0])));
    // Swapping equal cables of an equal feed is no fault at all.
    let swapped = read(Fault::Swapped { first: 0, second: 2 });
    assert!(
        well.row()
            .iter()
            .zip(swapped.row())
            .all(|(a, b)| (a - b).abs() < 1e-6)
    );
}
