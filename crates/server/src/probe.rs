//! The field at one place.

use assess::said::Shown;
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};

/// Which place is asked for: cells of the map, or a name or position as typed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema, IntoParams)]
pub struct ProbeAsk {
    /// Tag of the emission; the first when absent.
    #[serde(default)]
    pub emission: Option<String>,
    /// Where it is heard.
    #[serde(default)]
    pub heard: crate::map::Heard,
    /// Share of places, per cent.
    #[serde(default)]
    pub places: Option<u8>,
    /// Cells from the west edge of the map.
    #[serde(default)]
    pub x: Option<f64>,
    /// Cells from its north edge.
    #[serde(default)]
    pub y: Option<f64>,
    /// A place's name, or a position, as typed.
    #[serde(default)]
    pub at: Option<String>,
}

/// The field at a place with each loss term, and the path to it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Probe {
    /// From where to where, such as `Cold Ridge to Skerrow`.
    pub title: String,
    /// Bearing, distance and earth, in words.
    pub note: String,
    /// The place's name, or its position.
    pub name: String,
    /// Cells from the west.
    pub x: f64,
    /// Cells from the north.
    pub y: f64,
    /// Median field there.
    pub field: Shown,
    /// In hand against what is wanted there.
    pub in_hand: Option<Shown>,
    /// It is short.
    pub short: bool,
    /// What is wanted there, on the ladder's axis.
    pub wanted: Option<Wanted>,
    /// From ERP to field, term by term.
    pub rungs: Vec<Rung>,
    /// Unit of the ladder.
    pub unit: String,
    /// The path.
    pub profile: Profile,
    /// The field by the second method, and how much more that is, in one sentence.
    pub second: Option<String>,
}

/// What is wanted at a place.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Wanted {
    /// On the ladder's axis.
    pub value: f64,
    /// The level, said.
    pub says: String,
}

/// One step of the ladder.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Rung {
    /// What takes it.
    pub label: String,
    /// How much.
    pub change: Shown,
    /// Level before.
    pub from: f64,
    /// Level after.
    pub to: f64,
    /// A level of our signal, not a loss.
    pub level: bool,
}

/// The ground under a path, the earth's bulge added, and the ray over it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Profile {
    /// Unit along.
    pub along_unit: String,
    /// Unit of heights, such as `m above sea`.
    pub height_unit: String,
    /// Ground: along, height.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub ground: Vec<(f64, f64)>,
    /// Ground with trees and houses; empty where it is bare.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub cover: Vec<(f64, f64)>,
    /// The straight ray, end to end.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub ray: Vec<(f64, f64)>,
    /// The string over the obstacles, end to end.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub string: Vec<(f64, f64)>,
    /// Upper edge of the zone the ray wants clear.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub zone_above: Vec<(f64, f64)>,
    /// Its lower edge.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub zone_below: Vec<(f64, f64)>,
    /// What stands most in the way.
    pub obstacle: Option<Obstacle>,
    /// Height at the far end above its ground, said.
    pub far_says: String,
}

/// What stands most in the way of a ray.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Obstacle {
    /// Along the path.
    pub along: f64,
    /// Its height.
    pub height: f64,
    /// Where on the map: cells from the west.
    pub x: f64,
    /// Cells from the north.
    pub y: f64,
    /// How far out it stands, said.
    pub title: String,
    /// Its height above the ray and what it takes, said.
    pub note: String,
}
