//! The programme's way from studio to transmitter, hop by hop.

use crate::probe::{Profile, Rung, Wanted};
use assess::said::Shown;
use serde::Serialize;
use utoipa::ToSchema;

/// One hop.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Hop {
    /// Its tag.
    pub tag: String,
    /// From where to where.
    pub title: String,
    /// How it travels, how far, at which frequency.
    pub note: String,
    /// It waits in reserve.
    pub reserve: bool,
    /// The radio path; none for a line.
    pub radio: Option<RadioHop>,
    /// Why a radio path is not drawn.
    pub why_not: Option<String>,
}

/// A radio path, to be drawn.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RadioHop {
    /// The path at the median k.
    pub profile: Profile,
    /// What stands on the ground at the low k: along, height.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub low_ground: Vec<(f64, f64)>,
    /// What is written on it.
    pub low_says: String,
    /// Height of the near aerial, said.
    pub near_says: String,
    /// Where the ray is nearest to what stands there.
    pub nearest: Nearest,
    /// From what is radiated to what is received, term by term.
    pub rungs: Vec<Rung>,
    /// Unit of the ladder.
    pub unit: String,
    /// Level at which the receiver fails.
    pub threshold: Wanted,
    /// Fade margin.
    pub in_hand: Shown,
    /// There is none.
    pub short: bool,
    /// What takes the programme away, in a year.
    pub fades: Vec<Fade>,
    /// What may be lost in a year, on the same axis.
    pub allowed: Option<Fade>,
}

/// Where a ray is nearest to what stands there.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Nearest {
    /// Along the path.
    pub along: f64,
    /// Height of the ray there, as drawn.
    pub ray: f64,
    /// Height of what stands there, as drawn.
    pub ground: f64,
    /// How clear it is.
    pub says: String,
    /// How clear it is to be, and where.
    pub note: String,
    /// It is less than wanted.
    pub short: bool,
}

/// A share of the year.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Fade {
    /// What takes it.
    pub label: String,
    /// How much, or why that is not known.
    pub time: Shown,
    /// Length on the axis, 0 to 1.
    pub share: f64,
}
