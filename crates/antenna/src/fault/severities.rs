//! Which faults are considered, and how severe: steps fine enough that what lies between two of them is told by either.

use std::collections::HashSet;

use super::{Fault, Installation};
use crate::feed::{Cable, End};

/// Steps of a wrong cable's electrical length, degrees.
pub(super) const PHASE_STEP_DEG: f64 = 10.0;
/// Velocities that cables have.
const VELOCITIES: std::ops::Range<f64> = 0.6..0.95;
/// Extra losses grow by a quarter from step to step: half of that either side.
pub(super) const HALF_A_LOSS_STEP: f64 = 0.12;
/// Steps of a resonance, MHz.
pub(super) const DETUNED_STEP_MHZ: f64 = 1.5;

/// Prior share of healthy installations among those that are measured (practice has no figure; a half is neutral).
const PRIOR_HEALTHY: f64 = 0.5;

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

/// Before any reading: healthy or not; then every sort of fault alike, every place of it, every severity considered there. A stack of many
/// bays has many pairs of cables that could be swapped; that makes a swap no likelier.
pub(super) fn priors(faults: &[Fault]) -> Vec<f64> {
    let sort = |f: &Fault| std::mem::discriminant(f);
    let sorts: HashSet<_> = faults.iter().map(sort).collect();
    let each_sort = (1.0 - PRIOR_HEALTHY) / (sorts.len() - 1).max(1) as f64;
    let count = |test: &dyn Fn(&Fault) -> bool| faults.iter().filter(|f| test(f)).count() as f64;
    let places = |f: &Fault| {
        let of_sort = faults.iter().filter(|o| sort(o) == sort(f)).map(Fault::kind);
        of_sort.collect::<HashSet<_>>().len() as f64
    };
    faults
        .iter()
        .map(|f| match f {
            Fault::Healthy => PRIOR_HEALTHY,
            _ => each_sort / places(f) / count(&|o| o.kind() == f.kind()),
        })
        .collect()
}

fn losses_db(from: f64, count: i32) -> impl Iterator<Item = f64> {
    (0..count).map(move |i| from * 1.25f64.powi(i))
}

/// Velocities that turn a branch's phase by steps of [`PHASE_STEP_DEG`], by a whole turn either way: of two that come to the same phase,
/// and so to nearly the same readings, the one nearer to what was built, or the one that cables have.
fn wrong_velocities(cable: Cable, freq_mhz: f64) -> Vec<f64> {
    let built_deg = cable.phase_deg(freq_mhz);
    let turn = (360.0 / PHASE_STEP_DEG) as i32;
    let velocity = |i: i32| {
        let ratio = cable.line.velocity_ratio * built_deg / (built_deg + PHASE_STEP_DEG * f64::from(i));
        VELOCITIES.contains(&ratio).then_some((i, ratio))
    };
    let mut known: Vec<(i32, f64)> = Vec::new();
    for (i, ratio) in (1..turn).flat_map(|i| [-i, i]).filter_map(velocity) {
        if known.iter().all(|k| (k.0 - i).rem_euclid(turn) != 0) {
            known.push((i, ratio));
        }
    }
    known.into_iter().map(|k| k.1).collect()
}
