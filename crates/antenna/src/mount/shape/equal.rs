//! The best stack of bays that are all alike: the yardstick of what shaping gains, and a start for it.

use super::apart::Apart;
use super::excite::{best_of, equal};
use super::places::Places;
use super::search::{Found, Search};
use super::{Audience, Bounds, Goal, Harnessing, Shaped, check};
use crate::mount::{MountError, MountPlan};

/// Grid of the equal stacks.
const EQUAL_TURN_DEG: f64 = 10.0;
const EQUAL_OFF_M: f64 = 0.10;

/// The best stack of these bays all on one side, alike in phase and power: bearing and stand-off by a grid of 10° and 10 cm, then by
/// smaller steps down to 2.5° and 2.5 cm.
///
/// # Errors
/// As [`super::shaped`].
pub fn best_equal(
    plan: &MountPlan,
    harness: &Harnessing,
    audience: &dyn Audience,
    bounds: &Bounds,
    goal: Goal,
) -> Result<Shaped, MountError> {
    check(plan, audience, bounds)?;
    let search = Search::new(plan, harness, audience, bounds, goal);
    let mut apart = Apart::new(plan, audience, bounds);
    let (from, to) = bounds.stand_off_m;
    let steps = ((to - from) / EQUAL_OFF_M + 1e-9) as usize;
    let side = |bearing: f64, stand_off_m: f64| Places {
        bearings_deg: vec![bearing.rem_euclid(360.0); plan.bays.len()],
        stand_off_m,
    };
    let places: Vec<Places> = (0..=steps)
        .flat_map(|i| {
            search
                .origins(EQUAL_TURN_DEG)
                .into_iter()
                .map(move |bearing| (bearing, from + EQUAL_OFF_M * i as f64))
        })
        .map(|(bearing, off)| side(bearing, off))
        .collect();
    let (mut found, mut solved, mut looked_at) = search.tried(&mut apart, &places, false)?;
    let mut best = found.swap_remove(0);
    // Then half the steps, and half again, round the best.
    for halves in [2.0, 4.0] {
        let (turn, off) = (EQUAL_TURN_DEG / halves, EQUAL_OFF_M / halves);
        let (bearing, stand_off) = (best.places.bearings_deg[0], best.places.stand_off_m);
        for (a, b) in [
            (1.0, 0.0),
            (-1.0, 0.0),
            (0.0, 1.0),
            (0.0, -1.0),
            (1.0, 1.0),
            (-1.0, -1.0),
        ] {
            let near = side(bearing + a * turn, (stand_off + b * off).clamp(from, to));
            search.prepare(&mut apart, [&near]);
            let solved_there = search.solved(&apart, &near)?;
            let seen = solved_there.turned(0.0, audience, bounds, harness);
            let one = best_of(&seen, &[equal(plan.bays.len())], goal)?;
            (solved, looked_at) = (solved + 1, looked_at + 1);
            if one.beats(&best.best) {
                best = Found {
                    places: near,
                    plan: solved_there.plan.clone(),
                    best: one,
                };
            }
        }
    }
    search.answer(&best, solved, looked_at)
}
