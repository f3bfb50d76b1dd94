//! Which faults are considered, and how severe: steps fine enough that what lies between two of them is told by either.

use super::{Fault, Installation};
use crate::feed::{Cable, End};

/// Steps of a wrong cable's electrical length, degrees.
pub(super) const PHASE_STEP_DEG: f64 = 20.0;
/// Velocities that cables have.
const VELOCITIES: std::ops::Range<f64> = 0.6..0.95;
/// Extra losses grow by a quarter from step to step: half of that either side.
pub(super) const HALF_A_LOSS_STEP: f64 = 0.12;
/// Steps of a resonance, MHz.
pub(super) const DETUNED_STEP_MHZ: f64 = 1.5;

/// Every fault and severity considered, the healthy installation first.
pub(super) fn considered(of: &Installation) -> Vec<Fault> {
    let mut out = vec![Fault::Healthy];
    let n = of.feed.branches.len();
    for bay in 0..n {
        out.push(Fault::UpsideDown { bay });
        out.extend([End::Open, End::Short].map(|end| Fault::DeadBay { bay, end }));
        let wrong = wrong_velocities(of.feed.branches[bay].cable, of.aerial.frequency_mhz());
        out.extend(wrong.into_iter().map(|velocity_ratio| Fault::WrongVelocity {
            branch: bay,
            velocity_ratio,
        }));
        out.extend(losses_db(3.0, 6).map(|extra_db| Fault::WaterInBranch {
            branch: bay,
            extra_db,
        }));
        let moved = |i: i32| f64::from(i) * DETUNED_STEP_MHZ + f64::from(i.signum());
        out.extend((-5..=5).filter(|i: &i32| i.abs() > 1).map(|i| Fault::Detuned {
            bay,
            by_mhz: moved(i),
        }));
        out.extend((bay + 1..n).map(|second| Fault::Swapped { first: bay, second }));
    }
    out.extend(losses_db(2.0, 6).map(|extra_db| Fault::WaterInFeeder { extra_db }));
    out
}

fn losses_db(from: f64, count: i32) -> impl Iterator<Item = f64> {
    (0..count).map(move |i| from * 1.25f64.powi(i))
}

/// Velocities that turn a branch's phase by steps of [`PHASE_STEP_DEG`], up to half a turn either way: beyond it the same readings
/// come again.
fn wrong_velocities(cable: Cable, freq_mhz: f64) -> Vec<f64> {
    let built_deg = cable.phase_deg(freq_mhz);
    let steps = (180.0 / PHASE_STEP_DEG) as i32;
    (-steps..=steps)
        .filter(|i| *i != 0)
        .map(|i| cable.line.velocity_ratio * built_deg / (built_deg + PHASE_STEP_DEG * f64::from(i)))
        .filter(|v| VELOCITIES.contains(v))
        .collect()
}
