//! Seeded invented ground along a radial.

use propagation::p1812::{Profile, Zone};
use propagation::radial::Radial;

/// A kind of ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ground {
    Hilly,
    Flat,
    Sea,
}

/// A small generator of even numbers.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x5851_f42d_4c95_7f2d))
    }

    /// From 0 to 1.
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// A radial of `points` samples every `step_km`: waves from 50 km down to the step, whole metres, as elevation tiles have.
pub fn radial(ground: Ground, clutter: bool, points: usize, step_km: f64, seed: u64) -> Radial {
    let mut dice = Dice::new(seed);
    let (mean, relief) = match ground {
        Ground::Hilly => (350.0, 170.0),
        Ground::Flat => (90.0, 4.0),
        Ground::Sea => (0.0, 0.0),
    };
    let waves: Vec<(f64, f64, f64)> = (0..40)
        .map(|k| {
            let length_km = 50.0 * 0.855_f64.powi(k) * (0.8 + 0.4 * dice.roll());
            let amplitude = (length_km / 50.0).powf(0.85) * (0.4 + dice.roll());
            (std::f64::consts::TAU / length_km, dice.roll() * 6.3, amplitude)
        })
        .collect();
    let d: Vec<f64> = (0..points).map(|i| i as f64 * step_km).collect();
    let height = |d: f64| -> f64 {
        if ground == Ground::Sea {
            return 0.0;
        }
        let sum: f64 = waves.iter().map(|(k, phase, a)| a * (k * d + phase).sin()).sum();
        (mean + relief * sum).round().max(1.0)
    };
    let h: Vec<f64> = d.iter().map(|&d| height(d)).collect();
    let mut c = vec![0.0; points];
    if clutter {
        let mut i = 0;
        while i < points {
            let high = [0.0, 0.0, 10.0, 15.0][(dice.roll() * 4.0) as usize];
            let end = (i + 1 + (dice.roll() * 25.0) as usize).min(points);
            c[i..end].fill(high);
            i = end;
        }
    }
    let zone = if ground == Ground::Sea {
        Zone::Sea
    } else {
        Zone::Inland
    };
    let profile = Profile::new(d, h, c, vec![zone; points]).expect("a valid profile");
    Radial::new(profile, 47.0, dice.roll() * 360.0)
}
