//! Terrain roughness Δh: the interdecile range of the heights about a straight line, on a resampled profile.

use super::line_fit::{Stretch, fit};

/// Most points of the resampled profile: `10·25 − 5`.
const MOST_POINTS: usize = 245;

/// Share of the roughness found over a distance, `1 − 0.8·exp(−x/50 km)`.
#[inline(always)]
pub fn share_at(distance_m: f64) -> f64 {
    1.0 - 0.8 * (-distance_m / 50e3).exp()
}

/// Roughness between two distances along a profile, m, carried to an unlimited distance.
///
/// # Units
/// - `spacing_m`, `from_m`, `to_m`: m
pub fn roughness_m(y: &[f64], spacing_m: f64, from_m: f64, to_m: f64) -> f64 {
    let (a, b) = (from_m / spacing_m, to_m / spacing_m);
    if b - a < 2.0 {
        return 0.0;
    }
    let rank = ((0.1 * (b - a + 8.0)) as usize).clamp(4, 25);
    let points = 10 * rank - 5;
    let mut buffer = [0.0; MOST_POINTS];
    let samples = &mut buffer[..points];
    resample(y, a, b, samples);
    let spread_m = remove_line(samples);
    let interdecile_m = interdecile(samples, rank, spread_m);
    interdecile_m / share_at(to_m - from_m)
}

/// Heights at equal steps from `a` to `b`, between the points by straight interpolation.
fn resample(y: &[f64], a: f64, b: f64, samples: &mut [f64]) {
    let step = (b - a) / (samples.len() - 1) as f64;
    let last = y.len() - 2;
    for (j, sample) in samples.iter_mut().enumerate() {
        let at = a + j as f64 * step;
        let i = (at as usize).min(last);
        let share = at - i as f64;
        *sample = y[i] + (y[i + 1] - y[i]) * share;
    }
}

/// Takes the method's least-squares line off; returns the standard deviation left.
fn remove_line(samples: &mut [f64]) -> f64 {
    let intervals = samples.len() - 1;
    let stretch = Stretch {
        first: 0,
        last: intervals,
    };
    let line = fit(samples, stretch);
    let slope = (line.end - line.start) / intervals as f64;
    let mut squares = [0.0; 8];
    for (j, sample) in samples.iter_mut().enumerate() {
        *sample -= line.start + j as f64 * slope;
        squares[j % 8] += *sample * *sample;
    }
    (squares.iter().sum::<f64>() / samples.len() as f64).sqrt()
}

/// The `rank`-th largest less the `(n − rank + 1)`-th largest.
fn interdecile(deviations: &[f64], rank: usize, spread_m: f64) -> f64 {
    kth_largest(deviations, rank, spread_m, 1.0) + kth_largest(deviations, rank, spread_m, -1.0)
}

/// The `rank`-th largest of `sign · value`: those above a threshold are set aside, the threshold lowered until they suffice.
fn kth_largest(values: &[f64], rank: usize, spread: f64, sign: f64) -> f64 {
    let mut kept = [0.0; MOST_POINTS];
    for deviates in [0.9, 0.3, -1.0] {
        let threshold = deviates * spread;
        let mut count = 0;
        for v in values {
            kept[count.min(MOST_POINTS - 1)] = sign * v;
            count += usize::from(sign * v >= threshold);
        }
        if count >= rank {
            let (_, kth, _) = kept[..count].select_nth_unstable_by(rank - 1, |a, b| b.total_cmp(a));
            return *kth;
        }
    }
    for (k, v) in kept.iter_mut().zip(values) {
        *k = sign * v;
    }
    let (_, kth, _) = kept[..values.len()].select_nth_unstable_by(rank - 1, |a, b| b.total_cmp(a));
    *kth
}
