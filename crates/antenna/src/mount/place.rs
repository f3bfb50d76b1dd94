//! Best place on the mast: bearing and stand-off for a licence mask and the places to serve.

use std::collections::HashMap;

use rayon::prelude::*;
use serde::{Deserialize, Serialize};

use super::{Mast, MountError, MountPlan};
use crate::array::within;
use crate::direction::{Direction, Plane};
use crate::feed::Feed;
use crate::pattern::Pattern;
use crate::wires::Standing;

/// Where the bays hang.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct MastPlace {
    /// Bearing from the mast's axis, degrees clockwise from true north.
    pub bearing_deg: f64,
    /// Distance from the axis, m.
    pub stand_off_m: f64,
}

/// What the place is judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// The plane the licence counts.
    pub plane: Plane,
    /// Most ERP allowed, dBW, by bearing in equal steps from north (36 rows, say).
    pub mask_dbw: Vec<f64>,
    /// Most power at the splitter, dBW.
    pub power_dbw: f64,
    /// Directions of the places to serve; the worst served counts.
    pub places: Vec<Direction>,
}

/// Places to look at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// Step of bearing, degrees.
    pub bearing_step_deg: f64,
    /// Least stand-off, m.
    pub from_m: f64,
    /// Largest stand-off, m.
    pub to_m: f64,
    /// Step of stand-off, m.
    pub step_m: f64,
}

/// A place and what it gives.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Found {
    /// The place.
    pub place: MastPlace,
    /// Power at the splitter that the mask allows there, dBW, at most the wish's.
    pub power_dbw: f64,
    /// ERP towards the worst served place, dBW.
    pub worst_place_dbw: f64,
    /// How far the ERP at full power would lie inside the mask (negative: over it), dB.
    pub mask_margin_db: f64,
    /// Antennas solved to find it.
    pub solved: usize,
}

impl Wish {
    /// Power allowed, worst place and margin for a pattern.
    pub fn judged(&self, pattern: &Pattern) -> (f64, f64, f64) {
        let rows = self.mask_dbw.len();
        // Between rows the mask runs straight; the pattern is held against it at every degree.
        let mask = |bearing: f64| {
            let x = bearing / 360.0 * rows as f64;
            let (i, t) = (x as usize, x - x.floor());
            self.mask_dbw[i % rows] * (1.0 - t) + self.mask_dbw[(i + 1) % rows] * t
        };
        let room = if rows == 0 {
            f64::INFINITY
        } else {
            (0..360)
                .map(|b| mask(f64::from(b)) - pattern.strongest_dbd(self.plane, f64::from(b)))
                .fold(f64::INFINITY, f64::min)
        };
        let power = self.power_dbw.min(room);
        let worst = self
            .places
            .iter()
            .map(|d| power + pattern.gain_dbd(self.plane, d.bearing_deg, d.elev_deg))
            .fold(f64::INFINITY, f64::min);
        (power, worst, room - self.power_dbw)
    }
}

/// The best place: a coarse grid of places that differ, then ever finer steps round its best few.
///
/// A round mast needs one solution a stand-off, a lattice only the bearings within one of its repeats: the rest is the same
/// antenna turned.
///
/// # Errors
/// [`MountError::NoPlace`] when no place can be built; those of the feed.
pub fn best_place(plan: &MountPlan, feed: &Feed, wish: &Wish, grid: &Grid) -> Result<Found, MountError> {
    let solver = Solver {
        plan,
        feed,
        wish,
        standing: Standing::default(),
    };
    let coarse = Grid {
        step_m: 2.0 * grid.step_m,
        bearing_step_deg: 2.0 * grid.bearing_step_deg,
        ..*grid
    };
    let (mut best, mut solved) = solver.search(&coarse)?;
    best.sort_by(|a, b| b.worst_place_dbw.total_cmp(&a.worst_place_dbw));
    let mut top: Option<Found> = None;
    for start in spread(&best, &coarse).into_iter().take(4) {
        let (found, more) = solver.refined(start, grid);
        solved += more;
        if top.is_none_or(|t| found.worst_place_dbw > t.worst_place_dbw) {
            top = Some(found);
        }
    }
    let top = top.unwrap_or(best[0]);
    Ok(Found { solved, ..top })
}

/// Every place of a grid, the best of them: the yardstick of [`best_place`].
///
/// # Errors
/// As [`best_place`].
pub fn brute_force(plan: &MountPlan, feed: &Feed, wish: &Wish, grid: &Grid) -> Result<Found, MountError> {
    let (found, solved) = Solver {
        plan,
        feed,
        wish,
        standing: Standing::default(),
    }
    .search(grid)?;
    let best = found
        .into_iter()
        .max_by(|a, b| a.worst_place_dbw.total_cmp(&b.worst_place_dbw));
    best.map(|b| Found { solved, ..b }).ok_or(MountError::NoPlace {
        tried: solved,
        first: "an empty grid".into(),
    })
}

struct Solver<'a> {
    plan: &'a MountPlan,
    feed: &'a Feed,
    wish: &'a Wish,
    /// The mast's block of the matrix, the same at every place.
    standing: Standing,
}

impl Solver<'_> {
    /// All places of a grid, each antenna solved once, and the number solved.
    fn search(&self, grid: &Grid) -> Result<(Vec<Found>, usize), MountError> {
        self.check(grid)?;
        let offs = steps(grid.from_m, grid.to_m, grid.step_m);
        let turns: Vec<f64> = steps(0.0, 360.0 - 1e-6, grid.bearing_step_deg);
        let (origin, repeat) = self.symmetry();
        let bearings: Vec<f64> = match repeat {
            None => vec![origin],
            Some(repeat) => {
                // One representative of the bearings that are the same but for a turn of the mast.
                let mut kept: Vec<f64> = Vec::new();
                for &b in &turns {
                    let same = |k: &&f64| ((b - **k) / repeat - ((b - **k) / repeat).round()).abs() < 1e-9;
                    if kept.iter().find(same).is_none() {
                        kept.push(b);
                    }
                }
                kept
            }
        };
        let places: Vec<MastPlace> = offs
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
                let same = |b: &&f64| match repeat {
                    None => true,
                    Some(r) => {
                        ((**b - place.bearing_deg) / r - ((**b - place.bearing_deg) / r).round()).abs() < 1e-9
                    }
                };
                Ok(turns
                    .iter()
                    .filter(same)
                    .map(|&b| self.judged(&pattern, place, b))
                    .collect())
            })
            .collect();
        let solved = answers.len();
        let first = answers
            .iter()
            .find_map(|a| a.as_ref().err().map(ToString::to_string));
        let found: Vec<Found> = answers.into_iter().flatten().flatten().collect();
        if found.is_empty() {
            return Err(MountError::NoPlace {
                tried: solved,
                first: first.unwrap_or_default(),
            });
        }
        Ok((found, solved))
    }

    fn check(&self, grid: &Grid) -> Result<(), MountError> {
        let places = self.wish.places.len();
        within(
            "number of places to serve",
            places as f64,
            places > 0,
            "at least one",
        )?;
        within(
            "power at the splitter in dBW",
            self.wish.power_dbw,
            true,
            "a finite power",
        )?;
        for &row in &self.wish.mask_dbw {
            within("a row of the mask in dBW", row, true, "a finite ERP")?;
        }
        let turn = grid.bearing_step_deg;
        within(
            "step of bearing in degrees",
            turn,
            (0.5..=180.0).contains(&turn),
            "0.5 to 180",
        )?;
        within(
            "step of stand-off in m",
            grid.step_m,
            grid.step_m >= 0.005,
            "0.005 or more",
        )?;
        within(
            "least stand-off in m",
            grid.from_m,
            grid.from_m >= 0.0,
            "0 or more",
        )?;
        within(
            "largest stand-off in m",
            grid.to_m,
            grid.to_m >= grid.from_m && grid.to_m <= 20.0,
            "from the least to 20",
        )?;
        Ok(())
    }

    /// Walks from a place to the best one near it, halving the steps down to a degree and a centimetre.
    fn refined(&self, start: Found, grid: &Grid) -> (Found, usize) {
        let mut best = start;
        // What was solved once is not solved again: on a round mast a step of bearing costs nothing.
        let mut known: HashMap<(i64, i64), Option<Pattern>> = HashMap::new();
        let (mut turn, mut off) = (grid.bearing_step_deg, grid.step_m);
        let round = self.symmetry().1.is_none();
        while turn >= 1.0 || off >= 0.01 {
            let from = best.place;
            let mut moved = false;
            for (db, dr) in [
                (1.0, 0.0),
                (-1.0, 0.0),
                (0.0, 1.0),
                (0.0, -1.0),
                (1.0, 1.0),
                (-1.0, -1.0),
                (1.0, -1.0),
                (-1.0, 1.0),
            ] {
                let stand_off_m = from.stand_off_m + dr * off;
                if stand_off_m < grid.from_m - 1e-9 || stand_off_m > grid.to_m + 1e-9 {
                    continue;
                }
                let bearing_deg = (from.bearing_deg + db * turn).rem_euclid(360.0);
                let solve_at = if round {
                    MastPlace {
                        bearing_deg: 0.0,
                        stand_off_m,
                    }
                } else {
                    MastPlace {
                        bearing_deg,
                        stand_off_m,
                    }
                };
                let key = (
                    (solve_at.bearing_deg * 1e4).round() as i64,
                    (stand_off_m * 1e6).round() as i64,
                );
                let pattern = known.entry(key).or_insert_with(|| self.pattern(solve_at).ok());
                let Some(pattern) = pattern else { continue };
                let found = self.judged(pattern, solve_at, bearing_deg);
                if found.worst_place_dbw > best.worst_place_dbw + 1e-6 {
                    (best, moved) = (found, true);
                }
            }
            if !moved {
                (turn, off) = (turn / 2.0, off / 2.0);
            }
        }
        (best, known.len())
    }

    fn pattern(&self, place: MastPlace) -> Result<Pattern, MountError> {
        Ok(self
            .plan
            .at_place(place)
            .solved_on(&self.standing)?
            .pattern(self.feed)?
            .0)
    }

    /// The antenna solved at `place`, turned so that it hangs at `bearing_deg`.
    fn judged(&self, pattern: &Pattern, place: MastPlace, bearing_deg: f64) -> Found {
        let turned;
        let seen = if (bearing_deg - place.bearing_deg).abs() < 1e-9 {
            pattern
        } else {
            turned = pattern.turned(bearing_deg - place.bearing_deg);
            &turned
        };
        let (power_dbw, worst_place_dbw, mask_margin_db) = self.wish.judged(seen);
        let place = MastPlace { bearing_deg, ..place };
        Found {
            place,
            power_dbw,
            worst_place_dbw,
            mask_margin_db,
            solved: 0,
        }
    }

    /// A bearing to solve at, and the turn that repeats the mast; none when it is round.
    fn symmetry(&self) -> (f64, Option<f64>) {
        match self.plan.mast {
            Mast::Lattice { face_bearing_deg, .. } => (face_bearing_deg, self.plan.mast.repeats_deg()),
            _ => (0.0, None),
        }
    }
}

/// The best of the sorted places that are not neighbours of a better one.
fn spread(sorted: &[Found], grid: &Grid) -> Vec<Found> {
    let mut out: Vec<Found> = Vec::new();
    for f in sorted {
        let near = |g: &Found| {
            let turn = (f.place.bearing_deg - g.place.bearing_deg + 540.0).rem_euclid(360.0) - 180.0;
            turn.abs() < 1.5 * grid.bearing_step_deg
                && (f.place.stand_off_m - g.place.stand_off_m).abs() < 1.5 * grid.step_m
        };
        if !out.iter().any(near) {
            out.push(*f);
        }
        if out.len() == 6 {
            break;
        }
    }
    out
}

fn steps(from: f64, to: f64, step: f64) -> Vec<f64> {
    let count = ((to - from) / step.max(1e-6) + 1e-9).floor().max(0.0) as usize;
    (0..=count).map(|i| from + step * i as f64).collect()
}
