//! Where the bays hang: families of places first, the best of them refined bay by bay.

use rayon::prelude::*;
use words::Message;

use super::excite::{self, Best, best_of, descended, equal, starts};
use super::seen::Solved;
use super::{Audience, Bounds, Goal, Harnessing, Shaped, check};
use crate::mount::{MountError, MountPlan};
use crate::wires::Standing;

/// Families of places that go into refinement.
const REFINED: usize = 2;
/// Steps of bearing and stand-off of the refinement.
const FINER: [(f64, f64); 3] = [(20.0, 0.10), (10.0, 0.05), (5.0, 0.025)];
/// So many of the best go on after each of them.
const GO_ON: [usize; 3] = [2, 2, 1];
/// So many starts are looked at on every turn, the others on the best one only.
const FIRST_STARTS: usize = 4;
/// Turns of the whole that are compared, degrees apart.
const TURN_DEG: f64 = 10.0;

/// Everything a search needs.
pub(super) struct Search<'a> {
    plan: &'a MountPlan,
    harness: &'a Harnessing,
    audience: &'a dyn Audience,
    bounds: &'a Bounds,
    goal: Goal,
    standing: Standing,
}

/// Places of the bays: bearings one by one, one stand-off for all.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Places {
    pub(super) bearings_deg: Vec<f64>,
    pub(super) stand_off_m: f64,
}

/// One step of the refinement: degrees, or metres.
#[derive(Debug, Clone, Copy)]
enum Step {
    /// Everything round the mast.
    All(f64),
    /// One bay round the mast.
    One(usize, f64),
    /// All bays further out.
    Off(f64),
}

/// Places with the best excitation found there.
pub(super) struct Found {
    pub(super) places: Places,
    pub(super) plan: MountPlan,
    pub(super) best: Best,
}

/// The best stack of these bays: bearings, stand-off, shares and phases for the goal, within every bound. With `from`, such as the best
/// equal stack, the search starts there, too, and so is never worse.
///
/// # Errors
/// [`MountError`] for figures out of range, and [`MountError::NoPlace`] when no place can be built.
pub fn shaped(
    plan: &MountPlan,
    harness: &Harnessing,
    audience: &dyn Audience,
    bounds: &Bounds,
    goal: Goal,
    from: Option<&Shaped>,
) -> Result<Shaped, MountError> {
    check(plan, audience, bounds)?;
    let search = Search::new(plan, harness, audience, bounds, goal);
    let families = search.families();
    let (mut found, mut solved, mut looked_at) = search.tried(&families, true)?;
    found.truncate(REFINED);
    found.extend(from.map(|from| search.started(from)).transpose()?);
    let mut all: Vec<Found> = Vec::new();
    for ((turn_deg, off_m), go_on) in FINER.into_iter().zip(GO_ON) {
        let moved: Vec<Result<(Found, usize, usize), MountError>> = found
            .into_par_iter()
            .map(|f| search.moved_about(f, turn_deg, off_m))
            .collect();
        found = Vec::new();
        for one in moved {
            let (one, more, looks) = one?;
            solved += more;
            looked_at += looks;
            found.push(one);
        }
        found.sort_by(|a, b| b.best.given.worth.total_cmp(&a.best.given.worth));
        all.extend(found.drain(go_on.min(found.len())..));
    }
    for one in found {
        let (one, looks) = search.settled(one, bounds)?;
        solved += 1;
        looked_at += looks;
        all.push(one);
    }
    all.sort_by(|a, b| b.best.given.worth.total_cmp(&a.best.given.worth));
    // Judged in full a stack may lose a little power to the mask, and with it the people wanted. Then its phases and powers are sought
    // once more under masks as much tighter; if that does not do, another one stands in, in the last place the stack from before.
    let mut best: Option<Shaped> = None;
    for one in all {
        let searched_w = one.best.given.mask_w;
        let mut answer = search.answer(&one, solved, looked_at)?;
        if !search.keeps(&answer) && answer.mask_w < searched_w {
            let tighter = tightened(bounds, answer.mask_w / searched_w);
            let (again, looks) = search.settled(one, &tighter)?;
            solved += 1;
            looked_at += looks;
            let again = search.answer(&again, solved, looked_at)?;
            if search.beats(&again, &answer) {
                answer = again;
            }
        }
        if best.as_ref().is_none_or(|b| search.beats(&answer, b)) {
            best = Some(answer);
        }
        if search.goal == Goal::MostPeople {
            break;
        }
    }
    let before = from.map(|from| Shaped {
        solved,
        looked_at,
        ..from.clone()
    });
    let beaten = |best: &Shaped| before.as_ref().is_some_and(|b| search.beats(b, best));
    match best {
        Some(best) if !beaten(&best) => Ok(best),
        best => Ok(before.or(best).expect("a family was found")),
    }
}

/// The same bounds with every mask lower by a ratio of powers.
fn tightened(bounds: &Bounds, ratio: f64) -> Bounds {
    let mut out = bounds.clone();
    let less_db = 10.0 * ratio.log10();
    let rows = out.masks.iter_mut().flat_map(|m| &mut m.dbw);
    rows.for_each(|row| *row += less_db);
    out
}

impl<'a> Search<'a> {
    pub(super) fn new(
        plan: &'a MountPlan,
        harness: &'a Harnessing,
        audience: &'a dyn Audience,
        bounds: &'a Bounds,
        goal: Goal,
    ) -> Self {
        Self {
            plan,
            harness,
            audience,
            bounds,
            goal,
            standing: Standing::near(),
        }
    }

    /// Whether an answer reaches the people that are wanted of it.
    fn keeps(&self, one: &Shaped) -> bool {
        match self.goal {
            Goal::MostPeople => true,
            Goal::LeastPower { people } => one.people >= people * (1.0 - 1e-6),
        }
    }

    /// Whether one answer is better than another, both judged in full.
    fn beats(&self, one: &Shaped, other: &Shaped) -> bool {
        match (self.goal, self.keeps(one), self.keeps(other)) {
            (Goal::LeastPower { .. }, true, true) => one.power_w < other.power_w,
            (Goal::LeastPower { .. }, now, before) if now != before => now,
            _ => one.people > other.people,
        }
    }

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

    pub(super) fn solved(&self, places: &Places) -> Result<Solved, MountError> {
        let mut plan = self.plan.clone();
        for (bay, bearing) in plan.bays.iter_mut().zip(&places.bearings_deg) {
            let turn = bay.facing_deg - bay.bearing_deg;
            bay.bearing_deg = *bearing;
            bay.facing_deg = bearing + turn;
            bay.stand_off_m = places.stand_off_m;
        }
        let mounted = plan.solved_on(&self.standing)?;
        Ok(Solved::new(plan, &mounted, self.bounds))
    }

    /// The best turn of every place, best first; with `free` excitations are sought, too, else all bays are alike.
    pub(super) fn tried(
        &self,
        places: &[Places],
        free: bool,
    ) -> Result<(Vec<Found>, usize, usize), MountError> {
        let heights: Vec<f64> = self.plan.bays.iter().map(|b| b.height_m).collect();
        let list = if free {
            starts(&heights, self.plan.frequency_mhz)?
        } else {
            vec![equal(heights.len())]
        };
        // The first alone fills the mast's block for all that follow.
        let _ = places.first().map(|p| self.solved(p));
        let tried: Vec<Result<Found, MountError>> = places
            .par_iter()
            .map(|places| {
                let solved = self.solved(places)?;
                let mut best: Option<(f64, Best)> = None;
                let mut looks = 0;
                for turn in self.turns(TURN_DEG) {
                    let seen = solved.turned(turn, self.audience, self.bounds, self.harness);
                    let one = best_of(&seen, &list[..list.len().min(FIRST_STARTS)], self.goal)?;
                    looks += one.looked_at;
                    if best.as_ref().is_none_or(|b| one.beats(&b.1)) {
                        best = Some((turn, one));
                    }
                }
                let (turn, mut best) = best.expect("at least one turn");
                let seen = solved.turned(turn, self.audience, self.bounds, self.harness);
                best.looked_at = looks;
                if free {
                    let more = best_of(&seen, &list, self.goal)?;
                    best.looked_at += more.looked_at;
                    if more.beats(&best) {
                        best = Best {
                            looked_at: best.looked_at,
                            ..more
                        };
                    }
                    best = descended(&seen, best, self.goal, self.bounds, 0..3)?;
                }
                let plan = seen.plan();
                let places = Places {
                    bearings_deg: plan.bays.iter().map(|b| b.bearing_deg).collect(),
                    stand_off_m: places.stand_off_m,
                };
                Ok(Found { places, plan, best })
            })
            .collect();
        let first = tried.iter().find_map(|t| t.as_ref().err().map(Message::from));
        let mut found: Vec<Found> = tried.into_iter().flatten().collect();
        if found.is_empty() {
            return Err(MountError::NoPlace {
                tried: places.len(),
                first: first.unwrap_or_else(|| Message::new("antenna-no-place-grid")),
            });
        }
        // Stable: of equals the one tried first.
        found.sort_by(|a, b| b.best.given.worth.total_cmp(&a.best.given.worth));
        let looks = found.iter().map(|f| f.best.looked_at).sum();
        Ok((found, places.len(), looks))
    }

    /// A stack found before, as a start.
    fn started(&self, from: &Shaped) -> Result<Found, MountError> {
        let places = Places {
            bearings_deg: from.plan.bays.iter().map(|b| b.bearing_deg).collect(),
            stand_off_m: from.plan.bays.first().map_or(0.0, |b| b.stand_off_m),
        };
        let fresh = self.solved(&places)?;
        let seen = fresh.turned(0.0, self.audience, self.bounds, self.harness);
        let best = best_of(&seen, std::slice::from_ref(&from.excitation), self.goal)?;
        Ok(Found {
            plan: fresh.plan.clone(),
            places,
            best,
        })
    }

    /// Moves the bays one by one, and all together, phases and powers following.
    fn moved_about(
        &self,
        from: Found,
        turn_deg: f64,
        off_m: f64,
    ) -> Result<(Found, usize, usize), MountError> {
        let (mut best, mut solved, mut looks) = (from, 0, 0);
        for step in self.steps(turn_deg, off_m) {
            let Some(places) = self.moved(&best.places, step) else {
                continue;
            };
            let Ok(fresh) = self.solved(&places) else { continue };
            solved += 1;
            let seen = fresh.turned(0.0, self.audience, self.bounds, self.harness);
            let start = Best {
                given: seen.given(&best.best.wanted, self.goal)?,
                wanted: best.best.wanted.clone(),
                looked_at: 1,
            };
            let one = descended(&seen, start, self.goal, self.bounds, 2..4)?;
            looks += one.looked_at;
            if one.beats(&best.best) {
                best = Found {
                    places,
                    plan: fresh.plan.clone(),
                    best: one,
                };
            }
        }
        Ok((best, solved, looks))
    }

    /// Phases and powers once more by every step, in the places as they are.
    fn settled(&self, mut found: Found, bounds: &Bounds) -> Result<(Found, usize), MountError> {
        let fresh = self.solved(&found.places)?;
        let seen = fresh.turned(0.0, self.audience, bounds, self.harness);
        let start = Best {
            given: seen.given(&found.best.wanted, self.goal)?,
            ..found.best
        };
        found.best = descended(&seen, start, self.goal, bounds, 0..5)?;
        let looks = found.best.looked_at;
        Ok((found, looks))
    }

    /// The steps of one round: each bay, all together, in and out.
    fn steps(&self, turn_deg: f64, off_m: f64) -> Vec<Step> {
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
    fn moved(&self, from: &Places, step: Step) -> Option<Places> {
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

    /// Judged once more as a licence does: at every degree of the whole pattern.
    pub(super) fn answer(
        &self,
        found: &Found,
        solved: usize,
        looked_at: usize,
    ) -> Result<Shaped, MountError> {
        let mut plan = found.plan.clone();
        for bay in &mut plan.bays {
            bay.bearing_deg = bay.bearing_deg.round().rem_euclid(360.0);
            bay.facing_deg = bay.facing_deg.round().rem_euclid(360.0);
            bay.stand_off_m = (bay.stand_off_m * 1000.0).round() / 1000.0;
        }
        let mounted = plan.solved_on(&self.standing)?;
        let fresh = Solved::new(plan.clone(), &mounted, self.bounds);
        let seen = fresh.turned(0.0, self.audience, self.bounds, self.harness);
        let excitation = excite::tidy(&found.best.wanted);
        let given = seen.given(&excitation, self.goal)?;
        let feed = self.harness.feed(&excitation, plan.frequency_mhz)?;
        let (pattern, fed) = mounted.pattern(&feed)?;
        let mask_w = self
            .bounds
            .masks
            .iter()
            .map(|mask| mask.allowed_w(&pattern))
            .fold(f64::INFINITY, f64::min)
            / fed.accepted_w();
        let (mut power_w, mut people) = (given.power_w, given.people);
        if mask_w < power_w {
            power_w = mask_w;
            people = seen.people_at(&excitation, power_w)?;
        }
        Ok(Shaped {
            plan,
            excitation,
            power_w,
            people,
            mask_w,
            solved,
            looked_at,
        })
    }
}
