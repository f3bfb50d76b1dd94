//! Where each end sees its horizon.

use super::profile::Profile;

/// Horizons of both ends, transmitter first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Horizons {
    /// Elevation of the horizon over the effective Earth, rad.
    pub theta_rad: [f64; 2],
    /// Distance to it, m; the path length where the ends see each other.
    pub distance_m: [f64; 2],
}

/// Points that are tested together, and blocks that are.
pub(super) const BLOCK: usize = 16;
/// How far under the steepest ray so far a point may lie and still be worked out exactly, m: far above what rounding does to heights
/// within 20 km and distances within 10 000 km.
const SLACK_M: f64 = 1e-6;
/// Profiles of up to this many blocks need no allocation.
const SHORT_BLOCKS: usize = 64;

/// Horizons over a profile; the earliest of equal maxima counts, at both ends.
///
/// A block of points is passed over when its highest point would lie clearly under the steepest ray so far wherever in the block it
/// stood; in the others every point is compared by the method's own expression, so the outcome is that of comparing each.
///
/// # Units
/// - `tops_m`: aerials above sea level, m; `a_e_m`: effective Earth radius, m
#[multiversion::multiversion(targets("x86_64+avx2", "aarch64+neon"))]
pub fn horizons(profile: Profile<'_>, tops_m: [f64; 2], a_e_m: f64) -> Horizons {
    let np = profile.intervals();
    let d = profile.distance_m();
    let rise = (tops_m[1] - tops_m[0]) / d;
    let sag = d / (2.0 * a_e_m);
    let step = profile.spacing_m();
    let y = &profile.height_m()[..np];
    let blocks = y.len().div_ceil(BLOCK);
    let (mut short, mut long) = ([f64::NEG_INFINITY; SHORT_BLOCKS], Vec::new());
    let highest: &mut [f64] = if blocks <= SHORT_BLOCKS {
        &mut short[..blocks]
    } else {
        long.resize(blocks, f64::NEG_INFINITY);
        &mut long
    };
    block_maxima(y, highest);
    let sight = |top_m| Sight {
        top_m,
        half_curvature_per_m: 0.5 / a_e_m,
        step,
    };
    let from_tx = sight(tops_m[0]).nearest_first(y, highest, rise - sag);
    let from_rx = sight(tops_m[1]).backwards(y, highest, -rise - sag);
    Horizons {
        theta_rad: [from_tx.theta_rad, from_rx.theta_rad],
        distance_m: [
            from_tx.index.map_or(d, |i| accumulated(0.0, step, i)),
            // The method subtracts the spacing from the whole length, once for each point passed.
            from_rx.index.map_or(d, |i| accumulated(d, -step, i)),
        ],
    }
}

/// Highest point of each block.
#[inline(always)]
fn block_maxima(y: &[f64], highest: &mut [f64]) {
    let higher = |a: f64, b: f64| if b > a { b } else { a };
    let (whole, rest) = y.as_chunks::<BLOCK>();
    for (block, highest) in whole.iter().zip(highest.iter_mut()) {
        let mut lanes = [f64::NEG_INFINITY; 4];
        for quarter in block.as_chunks::<4>().0 {
            for i in 0..4 {
                lanes[i] = higher(lanes[i], quarter[i]);
            }
        }
        *highest = higher(higher(lanes[0], lanes[1]), higher(lanes[2], lanes[3]));
    }
    if let Some(last) = highest.get_mut(whole.len()) {
        *last = rest.iter().copied().fold(f64::NEG_INFINITY, higher);
    }
}

/// One end's steepest ray: its elevation, and the index of the point that makes it.
#[derive(Clone, Copy)]
pub(super) struct Steepest {
    pub theta_rad: f64,
    pub index: Option<usize>,
}

/// One end looking along the profile.
pub(super) struct Sight {
    /// Aerial above sea level, m.
    pub top_m: f64,
    /// `1/(2·ae)`.
    pub half_curvature_per_m: f64,
    /// Distance between neighbouring heights, m.
    pub step: f64,
}

impl Sight {
    /// Elevation of a point over the effective Earth.
    #[inline(always)]
    fn elevation_rad(&self, y_m: f64, distance_m: f64) -> f64 {
        (y_m - self.top_m) / distance_m - distance_m * self.half_curvature_per_m
    }

    /// Whether a point of this height lies clearly under the ray wherever it stands between two distances.
    #[inline(always)]
    fn is_under(&self, y_m: f64, theta_rad: f64, nearest_m: f64, farthest_m: f64) -> bool {
        let ray_m = (theta_rad * nearest_m).min(theta_rad * farthest_m);
        y_m < self.top_m + ray_m + nearest_m * nearest_m * self.half_curvature_per_m - SLACK_M
    }

    /// Whether every point of a block, the first at the given distance and each next one `step` farther, lies clearly under the ray.
    #[inline(always)]
    fn all_under(&self, block: &[f64; BLOCK], theta_rad: f64, first_m: f64, step: f64) -> bool {
        let mut highest = [f64::NEG_INFINITY; BLOCK];
        for i in 0..BLOCK {
            let x = first_m + step * OFFSETS[i];
            highest[i] = block[i] - x * (theta_rad + x * self.half_curvature_per_m);
        }
        let limit_m = self.top_m - SLACK_M;
        highest.iter().fold(true, |all, h| all & (*h < limit_m))
    }

    /// From the transmitter outwards: a later point must be strictly steeper.
    #[inline(always)]
    fn nearest_first(&self, y: &[f64], highest: &[f64], direct_rad: f64) -> Steepest {
        let mut best = Steepest {
            theta_rad: direct_rad,
            index: None,
        };
        let whole = y.as_chunks::<BLOCK>().0;
        for (b, block_m) in highest.iter().enumerate() {
            let first = b * BLOCK;
            let (nearest_m, farthest_m) = (first as f64 * self.step, (first + BLOCK) as f64 * self.step);
            if self.is_under(*block_m, best.theta_rad, nearest_m, farthest_m) {
                continue;
            }
            if b > 0
                && whole
                    .get(b)
                    .is_some_and(|y| self.all_under(y, best.theta_rad, nearest_m, self.step))
            {
                continue;
            }
            for (i, y_m) in y.iter().enumerate().take(first + BLOCK).skip(first.max(1)) {
                let theta_rad = self.elevation_rad(*y_m, i as f64 * self.step);
                if theta_rad > best.theta_rad {
                    best = Steepest {
                        theta_rad,
                        index: Some(i),
                    };
                }
            }
        }
        best
    }

    /// From the receiver, behind the last point, backwards: of equal points the farther one counts.
    #[inline(always)]
    fn backwards(&self, y: &[f64], highest: &[f64], direct_rad: f64) -> Steepest {
        let mut best = Steepest {
            theta_rad: direct_rad,
            index: None,
        };
        for b in (0..highest.len()).rev() {
            self.block_backwards(y, highest[b], b, &mut best);
        }
        best
    }

    /// The same by blocks of blocks, for long profiles: `highest` and `highest_large` may reach beyond the receiver.
    #[inline(always)]
    pub(super) fn backwards_by_large(
        &self,
        y: &[f64],
        highest: &[f64],
        highest_large: &[f64],
        direct_rad: f64,
    ) -> Steepest {
        let mut best = Steepest {
            theta_rad: direct_rad,
            index: None,
        };
        let np = y.len();
        let blocks = np.div_ceil(BLOCK);
        for large in (0..blocks.div_ceil(BLOCK)).rev() {
            let (first, end) = (large * BLOCK, blocks.min((large + 1) * BLOCK));
            let (nearest, farthest) = (np - np.min(end * BLOCK), np - first * BLOCK);
            let (nearest_m, farthest_m) = (nearest as f64 * self.step, farthest as f64 * self.step);
            if self.is_under(highest_large[large], best.theta_rad, nearest_m, farthest_m) {
                continue;
            }
            for b in (first..end).rev() {
                self.block_backwards(y, highest[b], b, &mut best);
            }
        }
        best
    }

    #[inline(always)]
    fn block_backwards(&self, y: &[f64], block_m: f64, b: usize, best: &mut Steepest) {
        let np = y.len();
        let (first, end) = (b * BLOCK, np.min((b + 1) * BLOCK));
        let (nearest_m, farthest_m) = ((np - end) as f64 * self.step, (np - first) as f64 * self.step);
        if self.is_under(block_m, best.theta_rad, nearest_m, farthest_m) {
            return;
        }
        let whole = y[first..end].first_chunk::<BLOCK>();
        if b > 0 && whole.is_some_and(|y| self.all_under(y, best.theta_rad, farthest_m, -self.step)) {
            return;
        }
        for i in (first.max(1)..end).rev() {
            let theta_rad = self.elevation_rad(y[i], (np - i) as f64 * self.step);
            let wins = match best.index {
                None => theta_rad > best.theta_rad,
                Some(_) => theta_rad >= best.theta_rad,
            };
            if wins {
                *best = Steepest {
                    theta_rad,
                    index: Some(i),
                };
            }
        }
    }
}

/// Positions in a block.
const OFFSETS: [f64; BLOCK] = [
    0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0, 15.0,
];

/// `start` with `step` added `count` times, rounded each time as a running sum is.
///
/// Between two powers of two each addition changes a running sum by the same rounded step, so whole runs are taken at once.
#[inline]
pub fn accumulated(start: f64, step: f64, count: usize) -> f64 {
    if start.abs() < MANY as f64 * step.abs() && count < MANY && is_short(step) && is_short(start) {
        return start + count as f64 * step;
    }
    running_sum(start, step, count)
}

/// Sums of up to this many steps with few digits are exact.
const MANY: usize = 1 << 20;

/// Whether a length is a multiple of 2⁻¹⁰ m under 2²⁰ m: sums of a million of them carry no rounding.
fn is_short(length_m: f64) -> bool {
    length_m.abs() < MANY as f64 * 1024.0 && (length_m * 1024.0).fract() == 0.0
}

fn running_sum(start: f64, step: f64, count: usize) -> f64 {
    let mut x = start;
    let mut left = count;
    while left > 0 {
        let next = x + step;
        left -= 1;
        let rounded = next - x;
        x = next;
        let run = left.min(steps_within_binade(x, rounded));
        // A remainder of exactly half a unit rounds to even, now up, now down: such runs are walked.
        let unit = unit_in_last_place(x);
        if run > 1 && (step - rounded).abs() < 0.5 * unit && x + step - x == rounded {
            x += run as f64 * rounded;
            left -= run;
        }
    }
    x
}

/// How many steps stay strictly inside the power-of-two range of `x`, one to spare.
fn steps_within_binade(x: f64, step: f64) -> usize {
    let low = f64::from_bits(x.to_bits() & 0xfff0_0000_0000_0000);
    let room = if step > 0.0 { 2.0 * low - x } else { x - low };
    let steps = room / step.abs() - 2.0;
    if steps > 0.0 && steps.is_finite() {
        steps as usize
    } else {
        0
    }
}

fn unit_in_last_place(x: f64) -> f64 {
    f64::from_bits(x.to_bits() + 1) - x
}

#[cfg(test)]
mod tests {
    use super::accumulated;

    /// The running sum itself, for spacings with few and many digits, upwards and downwards.
    #[test]
    fn prop_accumulated_is_the_running_sum() {
        let mut seed = 0x9e37_79b9_7f4a_7c15u64;
        let mut random = || {
            seed ^= seed << 13;
            seed ^= seed >> 7;
            seed ^= seed << 17;
            (seed >> 11) as f64 / (1u64 << 53) as f64
        };
        for trial in 0..4000 {
            let step = match trial % 4 {
                0 => 0.5 + 999.5 * random(),
                1 => ((1.0 + 999.0 * random()) * 1e6).round() / 1e6,
                2 => (1.0 + 500.0 * random()).round(),
                _ => (1.0 + 500.0 * random()).round() / 3.0,
            };
            let np = 2 + (4000.0 * random()) as usize;
            let d = np as f64 * step;
            let count = 1 + (random() * (np - 1) as f64) as usize;
            let (mut up, mut down) = (0.0, d);
            for _ in 0..count {
                up += step;
                down -= step;
            }
            assert_eq!(accumulated(0.0, step, count), up, "{step} · {count}");
            assert_eq!(accumulated(d, -step, count), down, "{d} − {step} · {count}");
        }
    }
}
