//! Radials over real elevation tiles, read as plainly as may be: the tests want the ground, not a reader of tiles.

use super::{Case, Dice, patches};
use propagation::p1812::{Conditions, Polarisation, Profile, Zone};
use propagation::radial::{Radial, RadialSetup};
use std::io::Read;
use std::path::Path;

/// Heights of one degree square, rows north to south.
pub struct Tile {
    name: String,
    side: usize,
    heights_m: Vec<i16>,
}

const VOID: i16 = i16::MIN;

impl Tile {
    /// Reads a gzipped tile of big-endian 16-bit heights.
    pub fn read(path: &Path) -> Tile {
        let mut bytes = Vec::new();
        let file = std::fs::File::open(path).expect("a readable tile");
        flate2::read::GzDecoder::new(file)
            .read_to_end(&mut bytes)
            .expect("valid gzip");
        let heights_m: Vec<i16> = bytes
            .as_chunks::<2>()
            .0
            .iter()
            .map(|b| i16::from_be_bytes(*b))
            .collect();
        let side = heights_m.len().isqrt();
        assert_eq!(side * side, heights_m.len(), "a square tile");
        Tile {
            name: path.display().to_string(),
            side,
            heights_m,
        }
    }

    /// Height at a sample; a void takes the height of the nearest sample before it in the row.
    fn height_m(&self, row: usize, column: usize) -> f64 {
        let row = &self.heights_m[row * self.side..(row + 1) * self.side];
        let known = row[..=column]
            .iter()
            .rev()
            .chain(&row[column..])
            .find(|h| **h != VOID);
        known.map_or(0.0, |h| f64::from(*h))
    }

    /// A radial from somewhere in the tile outwards, as long as it stays within; sea where the ground is not above 0.
    pub fn radial(&self, seed: u64) -> Case {
        let mut dice = Dice(seed.wrapping_mul(0x2545_f491_4f6c_dd1d));
        let span = (self.side - 1) as f64;
        let (row, column) = (span * (0.2 + 0.6 * dice.roll()), span * (0.2 + 0.6 * dice.roll()));
        let (down, right) = (std::f64::consts::TAU * dice.roll()).sin_cos();
        let cell_km = 111.2 / span;
        let mut ground = Vec::new();
        while ground.len() < 700 {
            let i = ground.len() as f64;
            let (r, c) = (row + i * down, column + i * right);
            if !(0.0..span).contains(&r) || !(0.0..span).contains(&c) {
                break;
            }
            let (r0, c0) = (r as usize, c as usize);
            let (fr, fc) = (r - r0 as f64, c - c0 as f64);
            let top = self.height_m(r0, c0) * (1.0 - fc) + self.height_m(r0, c0 + 1) * fc;
            let low = self.height_m(r0 + 1, c0) * (1.0 - fc) + self.height_m(r0 + 1, c0 + 1) * fc;
            ground.push(top * (1.0 - fr) + low * fr);
        }
        let points = ground.len();
        let zone: Vec<Zone> = ground
            .iter()
            .map(|&h| match h {
                h if h <= 0.0 => Zone::Sea,
                h if h < 100.0 => Zone::Coast,
                _ => Zone::Inland,
            })
            .collect();
        let clutter = if seed.is_multiple_of(2) {
            patches(points, &mut dice)
        } else {
            vec![0.0; points]
        };
        let d_km = (0..points).map(|i| i as f64 * cell_km).collect();
        let conditions = Conditions {
            time_pct: dice.pick(&[50.0, 10.0, 1.0]),
            ..Conditions::median(98.0, Polarisation::Horizontal)
        };
        Case {
            name: format!("{}, radial {seed}, {points} points", self.name),
            radial: Radial::new(
                Profile::new(d_km, ground, clutter, zone).expect("a valid profile"),
                46.0,
                360.0 * dice.roll(),
            ),
            setup: RadialSetup::new(&conditions, dice.pick(&[20.0, 60.0, 150.0])).expect("a valid setup"),
            rx_agl_m: vec![10.0; points],
        }
    }
}
