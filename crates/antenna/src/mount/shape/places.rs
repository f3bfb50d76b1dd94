//! Where bays may hang: families of places to begin with, and steps from one place to the next.

use super::search::Search;
use crate::mount::MountPlan;

/// Places of the bays: bearings one by one, one stand-off for all.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Places {
    pub(super) bearings_deg: Vec<f64>,
    pub(super) stand_off_m: f64,
}

/// One step of the refinement: degrees, or metres.
#[derive(Debug, Clone, Copy)]
pub(super) enum Step {
    /// Everything round the mast.
    All(f64),
    /// One bay round the mast.
    One(usize, f64),
    /// All bays further out.
    Off(f64),
}

impl Search<'_> {
    /// Bearings that are not the same but for a turn of the mast.
    pub(super) fn origins(&self, step_deg: f64) -> Vec<f64> {
        let Some(repeat) = self.plan.mast.repeats_deg() else {
            return vec![0.0];
        };
        (0..(repeat / step_deg).round().max(1.0) as usize)
            .map(|i| i as f64 * step_deg)
            .collect()
    }

    /// Turns of the whole that cost no solution.
    pub(super) fn turns(&self, step_deg: f64) -> Vec<f64> {
        let step = self.plan.mast.repeats_deg().unwrap_or(step_deg);
        (0..(360.0 / step).round() as usize)
            .map(|i| i as f64 * step)
            .collect()
    }

    /// Usual places: all on one side; the upper part elsewhere; by turns on two sides; wound round the mast.
    pub(super) fn families(&self) -> Vec<Places> {
        let n = self.plan.bays.len();
        let (from, to) = self.bounds.stand_off_m;
        let offs = |count: usize| -> Vec<f64> {
            (0..count)
                .map(|i| from + (to - from) * (i as f64 + 0.5) / count as f64)
                .collect()
        };
        let mut out: Vec<Places> = Vec::new();
        let mut add = |stand_off_m: f64, step_deg: f64, apart: &dyn Fn(usize) -> f64| {
            for origin in self.origins(step_deg) {
                let places = Places {
                    bearings_deg: (0..n).map(|i| (origin + apart(i)).rem_euclid(360.0)).collect(),
                    stand_off_m,
                };
                if !out.contains(&places) {
                    out.push(places);
                }
            }
        };
        let round = self.plan.mast.repeats_deg().is_none();
        for off in offs(if round { 10 } else { 5 }) {
            add(off, 30.0, &|_| 0.0);
        }
        if n > 1 {
            for off in offs(2) {
                for apart in [60.0, 120.0, 180.0] {
                    add(off, 60.0, &|i| if 2 * i >= n { apart } else { 0.0 });
                    add(off, 60.0, &|i| if i % 2 == 1 { apart } else { 0.0 });
                }
                add(off, 60.0, &|i| 360.0 * i as f64 / n as f64);
            }
        }
        out
    }

    /// The plan with its bays in these places.
    pub(super) fn placed(&self, places: &Places) -> MountPlan {
        let mut plan = self.plan.clone();
        for (bay, bearing) in plan.bays.iter_mut().zip(&places.bearings_deg) {
            let turn = bay.facing_deg - bay.bearing_deg;
            bay.bearing_deg = *bearing;
            bay.facing_deg = bearing + turn;
            bay.stand_off_m = places.stand_off_m;
        }
        plan
    }

    /// The steps of one round: each bay, all together, in and out.
    pub(super) fn steps(&self, turn_deg: f64, off_m: f64) -> Vec<Step> {
        let n = self.plan.bays.len();
        let mut out = Vec::new();
        for sign in [1.0, -1.0] {
            out.push(Step::All(sign * turn_deg));
            out.push(Step::Off(sign * off_m));
            if n > 1 {
                out.extend((0..n).map(|bay| Step::One(bay, sign * turn_deg)));
            }
        }
        out
    }

    /// Places after a step; none where nothing moves.
    pub(super) fn moved(&self, from: &Places, step: Step) -> Option<Places> {
        let (low, high) = self.bounds.stand_off_m;
        let mut to = from.clone();
        match step {
            Step::All(by) => to
                .bearings_deg
                .iter_mut()
                .for_each(|b| *b = (*b + by).rem_euclid(360.0)),
            Step::One(bay, by) => {
                to.bearings_deg[bay] = (to.bearings_deg[bay] + by).rem_euclid(360.0);
            }
            Step::Off(by) => to.stand_off_m = (to.stand_off_m + by).clamp(low, high),
        }
        (to != *from).then_some(to)
    }
}
