//! Bays shaped for an invented audience: bounds kept, never worse than the best equal stack, the same on any number of threads.
#![allow(clippy::unwrap_used, reason = "tests")]

use antenna::direction::{Direction, Plane};
use antenna::feed::Splitter;
use antenna::line::{LineConstants, wavelength_m};
use antenna::mount::shape::{
    Audience, Bounds, Goal, Harnessing, Heard, Mask, Shaped, best_equal, least_power_floor_w, shaped,
};
use antenna::mount::{Mast, MastPlace, MountPlan, WireElement};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// People in seeded towns, each reached from a certain ERP on, softly.
struct Towns {
    directions: Vec<Direction>,
    count: Vec<f32>,
    enough_dbw: Vec<f32>,
}

impl Audience for Towns {
    fn directions(&self) -> &[Direction] {
        &self.directions
    }
    fn heard(&self) -> Heard {
        Heard::In(Plane::Vertical)
    }
    fn people(&self, erp_dbw: &[f32]) -> f64 {
        let reached = |(i, erp): (usize, &f32)| self.people_behind(i, *erp);
        erp_dbw.iter().enumerate().map(reached).sum()
    }
    fn people_behind(&self, direction: usize, erp_dbw: f32) -> f64 {
        let over_db = erp_dbw - self.enough_dbw[direction];
        f64::from(self.count[direction] / (1.0 + (-over_db / 3.0).exp()))
    }
}

fn towns(seed: u64, number: usize) -> Towns {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut out = Towns {
        directions: Vec::new(),
        count: Vec::new(),
        enough_dbw: Vec::new(),
    };
    for _ in 0..number {
        let elev = -rng.random_range(0.1f64..8.0);
        out.directions
            .push(Direction::new(rng.random_range(0.0..360.0), elev));
        out.count.push(rng.random_range(10.0..2000.0));
        out.enough_dbw.push(rng.random_range(10.0..32.0));
    }
    out
}

fn harness(ways: usize) -> Harnessing {
    Harnessing {
        splitter: Splitter::quarter_wave(ways, 98.0, 0.1),
        line: LineConstants::new(0.4022, 0.000_782, 0.85, 50.0).unwrap(),
        shortest_m: 3.0,
        conductor_c: 40.0,
    }
}

fn plan(bays: usize, mast: Mast) -> MountPlan {
    let place = MastPlace {
        bearing_deg: 0.0,
        stand_off_m: 0.8,
    };
    MountPlan::even(
        98.0,
        bays,
        0.9 * wavelength_m(98.0),
        WireElement::Vertical,
        place,
        mast,
    )
}

fn bounds() -> Bounds {
    let mut dbw = vec![27.0; 36];
    dbw[10..17].fill(17.0);
    Bounds {
        masks: vec![Mask {
            plane: Some(Plane::Vertical),
            dbw,
        }],
        power_w: 120.0,
        bay_w: Some(60.0),
        stand_off_m: (0.5, 1.4),
        share_spread_db: 10.0,
    }
}

/// The answer rebuilt from nothing but what it says: plan, shares, phases.
fn check(found: &Shaped, bounds: &Bounds) {
    let feed = harness(found.plan.bays.len())
        .feed(&found.excitation, 98.0)
        .unwrap();
    let (pattern, fed) = found.plan.solved().unwrap().pattern(&feed).unwrap();
    let accepted = found.power_w * fed.accepted_w();
    for bearing in (0..360).map(f64::from) {
        let erp_dbw = 10.0 * accepted.log10() + pattern.strongest_dbd(Plane::Vertical, bearing);
        assert!(
            erp_dbw <= bounds.masks[0].at_dbw(bearing) + 1e-4,
            "{bearing}: {erp_dbw} dBW"
        );
    }
    assert!(found.power_w <= bounds.power_w + 1e-9);
    // The search holds the bays' own limit to what its network says.
    let strongest = fed.bay_w.iter().copied().fold(0.0, f64::max) * found.power_w;
    assert!(
        strongest <= bounds.bay_w.unwrap() * 1.001,
        "{strongest} W into one bay"
    );
    let (low, high) = bounds.stand_off_m;
    assert!(
        found
            .plan
            .bays
            .iter()
            .all(|b| b.stand_off_m >= low - 1e-9 && b.stand_off_m <= high + 1e-9)
    );
    let shares = found.excitation.iter().map(|e| e.share);
    let spread = shares.clone().fold(0.0, f64::max) / shares.fold(f64::INFINITY, f64::min);
    assert!(10.0 * spread.log10() <= bounds.share_spread_db + 0.1);
}

#[test]
fn prop_shaped_keeps_every_bound_and_beats_the_equal_stack() {
    let (plan, bounds) = (plan(3, Mast::Pole { radius_m: 0.045 }), bounds());
    for seed in [1, 5] {
        let audience = towns(seed, 200);
        let equal = best_equal(&plan, &harness(3), &audience, &bounds, Goal::MostPeople).unwrap();
        let best = shaped(
            &plan,
            &harness(3),
            &audience,
            &bounds,
            Goal::MostPeople,
            Some(&equal),
        )
        .unwrap();
        println!(
            "equal {:.0} at {:.1} W, shaped {:.0} at {:.1} W",
            equal.people, equal.power_w, best.people, best.power_w
        );
        check(&equal, &bounds);
        check(&best, &bounds);
        assert!(best.people >= equal.people, "{} {}", best.people, equal.people);
        let as_many = Goal::LeastPower { people: equal.people };
        let frugal = shaped(&plan, &harness(3), &audience, &bounds, as_many, Some(&equal)).unwrap();
        assert!(
            frugal.power_w <= equal.power_w && frugal.people >= (1.0 - 1e-6) * equal.people,
            "{frugal:?}"
        );
        let floor_w = least_power_floor_w(&frugal.plan, &audience, &bounds, equal.people, bounds.power_w)
            .unwrap()
            .unwrap();
        println!(
            "as many with {:.1} W, no currents there with less than {floor_w:.1} W",
            frugal.power_w
        );
        assert!(floor_w <= frugal.power_w && floor_w > 0.2 * frugal.power_w);
    }
}

#[test]
fn prop_the_floor_of_one_bay_is_what_its_gain_says() {
    // One bay has one pattern, whatever its current: half of a town behind one direction takes the town's own ERP.
    let audience = Towns {
        directions: vec![Direction::new(40.0, -2.0)],
        count: vec![1000.0],
        enough_dbw: vec![20.0],
    };
    let plan = plan(1, Mast::Pole { radius_m: 0.045 });
    let mounted = plan.solved().unwrap();
    // One ampere peak into the connector, against the power it takes there.
    let power_w = 0.5 * mounted.ports_ohm()[(0, 0)].re;
    let pattern = mounted.pattern_of(&[num_complex::Complex64::from(1.0)], power_w);
    let needed_dbw = 20.0 - pattern.gain_dbd(Plane::Vertical, 40.0, -2.0);
    let free = Bounds {
        masks: Vec::new(),
        ..bounds()
    };
    let floor_w = least_power_floor_w(&plan, &audience, &free, 500.0, 1000.0)
        .unwrap()
        .unwrap();
    let below_db = needed_dbw - 10.0 * floor_w.log10();
    assert!((-0.05..0.05).contains(&below_db), "{below_db}");
    // More people than there are: no power does it.
    assert_eq!(
        least_power_floor_w(&plan, &audience, &free, 1001.0, 1000.0).unwrap(),
        None
    );
}

#[test]
fn prop_one_thread_finds_what_many_find() {
    let (plan, bounds, audience) = (plan(2, Mast::Pole { radius_m: 0.045 }), bounds(), towns(7, 60));
    let find = || shaped(&plan, &harness(2), &audience, &bounds, Goal::MostPeople, None).unwrap();
    let alone = rayon::ThreadPoolBuilder::new()
        .num_threads(1)
        .build()
        .unwrap()
        .install(find);
    let many = rayon::ThreadPoolBuilder::new()
        .num_threads(3)
        .build()
        .unwrap()
        .install(find);
    assert!(alone == many, "{alone:?}\n{many:?}");
}

#[test]
fn bad_bounds_are_named() {
    let (plan, audience) = (plan(2, Mast::Pole { radius_m: 0.045 }), towns(7, 10));
    let words = |bounds: &Bounds| {
        shaped(&plan, &harness(2), &audience, bounds, Goal::MostPeople, None)
            .unwrap_err()
            .to_string()
    };
    let none = Bounds {
        power_w: 0.0,
        ..bounds()
    };
    assert!(words(&none).contains("power at the splitter"));
    let turned = Bounds {
        stand_off_m: (1.0, 0.5),
        ..bounds()
    };
    assert!(words(&turned).contains("largest stand-off"));
    let inside = Bounds {
        stand_off_m: (0.0, 0.0),
        ..bounds()
    };
    assert!(words(&inside).contains("bay 1"));
    let mask = Mask {
        plane: None,
        dbw: vec![f64::NAN],
    };
    assert!(
        words(&Bounds {
            masks: vec![mask],
            ..bounds()
        })
        .contains("mask")
    );
}
