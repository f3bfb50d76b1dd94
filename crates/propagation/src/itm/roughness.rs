//! Terrain roughness Δh: the interdecile range of the heights about a straight line, on a resampled profile.

use super::line_fit::{Line, Stretch, fit};

/// Most points of the resampled profile: `10·25 − 5`.
const MOST_POINTS: usize = 245;
/// Room for them, a power of two.
const ROOM: usize = 256;

/// Share of the roughness found over a distance, `1 − 0.8·exp(−x/50 km)`.
#[inline(always)]
pub fn share_at(distance_m: f64) -> f64 {
    1.0 - 0.8 * (-distance_m / 50e3).exp()
}

/// Roughness between two distances along a profile, m, carried to an unlimited distance.
///
/// # Units
/// - `spacing_m`, `from_m`, `to_m`: m
#[inline(always)]
pub fn roughness_m(y: &[f64], spacing_m: f64, from_m: f64, to_m: f64) -> f64 {
    let (a, b) = (from_m / spacing_m, to_m / spacing_m);
    if b - a < 2.0 {
        return 0.0;
    }
    let rank = ((0.1 * (b - a + 8.0)) as usize).clamp(4, 25);
    let points = 10 * rank - 5;
    debug_assert!(points <= MOST_POINTS);
    let mut room = [0.0; ROOM];
    let samples = &mut room[..points];
    let line = resample(y, a, b, samples);
    let spread_m = remove_line(samples, line);
    interdecile(samples, rank, spread_m) / share_at(to_m - from_m)
}

/// Heights at equal steps from `a` to `b`, between the points by straight interpolation; returns the line through them.
#[inline(always)]
fn resample(y: &[f64], a: f64, b: f64, samples: &mut [f64]) -> Line {
    /// Added to a number under 2³², its low bits hold the nearest integer.
    const TO_INTEGER: f64 = (1u64 << 52) as f64;
    let intervals = samples.len() - 1;
    let step = (b - a) / intervals as f64;
    let last = y.len() - 2;
    for (j, sample) in samples.iter_mut().enumerate() {
        let at = a + j as f64 * step;
        // At a point itself the interpolation from either side gives the point, so rounding of `at − ½` may go either way.
        let i = (((at - 0.5).max(0.0) + TO_INTEGER).to_bits() as u32 as usize).min(last);
        *sample = y[i] + (y[i + 1] - y[i]) * (at - i as f64);
    }
    fit(
        samples,
        Stretch {
            first: 0,
            last: intervals,
        },
    )
}

/// Takes a line off the samples; returns the standard deviation left.
#[inline(always)]
fn remove_line(samples: &mut [f64], line: Line) -> f64 {
    const LANES: usize = 8;
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

/// The `rank`-th largest less the `(n − rank + 1)`-th largest, which is the `rank`-th smallest.
///
/// Those beyond a threshold on either side are set aside in one pass without branches; mostly they suffice, and a few dozen are left
/// to choose from. Otherwise, for lopsided ground, all are.
#[inline(always)]
fn interdecile(deviations: &[f64], rank: usize, spread_m: f64) -> f64 {
    let threshold = 0.85 * spread_m;
    let (mut high, mut low) = ([0.0; ROOM], [0.0; ROOM]);
    let (mut highs, mut lows) = (0, 0);
    for v in deviations {
        high[highs % ROOM] = *v;
        highs += usize::from(*v >= threshold);
        low[lows % ROOM] = -v;
        lows += usize::from(*v <= -threshold);
    }
    if highs < rank {
        high[..deviations.len()].copy_from_slice(deviations);
        highs = deviations.len();
    }
    if lows < rank {
        for (to, v) in low.iter_mut().zip(deviations) {
            *to = -v;
        }
        lows = deviations.len();
    }
    kth_largest(&mut high[..highs], rank) + kth_largest(&mut low[..lows], rank)
}

/// The `rank`-th largest of a few.
fn kth_largest(values: &mut [f64], rank: usize) -> f64 {
    let (_, kth, _) = values.select_nth_unstable_by(rank - 1, |a, b| b.total_cmp(a));
    *kth
}
