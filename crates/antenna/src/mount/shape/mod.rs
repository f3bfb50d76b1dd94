//! Bays shaped for people: bearings, stand-off, phases and powers chosen so that most of an audience is served under a mask.
//!
//! Currents are linear in their excitations, so one solution for each place of the bays answers for every phase and power there:
//! the inner search costs no solution ([`excite`]), the outer one moves bays round the mast ([`search`]), whose own block of the
//! matrix is factored once. Both are plain descents from several starts, the same on every machine and number of threads.

mod apart;
mod equal;
mod excite;
mod floor;
mod places;
mod search;
mod seen;
mod solved;
mod sums;

pub use equal::best_equal;
pub use floor::{least_power_floor_anywhere_w, least_power_floor_w};
pub use search::shaped;

use serde::Serialize;

use super::{MountError, MountPlan};
use crate::array::within;
use crate::direction::{Direction, Plane};
use crate::feed::{Excitation, Feed, Splitter};
use crate::line::LineConstants;
use crate::pattern::Pattern;

/// Which plane listeners take.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Heard {
    /// One plane.
    In(Plane),
    /// Whichever is stronger in their direction.
    Stronger,
}

/// Those who are to be reached, by direction.
pub trait Audience: Sync {
    /// Directions behind which somebody is.
    fn directions(&self) -> &[Direction];

    /// The plane they take.
    fn heard(&self) -> Heard;

    /// How many are reached.
    ///
    /// # Units
    /// - `erp_dbw`: ERP towards each of the directions, in their order, dBW
    fn people(&self, erp_dbw: &[f32]) -> f64;

    /// How many of those behind one direction are reached; all directions together are [`Self::people`].
    ///
    /// # Units
    /// - `erp_dbw`: ERP towards it, dBW
    fn people_behind(&self, direction: usize, erp_dbw: f32) -> f64;
}

/// What ERP may not exceed, all elevations counted.
#[derive(Debug, Clone, PartialEq)]
pub struct Mask {
    /// The plane it is for; the sum of both when none.
    pub plane: Option<Plane>,
    /// Most ERP, dBW, by bearing in equal steps from north; straight between.
    pub dbw: Vec<f64>,
}

impl Mask {
    /// Most ERP towards a bearing, dBW.
    pub fn at_dbw(&self, bearing_deg: f64) -> f64 {
        let rows = self.dbw.len();
        let x = bearing_deg.rem_euclid(360.0) / 360.0 * rows as f64;
        let (i, t) = (x as usize % rows, x - x.floor());
        self.dbw[i] * (1.0 - t) + self.dbw[(i + 1) % rows] * t
    }

    /// Power accepted at the feed's input that just meets it, W: held against a pattern at every degree.
    pub fn allowed_w(&self, pattern: &Pattern) -> f64 {
        let counted = Plane::BOTH
            .into_iter()
            .filter(|p| self.plane.is_none_or(|q| q == *p));
        let planes: Vec<Plane> = counted.collect();
        (0..360)
            .map(f64::from)
            .map(|bearing| {
                let each = |p: &Plane| 10f64.powf(pattern.strongest_dbd(*p, bearing) / 10.0);
                10f64.powf(self.at_dbw(bearing) / 10.0) / planes.iter().map(each).sum::<f64>()
            })
            .fold(f64::INFINITY, f64::min)
    }
}

/// What bounds the choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Bounds {
    /// Masks, every one of them kept.
    pub masks: Vec<Mask>,
    /// Most power sent to the splitter, W.
    pub power_w: f64,
    /// Most power into one bay, W.
    pub bay_w: Option<f64>,
    /// Least and largest stand-off from the mast's axis, m.
    pub stand_off_m: (f64, f64),
    /// Largest difference between the shares of two bays, dB.
    pub share_spread_db: f64,
}

/// How the bays are fed: every branch of the same cable, cut to its phase.
#[derive(Debug, Clone, PartialEq)]
pub struct Harnessing {
    /// The splitter.
    pub splitter: Splitter,
    /// The branch cable.
    pub line: LineConstants,
    /// The shortest branch, m.
    pub shortest_m: f64,
    /// Temperature of the branch cables, °C.
    pub conductor_c: f64,
}

impl Harnessing {
    /// The feed for wanted shares and phases.
    ///
    /// # Errors
    /// As [`Feed::for_excitation`].
    pub fn feed(&self, wanted: &[Excitation], freq_mhz: f64) -> Result<Feed, MountError> {
        let mut feed = Feed::for_excitation(
            self.splitter.clone(),
            wanted,
            self.line,
            self.shortest_m,
            freq_mhz,
        )?;
        feed.conductor_c = self.conductor_c;
        Ok(feed)
    }
}

/// What is sought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Goal {
    /// Most people at the power allowed.
    MostPeople,
    /// So many people with the least power.
    LeastPower {
        /// How many.
        people: f64,
    },
}

/// A stack and what it gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Shaped {
    /// The bays in their places.
    pub plan: MountPlan,
    /// Share and phase of each bay, in the order of the plan; phases from −180 to 180.
    pub excitation: Vec<Excitation>,
    /// Power at the splitter, W: what the goal needs, within every bound.
    pub power_w: f64,
    /// People reached at that power.
    pub people: f64,
    /// Power the masks alone allow, W.
    pub mask_w: f64,
    /// Places of the bays solved to find it.
    pub solved: usize,
    /// Excitations looked at.
    pub looked_at: usize,
}

/// Refuses what cannot be searched.
fn check(plan: &MountPlan, audience: &dyn Audience, bounds: &Bounds) -> Result<(), MountError> {
    let power_w = bounds.power_w;
    within(
        "power-at-the-splitter-in-w",
        power_w,
        power_w > 0.0,
        "a-power-above-0",
    )?;
    let (from_m, to_m) = bounds.stand_off_m;
    within("least-stand-off-in-m", from_m, from_m >= 0.0, "from-0")?;
    let ok = to_m >= from_m && to_m <= 20.0;
    within("largest-stand-off-in-m", to_m, ok, "from-the-least-to-20")?;
    for mask in &bounds.masks {
        let rows = mask.dbw.len() as f64;
        within("rows-of-the-mask", rows, rows > 0.0, "at-least-one")?;
        for row in &mask.dbw {
            within("a-row-of-the-mask-in-dbw", *row, row.is_finite(), "a-finite-erp")?;
        }
    }
    let directions = audience.directions().len() as f64;
    within(
        "directions-with-people-behind-them",
        directions,
        directions > 0.0,
        "at-least-one",
    )?;
    let bays = plan.bays.len() as f64;
    within(
        "number-of-bays",
        bays,
        (1.0..=16.0).contains(&bays),
        "from-1-to-16",
    )?;
    Ok(())
}
