//! Seeded stations (invented) with one fault or none, and the field test driven on them.

use antenna::array::{ElementKind, StackPlan};
use antenna::chain::FoldBack;
use antenna::direction::Plane;
use antenna::fault::{Fault, FaultKind, FieldPoint, Installation, Library, Log, Readings, usual_points};
use antenna::feed::synthesis::tilted_and_filled;
use antenna::feed::{Cable, End, Feed, Splitter};
use antenna::line::{LineConstants, Vswr, wavelength_m};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, Normal};

/// Distance in units of noise below which two faults count as one class even at the points best for them: mistaken for each
/// other in one of 15.
pub const PART_AT: f64 = 3.0;

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
    /// The class said first holds the true fault.
    pub right: bool,
    /// The true fault, as drawn, lies in one class with the healthy installation.
    pub hidden: bool,
    /// Kinds of fault in the class said first.
    pub class_kinds: usize,
}

pub fn case(seed: u64) -> Result<Case, Box<dyn std::error::Error>> {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let (station, plane) = installation(&mut dice)?;
    let points: Vec<FieldPoint> = usual_points(plane, 6);
    let truth = drawn_fault(&mut dice, station.feed.branches.len());
    Ok(Case {
        library: Library::new(&station, &points)?,
        clean: truth.applied(&station).readings(&points)?,
        truth,
    })
}

fn installation(dice: &mut ChaCha8Rng) -> Result<(Installation, Plane), Box<dyn std::error::Error>> {
    let frequency_mhz = dice.random_range(88.0..108.0);
    let bays = [2, 4, 4, 6, 8][dice.random_range(0..5)];
    let (element, plane) = [
        (ElementKind::Vertical, Plane::Vertical),
        (ElementKind::Horizontal, Plane::Horizontal),
        (ElementKind::Slant { lean_deg: 45.0 }, Plane::Vertical),
        (ElementKind::Crossed { right_handed: true }, Plane::Horizontal),
    ][dice.random_range(0..4)];
    let stack = StackPlan {
        frequency_mhz,
        bays,
        spacing_m: dice.random_range(0.7..1.0) * wavelength_m(frequency_mhz),
        element,
        bearing_deg: dice.random_range(0.0..360.0),
        pole_radius_m: Some(dice.random_range(0.025..0.05)),
        stand_off_m: dice.random_range(0.6..1.0),
    }
    .stack()?;
    let heights: Vec<f64> = stack.bays.iter().map(|b| b.position_m[2]).collect();
    let wanted = tilted_and_filled(
        &heights,
        frequency_mhz,
        dice.random_range(0.0..2.0),
        dice.random_range(0.5..0.7),
    )?;
    let splitter = if dice.random_bool(0.5) {
        Splitter::quarter_wave(bays, frequency_mhz, 0.1)
    } else {
        Splitter::Isolated { excess_loss_db: 0.15 }
    };
    let branch = LineConstants::new(0.4022, 0.000782, 0.85, 50.0)?;
    let feed = Feed::for_excitation(
        splitter,
        &wanted,
        branch,
        dice.random_range(3.0..9.0),
        frequency_mhz,
    )?;
    let line = LineConstants::new(0.1122, 0.000483, 0.89, 50.0)?;
    let installation = Installation {
        stack,
        feed,
        feeder: Cable {
            line,
            length_m: dice.random_range(30.0..120.0),
        },
        conductor_c: 20.0,
        wet: None,
        forward_w: dice.random_range(100.0..5000.0),
        fold_back: FoldBack {
            limit: Vswr::new(1.7)?,
        },
        coupler_directivity_db: 30.0,
        scatter_db: -30.0,
    };
    Ok((installation, plane))
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
            velocity_ratio: [0.66, 0.78, 0.82, 0.88][dice.random_range(0..4)],
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

/// The field test as it would be driven: meters first, then each next point where it tells most.
pub fn outcome(case: &Case, sigma_db: f64, points: usize, seed: u64) -> Outcome {
    let mut dice = ChaCha8Rng::seed_from_u64(0x5eed_0000 + seed);
    let noise = Normal::new(0.0, sigma_db).expect("a positive deviation");
    let meters = [case.clean.forward_dbw, case.clean.reflected_dbw];
    let mut log = Log {
        meters_dbw: meters.map(|m| m + noise.sample(&mut dice)),
        fields: Vec::new(),
        sigma_db,
    };
    while log.fields.len() < points {
        let Some(p) = case.library.next_point(&log) else {
            break;
        };
        log.fields
            .push((p, case.clean.erp_dbw[p] + noise.sample(&mut dice)));
    }
    let classes = case.library.classes(points, sigma_db, PART_AT);
    let first = case.library.ranked(&log, &classes).swap_remove(0).faults;
    let truth = case.truth.kind();
    let near_truth = nearest_entry(case);
    let hidden = classes[0].contains(&near_truth);
    let kinds: std::collections::BTreeSet<FaultKind> = first.iter().map(Fault::kind).collect();
    Outcome {
        truth,
        said: first[0].kind(),
        // A fault that hides among the healthy is rightly called healthy, with the list of what may hide there.
        right: kinds.contains(&truth) || first.contains(&case.library.faults()[near_truth]),
        hidden,
        class_kinds: kinds.len(),
    }
}

/// The library's entry of the true kind whose readings are nearest the truth's.
fn nearest_entry(case: &Case) -> usize {
    let truth = case.clean.row();
    let distance = |row: &[f64]| row.iter().zip(&truth).map(|(a, b)| (a - b).powi(2)).sum::<f64>();
    (0..case.library.faults().len())
        .filter(|&i| case.library.faults()[i].kind() == case.truth.kind())
        .min_by(|&a, &b| distance(case.library.row(a)).total_cmp(&distance(case.library.row(b))))
        .unwrap_or(0)
}
