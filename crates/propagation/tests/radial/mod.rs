//! Seeded radials over invented ground: hills, plains, mountains, coasts, the sea, with and without clutter.
#![allow(dead_code, reason = "each test uses a part of it")]

pub mod tile;

use propagation::p1812::{Conditions, Polarisation, Profile, Zone};
use propagation::radial::{Radial, RadialSetup};

/// A small generator of even numbers, so that a seed means the same everywhere.
pub struct Dice(pub u64);

impl Dice {
    /// From 0 to 1.
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// One of several.
    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[((self.roll() * from.len() as f64) as usize).min(from.len() - 1)]
    }
}

/// A kind of ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ground {
    Hills,
    Mountains,
    Plain,
    Level,
    Coast,
    Sea,
    Terraces,
}

pub const GROUNDS: [Ground; 7] = [
    Ground::Hills,
    Ground::Mountains,
    Ground::Plain,
    Ground::Level,
    Ground::Coast,
    Ground::Sea,
    Ground::Terraces,
];

/// A radial with its setup and the heights of its receivers.
pub struct Case {
    pub name: String,
    pub radial: Radial,
    pub setup: RadialSetup,
    pub rx_agl_m: Vec<f64>,
}

/// Ground along a radial: sums of waves with seeded phases, from tens of kilometres down to a few samples.
pub fn heights(ground: Ground, d_km: &[f64], dice: &mut Dice) -> Vec<f64> {
    let (mean, relief) = match ground {
        Ground::Hills => (350.0, 160.0),
        Ground::Mountains => (1400.0, 900.0),
        Ground::Plain => (120.0, 25.0),
        Ground::Level => return vec![42.0; d_km.len()],
        Ground::Coast => (20.0, 120.0),
        Ground::Sea => return vec![0.0; d_km.len()],
        Ground::Terraces => (200.0, 120.0),
    };
    let waves: Vec<(f64, f64, f64)> = (0..40)
        .map(|k| {
            let length_km = 50.0 * 0.86_f64.powi(k) * (0.8 + 0.4 * dice.roll());
            (
                length_km,
                dice.roll() * std::f64::consts::TAU,
                (length_km / 50.0).powf(0.85) * (0.4 + dice.roll()),
            )
        })
        .collect();
    let raw = |d: f64| -> f64 {
        waves
            .iter()
            .map(|(l, phase, a)| a * (d / l * std::f64::consts::TAU + phase).sin())
            .sum()
    };
    let round = |h: f64| match ground {
        // Whole metres, as elevation tiles have them; broad steps for many equal heights.
        Ground::Terraces => ((h / 30.0).round() * 30.0).max(0.0),
        Ground::Coast => h.round().max(0.0),
        _ => h.round().clamp(2.0, 4500.0),
    };
    d_km.iter().map(|&d| round(mean + relief * raw(d))).collect()
}

/// A seeded case: ground, step, clutter, heights and conditions all drawn from the seed.
pub fn case(seed: u64) -> Case {
    let mut dice = Dice(seed.wrapping_mul(0x5851_f42d_4c95_7f2d));
    let ground = GROUNDS[seed as usize % GROUNDS.len()];
    let points = 40 + (dice.roll() * 460.0) as usize;
    let step_km = dice.pick(&[0.03, 0.09, 0.1, 0.25]);
    let uneven = dice.roll() < 0.2;
    let mut d_km = vec![0.0];
    for _ in 1..points {
        let step = if uneven {
            step_km * (0.4 + 1.6 * dice.roll())
        } else {
            step_km
        };
        d_km.push(d_km[d_km.len() - 1] + step);
    }
    if !uneven {
        d_km = (0..points).map(|i| i as f64 * step_km).collect();
    }
    let h = heights(ground, &d_km, &mut dice);
    let clutter = if dice.roll() < 0.6 {
        patches(points, &mut dice)
    } else {
        vec![0.0; points]
    };
    let zone: Vec<Zone> = h
        .iter()
        .map(|&h| match ground {
            Ground::Sea => Zone::Sea,
            Ground::Coast if h <= 0.0 => Zone::Sea,
            Ground::Coast if h < 60.0 => Zone::Coast,
            _ => Zone::Inland,
        })
        .collect();
    let clutter: Vec<f64> = clutter
        .iter()
        .zip(&zone)
        .map(|(&c, z)| if *z == Zone::Sea { 0.0 } else { c })
        .collect();
    let top = dice.roll() < 0.5;
    let rx_agl_m = clutter
        .iter()
        .map(|&c| {
            if top && c > 0.0 {
                c
            } else {
                dice.pick(&[10.0, 10.0, 1.5])
            }
        })
        .collect();
    let conditions = Conditions {
        freq_mhz: dice.pick(&[87.6, 92.3, 98.0, 101.7, 107.9, 98.0, 45.0, 700.0, 3500.0]),
        polarisation: dice.pick(&[Polarisation::Horizontal, Polarisation::Vertical]),
        time_pct: dice.pick(&[50.0, 50.0, 50.0, 10.0, 1.0, 3.7, 25.0]),
        location_pct: dice.pick(&[50.0, 50.0, 95.0]),
        location_spread_db: 5.5,
        dn_per_km: dice.pick(&[45.0, 45.0, 38.0, 55.0]),
        n0: 325.0,
    };
    let tx_agl_m = dice.pick(&[12.0, 30.0, 60.0, 150.0, 300.0]);
    let (lat, azimuth) = (dice.roll() * 150.0 - 75.0, dice.roll() * 360.0);
    Case {
        name: format!("seed {seed}: {ground:?}, {points} points"),
        radial: Radial::new(
            Profile::new(d_km, h, clutter, zone).expect("a valid profile"),
            lat,
            azimuth,
        ),
        setup: RadialSetup::new(&conditions, tx_agl_m).expect("a valid setup"),
        rx_agl_m,
    }
}

/// Woods and towns: stretches of one clutter height between open country.
pub fn patches(points: usize, dice: &mut Dice) -> Vec<f64> {
    let mut clutter = Vec::with_capacity(points);
    while clutter.len() < points {
        let height = dice.pick(&[0.0, 0.0, 10.0, 15.0, 20.0]);
        let length = 1 + (dice.roll() * 30.0) as usize;
        clutter.extend(std::iter::repeat_n(height, length.min(points - clutter.len())));
    }
    clutter
}
