//! Greatest values over many points, found without looking at most of them: least clearance in a line of sight, and roughness.

use super::ground::{BLOCK, Flattened, GROUP, Ground};

/// The straight line from the transmitting antenna to a receiver, over flattened heights.
#[derive(Debug, Clone, Copy)]
pub struct Ray {
    /// Index of the receiver's point.
    pub n: usize,
    /// Length, km.
    pub path_km: f64,
    /// Height at the transmitter, m.
    pub hts_m: f64,
    /// Rise, m/km.
    pub rise: f64,
    /// Whether it matters which of several equal points is found.
    pub ties: Ties,
}

/// What is wanted of a search among equal points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ties {
    /// Any of them: only the value counts.
    Any,
    /// The last of them.
    Last,
}

impl Ties {
    /// How far beyond the best a bound must lie to be left out, so that equal points are looked at or not.
    #[inline(always)]
    fn room(self) -> f64 {
        match self {
            Ties::Any => 1.0,
            Ties::Last => 1.0 + 1e-9,
        }
    }
}

/// The least `clearance² / (d (D − d))` so far, and the point that has it.
///
/// In a line of sight every clearance is negative and `ν ∝ clearance / √(d (D − d))`, so the greatest `ν` has the least of
/// these.
#[derive(Debug, Clone, Copy)]
pub struct Least {
    /// The least ratio, m²/km².
    pub ratio: f64,
    /// Its profile index; 0 while nothing beat the ratio the search began with.
    pub index: usize,
}

/// The point of greatest `ν` among the interior points of a ray clear of them all, if its ratio is below `start`.
///
/// Exact: a block is left out only when even its lid, at the place of the widest Fresnel zone in it, could not beat the best
/// point known. Of points equal to within rounding the last is taken.
#[multiversion::multiversion(targets(
    "x86_64+avx512f+avx512dq+avx512vl+avx2+fma",
    "x86_64+avx2+fma",
    "aarch64+neon"
))]
pub fn least(ground: &Ground, lay: &Flattened, ray: &Ray, start: f64, guess: usize) -> Least {
    let mut best = Least {
        ratio: start,
        index: 0,
    };
    let full = (ray.n - 1) / BLOCK;
    if full == 0 {
        for i in (1..ray.n).rev() {
            try_point(ground, lay, ray, i, &mut best);
        }
        return best;
    }
    // The last points before the receiver, where the ray comes down; they overlap the last full block.
    try_points(ground, lay, ray, ray.n - BLOCK, &mut best);
    try_points(ground, lay, ray, 1 + (full - 1) * BLOCK, &mut best);
    let guessed = guess.saturating_sub(1) / BLOCK;
    if guessed + 1 < full {
        try_points(ground, lay, ray, 1 + guessed * BLOCK, &mut best);
    }
    // The last full block has been tried: those before it, a group at a time.
    let before = full - 1;
    for group in (0..before.div_ceil(GROUP)).rev() {
        let low = group * GROUP;
        let margins = lid_margins(ground, lay, ray, low, best.ratio);
        if !margins.iter().fold(false, |any, &m| any | (m <= 0.0)) {
            continue;
        }
        for lane in (0..GROUP.min(before - low)).rev() {
            if margins[lane] <= 0.0 {
                try_points(ground, lay, ray, 1 + (low + lane) * BLOCK, &mut best);
            }
        }
    }
    best
}

/// Above 0 where no point under a block's lid can beat the best ratio, for one group of blocks.
#[inline(always)]
fn lid_margins(ground: &Ground, lay: &Flattened, ray: &Ray, low: usize, best: f64) -> [f64; GROUP] {
    let group = |list: &[f64]| -> [f64; GROUP] { *list[low..].first_chunk().expect("a padded group") };
    let (d0, d1) = (group(&ground.first_km), group(&ground.last_km));
    let (lid0, lid1) = (group(&lay.lid_first_m), group(&lay.lid_last_m));
    let half = 0.5 * ray.path_km;
    let limit = best * ray.ties.room();
    let mut margins = [0.0; GROUP];
    for i in 0..GROUP {
        let over0 = lid0[i] - (ray.hts_m + ray.rise * d0[i]);
        let over1 = lid1[i] - (ray.hts_m + ray.rise * d1[i]);
        let over = if over0 > over1 { over0 } else { over1 };
        let clear = if over < 0.0 { over } else { 0.0 };
        let widest = if half < d0[i] { d0[i] } else { half };
        let widest = if widest > d1[i] { d1[i] } else { widest };
        margins[i] = clear * clear - limit * (widest * (ray.path_km - widest));
    }
    margins
}

#[inline(always)]
fn try_point(ground: &Ground, lay: &Flattened, ray: &Ray, i: usize, best: &mut Least) {
    let d = ground.d_km[i];
    let clear = lay.y_m[i] - (ray.hts_m + ray.rise * d);
    let ratio = clear * clear / (d * (ray.path_km - d));
    if ratio < best.ratio || (ratio == best.ratio && i > best.index) {
        *best = Least { ratio, index: i };
    }
}

/// Tries a stretch as long as a block, from point `first`.
#[inline(always)]
fn try_points(ground: &Ground, lay: &Flattened, ray: &Ray, first: usize, best: &mut Least) {
    let d: &[f64; BLOCK] = ground.d_km[first..]
        .first_chunk()
        .expect("points before the receiver");
    let y: &[f64; BLOCK] = lay.y_m[first..]
        .first_chunk()
        .expect("points before the receiver");
    let limit = best.ratio * ray.ties.room();
    let mut better = false;
    for i in 0..BLOCK {
        let clear = y[i] - (ray.hts_m + ray.rise * d[i]);
        better |= clear * clear < limit * (d[i] * (ray.path_km - d[i]));
    }
    if !better {
        return;
    }
    let mut ratios = [0.0; BLOCK];
    for i in 0..BLOCK {
        let clear = y[i] - (ray.hts_m + ray.rise * d[i]);
        ratios[i] = clear * clear / (d[i] * (ray.path_km - d[i]));
    }
    let least = ratios
        .iter()
        .fold(f64::INFINITY, |m, &r| if r < m { r } else { m });
    let index = first + ratios.iter().rposition(|&r| r == least).unwrap_or(0);
    if least < best.ratio || (least == best.ratio && index > best.index) {
        *best = Least { ratio: least, index };
    }
}

/// Greatest height of bare ground over the line `tx_m + slope d` between two points, or `least` if none is greater.
///
/// Exact: over the true height a lid bends upwards, so its greatest excess is at one of its ends.
pub fn roughness_m(ground: &Ground, line: (f64, f64), from: usize, to: usize, least: f64) -> f64 {
    let (tx_m, slope) = line;
    let over = |i: usize| ground.h_m[i] - (tx_m + slope * ground.d_km[i]);
    let mut best = least.max(over(from)).max(over(to));
    let (first_block, last_block) = ((from - 1).div_ceil(BLOCK), to / BLOCK);
    if first_block >= last_block {
        return (from..=to).map(over).fold(best, f64::max);
    }
    let lid = |y: f64, d: f64| y + ground.bare.bulge * d * d - (tx_m + slope * d);
    best = (from..1 + first_block * BLOCK).map(over).fold(best, f64::max);
    best = (1 + last_block * BLOCK..=to).map(over).fold(best, f64::max);
    for b in first_block..last_block {
        let at_first = lid(ground.bare.lid_first_m[b], ground.first_km[b]);
        let at_last = lid(ground.bare.lid_last_m[b], ground.last_km[b]);
        if at_first.max(at_last) > best {
            best = (1 + b * BLOCK..=BLOCK + b * BLOCK).map(over).fold(best, f64::max);
        }
    }
    best
}
