//! Every place of a grid solved, but for those that are the same antenna turned.

use rayon::prelude::*;
use words::Message;

use super::{Found, Grid, MastPlace, Wish};
use crate::feed::Feed;
use crate::mount::{Mast, MountError, MountPlan, Mounted};
use crate::pattern::Pattern;
use crate::wires::Standing;

/// Every place of a grid, the best of them: the yardstick of [`super::best_place`].
///
/// A round mast needs one solution a stand-off, a lattice only the bearings within one of its repeats: the rest is the same
/// antenna turned. The mast's block of the matrix is factored once.
///
/// # Errors
/// [`MountError::NoPlace`] when no place can be built; those of the feed.
pub fn brute_force(plan: &MountPlan, feed: &Feed, wish: &Wish, grid: &Grid) -> Result<Found, MountError> {
    wish.check(grid)?;
    let (found, solved) = Solver::new(plan, feed, wish).every(grid)?;
    let best = found
        .into_iter()
        .max_by(|a, b| a.worst_place_dbw.total_cmp(&b.worst_place_dbw));
    best.map(|b| Found { solved, ..b }).ok_or(MountError::NoPlace {
        tried: solved,
        first: Message::new("antenna-no-place-grid"),
    })
}

/// What every place shares.
pub(super) struct Solver<'a> {
    pub(super) plan: &'a MountPlan,
    pub(super) feed: &'a Feed,
    pub(super) wish: &'a Wish,
    /// The mast's block of the matrix, the same at every place.
    standing: Standing,
}

impl<'a> Solver<'a> {
    pub(super) fn new(plan: &'a MountPlan, feed: &'a Feed, wish: &'a Wish) -> Self {
        Self {
            plan,
            feed,
            wish,
            standing: Standing::near(),
        }
    }

    /// All places of a grid, each antenna solved once, and the number solved.
    pub(super) fn every(&self, grid: &Grid) -> Result<(Vec<Found>, usize), MountError> {
        let turns = grid.bearings_deg();
        // One representative of the bearings that are the same but for a turn of the mast.
        let mut bearings: Vec<f64> = Vec::new();
        for &b in &turns {
            if !bearings.iter().any(|k| self.same(*k, b)) {
                bearings.push(b);
            }
        }
        let places: Vec<MastPlace> = grid
            .stand_offs_m()
            .iter()
            .flat_map(|&stand_off_m| {
                bearings.iter().map(move |&bearing_deg| MastPlace {
                    bearing_deg,
                    stand_off_m,
                })
            })
            .collect();
        let answers: Vec<Result<Vec<Found>, MountError>> = places
            .par_iter()
            .map(|&place| {
                let pattern = self.pattern(place)?;
                Ok(turns
                    .iter()
                    .filter(|b| self.same(**b, place.bearing_deg))
                    .map(|&b| self.judged(&pattern, place, b))
                    .collect())
            })
            .collect();
        let solved = answers.len();
        let first = answers.iter().find_map(|a| a.as_ref().err().map(Message::from));
        let found: Vec<Found> = answers.into_iter().flatten().flatten().collect();
        if found.is_empty() {
            return Err(MountError::NoPlace {
                tried: solved,
                first: first.unwrap_or_else(|| Message::new("antenna-no-place-grid")),
            });
        }
        Ok((found, solved))
    }

    pub(super) fn solved(&self, place: MastPlace) -> Result<Mounted, MountError> {
        self.plan.at_place(place).solved_on(&self.standing)
    }

    pub(super) fn pattern(&self, place: MastPlace) -> Result<Pattern, MountError> {
        Ok(self.solved(place)?.pattern(self.feed)?.0)
    }

    /// The antenna solved at `place`, turned so that it hangs at `bearing_deg`.
    pub(super) fn judged(&self, pattern: &Pattern, place: MastPlace, bearing_deg: f64) -> Found {
        let judged = self.wish.judged(pattern, bearing_deg - place.bearing_deg);
        judged.at(MastPlace { bearing_deg, ..place })
    }

    /// Turn that repeats the mast, degrees; none when it is round.
    pub(super) fn repeat_deg(&self) -> Option<f64> {
        match self.plan.mast {
            Mast::Lattice { .. } => self.plan.mast.repeats_deg(),
            _ => None,
        }
    }

    /// The bearing within the first repeat that is the same but for a turn of the mast.
    pub(super) fn within_repeat_deg(&self, bearing_deg: f64) -> f64 {
        self.repeat_deg().map_or(0.0, |r| bearing_deg.rem_euclid(r))
    }

    fn same(&self, a_deg: f64, b_deg: f64) -> bool {
        self.repeat_deg().is_none_or(|r| {
            let turns = (a_deg - b_deg) / r;
            (turns - turns.round()).abs() < 1e-9
        })
    }
}
