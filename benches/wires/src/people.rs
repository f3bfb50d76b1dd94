//! `wires-bench people [COUNT] [--power]`: bays shaped for people on seeded grounds, against the best equal-phase stack of as many bays.
//!
//! Ground, site, mast, licence and transmitter are invented, by seed. Printed for each: people reached by both at the power the licence
//! and the transmitter allow, and with `--power` the power with which the shaped stack reaches as many as the equal one.

use crate::processor_s;
use antenna::feed::Splitter;
use antenna::line::{LineConstants, wavelength_m};
use antenna::mount::shape::{
    Bounds, Goal, Harnessing, Mask, best_equal, least_power_floor_anywhere_w, least_power_floor_w, shaped,
};
use antenna::mount::{Mast, MastPlace, MountPlan, WireElement};
use coverage::{
    Control, CoverageIndex, GroundWorld, Listening, LossField, Mode, ReceiverPlane, Situation, Study, Wanted,
    World,
};
use propagation::p1812::Polarisation;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::time::Instant;
use terrain::{MissingGround, Position, geodesic};

const FREQ_MHZ: f64 = 98.0;

/// One invented station.
struct Station {
    told: String,
    plan: MountPlan,
    bounds: Bounds,
    index: CoverageIndex,
}

/// Runs `count` of them and prints the medians.
pub fn run(count: u64, with_power: bool) {
    let (mut more, mut less, mut ceilings, mut slowest) = (Vec::new(), Vec::new(), Vec::new(), 0.0f64);
    for seed in 0..count {
        let station = station(seed);
        let audience = Listening::new(&station.index, ReceiverPlane::Vertical);
        let harness = Harnessing {
            splitter: Splitter::quarter_wave(station.plan.bays.len(), FREQ_MHZ, 0.1),
            line: LineConstants::new(0.4022, 0.000_782, 0.85, 50.0).expect("a usual cable"),
            shortest_m: 3.0,
            conductor_c: 40.0,
        };
        let (plan, bounds) = (&station.plan, &station.bounds);
        let start = Instant::now();
        let equal = best_equal(plan, &harness, &audience, bounds, Goal::MostPeople).expect("a sound stack");
        let alike_s = start.elapsed().as_secs_f64();
        let (start, before_s) = (Instant::now(), processor_s());
        let best =
            shaped(plan, &harness, &audience, bounds, Goal::MostPeople, Some(&equal)).expect("a sound stack");
        let (took_s, processor_s) = (start.elapsed().as_secs_f64(), processor_s() - before_s);
        let gain_pct = 100.0 * (best.people / equal.people - 1.0);
        let mut saving = String::new();
        if with_power {
            let as_many = Goal::LeastPower { people: equal.people };
            let frugal =
                shaped(plan, &harness, &audience, bounds, as_many, Some(&equal)).expect("a sound stack");
            // The equal stack, too, may reach as many with less than it was allowed.
            let equal_w = best_equal(plan, &harness, &audience, bounds, as_many)
                .expect("a sound stack")
                .power_w;
            let saved_pct = 100.0 * (1.0 - frugal.power_w / equal_w);
            // What no currents under the masks could do, in any of these places: losses and mismatch left out.
            let (anywhere_w, places) =
                least_power_floor_anywhere_w(plan, &harness, &audience, bounds, equal.people, equal_w)
                    .expect("a sound stack");
            let here_w = least_power_floor_w(&frugal.plan, &audience, bounds, equal.people, equal_w)
                .expect("a sound stack");
            let floor_w = here_w.map_or(anywhere_w, |here| here.min(anywhere_w));
            let ceiling_pct = 100.0 * (1.0 - floor_w / equal_w);
            saving = format!(
                ", as many with {:.0} of {equal_w:.0} W (−{saved_pct:.0} %; in {places} places no currents could save more than {ceiling_pct:.0} %)",
                frugal.power_w
            );
            less.push(saved_pct);
            ceilings.push(ceiling_pct);
        }
        let bearings: Vec<String> = best
            .plan
            .bays
            .iter()
            .map(|b| format!("{:.0}", b.bearing_deg))
            .collect();
        let phases: Vec<String> = best
            .excitation
            .iter()
            .map(|e| format!("{:.0}", e.phase_deg))
            .collect();
        println!(
            "{seed:2} {:58} of {:6.0} people equal {:6.0} at {:4.0} W, shaped {:6.0} at {:4.0} W ({gain_pct:+5.1} %){saving}; {} places, \
             {} excitations, {took_s:.1} s by the clock, {processor_s:.1} s of processors (equal {alike_s:.1} s by the clock); bearings {} phases {}",
            station.told,
            station.index.people_total(),
            equal.people,
            equal.power_w,
            best.people,
            best.power_w,
            best.solved,
            best.looked_at,
            bearings.join("/"),
            phases.join("/"),
        );
        more.push(gain_pct);
        slowest = slowest.max(processor_s);
    }
    println!(
        "median of {count}: {:+.1} % people; slowest search {slowest:.1} s of processors",
        median(&mut more)
    );
    if with_power {
        println!(
            "as many people with {:.0} % less transmitter power in the median; no currents could save more than {:.0} % in the median, \
             and on {} of them not a fifth",
            median(&mut less),
            median(&mut ceilings),
            ceilings.iter().filter(|c| **c < 20.0).count()
        );
    }
}

fn median(list: &mut [f64]) -> f64 {
    list.sort_by(f64::total_cmp);
    let n = list.len();
    0.5 * (list[(n - 1) / 2] + list[n / 2])
}

fn station(seed: u64) -> Station {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let id = terrain::generated::IDS[(seed % 4) as usize];
    let world = GroundWorld::generated(id)
        .expect("a generated ground")
        .with_ground(|g| g.with_missing(MissingGround::TreatAsSea));
    let site = site(&mut rng, id, &world);
    let agl_m = rng.random_range(20.0..60.0f64).round();
    let study = Study::new(site, agl_m, FREQ_MHZ, Polarisation::Vertical)
        .within_km(30.0)
        .at_step_m(150.0);
    let field = LossField::compute(&world, &study, &Control::quiet()).expect("a field");
    let index = CoverageIndex::new(&field, &Wanted::bs412(Mode::Stereo, Situation::Roof)).expect("an index");
    let bays = [2, 4, 4, 6][rng.random_range(0..4)];
    let (mast, name) = if rng.random_bool(0.3) {
        let lattice = Mast::Lattice {
            legs: 3,
            face_m: 0.40,
            panel_m: 0.48,
            leg_radius_m: 0.017,
            horizontal_radius_m: 0.008,
            diagonal_radius_m: 0.008,
            face_bearing_deg: rng.random_range(0..36) as f64 * 10.0,
        };
        (lattice, "lattice")
    } else {
        (Mast::Pole { radius_m: 0.045 }, "pole")
    };
    let place = MastPlace {
        bearing_deg: 0.0,
        stand_off_m: 0.8,
    };
    let plan = MountPlan::even(
        FREQ_MHZ,
        bays,
        0.9 * wavelength_m(FREQ_MHZ),
        WireElement::Vertical,
        place,
        mast,
    );
    // A licence of 100 W to 3 kW with one or two protected sectors of 60°, by 6 to 14 dB; a transmitter that could just reach it.
    let licence_dbw: f64 = rng.random_range(20.0..35.0);
    let mut dbw = vec![licence_dbw; 36];
    let sectors = rng.random_range(1..=2);
    for _ in 0..sectors {
        let (first, less_db) = (rng.random_range(0..36), rng.random_range(6.0..14.0f64).round());
        (0..7).for_each(|i| dbw[(first + i) % 36] = dbw[(first + i) % 36].min(licence_dbw - less_db));
    }
    let power_w = 10f64.powf((licence_dbw - rng.random_range(2.0..7.0)) / 10.0);
    Station {
        told: format!(
            "{id}, {agl_m:.0} m, {bays} bays, {name}, {:.0} W ERP, {sectors} sectors, {power_w:.0} W",
            10f64.powf(licence_dbw / 10.0),
        ),
        plan,
        bounds: Bounds {
            masks: vec![Mask {
                plane: Some(antenna::direction::Plane::Vertical),
                dbw,
            }],
            power_w,
            bay_w: None,
            stand_off_m: (0.5, 1.5),
            share_spread_db: 10.0,
        },
        index,
    }
}

/// The highest of some random points on land within 8 km of the middle: where one puts masts.
fn site(rng: &mut ChaCha8Rng, id: &str, world: &GroundWorld) -> Position {
    let ground = terrain::generated::by_id(id).expect("a generated ground");
    let mut best = (f64::NEG_INFINITY, ground.sites[0].position);
    for _ in 0..6 {
        let to = geodesic::destination(
            ground.centre(),
            rng.random_range(0.0..360.0),
            rng.random_range(0.0..8000.0),
        );
        if let Ok(spot) = world.spot(to)
            && !spot.water
            && spot.height_m > best.0
        {
            best = (spot.height_m, to);
        }
    }
    best.1
}
