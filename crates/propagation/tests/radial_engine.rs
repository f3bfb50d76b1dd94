//! The fast walker against the plain one.

mod p1812;
mod radial;

use ::propagation::p1812::{Conditions, Profile};
use ::propagation::radial::engine::Walker;
use ::propagation::radial::{Radial, RadialSetup, engine, plain};
use radial::tile::Tile;
use radial::{Case, Dice, case};

const TOLERANCE_DB: f64 = 1e-3;

/// What a comparison of many receivers found.
#[derive(Default)]
struct Found {
    differences_db: Vec<f64>,
    ties: Vec<String>,
    wrong: Vec<String>,
}

impl Found {
    fn compare(&mut self, case: &Case) {
        let points = case.radial.profile.len();
        let fast = engine::walk(&case.radial, &case.setup, &case.rx_agl_m, 1..points).expect("losses");
        let slow = plain::walk(&case.radial, &case.setup, &case.rx_agl_m, 1..points).expect("losses");
        for (slot, (fast_db, slow_db)) in fast.iter().zip(&slow).enumerate() {
            let difference_db = (fast_db - slow_db).abs();
            if difference_db <= TOLERANCE_DB {
                self.differences_db.push(difference_db);
                continue;
            }
            let told = format!("{}, receiver {}: {fast_db} for {slow_db}", case.name, slot + 1);
            if is_tie(case, slot + 1, *fast_db) {
                self.ties.push(told)
            } else {
                self.wrong.push(told)
            }
        }
    }

    fn report(mut self, what: &str) {
        self.differences_db.sort_by(f64::total_cmp);
        let at = |share: f64| self.differences_db[((self.differences_db.len() - 1) as f64 * share) as usize];
        println!(
            "{what}: {} receivers, median {:.1e}, 99 % {:.1e}, worst {:.1e} dB; {} ties within 1e-9",
            self.differences_db.len(),
            at(0.5),
            at(0.99),
            at(1.0),
            self.ties.len()
        );
        for tie in &self.ties {
            println!("  tie: {tie}");
        }
        assert!(
            self.wrong.is_empty(),
            "{} differ:\n{}",
            self.wrong.len(),
            self.wrong.join("\n")
        );
    }
}

/// Whether the plain answer itself jumps to the fast one when the ground moves by a billionth of a metre.
fn is_tie(case: &Case, receiver: usize, fast_db: f64) -> bool {
    let mut dice = Dice(receiver as u64);
    (0..40).any(|_| {
        let path = case.radial.profile.path_to(receiver);
        let moved = path.h_m.iter().map(|h| h + 1e-9 * (dice.roll() - 0.5)).collect();
        let profile =
            Profile::new(path.d_km.into(), moved, path.clutter_m.into(), path.zone.into()).expect("valid");
        let radial = Radial {
            profile,
            bearing: case.radial.bearing,
        };
        let near = plain::at(&radial, &case.setup, case.rx_agl_m[receiver], receiver).expect("a prediction");
        (near.loss_db - fast_db).abs() <= TOLERANCE_DB
    })
}

#[test]
fn prop_engine_equals_plain_on_200_seeded_radials() {
    let mut found = Found::default();
    for seed in 0..200 {
        found.compare(&case(seed));
    }
    found.report("200 seeded radials");
}

#[test]
fn prop_engine_equals_plain_on_every_validation_profile_walked_as_a_radial() {
    let Some(cases) = p1812::all_cases() else { return };
    let mut found = Found::default();
    for case in cases {
        let points = case.profile.len();
        found.compare(&Case {
            name: case.id,
            radial: Radial {
                profile: case.profile,
                bearing: case.link.bearing,
            },
            setup: RadialSetup::new(&case.link.conditions, case.link.antennas.tx_agl_m)
                .expect("a valid setup"),
            rx_agl_m: vec![case.link.antennas.rx_agl_m; points],
        });
    }
    found.report("validation profiles as radials");
}

#[test]
fn prop_engine_equals_plain_on_20_radials_over_real_tiles() {
    let Some(folder) = p1812::reference_folder("terrain") else {
        return;
    };
    let mut found = Found::default();
    for (kind, name) in ["N46E008", "N49W123", "N49W124", "S46W066"].iter().enumerate() {
        let tile = Tile::read(&folder.join(format!("{name}.hgt.gz")));
        for seed in 0..5 {
            found.compare(&tile.radial(seed + 5 * kind as u64));
        }
    }
    found.report("20 radials over real tiles");
}

#[test]
fn a_part_of_a_radial_gives_the_same_losses_as_the_whole() {
    for seed in [3, 5, 11, 17] {
        let Case {
            radial,
            setup,
            rx_agl_m,
            ..
        } = case(seed);
        let points = radial.profile.len();
        let whole = engine::walk(&radial, &setup, &rx_agl_m, 1..points).expect("losses");
        let part = engine::walk(&radial, &setup, &rx_agl_m, 21..points - 3).expect("losses");
        for (a, b) in whole[20..].iter().zip(&part) {
            assert!((a - b).abs() < 1e-6, "{a} for {b}");
        }
    }
}

#[test]
fn prop_one_walk_for_many_frequencies_equals_a_walk_for_each() {
    let mut worst_db: f64 = 0.0;
    for seed in 0..40 {
        let Case {
            radial,
            setup,
            rx_agl_m,
            ..
        } = case(seed);
        let points = radial.profile.len();
        let setups: Vec<RadialSetup> = [
            (87.6, 50.0),
            (98.0, 10.0),
            (107.9, 50.0),
            (98.0, 1.0),
            (700.0, 50.0),
        ]
        .iter()
        .map(|&(freq_mhz, time_pct)| {
            let conditions = Conditions {
                freq_mhz,
                time_pct,
                ..setup.constants.conditions
            };
            RadialSetup::new(&conditions, setup.tx_agl_m).expect("a valid setup")
        })
        .collect();
        let mut shared = vec![Vec::new(); setups.len()];
        Walker::default()
            .walk_each(&radial, &setups, &rx_agl_m, 1..points, &mut shared)
            .expect("losses");
        for (setup, shared_db) in setups.iter().zip(&shared) {
            let alone_db = engine::walk(&radial, setup, &rx_agl_m, 1..points).expect("losses");
            let difference = alone_db
                .iter()
                .zip(shared_db)
                .map(|(a, b)| (a - b).abs())
                .fold(0.0, f64::max);
            worst_db = worst_db.max(difference);
        }
    }
    println!("one walk for five setups against five walks: worst {worst_db:.1e} dB");
    assert!(worst_db < 1e-6, "{worst_db}");
}

#[test]
fn the_order_of_radials_changes_not_a_bit() {
    let mut used = Walker::default();
    let mut after_others = Vec::new();
    for seed in 0..30 {
        let Case {
            radial,
            setup,
            rx_agl_m,
            ..
        } = case(seed);
        let receivers = 3..radial.profile.len() - 2;
        used.walk(&radial, &setup, &rx_agl_m, receivers.clone(), &mut after_others)
            .expect("losses");
        let fresh = engine::walk(&radial, &setup, &rx_agl_m, receivers).expect("losses");
        assert!(
            fresh
                .iter()
                .zip(&after_others)
                .all(|(a, b)| a.to_bits() == b.to_bits()),
            "seed {seed}"
        );
    }
}

#[test]
fn unlike_setups_cannot_share_a_walk() {
    let Case {
        radial,
        setup,
        rx_agl_m,
        ..
    } = case(1);
    let other = RadialSetup {
        tx_agl_m: setup.tx_agl_m + 1.0,
        ..setup
    };
    let points = radial.profile.len();
    let mut lists = vec![Vec::new(); 2];
    let told = Walker::default().walk_each(&radial, &[setup, other], &rx_agl_m, 1..points, &mut lists);
    assert!(
        told.expect_err("refused")
            .to_string()
            .contains("one antenna height")
    );
}

#[test]
fn bad_receivers_are_refused() {
    let Case {
        radial,
        setup,
        mut rx_agl_m,
        ..
    } = case(1);
    let points = radial.profile.len();
    let told = |r: Result<Vec<f64>, _>| {
        r.map_err(|e: propagation::p1812::InputError| e.to_string())
            .expect_err("refused")
    };
    assert!(told(engine::walk(&radial, &setup, &rx_agl_m, 0..points)).starts_with("receiver’s point `0`"));
    assert!(told(engine::walk(&radial, &setup, &rx_agl_m, 1..points + 1)).starts_with("receiver’s point"));
    rx_agl_m[7] = f64::NAN;
    assert!(
        told(engine::walk(&radial, &setup, &rx_agl_m, 1..points))
            .starts_with("receiving antenna height above ground `NaN m`")
    );
    rx_agl_m.pop();
    assert!(told(engine::walk(&radial, &setup, &rx_agl_m, 1..points)).contains("give one for each point"));
}
