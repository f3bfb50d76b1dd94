//! Noise from integer hashes: the same bits on every machine.
//!
//! Only `+ − × ÷`, square roots and comparisons are used, which IEEE 754 fixes to the last bit; no sine, logarithm or power.

/// A seeded noise.
#[derive(Debug, Clone, Copy)]
pub(super) struct Noise {
    seed: u64,
}

impl Noise {
    pub(super) fn new(seed: u64) -> Self {
        Self {
            seed: mix(seed ^ 0x9e37_79b9_7f4a_7c15),
        }
    }

    /// A number 0 ≤ n < 1 that belongs to a pair of whole numbers.
    #[inline]
    pub(super) fn dice(self, i: i64, j: i64) -> f64 {
        (self.hash(i, j) >> 11) as f64 / (1u64 << 53) as f64
    }

    #[inline]
    fn row(self, j: i64) -> u64 {
        self.seed ^ (j as u64).wrapping_mul(0xd816_3841_8da6_b343)
    }

    #[inline]
    fn hash(self, i: i64, j: i64) -> u64 {
        mix(self.seed
            ^ (i as u64).wrapping_mul(0x8da6_b343_d816_3841)
            ^ (j as u64).wrapping_mul(0xd816_3841_8da6_b343))
    }

    /// Gradient noise of one octave, about −1…1, 0 on the lattice of whole numbers.
    #[inline]
    pub(super) fn at(self, x: f64, y: f64) -> f64 {
        let (i, j) = (floor(x), floor(y));
        let (u, v) = (x - i as f64, y - j as f64);
        let (row_hash, next_row_hash) = (self.row(j), self.row(j + 1));
        let slope = |row: u64, di: i64, v: f64| {
            let [a, b] = GRADIENTS[direction(row, i + di)];
            a * (u - di as f64) + b * v
        };
        let (su, sv) = (fade(u), fade(v));
        let (sw, nw) = (slope(row_hash, 0, v), slope(next_row_hash, 0, v - 1.0));
        let south = sw + su * (slope(row_hash, 1, v) - sw);
        let north = nw + su * (slope(next_row_hash, 1, v - 1.0) - nw);
        1.4 * (south + sv * (north - south))
    }

    /// Octaves of noise, each half as long and `gain` as strong; about −1…1.
    pub(super) fn octaves(self, x: f64, y: f64, count: u32, gain: f64) -> f64 {
        let (mut sum, mut weight, mut total) = (0.0, 1.0, 0.0);
        let (mut x, mut y) = ((12.0 * x - 5.0 * y) / 13.0, (5.0 * x + 12.0 * y) / 13.0);
        for _ in 0..count {
            sum += weight * self.at(x, y);
            total += weight;
            weight *= gain;
            // Turned by atan(3/4) each time, so that the lattices of the octaves do not line up.
            (x, y) = (1.6 * x - 1.2 * y + 17.3, 1.2 * x + 1.6 * y - 5.7);
        }
        sum / total
    }

    /// Octaves of ridged noise: sharp crests, 0…1.
    pub(super) fn ridged(self, x: f64, y: f64, count: u32) -> f64 {
        let (mut sum, mut weight, mut total, mut above) = (0.0, 1.0, 0.0, 1.0);
        let (mut x, mut y) = ((12.0 * x + 5.0 * y) / 13.0, (12.0 * y - 5.0 * x) / 13.0);
        for _ in 0..count {
            let crest = 1.0 - self.at(x, y).abs();
            let ridge = crest * crest * above;
            sum += weight * ridge;
            total += weight;
            above = ridge.min(1.0);
            weight *= 0.5;
            (x, y) = (1.6 * x - 1.2 * y + 11.9, 1.2 * x + 1.6 * y + 8.3);
        }
        sum / total
    }
}

/// Sixteen directions, nearly of unit length.
const GRADIENTS: [[f64; 2]; 16] = [
    [1.0, 0.0],
    [0.92, 0.38],
    [0.71, 0.71],
    [0.38, 0.92],
    [0.0, 1.0],
    [-0.38, 0.92],
    [-0.71, 0.71],
    [-0.92, 0.38],
    [-1.0, 0.0],
    [-0.92, -0.38],
    [-0.71, -0.71],
    [-0.38, -0.92],
    [0.0, -1.0],
    [0.38, -0.92],
    [0.71, -0.71],
    [0.92, -0.38],
];

/// One of the sixteen directions for a column of a row.
#[inline]
fn direction(row: u64, i: i64) -> usize {
    let h = row ^ (i as u64).wrapping_mul(0x8da6_b343_d816_3841);
    ((h ^ (h >> 32)).wrapping_mul(0xd6e8_feb8_6659_fd93) >> 60) as usize
}

/// Floor without a call into the maths library.
#[inline]
fn floor(x: f64) -> i64 {
    let whole = x as i64;
    whole - i64::from(whole as f64 > x)
}

#[inline]
fn fade(t: f64) -> f64 {
    t * t * t * (t * (t * 6.0 - 15.0) + 10.0)
}

/// 64-bit finaliser (xor-shift and multiply).
#[inline]
fn mix(mut h: u64) -> u64 {
    h ^= h >> 32;
    h = h.wrapping_mul(0xd6e8_feb8_6659_fd93);
    h ^= h >> 32;
    h = h.wrapping_mul(0xd6e8_feb8_6659_fd93);
    h ^ (h >> 32)
}

/// 0 below `low`, 1 above `high`, smooth between.
#[inline]
pub(super) fn smooth(low: f64, high: f64, value: f64) -> f64 {
    let t = ((value - low) / (high - low)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
