//! Best place on the mast: bearing and stand-off for a licence mask and the places to serve.
//!
//! [`brute_force`] solves every place of a grid and is the oracle. [`best_place`] solves a few places and knows the others between
//! them: port impedances and fields are smooth in the place ([`smooth`]). What it names is solved in full, and so is every place of the
//! grid that might be as good by the largest error seen.

mod climb;
mod grid;
mod search;
mod smooth;
mod sphere;

pub use grid::brute_force;
pub use search::best_place;

use serde::{Deserialize, Serialize};

use super::MountError;
use crate::array::within;
use crate::direction::{Direction, Plane};
use crate::pattern::Pattern;

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

/// What a wish makes of a pattern.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Judged {
    power_dbw: f64,
    worst_place_dbw: f64,
    mask_margin_db: f64,
}

impl Judged {
    fn at(self, place: MastPlace) -> Found {
        Found {
            place,
            power_dbw: self.power_dbw,
            worst_place_dbw: self.worst_place_dbw,
            mask_margin_db: self.mask_margin_db,
            solved: 0,
        }
    }
}

impl Wish {
    /// A pattern turned clockwise by `by_deg`.
    fn judged(&self, pattern: &Pattern, by_deg: f64) -> Judged {
        let strongest = |bearing: f64| pattern.strongest_dbd(self.plane, bearing - by_deg);
        self.judged_by(strongest, |d| {
            pattern.gain_dbd(self.plane, d.bearing_deg - by_deg, d.elev_deg)
        })
    }

    /// Power allowed, worst place and margin, by the strongest gain on a bearing and the gain towards a place, dBd.
    fn judged_by(
        &self,
        strongest_dbd: impl Fn(f64) -> f64,
        towards_dbd: impl Fn(Direction) -> f64,
    ) -> Judged {
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
                .map(f64::from)
                .map(|b| mask(b) - strongest_dbd(b))
                .fold(f64::INFINITY, f64::min)
        };
        let power_dbw = self.power_dbw.min(room);
        let worst_place_dbw = self
            .places
            .iter()
            .map(|d| power_dbw + towards_dbd(*d))
            .fold(f64::INFINITY, f64::min);
        Judged {
            power_dbw,
            worst_place_dbw,
            mask_margin_db: room - self.power_dbw,
        }
    }

    /// Refuses what cannot be searched.
    fn check(&self, grid: &Grid) -> Result<(), MountError> {
        let places = self.places.len();
        within(
            "number-of-places-to-serve",
            places as f64,
            places > 0,
            "at-least-one",
        )?;
        within(
            "power-at-the-splitter-in-dbw",
            self.power_dbw,
            true,
            "a-finite-power",
        )?;
        for &row in &self.mask_dbw {
            within("a-row-of-the-mask-in-dbw", row, true, "a-finite-erp")?;
        }
        let turn = grid.bearing_step_deg;
        within(
            "step-of-bearing-in-degrees",
            turn,
            (0.5..=180.0).contains(&turn),
            "from-0-5-to-180",
        )?;
        within(
            "step-of-stand-off-in-m",
            grid.step_m,
            grid.step_m >= 0.005,
            "from-0-005",
        )?;
        within("least-stand-off-in-m", grid.from_m, grid.from_m >= 0.0, "from-0")?;
        within(
            "largest-stand-off-in-m",
            grid.to_m,
            grid.to_m >= grid.from_m && grid.to_m <= 20.0,
            "from-the-least-to-20",
        )?;
        Ok(())
    }
}

impl Grid {
    fn stand_offs_m(&self) -> Vec<f64> {
        steps(self.from_m, self.to_m, self.step_m)
    }

    fn bearings_deg(&self) -> Vec<f64> {
        steps(0.0, 360.0 - 1e-6, self.bearing_step_deg)
    }
}

fn steps(from: f64, to: f64, step: f64) -> Vec<f64> {
    let count = ((to - from) / step.max(1e-6) + 1e-9).floor().max(0.0) as usize;
    (0..=count).map(|i| from + step * i as f64).collect()
}
