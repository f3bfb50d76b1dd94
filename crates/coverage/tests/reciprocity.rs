//! P.1812 in both directions on invented paths: what the search for masts rests on.

use propagation::p1812::{Antennas, Bearing, Conditions, Link, Polarisation, Profile, Zone, predict};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

struct Path {
    d_km: Vec<f64>,
    h_m: Vec<f64>,
    clutter_m: Vec<f64>,
    zones: Vec<Zone>,
}

/// Walks of 0.3 to 150 km in even or uneven steps; with or without clutter and sea.
fn path(rng: &mut ChaCha8Rng, sea: bool) -> Path {
    let points = rng.random_range(6..700);
    let step = rng.random_range(0.05..0.22);
    let uneven = rng.random_bool(0.3);
    let rough: f64 = rng.random_range(0.0..25.0);
    let (mut d, mut h) = (0.0, rng.random_range(0.0..400.0));
    let mut path = Path {
        d_km: Vec::new(),
        h_m: Vec::new(),
        clutter_m: Vec::new(),
        zones: Vec::new(),
    };
    let mut wet = sea && rng.random_bool(0.3);
    for _ in 0..points {
        if sea && rng.random_bool(0.02) {
            wet = !wet;
        }
        path.d_km.push(d);
        path.h_m.push(if wet { 0.0 } else { h });
        path.clutter_m
            .push(if !wet && rng.random_bool(0.3) { 15.0 } else { 0.0 });
        path.zones.push(if wet {
            Zone::Sea
        } else if h < 100.0 {
            Zone::Coast
        } else {
            Zone::Inland
        });
        d += if uneven {
            step * rng.random_range(0.2..2.0)
        } else {
            step
        };
        h = (h + rough * rng.random_range(-1.0..1.0)).clamp(0.0, 3000.0);
    }
    path
}

fn losses_db(path: &Path, time_pct: f64, antennas_m: (f64, f64)) -> (f64, f64) {
    let end = path.d_km[path.d_km.len() - 1];
    let there = Profile::new(
        path.d_km.clone(),
        path.h_m.clone(),
        path.clutter_m.clone(),
        path.zones.clone(),
    )
    .expect("a valid path");
    let rev = |v: &[f64]| v.iter().rev().copied().collect::<Vec<_>>();
    let mut d: Vec<f64> = path.d_km.iter().rev().map(|d| end - d).collect();
    d[0] = 0.0;
    let back = Profile::new(
        d,
        rev(&path.h_m),
        rev(&path.clutter_m),
        path.zones.iter().rev().copied().collect(),
    )
    .expect("a valid path");
    // Due east along the equator, so that both directions have one centre.
    let loss = |profile: &Profile, (tx_agl_m, rx_agl_m)| {
        let link = Link {
            conditions: Conditions {
                time_pct,
                ..Conditions::median(98.0, Polarisation::Vertical)
            },
            antennas: Antennas { tx_agl_m, rx_agl_m },
            bearing: Bearing::new(0.0, 90.0),
            coast: None,
        };
        predict(profile, &link).expect("a valid link").loss_db
    };
    (
        loss(&there, antennas_m),
        loss(&back, (antennas_m.1, antennas_m.0)),
    )
}

/// Issue 2.7: over land at 50 % of time swapping the ends changes nothing; with sea, and at 1 % of time, it is printed by how much.
#[test]
fn prop_swapping_the_ends_changes_nothing() {
    let mut rng = ChaCha8Rng::seed_from_u64(1812);
    for (sea, time_pct, what) in [
        (false, 50.0, "land, 50 %"),
        (true, 50.0, "land and sea, 50 %"),
        (false, 1.0, "land, 1 %"),
        (true, 1.0, "land and sea, 1 %"),
    ] {
        let mut worst = 0.0f64;
        for _ in 0..400 {
            let path = path(&mut rng, sea);
            let heights = (rng.random_range(5.0..150.0), rng.random_range(1.5..20.0));
            let (there, back) = losses_db(&path, time_pct, heights);
            worst = worst.max((there - back).abs());
        }
        println!("{what}: worst of 400 paths {worst:.2e} dB");
        if time_pct == 50.0 && !sea {
            assert!(worst < 1e-6, "{what}: {worst} dB");
        }
    }
}
