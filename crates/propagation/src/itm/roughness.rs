//! Terrain roughness Δh: the interdecile range of the heights about a straight line, on a resampled profile.

use super::line_fit::{Line, Stretch, fit};

/// Most points of the resampled profile: `10·25 − 5`.
const MOST_POINTS: usize = 245;
/// Room for them in whole blocks.
const ROOM: usize = 256;
/// Numbers of a block.
const LANES: usize = 8;
/// Deviations are filled up to a multiple of this, so that counting leaves no rest.
const PADDING: usize = 16;

/// Share of the roughness found over a distance, `1 − 0.8·exp(−x/50 km)`.
#[inline(always)]
pub fn share_at(distance_m: f64) -> f64 {
    1.0 - 0.8 * (-distance_m / 50e3).exp()
}

/// Roughness between two distances along a profile, m, carried to an unlimited distance.
///
/// # Units
/// - `spacing_m`, `from_m`, `to_m`: m
#[multiversion::multiversion(targets("x86_64+avx2", "aarch64+neon"))]
pub fn roughness_m(y: &[f64], spacing_m: f64, from_m: f64, to_m: f64) -> f64 {
    let (a, b) = (from_m / spacing_m, to_m / spacing_m);
    if b - a < 2.0 {
        return 0.0;
    }
    let rank = ((0.1 * (b - a + 8.0)) as usize).clamp(4, 25);
    let points = 10 * rank - 5;
    debug_assert!(points <= MOST_POINTS);
    let mut room = [0.0; ROOM];
    resample(y, a, (b - a) / (points - 1) as f64, &mut room, points);
    let samples = &mut room[..points];
    let line = fit(
        samples,
        Stretch {
            first: 0,
            last: points - 1,
        },
    );
    let rms_m = remove_line(samples, line);
    let padded = points.next_multiple_of(PADDING);
    room[points..padded].fill(f64::NAN);
    interdecile_m(&room[..padded], points, rank, rms_m) / share_at(to_m - from_m)
}

/// Heights at equal steps from `start`, between the points by straight interpolation. Whole blocks are filled; those after `points` mean
/// nothing.
#[inline(always)]
fn resample(y: &[f64], start: f64, step: f64, samples: &mut [f64; ROOM], points: usize) {
    /// Added to a number under 2³², it rounds it to the nearest integer, which its low bits then hold.
    const TO_INTEGER: f64 = (1u64 << 52) as f64;
    let last = y.len() - 2;
    let mut position: [f64; LANES] = std::array::from_fn(|i| i as f64);
    let blocks = samples.as_chunks_mut::<LANES>().0;
    for block in &mut blocks[..points.div_ceil(LANES)] {
        let (mut index, mut share) = ([0u64; LANES], [0.0; LANES]);
        for i in 0..LANES {
            let at = start + position[i] * step;
            // At a point itself the interpolation from either side gives the point, so rounding of `at − ½` may go either way.
            let rounded = (at - 0.5).max(0.0).min(last as f64) + TO_INTEGER;
            index[i] = rounded.to_bits();
            share[i] = at - (rounded - TO_INTEGER);
            position[i] += LANES as f64;
        }
        for i in 0..LANES {
            let at = (index[i] as u32 as usize).min(last);
            block[i] = y[at] + (y[at + 1] - y[at]) * share[i];
        }
    }
}

/// Takes a line off the samples; returns the root of the mean square left.
#[inline(always)]
fn remove_line(samples: &mut [f64], line: Line) -> f64 {
    let count = samples.len() as f64;
    let slope = (line.end - line.start) / (count - 1.0);
    let mut position: [f64; LANES] = std::array::from_fn(|i| i as f64);
    let mut squares = [0.0; LANES];
    let (blocks, rest) = samples.as_chunks_mut::<LANES>();
    for block in blocks {
        for i in 0..LANES {
            block[i] -= line.start + position[i] * slope;
            squares[i] += block[i] * block[i];
            position[i] += LANES as f64;
        }
    }
    for (sample, position) in rest.iter_mut().zip(position) {
        *sample -= line.start + position * slope;
        squares[0] += *sample * *sample;
    }
    (squares.iter().sum::<f64>() / count).sqrt()
}

/// The `rank`-th largest less the `(n − rank + 1)`-th largest, which is the `rank`-th smallest, of values filled up with NaN.
///
/// Both are sought at once: a threshold on either side is driven by the count of values beyond it, until a single one is left between
/// two thresholds; no list is moved.
#[inline(always)]
fn interdecile_m(padded: &[f64], points: usize, rank: usize, rms_m: f64) -> f64 {
    if rms_m == 0.0 {
        return 0.0;
    }
    let mut upper = Search::new(points, rms_m);
    let mut lower = Search::new(points, rms_m);
    for guess in 0..Search::MOST {
        let (over, under) = beyond(padded, upper.threshold, -lower.threshold);
        upper.narrow(over, rank, guess);
        lower.narrow(under, rank, guess);
        if upper.found && lower.found {
            break;
        }
    }
    let mut greatest = [f64::NEG_INFINITY; 4];
    let mut least = [f64::INFINITY; 4];
    for quarter in padded.as_chunks::<4>().0 {
        for i in 0..4 {
            let v = quarter[i];
            greatest[i] = if v <= upper.high && v > greatest[i] {
                v
            } else {
                greatest[i]
            };
            least[i] = if v >= -lower.high && v < least[i] {
                v
            } else {
                least[i]
            };
        }
    }
    greatest.into_iter().fold(f64::NEG_INFINITY, f64::max) - least.into_iter().fold(f64::INFINITY, f64::min)
}

/// A search for the `rank`-th value from outside, by counts of values beyond a threshold.
struct Search {
    /// At least `rank` are beyond it.
    low: f64,
    beyond_low: usize,
    /// Fewer than `rank` are beyond it.
    high: f64,
    beyond_high: usize,
    threshold: f64,
    found: bool,
}

impl Search {
    /// At most a tenth of all can lie beyond 3.2 times the root of the mean square (Chebyshev).
    const BOUND: f64 = 3.2;
    /// Where a tenth of normally spread values begins.
    const NORMAL_DECILE: f64 = 1.28;
    /// Guesses by proportion; then halves are taken, and what is left after them all are ties.
    const PROPORTIONAL: usize = 12;
    const MOST: usize = 80;

    #[inline(always)]
    fn new(points: usize, rms: f64) -> Self {
        Self {
            low: -Self::BOUND * rms,
            beyond_low: points,
            high: Self::BOUND * rms,
            beyond_high: 0,
            threshold: Self::NORMAL_DECILE * rms,
            found: false,
        }
    }

    #[inline(always)]
    fn narrow(&mut self, beyond: usize, rank: usize, guess: usize) {
        if beyond >= rank {
            (self.low, self.beyond_low) = (self.threshold, beyond);
        } else {
            (self.high, self.beyond_high) = (self.threshold, beyond);
        }
        let between = self.beyond_low - self.beyond_high;
        let share = if guess < Self::PROPORTIONAL {
            ((self.beyond_low - rank) as f64 + 0.5) / between as f64
        } else {
            0.5
        };
        self.threshold = self.low + (self.high - self.low) * share;
        // With ties the thresholds meet before a single value is left.
        self.found = between == 1 || self.threshold <= self.low || self.threshold >= self.high;
    }
}

/// How many values lie over one threshold and how many under another.
#[inline(always)]
fn beyond(values: &[f64], over: f64, under: f64) -> (usize, usize) {
    let (mut overs, mut unders) = (0i64, 0i64);
    for v in values.as_chunks::<PADDING>().0.as_flattened() {
        overs += i64::from(*v > over);
        unders += i64::from(*v < under);
    }
    (overs as usize, unders as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against plain sorting, for smooth, lopsided and tied deviations.
    #[test]
    fn prop_interdecile_is_that_of_the_sorted_list() {
        let mut seed = 7u64;
        let mut random = || {
            seed = seed
                .wrapping_mul(6364136223846793005)
                .wrapping_add(1442695040888963407);
            (seed >> 11) as f64 / (1u64 << 53) as f64 - 0.5
        };
        for trial in 0..3000 {
            let rank = 4 + trial % 22;
            let n = 10 * rank - 5;
            let list: Vec<f64> = (0..n)
                .map(|i| match trial % 5 {
                    0 => random(),
                    1 => random().powi(7),
                    2 => (random() * 4.0).round(),
                    3 => (i as f64 * 0.1).sin() + 0.1 * random(),
                    _ => {
                        if i < 3 {
                            100.0
                        } else {
                            0.01 * random()
                        }
                    }
                })
                .collect();
            let spread = (list.iter().map(|v| v * v).sum::<f64>() / n as f64).sqrt();
            let mut sorted = list.clone();
            sorted.sort_by(|a, b| b.total_cmp(a));
            let mut room = [f64::NAN; ROOM];
            room[..n].copy_from_slice(&list);
            let found = interdecile_m(&room[..n.next_multiple_of(PADDING)], n, rank, spread);
            assert!(
                (found - (sorted[rank - 1] - sorted[n - rank])).abs() < 1e-13,
                "trial {trial}: {found}"
            );
        }
    }

    /// Level ground: every deviation is nothing.
    #[test]
    fn ref_level_ground_has_no_roughness() {
        assert_eq!(roughness_m(&[12.5; 300], 100.0, 500.0, 29_000.0), 0.0);
    }
}
