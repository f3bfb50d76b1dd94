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

/// Points of one vectorised test.
const BLOCK: usize = 16;
/// How far under the steepest ray so far a point may lie and still be worked out exactly, m: far above what rounding does to heights
/// within 20 km and distances within 10 000 km.
const SLACK_M: f64 = 1e-6;

/// Horizons over a profile; the earliest of equal maxima counts, at both ends.
///
/// A block of points is passed over when all lie clearly under the steepest ray so far; in the others every point is compared by the
/// method's own expression, so the outcome is that of comparing each.
///
/// # Units
/// - `tops_m`: aerials above sea level, m; `a_e_m`: effective Earth radius, m
pub fn horizons(profile: &Profile<'_>, tops_m: [f64; 2], a_e_m: f64) -> Horizons {
    let np = profile.intervals();
    let d = profile.distance_m();
    let rise = (tops_m[1] - tops_m[0]) / d;
    let sag = d / (2.0 * a_e_m);
    let inner = &profile.height_m()[1..np];
    let step = profile.spacing_m();
    let from_tx = nearest_first(inner, step, tops_m[0], a_e_m, rise - sag);
    let from_rx = farthest_first(inner, step, tops_m[1], a_e_m, -rise - sag);
    Horizons {
        theta_rad: [from_tx.theta_rad, from_rx.theta_rad],
        distance_m: [
            from_tx.steps.map_or(d, |i| accumulated(0.0, step, i)),
            // The method subtracts the spacing from the whole length, once for each point passed.
            from_rx.steps.map_or(d, |i| accumulated(d, -step, np - i)),
        ],
    }
}

/// One end's steepest ray: its elevation, and how many steps away the point is that makes it.
struct Steepest {
    theta_rad: f64,
    steps: Option<usize>,
}

/// Elevation of a point over the effective Earth.
#[inline(always)]
fn elevation_rad(above_m: f64, distance_m: f64, a_e_m: f64) -> f64 {
    above_m / distance_m - distance_m / (2.0 * a_e_m)
}

/// From the transmitter outwards: a later point must be strictly steeper.
fn nearest_first(inner: &[f64], step: f64, top_m: f64, a_e_m: f64, direct_rad: f64) -> Steepest {
    let mut best = Steepest {
        theta_rad: direct_rad,
        steps: None,
    };
    let curvature = 0.5 / a_e_m;
    for (block, first) in inner.chunks(BLOCK).zip((1..).step_by(BLOCK)) {
        let distance = |i: usize| (first + i) as f64 * step;
        if clears(block, |i| distance(i), top_m, best.theta_rad, curvature) {
            continue;
        }
        for (i, y) in block.iter().enumerate() {
            let theta_rad = elevation_rad(y - top_m, distance(i), a_e_m);
            if theta_rad > best.theta_rad {
                best = Steepest {
                    theta_rad,
                    steps: Some(first + i),
                };
            }
        }
    }
    best
}

/// From the receiver outwards, which is backwards through the profile: of equal points the farther one counts.
fn farthest_first(inner: &[f64], step: f64, top_m: f64, a_e_m: f64, direct_rad: f64) -> Steepest {
    let mut best = Steepest {
        theta_rad: direct_rad,
        steps: None,
    };
    let curvature = 0.5 / a_e_m;
    for (block, nearest) in inner.rchunks(BLOCK).zip((1..).step_by(BLOCK)) {
        let farthest = nearest + block.len() - 1;
        let distance = |i: usize| (farthest - i) as f64 * step;
        if clears(block, |i| distance(i), top_m, best.theta_rad, curvature) {
            continue;
        }
        for (i, y) in block.iter().enumerate().rev() {
            let theta_rad = elevation_rad(y - top_m, distance(i), a_e_m);
            let wins = match best.steps {
                None => theta_rad > best.theta_rad,
                Some(_) => theta_rad >= best.theta_rad,
            };
            if wins {
                best = Steepest {
                    theta_rad,
                    steps: Some(farthest - i),
                };
            }
        }
    }
    best
}

/// Whether every point of a block lies clearly under the ray.
#[inline(always)]
fn clears(
    block: &[f64],
    distance: impl Fn(usize) -> f64,
    top_m: f64,
    theta_rad: f64,
    curvature: f64,
) -> bool {
    let mut highest = f64::NEG_INFINITY;
    for (i, y) in block.iter().enumerate() {
        let x = distance(i);
        let over = y - x * (theta_rad + x * curvature);
        highest = if over > highest { over } else { highest };
    }
    highest < top_m - SLACK_M
}

/// `start` with `step` added `count` times, rounded each time as a running sum is.
///
/// Between two powers of two each addition changes a running sum by the same rounded step, so whole runs are taken at once.
pub fn accumulated(start: f64, step: f64, count: usize) -> f64 {
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
