//! The walked radial against the plain model, receiver by receiver.

mod itm;

use propagation::itm::radial::{Radial, plain, walk};
use propagation::itm::{Antennas, Conditions, Constants};

const TOLERANCE_DB: f64 = 1e-3;

struct Spread {
    differences: Vec<(f64, String)>,
}

impl Spread {
    fn compare(&mut self, label: &str, radial: &Radial<'_>, conditions: &Conditions, antennas: &Antennas) {
        let constants = Constants::new(conditions).expect("valid conditions");
        let walked = walk(radial, &constants, antennas, 1..radial.len()).expect("valid aerials");
        assert_eq!(walked.len(), radial.len() - 1);
        for (point, loss) in (1..).zip(walked) {
            match (loss, plain(radial, &constants, antennas, point)) {
                (Ok(loss_db), Ok(answer)) => {
                    self.differences
                        .push(((loss_db - answer.loss_db).abs(), format!("{label} at {point}")));
                }
                (Err(a), Err(b)) => assert_eq!(a.refusal, b.refusal, "{label} at {point}"),
                (a, b) => panic!("{label} at {point}: {a:?} against {b:?}"),
            }
        }
    }

    fn report(mut self, what: &str) {
        self.differences.sort_by(|a, b| a.0.total_cmp(&b.0));
        let last = self.differences.len() - 1;
        let (worst, label) = &self.differences[last];
        println!(
            "ITM {what}: {} receivers, 99.9 % within {:.1e} dB, worst {worst:.1e} dB ({label})",
            last + 1,
            self.differences[last * 999 / 1000].0
        );
        assert!(*worst <= TOLERANCE_DB, "{label} differs by {worst} dB");
    }
}

/// Seeded ground: hills, a plain of small noise, a mountain range, islands in the sea.
fn ground(seed: u64, points: usize) -> Vec<f64> {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let mut random = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1u64 << 53) as f64
    };
    let (base, tall, step): (f64, f64, f64) = [
        (300.0, 150.0, 12.0),
        (80.0, 3.0, 0.8),
        (1400.0, 900.0, 60.0),
        (-40.0, 160.0, 10.0),
    ][(seed % 4) as usize];
    let phase = 6.3 * random();
    let mut walk_m = 0.0;
    (0..points)
        .map(|i| {
            walk_m = 0.98 * walk_m + step * (random() - 0.5);
            let wave = (i as f64 * 0.013 + phase).sin() * (i as f64 * 0.0041).cos();
            ((base + tall * wave + 4.0 * walk_m).max(0.0) * 10.0).round() / 10.0
        })
        .collect()
}

#[test]
fn prop_walk_equals_plain_on_seeded_radials() {
    let mut spread = Spread { differences: vec![] };
    for seed in 0..60 {
        let heights_m = ground(seed, 200 + 17 * seed as usize);
        let spacing_m = [100.0, 90.0, 92.4713, 30.0, 333.3][(seed % 5) as usize];
        let radial = Radial::new(spacing_m, &heights_m).expect("a radial");
        let mut conditions = Conditions::broadcast_median(88.0 + seed as f64 * 0.3);
        conditions.climate = 1 + (seed % 7) as u8;
        conditions.time_pct = [50.0, 10.0, 1.0][(seed % 3) as usize];
        let antennas = Antennas {
            tx_agl_m: [30.0, 150.0, 5.0, 300.0][(seed / 4 % 4) as usize],
            rx_agl_m: [10.0, 1.5][(seed % 2) as usize],
        };
        spread.compare(&format!("seed {seed}"), &radial, &conditions, &antennas);
    }
    spread.report("on seeded radials");
}

/// Every validation profile, walked as a radial under its own conditions.
#[test]
fn prop_walk_equals_plain_on_validation_profiles() {
    let cases = itm::all_cases().unwrap_or_else(itm::kept_cases);
    let mut spread = Spread { differences: vec![] };
    for case in cases.iter().filter(|case| case.expected["a_db"].is_number()) {
        let radial = Radial::new(case.spacing_m, &case.height_m).expect("a radial");
        spread.compare(&case.id, &radial, &case.conditions, &case.antennas);
    }
    spread.report("on validation profiles");
}

/// A range is answered for its points only, and what lies outside the radial is left out.
#[test]
fn a_range_of_receivers() {
    let heights_m = ground(4, 120);
    let radial = Radial::new(100.0, &heights_m).expect("a radial");
    let constants = Constants::new(&Conditions::broadcast_median(98.0)).expect("valid conditions");
    let antennas = Antennas {
        tx_agl_m: 60.0,
        rx_agl_m: 10.0,
    };
    let all = walk(&radial, &constants, &antennas, 0..500).expect("valid aerials");
    assert_eq!(all.len(), 119);
    let some = walk(&radial, &constants, &antennas, 50..60).expect("valid aerials");
    assert_eq!(some, all[49..59]);
    let buried = Antennas {
        tx_agl_m: 0.1,
        ..antennas
    };
    assert!(walk(&radial, &constants, &buried, 1..10).is_err());
}
