//! Where the bays hang: families of places first, the best of them refined bay by bay.

use rayon::prelude::*;
use words::Message;

use super::apart::Apart;
use super::excite::{self, Best, best_of, descended, equal, starts};
use super::places::Places;
use super::solved::Solved;
use super::{Audience, Bounds, Goal, Harnessing, Shaped, check};
use crate::mount::{MountError, MountPlan};
use crate::wires::Standing;

/// Families of places that go into refinement.
const REFINED: usize = 3;
/// Steps of bearing and stand-off of the refinement.
const FINER: [(f64, f64); 3] = [(20.0, 0.10), (10.0, 0.05), (5.0, 0.025)];
/// So many of the best go on after each of them.
const GO_ON: [usize; 3] = [3, 2, 1];
/// So many starts are looked at on every turn, the others on the best one only.
const FIRST_STARTS: usize = 4;
/// Turns of the whole that are compared, degrees apart.
const TURN_DEG: f64 = 10.0;

/// Everything a search needs.
pub(super) struct Search<'a> {
    pub(super) plan: &'a MountPlan,
    harness: &'a Harnessing,
    audience: &'a dyn Audience,
    pub(super) bounds: &'a Bounds,
    goal: Goal,
    standing: Standing,
}

/// Places with the best excitation found there.
pub(super) struct Found {
    pub(super) places: Places,
    pub(super) plan: MountPlan,
    pub(super) best: Best,
}

/// Where a search has gone, the places solved and the excitations looked at on the way.
type Moved = (Found, usize, usize);

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
    let mut apart = Apart::new(plan, audience, bounds);
    let (mut found, mut solved, mut looked_at) = search.tried(&mut apart, &families, true)?;
    found.truncate(REFINED);
    found.extend(from.map(|from| search.started(from)).transpose()?);
    let mut all: Vec<Found> = Vec::new();
    for ((turn_deg, off_m), go_on) in FINER.into_iter().zip(GO_ON) {
        // Each with a copy of what is known, so that none depends on how far the others are.
        let moved: Vec<(Result<Moved, MountError>, Apart)> = found
            .into_par_iter()
            .map(|f| {
                let mut apart = apart.clone();
                (search.moved_about(&mut apart, f, turn_deg, off_m), apart)
            })
            .collect();
        found = Vec::new();
        for (one, learnt) in moved {
            apart.learn(learnt);
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

    /// Bays in these places, put together from bays solved one by one where that can be; else solved as they are.
    pub(super) fn solved(&self, apart: &Apart<'_>, places: &Places) -> Result<Solved, MountError> {
        let plan = self.placed(places);
        match apart.together(&plan)? {
            Some((ports_ohm, alone)) => Ok(Solved::of(plan, ports_ohm, alone, self.bounds)),
            None => self.solved_in_full(plan),
        }
    }

    /// Solves what these places are put together from.
    pub(super) fn prepare<'p>(&self, apart: &mut Apart<'_>, places: impl IntoIterator<Item = &'p Places>) {
        let plans: Vec<MountPlan> = places.into_iter().map(|p| self.placed(p)).collect();
        apart.prepare(&plans);
    }

    fn solved_in_full(&self, plan: MountPlan) -> Result<Solved, MountError> {
        let mounted = plan.solved_on(&self.standing)?;
        Ok(Solved::new(plan, &mounted, self.bounds))
    }

    /// The best turn of every place, best first; with `free` excitations are sought, too, else all bays are alike.
    pub(super) fn tried(
        &self,
        apart: &mut Apart<'_>,
        places: &[Places],
        free: bool,
    ) -> Result<(Vec<Found>, usize, usize), MountError> {
        let heights: Vec<f64> = self.plan.bays.iter().map(|b| b.height_m).collect();
        let list = if free {
            starts(&heights, self.plan.frequency_mhz)?
        } else {
            vec![equal(heights.len())]
        };
        self.prepare(apart, places);
        let apart = &*apart;
        let tried: Vec<Result<Found, MountError>> = places
            .par_iter()
            .map(|places| {
                let solved = self.solved(apart, places)?;
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
        let fresh = self.solved_in_full(self.placed(&places))?;
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
        apart: &mut Apart<'_>,
        from: Found,
        turn_deg: f64,
        off_m: f64,
    ) -> Result<Moved, MountError> {
        let (mut best, mut solved, mut looks) = (from, 0, 0);
        let steps = self.steps(turn_deg, off_m);
        let all: Vec<Places> = steps
            .iter()
            .filter_map(|s| self.moved(&best.places, *s))
            .collect();
        self.prepare(apart, &all);
        for step in steps {
            let Some(places) = self.moved(&best.places, step) else {
                continue;
            };
            self.prepare(apart, [&places]);
            let Ok(fresh) = self.solved(apart, &places) else {
                continue;
            };
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
        let fresh = self.solved_in_full(self.placed(&found.places))?;
        let seen = fresh.turned(0.0, self.audience, bounds, self.harness);
        let start = Best {
            given: seen.given(&found.best.wanted, self.goal)?,
            ..found.best
        };
        found.best = descended(&seen, start, self.goal, bounds, 0..5)?;
        let looks = found.best.looked_at;
        Ok((found, looks))
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
