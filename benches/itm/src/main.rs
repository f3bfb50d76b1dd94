//! Times the Irregular Terrain Model on one core: `cargo run --release -p itm-bench`.
//!
//! Paths of 101, 501 and 1001 points over seeded hilly ground; the whole path from inputs to loss, and its parts. Each figure is the
//! best of several rounds over 64 different paths, so that no branch is learned by heart.

use propagation::itm::radial::{Radial, walk};
use propagation::itm::{
    Antennas, Conditions, Constants, Profile, geometry, predict, predict_with, roughness,
};
use std::hint::black_box;
use std::time::Instant;

const PATHS: usize = 64;
/// A public compiled implementation on this kind of machine, µs, for the same numbers of points.
const YARDSTICK_US: [(usize, f64); 3] = [(101, 1.8), (501, 4.9), (1001, 7.3)];

fn main() {
    let words: Vec<String> = std::env::args().collect();
    if let [_, word, points, repeats] = words.as_slice()
        && word == "count"
    {
        return count(points.parse().expect("points"), repeats.parse().expect("repeats"));
    }
    let conditions = Conditions::broadcast_median(98.0);
    let constants = Constants::new(&conditions).expect("valid conditions");
    println!("one path, hilly, spacing 100 m; ns, best of rounds");
    println!(
        "{:>6} {:>9} {:>10} {:>10} {:>10} {:>9} {:>11} {:>6}",
        "points", "whole", "constants", "horizons", "roughness", "rest", "yardstick", "ratio"
    );
    println!(
        "{:>6} {:>9} {:>10} {:>10} {:>10} {:>9} {:>11} {:>6}",
        "", "", "kept", "", "Δh", "", "", ""
    );
    for (points, yardstick_us) in YARDSTICK_US {
        let grounds: Vec<Vec<f64>> = (0..PATHS).map(|seed| hills(points, seed as u64 + 1)).collect();
        let antennas = Antennas {
            tx_agl_m: 60.0,
            rx_agl_m: 10.0,
        };
        let whole = ns(&grounds, |y| {
            let profile = Profile::new(100.0, y).expect("a profile");
            predict(&profile, &antennas, black_box(&conditions))
                .expect("a loss")
                .loss_db
        });
        let kept = ns(&grounds, |y| {
            let profile = Profile::new(100.0, y).expect("a profile");
            predict_with(&profile, &antennas, black_box(&constants))
                .expect("a loss")
                .loss_db
        });
        let horizons = ns(&grounds, |y| {
            let profile = Profile::new(100.0, y).expect("a profile");
            let tops = [y[0] + 60.0, y[y.len() - 1] + 10.0];
            propagation::itm::horizons::horizons(profile, tops, 8.4e6).theta_rad[0]
        });
        let delta_h = ns(&grounds, |y| {
            let length_m = (y.len() - 1) as f64 * 100.0;
            roughness::roughness_m(y, 100.0, 0.06 * length_m, 0.97 * length_m)
        });
        let all_geometry = ns(&grounds, |y| {
            let profile = Profile::new(100.0, y).expect("a profile");
            geometry::geometry(&profile, [60.0, 10.0], 8.4e6).delta_h_m
        });
        println!(
            "{points:>6} {whole:>9.0} {kept:>10.0} {horizons:>10.0} {delta_h:>10.0} {:>9.0} {:>9.1} µs {:>6.2}",
            kept - all_geometry,
            yardstick_us,
            whole / (yardstick_us * 1e3)
        );
    }
    radials(
        &constants,
        &Antennas {
            tx_agl_m: 60.0,
            rx_agl_m: 10.0,
        },
    );
}

/// Every receiver of a radial of 667 points, walked and as paths of their own, with the share that the roughness takes.
fn radials(constants: &Constants, antennas: &Antennas) {
    let points = 667;
    let grounds: Vec<Vec<f64>> = (0..8).map(|seed| hills(points, seed + 1)).collect();
    let per_receiver = |total_ns: f64| total_ns / (points - 1) as f64;
    let walked = per_receiver(ns_rounds(&grounds, 1, |y| {
        let radial = Radial::new(100.0, y).expect("a radial");
        walk(&radial, constants, antennas, 1..points)
            .expect("losses")
            .len() as f64
    }));
    let plain = per_receiver(ns_rounds(&grounds, 1, |y| {
        let losses = (1..points).map(|point| {
            let path = Profile::new(100.0, &y[..=point]).expect("a profile");
            predict_with(&path, antennas, constants).expect("a loss").loss_db
        });
        losses.sum()
    }));
    let delta_h = per_receiver(ns_rounds(&grounds, 1, |y| {
        let lengths = (3..points).map(|point| point as f64 * 100.0);
        lengths
            .map(|m| roughness::roughness_m(y, 100.0, 0.06 * m, 0.97 * m))
            .sum()
    }));
    println!("\nradial of {points} points, hilly; ns per receiver");
    println!(
        "walked {walked:.0}, plain {plain:.0}; roughness Δh {delta_h:.0} = {:.0} % of walked",
        100.0 * delta_h / walked
    );
}

/// Runs so many paths and nothing else, for a counter of instructions: `valgrind --tool=callgrind itm-bench count 501 1000`.
fn count(points: usize, repeats: usize) {
    let conditions = Conditions::broadcast_median(98.0);
    let antennas = Antennas {
        tx_agl_m: 60.0,
        rx_agl_m: 10.0,
    };
    let grounds: Vec<Vec<f64>> = (0..PATHS).map(|seed| hills(points, seed as u64 + 1)).collect();
    for i in 0..repeats {
        let profile = Profile::new(100.0, &grounds[i % PATHS]).expect("a profile");
        black_box(
            predict(&profile, &antennas, black_box(&conditions))
                .expect("a loss")
                .loss_db,
        );
    }
}

/// Best time for one call, ns.
fn ns(grounds: &[Vec<f64>], run: impl FnMut(&[f64]) -> f64) -> f64 {
    ns_rounds(grounds, 8, run)
}

fn ns_rounds(grounds: &[Vec<f64>], repeats: usize, mut run: impl FnMut(&[f64]) -> f64) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..40 {
        let start = Instant::now();
        for _ in 0..repeats {
            for ground in grounds {
                black_box(run(black_box(ground)));
            }
        }
        best = best.min(start.elapsed().as_nanos() as f64 / (repeats * grounds.len()) as f64);
    }
    best
}

/// Hilly ground: sums of waves of seeded phase, and a little noise, to a tenth of a metre.
fn hills(points: usize, seed: u64) -> Vec<f64> {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let mut random = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1u64 << 53) as f64
    };
    let waves: Vec<(f64, f64, f64)> = [(23.0, 110.0), (9.1, 60.0), (3.7, 35.0), (1.3, 14.0), (0.45, 5.0)]
        .iter()
        .map(|&(km, m)| (km * (0.8 + 0.4 * random()), m, std::f64::consts::TAU * random()))
        .collect();
    (0..points)
        .map(|i| {
            let km = i as f64 * 0.1;
            let ground: f64 = waves
                .iter()
                .map(|(length_km, m, phase)| m * (std::f64::consts::TAU * km / length_km + phase).sin())
                .sum();
            ((400.0 + ground + 3.0 * random()) * 10.0).round() / 10.0
        })
        .collect()
}
