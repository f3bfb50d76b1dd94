//! The harness: cable lengths that give wanted phases.

use serde::Serialize;

use super::Feed;
use crate::array::{ArrayError, Stack, within};
use crate::line::LineConstants;

/// One row of the cutting list.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CutLength {
    /// Number of the bay, from 1, in the order of the stack.
    pub bay: usize,
    /// Length to cut, between the reference planes of the connectors, m.
    pub length_m: f64,
    /// How much longer than the shortest, mm.
    pub longer_mm: f64,
    /// Phase wanted at the bay, degrees, positive leads.
    pub phase_deg: f64,
}

/// Cable lengths for wanted phases: the bay that must lag gets the longer cable, the one that leads most gets `shortest_m`.
///
/// # Errors
/// [`ArrayError::Range`] for a negative length or a frequency not above 0.
pub fn cutting_list(
    phases_deg: &[f64],
    line: LineConstants,
    shortest_m: f64,
    freq_mhz: f64,
) -> Result<Vec<CutLength>, ArrayError> {
    within(
        "shortest-branch-cable-in-m",
        shortest_m,
        shortest_m >= 0.0,
        "from-0",
    )?;
    within(
        "frequency-in-mhz",
        freq_mhz,
        freq_mhz > 0.0,
        "a-frequency-above-0",
    )?;
    let per_m = line.phase_deg_per_m(freq_mhz);
    let lead = phases_deg.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    Ok(phases_deg
        .iter()
        .enumerate()
        .map(|(i, &phase_deg)| {
            let longer_m = (lead - phase_deg) / per_m;
            CutLength {
                bay: i + 1,
                length_m: shortest_m + longer_m,
                longer_mm: longer_m * 1e3,
                phase_deg,
            }
        })
        .collect())
}

/// The feed with its branch lengths trimmed until the bays' **currents**, coupling included, have the wanted phases against
/// each other, and the largest phase error left, degrees.
///
/// # Errors
/// Those of [`Feed::solve`]; [`ArrayError::Length`] unless there is one phase a bay.
pub fn trimmed(feed: &Feed, stack: &Stack, phases_deg: &[f64]) -> Result<(Feed, f64), ArrayError> {
    if phases_deg.len() != feed.branches.len() {
        return Err(ArrayError::Length {
            what: "phases",
            given: phases_deg.len(),
            wanted: feed.branches.len(),
        });
    }
    let ports = stack.port_matrix_ohm()?;
    let mut best = feed.clone();
    let mut left = phase_errors_deg(&best, &ports, stack.frequency_mhz, phases_deg)?;
    for _ in 0..30 {
        let mut next = best.clone();
        for (b, error) in next.branches.iter_mut().zip(&left) {
            let step_m = 0.7 * error / b.cable.line.phase_deg_per_m(stack.frequency_mhz);
            b.cable.length_m = (b.cable.length_m + step_m).max(0.0);
        }
        let after = phase_errors_deg(&next, &ports, stack.frequency_mhz, phases_deg)?;
        if largest(&after) >= largest(&left) {
            break;
        }
        (best, left) = (next, after);
    }
    Ok((best, largest(&left)))
}

fn largest(errors_deg: &[f64]) -> f64 {
    errors_deg.iter().fold(0.0, |a, e| a.max(e.abs()))
}

/// How much each current leads what it should, degrees, their mean taken out.
fn phase_errors_deg(
    feed: &Feed,
    ports: &crate::array::Matrix,
    freq_mhz: f64,
    phases_deg: &[f64],
) -> Result<Vec<f64>, ArrayError> {
    let fed = feed.solve_ports(ports, freq_mhz)?;
    let turned: Vec<_> = fed
        .currents_a
        .iter()
        .zip(phases_deg)
        .map(|(i, p)| i * num_complex::Complex64::from_polar(1.0, -p.to_radians()))
        .collect();
    let mean: num_complex::Complex64 = turned.iter().map(|t| t / t.norm().max(1e-300)).sum();
    Ok(turned
        .iter()
        .map(|t| (t * mean.conj()).arg().to_degrees())
        .collect())
}
