//! Cable-cutting tolerance as a band on the pattern, by Monte Carlo.

use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, Normal};
use serde::Serialize;

use super::Feed;
use crate::array::{ArrayError, HALF_WAVE_DIRECTIVITY, Radiator, Stack, within};
use crate::direction::{Direction, Plane};

/// Gain in one direction over many harnesses cut with tolerance, dBd.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Band {
    /// The direction.
    pub towards: Direction,
    /// As designed.
    pub designed_dbd: f64,
    /// One in twenty lies below.
    pub p05_dbd: f64,
    /// The median.
    pub p50_dbd: f64,
    /// One in twenty lies above.
    pub p95_dbd: f64,
}

/// Trials of a tolerance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trials {
    /// Standard deviation of each branch cable's length, mm.
    pub sigma_mm: f64,
    /// How many harnesses are cut.
    pub count: usize,
    /// Seed: the same gives the same answer.
    pub seed: u64,
}

/// Band of gain in one plane for a harness whose cables are each cut with a normal error.
///
/// # Errors
/// Those of [`Feed::solve`]; [`ArrayError::Range`] for fewer than 20 or over 100 000 trials, or a negative tolerance.
pub fn tolerance_band(
    stack: &Stack,
    feed: &Feed,
    plane: Plane,
    towards: &[Direction],
    trials: Trials,
) -> Result<Vec<Band>, ArrayError> {
    let ports = stack.port_matrix_ohm()?;
    band_of(
        feed,
        towards,
        trials,
        |feed: &Feed| -> Result<Vec<f64>, ArrayError> {
            let fed = feed.solve_ports(&ports, stack.frequency_mhz)?;
            let radiator = Radiator::new(stack, &fed.currents_a)?;
            let scale = 4.0 * std::f64::consts::PI * fed.efficiency_ratio()
                / radiator.checked_integral()?
                / HALF_WAVE_DIRECTIVITY;
            Ok(towards
                .iter()
                .map(|&d| crate::pattern::dbd(scale * radiator.field(d).plane(plane).norm_sqr()))
                .collect())
        },
    )
}

/// The same for any antenna: `gains` answers a feed with its gains in the directions, dBd.
pub(crate) fn band_of<E: From<ArrayError>>(
    feed: &Feed,
    towards: &[Direction],
    trials: Trials,
    gains: impl Fn(&Feed) -> Result<Vec<f64>, E>,
) -> Result<Vec<Band>, E> {
    let count = trials.count as f64;
    within(
        "number-of-trials",
        count,
        (20..=100_000).contains(&trials.count),
        "from-20-to-100000",
    )?;
    within(
        "cutting-tolerance-in-mm",
        trials.sigma_mm,
        trials.sigma_mm >= 0.0,
        "from-0",
    )?;
    let designed = gains(feed)?;
    let mut seen: Vec<Vec<f64>> = vec![Vec::with_capacity(trials.count); towards.len()];
    let mut dice = ChaCha8Rng::seed_from_u64(trials.seed);
    let error = Normal::new(0.0, trials.sigma_mm / 1e3).expect("a finite deviation, 0 or more");
    for _ in 0..trials.count {
        let mut cut = feed.clone();
        for b in &mut cut.branches {
            b.cable.length_m = (b.cable.length_m + error.sample(&mut dice)).max(0.0);
        }
        for (list, g) in seen.iter_mut().zip(gains(&cut)?) {
            list.push(g);
        }
    }
    Ok(towards
        .iter()
        .zip(designed)
        .zip(seen)
        .map(|((&d, g), list)| band(d, g, list))
        .collect())
}

fn band(towards: Direction, designed_dbd: f64, mut seen: Vec<f64>) -> Band {
    seen.sort_by(f64::total_cmp);
    let at = |p: f64| seen[((seen.len() - 1) as f64 * p).round() as usize];
    Band {
        towards,
        designed_dbd,
        p05_dbd: at(0.05),
        p50_dbd: at(0.5),
        p95_dbd: at(0.95),
    }
}
