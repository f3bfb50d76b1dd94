//! A straight line through a stretch of equally spaced heights, by least squares, as the method weighs it.

/// Index range of a fit: `first ≤ last`, ends counted half.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// First index.
    pub first: usize,
    /// Last index, greater than `first`.
    pub last: usize,
}

/// The stretch of indices between two distances in units of the spacing, widened to at least one interval where it can be.
#[inline(always)]
pub fn stretch(from: f64, to: f64, intervals: usize) -> Stretch {
    let np = intervals as f64;
    let over = |a: f64, b: f64| (a - b).max(0.0);
    let mut first = over(from, 0.0).trunc();
    let mut last = np - over(np, to).trunc();
    if last <= first {
        first = over(first, 1.0).trunc();
        last = np - over(np, last + 1.0).trunc();
    }
    Stretch {
        first: first as usize,
        last: last as usize,
    }
}

/// Sum of heights and of heights by position, over the inner points of a stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moments {
    /// `Σ y_k`, first < k < last.
    pub sum: f64,
    /// `Σ y_k·(k − first)`, first < k < last.
    pub first_moment: f64,
}

/// Heights of the fitted line at both ends of the whole profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// At index 0.
    pub start: f64,
    /// At the last index.
    pub end: f64,
}

impl Line {
    /// The line from the moments of a stretch and its two end heights.
    #[inline(always)]
    pub fn from_moments(moments: Moments, ends: (f64, f64), stretch: Stretch, intervals: usize) -> Self {
        let length = (stretch.last - stretch.first) as f64;
        let m = -0.5 * length;
        let e = stretch.last as f64 + m;
        let sum = 0.5 * (ends.0 + ends.1) + moments.sum;
        let weighted = 0.5 * (ends.0 - ends.1) * m + m * moments.sum + moments.first_moment;
        let mean = sum / length;
        let slope = weighted * 12.0 / ((length * length + 2.0) * length);
        Self {
            start: mean - slope * e,
            end: mean + slope * (intervals as f64 - e),
        }
    }
}

/// Least-squares line over a stretch of a profile, evaluated at both ends of the whole profile.
#[inline(always)]
pub fn fit(y: &[f64], stretch: Stretch) -> Line {
    let Stretch { first, last } = stretch;
    let inner = if last > first + 1 {
        moments(&y[first + 1..last])
    } else {
        Moments {
            sum: 0.0,
            first_moment: 0.0,
        }
    };
    Line::from_moments(inner, (y[first], y[last]), stretch, y.len() - 1)
}

const LANES: usize = 8;

/// Sum of a slice, in eight lanes.
#[inline(always)]
pub fn sum(values: &[f64]) -> f64 {
    let (blocks, rest) = values.as_chunks::<LANES>();
    let mut lanes = [0.0; LANES];
    for block in blocks {
        for (lane, v) in lanes.iter_mut().zip(block) {
            *lane += v;
        }
    }
    lanes.iter().sum::<f64>() + rest.iter().sum::<f64>()
}

/// Sum of a slice and of its values times position, the first at position 1.
#[inline(always)]
fn moments(values: &[f64]) -> Moments {
    let (blocks, rest) = values.as_chunks::<LANES>();
    // Position is 8·block + lane + 1: the lanes are weighed at the end.
    let (mut sums, mut by_block) = ([0.0; LANES], [0.0; LANES]);
    let mut number = 0.0;
    for block in blocks {
        for i in 0..LANES {
            sums[i] += block[i];
            by_block[i] += block[i] * number;
        }
        number += 1.0;
    }
    let mut all = Moments {
        sum: 0.0,
        first_moment: 0.0,
    };
    for (lane, (sum, by_block)) in (1..).zip(sums.into_iter().zip(by_block)) {
        all.sum += sum;
        all.first_moment += LANES as f64 * by_block + f64::from(lane) * sum;
    }
    for (v, at) in rest.iter().zip(blocks.len() * LANES + 1..) {
        all.sum += v;
        all.first_moment += v * at as f64;
    }
    all
}
