//! Phases and powers for bays in their places: a descent along each coordinate in turn, from several usual starts.

use super::seen::{Given, Seen};
use super::{Bounds, Goal};
use crate::feed::Excitation;
use crate::feed::synthesis::{tilt_phases_deg, tilted_and_filled, with_quadratic_phase};
use crate::mount::MountError;

/// Steps of phase and of share, from coarse to fine.
const STEPS: [(f64, f64); 5] = [(40.0, 3.0), (20.0, 1.5), (10.0, 0.8), (5.0, 0.4), (2.0, 0.2)];

/// An excitation and what it gives.
#[derive(Debug, Clone)]
pub(super) struct Best {
    pub(super) wanted: Vec<Excitation>,
    pub(super) given: Given,
    pub(super) looked_at: usize,
}

impl Best {
    /// Clearly more worth than another; of equals the one with less power.
    pub(super) fn beats(&self, other: &Best) -> bool {
        let (a, b) = (&self.given, &other.given);
        let near = 1e-9 * (a.worth.abs() + b.worth.abs());
        a.worth > b.worth + near || (a.worth >= b.worth - near && a.power_w < 0.999 * b.power_w)
    }
}

/// All bays alike.
pub(super) fn equal(bays: usize) -> Vec<Excitation> {
    vec![
        Excitation {
            share: 1.0,
            phase_deg: 0.0
        };
        bays
    ]
}

/// Usual excitations: tilts, halves of unequal power, a little bend of phase.
pub(super) fn starts(heights_m: &[f64], freq_mhz: f64) -> Result<Vec<Vec<Excitation>>, MountError> {
    let mut out = vec![equal(heights_m.len())];
    if heights_m.len() < 2 {
        return Ok(out);
    }
    for tilt_deg in [1.5, 4.0, 0.7, 2.5] {
        let phases = tilt_phases_deg(heights_m, freq_mhz, tilt_deg)?;
        let tilted = phases.iter().map(|&phase_deg| Excitation {
            share: 1.0,
            phase_deg,
        });
        out.push(tilted.collect());
    }
    for tilt_deg in [0.7, 1.5, 3.0] {
        out.push(tilted_and_filled(heights_m, freq_mhz, tilt_deg, 0.7)?);
    }
    out.push(with_quadratic_phase(equal(heights_m.len()), heights_m, 40.0));
    Ok(out)
}

/// The best of some excitations as they are.
pub(super) fn best_of(seen: &Seen, list: &[Vec<Excitation>], goal: Goal) -> Result<Best, MountError> {
    let mut best: Option<Best> = None;
    for wanted in list {
        let candidate = Best {
            given: seen.given_beyond(wanted, goal, best.as_ref().map(|b| &b.given))?,
            wanted: wanted.clone(),
            looked_at: list.len(),
        };
        if best.as_ref().is_none_or(|b| candidate.beats(b)) {
            best = Some(candidate);
        }
    }
    Ok(best.expect("a list of starts is never empty"))
}

/// Walks from an excitation to the best near it.
pub(super) fn descended(
    seen: &Seen,
    from: Best,
    goal: Goal,
    bounds: &Bounds,
    steps: std::ops::Range<usize>,
) -> Result<Best, MountError> {
    let mut best = from;
    for &(phase_deg, share_db) in &STEPS[steps] {
        for _ in 0..6 {
            let mut moved = false;
            for bay in 0..seen.bays() {
                for (turn, gain_db) in [
                    (phase_deg, 0.0),
                    (-phase_deg, 0.0),
                    (0.0, share_db),
                    (0.0, -share_db),
                ] {
                    // Far along a direction that pays.
                    for reach in 0..4 {
                        let mut wanted = best.wanted.clone();
                        wanted[bay].phase_deg += turn;
                        wanted[bay].share *= 10f64.powf(gain_db / 10.0);
                        if !fair(&wanted, bounds) {
                            break;
                        }
                        let candidate = Best {
                            given: seen.given_beyond(&wanted, goal, Some(&best.given))?,
                            wanted,
                            looked_at: 0,
                        };
                        best.looked_at += 1;
                        if !candidate.beats(&best) {
                            break;
                        }
                        best = Best {
                            looked_at: best.looked_at,
                            ..candidate
                        };
                        moved |= reach == 0;
                    }
                }
            }
            if !moved {
                break;
            }
        }
    }
    best.wanted = tidy(&best.wanted);
    best.given = seen.given(&best.wanted, goal)?;
    Ok(best)
}

/// Shares no further apart than allowed.
fn fair(wanted: &[Excitation], bounds: &Bounds) -> bool {
    let (low, high) = wanted.iter().fold((f64::INFINITY, 0.0f64), |(l, h), e| {
        (l.min(e.share), h.max(e.share))
    });
    10.0 * (high / low).log10() <= bounds.share_spread_db + 1e-9
}

/// As a harness is ordered: whole degrees against the bay that leads least, thousandths of the power.
pub(super) fn tidy(wanted: &[Excitation]) -> Vec<Excitation> {
    let total: f64 = wanted.iter().map(|e| e.share).sum();
    let first = wanted.first().map_or(0.0, |e| e.phase_deg);
    wanted
        .iter()
        .map(|e| {
            let turned = (e.phase_deg - first + 180.0).rem_euclid(360.0) - 180.0;
            Excitation {
                share: (e.share / total * 1000.0).round().max(1.0) / 1000.0,
                phase_deg: turned.round(),
            }
        })
        .collect()
}
