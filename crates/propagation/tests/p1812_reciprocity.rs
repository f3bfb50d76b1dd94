//! Swapping the ends of a path: how far P.1812 is reciprocal.

mod radial;

use propagation::p1812::{self, Antennas, Conditions, Constants, Polarisation, Profile, Zone};
use radial::{Dice, GROUNDS, Ground, heights, patches};

/// One draw of ground and antennas, and what to try on it.
struct Draw {
    d_km: Vec<f64>,
    h_m: Vec<f64>,
    clutter_m: Vec<f64>,
    zone: Vec<Zone>,
    antennas: Antennas,
}

fn draw(seed: u64, clutter: bool, sea: bool) -> Draw {
    let mut dice = Dice(seed);
    let points = 30 + (dice.roll() * 300.0) as usize;
    let d_km: Vec<f64> = (0..points).map(|i| i as f64 * 0.1).collect();
    let ground = if sea {
        Ground::Coast
    } else {
        GROUNDS[seed as usize % 4]
    };
    let h_m = heights(ground, &d_km, &mut dice);
    let zone = h_m
        .iter()
        .map(|&h| if sea && h <= 0.0 { Zone::Sea } else { Zone::Inland })
        .collect();
    let clutter_m = if clutter {
        patches(points, &mut dice)
    } else {
        vec![0.0; points]
    };
    let antennas = Antennas {
        tx_agl_m: dice.pick(&[30.0, 60.0, 150.0]),
        rx_agl_m: dice.pick(&[10.0, 1.5]),
    };
    Draw {
        d_km,
        h_m,
        clutter_m,
        zone,
        antennas,
    }
}

/// Loss there, less loss back, dB.
fn difference_db(draw: &Draw, conditions: &Conditions) -> f64 {
    let constants = Constants::new(conditions).expect("valid conditions");
    let there = Profile::new(
        draw.d_km.clone(),
        draw.h_m.clone(),
        draw.clutter_m.clone(),
        draw.zone.clone(),
    );
    let length_km = draw.d_km[draw.d_km.len() - 1];
    let back = Profile::new(
        draw.d_km.iter().rev().map(|d| length_km - d).collect(),
        draw.h_m.iter().rev().copied().collect(),
        draw.clutter_m.iter().rev().copied().collect(),
        draw.zone.iter().rev().copied().collect(),
    );
    let (there, back) = (there.expect("valid"), back.expect("valid"));
    let turned = Antennas {
        tx_agl_m: draw.antennas.rx_agl_m,
        rx_agl_m: draw.antennas.tx_agl_m,
    };
    // East and west along the equator, where half way lies at the same latitude from both ends.
    let (east, west) = (p1812::Bearing::new(0.0, 90.0), p1812::Bearing::new(0.0, 270.0));
    let loss = |profile: &Profile, antennas: &Antennas, bearing: &p1812::Bearing| {
        p1812::predict_path(&profile.path(), &constants, antennas, bearing, None).loss_db
    };
    (loss(&there, &draw.antennas, &east) - loss(&back, &turned, &west)).abs()
}

fn worst_db(name: &str, clutter: bool, sea: bool, conditions: &Conditions) -> f64 {
    let mut all: Vec<f64> = (0..300)
        .map(|seed| difference_db(&draw(seed, clutter, sea), conditions))
        .collect();
    all.sort_by(f64::total_cmp);
    let worst = all[all.len() - 1];
    println!(
        "{name}: {} paths both ways, median {:.1e}, worst {worst:.1e} dB",
        all.len(),
        all[all.len() / 2]
    );
    worst
}

#[test]
fn prop_swapping_the_ends_changes_nothing_at_half_the_time_over_land() {
    let conditions = Conditions::median(98.0, Polarisation::Horizontal);
    assert!(worst_db("land", false, false, &conditions) < 1e-6);
    assert!(worst_db("land with clutter", true, false, &conditions) < 1e-6);
}

#[test]
fn prop_sea_and_short_times_do_not_break_it_but_places_at_sea_do() {
    let median = Conditions::median(98.0, Polarisation::Vertical);
    let short = Conditions {
        time_pct: 1.0,
        ..median
    };
    assert!(worst_db("coast", true, true, &median) < 1e-6);
    assert!(worst_db("coast, 1 % of the time", true, true, &short) < 1e-6);
    assert!(worst_db("land, 1 % of the time", true, false, &short) < 1e-6);
    // The spread over places is left out at a receiver at sea only, so a path from land to sea is not reciprocal with it.
    let places = Conditions {
        location_pct: 95.0,
        location_spread_db: 5.5,
        ..median
    };
    let broken = worst_db("coast, 95 % of places", true, true, &places);
    assert!(broken > 1.0 && broken < 9.2, "{broken}");
}
