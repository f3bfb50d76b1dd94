//! The best place: known between a few solved ones, and what is named solved in full.

use std::collections::HashMap;

use words::Message;

use super::climb::{climbed, spread};
use super::grid::Solver;
use super::smooth::Smooth;
use super::{Found, Grid, MastPlace, Wish};
use crate::feed::Feed;
use crate::mount::{MountError, MountPlan};
use crate::pattern::Pattern;

/// Digits of the interpolation; the second only where the first proves too rough.
const DIGITS: [f64; 2] = [2.2, 4.0];
/// An error between solved places larger than this asks for more of them, dB.
const ROUGH_DB: f64 = 0.1;
/// An error not seen may be so many times the largest one seen.
const DOUBT: f64 = 2.0;
/// From so many places of the grid the search climbs.
const STARTS: usize = 4;

/// The best place, to a degree and a centimetre, never worse than the best of the grid.
///
/// A few places are solved and the antenna is known between them; the places found there are solved in full. The largest
/// difference seen between both ways, doubled, bounds what may be overlooked: every place of the grid that could still be better is solved
/// in full, too.
///
/// # Errors
/// [`MountError::NoPlace`] when no place can be built; those of the feed.
pub fn best_place(plan: &MountPlan, feed: &Feed, wish: &Wish, grid: &Grid) -> Result<Found, MountError> {
    wish.check(grid)?;
    let solver = Solver::new(plan, feed, wish);
    let mut search = Search {
        solver: &solver,
        grid,
        known: HashMap::new(),
        solved: 0,
    };
    let (runs, first) = buildable(plan, grid);
    let mut best: Option<Found> = None;
    for run in &runs {
        let found = search.within(*run)?;
        if best.is_none_or(|b| found.worst_place_dbw > b.worst_place_dbw) {
            best = Some(found);
        }
    }
    let best = best.ok_or_else(|| MountError::NoPlace {
        tried: grid.stand_offs_m().len(),
        first: first
            .as_ref()
            .map_or_else(|| Message::new("antenna-no-place-grid"), Message::from),
    })?;
    Ok(Found {
        solved: search.solved,
        ..best
    })
}

/// Stretches of the grid's stand-offs that can be built, first and last; and what is wrong with the first that cannot.
fn buildable(plan: &MountPlan, grid: &Grid) -> (Vec<(f64, f64)>, Option<MountError>) {
    let mut runs: Vec<(f64, f64)> = Vec::new();
    let (mut first, mut open) = (None, false);
    for stand_off_m in grid.stand_offs_m() {
        let place = MastPlace {
            bearing_deg: 0.0,
            stand_off_m,
        };
        match (plan.at_place(place).wires(), runs.last_mut()) {
            (Ok(_), Some(run)) if open => run.1 = stand_off_m,
            (Ok(_), _) => {
                runs.push((stand_off_m, stand_off_m));
                open = true;
            }
            (Err(fault), _) => {
                first.get_or_insert(fault);
                open = false;
            }
        }
    }
    (runs, first)
}

struct Search<'a> {
    solver: &'a Solver<'a>,
    grid: &'a Grid,
    /// Patterns solved in full, by bearing within a repeat of the mast and by stand-off.
    known: HashMap<(i64, i64), Option<Pattern>>,
    solved: usize,
}

impl Search<'_> {
    /// The best place between two stand-offs.
    fn within(&mut self, run: (f64, f64)) -> Result<Found, MountError> {
        let grid = Grid {
            from_m: run.0,
            to_m: run.1,
            ..*self.grid
        };
        let bearings = self
            .solver
            .repeat_deg()
            .map_or(1.0, |r| r / grid.bearing_step_deg);
        let every = grid.stand_offs_m().len() as f64 * bearings;
        for digits in DIGITS {
            let places = Smooth::places(self.solver, run, digits)?;
            if places as f64 >= every {
                break;
            }
            let Ok(smooth) = Smooth::new(self.solver, run, digits) else {
                break;
            };
            self.solved += places;
            if let Some(found) = self.between(&smooth, &grid, run) {
                return Ok(found);
            }
        }
        let (found, solved) = self.solver.every(&grid)?;
        self.solved += solved;
        let climbs = spread(found, &grid, STARTS)
            .into_iter()
            .map(|start| climbed(start, &grid, run, |place| self.full(place)));
        let best = climbs.max_by(|a, b| a.worst_place_dbw.total_cmp(&b.worst_place_dbw));
        best.ok_or(MountError::NoPlace {
            tried: self.solved,
            first: Message::new("antenna-no-place-grid"),
        })
    }

    /// The best place by a smooth antenna, solved in full; none where the smooth one proves too rough.
    fn between(&mut self, smooth: &Smooth, grid: &Grid, run: (f64, f64)) -> Option<Found> {
        let every = smooth.every(grid);
        let mut told: Vec<Found> = spread(every.clone(), grid, STARTS)
            .into_iter()
            .map(|start| climbed(start, grid, run, |place| smooth.judged(place)))
            .collect();
        told.extend(every);
        told.sort_by(|a, b| b.worst_place_dbw.total_cmp(&a.worst_place_dbw));
        let mut error_db = 0.0f64;
        for place in smooth.between() {
            self.solved += 1;
            error_db = error_db.max(smooth.error_db(place)?);
        }
        let mut best: Option<Found> = None;
        for told in told {
            // Sorted: none after it may be better either.
            if best.is_some_and(|b| told.worst_place_dbw + DOUBT * error_db < b.worst_place_dbw) {
                break;
            }
            let Some(found) = self.full(told.place) else {
                continue;
            };
            error_db = error_db.max((told.worst_place_dbw - found.worst_place_dbw).abs());
            if error_db > ROUGH_DB {
                return None;
            }
            if best.is_none_or(|b| found.worst_place_dbw > b.worst_place_dbw) {
                best = Some(found);
            }
        }
        best
    }

    /// A place solved in full, but for a turn of the mast only once.
    fn full(&mut self, place: MastPlace) -> Option<Found> {
        let at = MastPlace {
            bearing_deg: self.solver.within_repeat_deg(place.bearing_deg),
            ..place
        };
        let key = (
            (at.bearing_deg * 1e4).round() as i64,
            (at.stand_off_m * 1e6).round() as i64,
        );
        if !self.known.contains_key(&key) {
            self.solved += 1;
            self.known.insert(key, self.solver.pattern(at).ok());
        }
        let pattern = self.known.get(&key)?.as_ref()?;
        Some(self.solver.judged(pattern, at, place.bearing_deg))
    }
}
