//! Where the mast should stand: the best hills, and people served from every cell.

use assess::said::Shown;
use serde::{Deserialize, Serialize};
use station::Edit;
use utoipa::{IntoParams, ToSchema};

/// No share here: water, outside the area, or behind missing ground.
pub const NO_SHARE: i16 = i16::MIN;

/// What the mast is asked to do; what is left out comes from the station.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema, IntoParams)]
pub struct MastAsk {
    /// Places to serve: tags, names or positions, with `;` between them. Those the brief wants when absent; at most 20.
    #[serde(default)]
    pub places: Option<String>,
    /// Radiated power in the plane listeners hear, as typed: `500 W`.
    #[serde(default)]
    pub erp: Option<String>,
    /// Height of the antenna above ground, as typed: `30 m`.
    #[serde(default)]
    pub mast: Option<String>,
}

/// The best hills, and where the shares of all cells are.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Masts {
    /// Token of the view it belongs to.
    pub token: String,
    /// What was asked, in a sentence: places, power, height, area.
    pub says: String,
    /// What a reader must know beside it, such as a place whose people nobody knows.
    pub notes: Vec<String>,
    /// The best hills, best first; none when no cell serves anybody.
    pub best: Vec<MastHill>,
    /// People of all places: what 100 % are.
    pub people: Shown,
    /// Cells of the planes from west to east; the grid is the field map's.
    pub width: usize,
    /// Cells from north to south.
    pub height: usize,
    /// Western edge, degrees.
    pub west_deg: f64,
    /// Northern edge, degrees.
    pub north_deg: f64,
    /// Width of a cell, degrees.
    pub step_lon_deg: f64,
    /// Height of a cell, degrees.
    pub step_lat_deg: f64,
    /// Where the shares are: row by row from the north-west corner, little-endian 16-bit hundredths of a per cent of all people
    /// (0 to 10000; −32768 where no mast can stand).
    pub raster: String,
}

/// One hill.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MastHill {
    /// 1 for the best.
    pub rank: usize,
    /// Its position, said.
    pub name: String,
    /// Cells from the west edge of the map.
    pub x: f64,
    /// Cells from its north edge.
    pub y: f64,
    /// Ground above the sea.
    pub ground: Shown,
    /// People served, each place's counted with the probability of being served.
    pub people: Shown,
    /// Their share of all people, 0 to 1.
    pub share: f64,
    /// How many places it reaches, said.
    pub reaches: String,
    /// Each place.
    pub places: Vec<MastPlace>,
    /// Edits that put the antenna's site there; none where the station has no site to move.
    #[schema(value_type = Vec<Object>)]
    pub edits: Vec<Edit>,
}

/// One place as a hill serves it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MastPlace {
    /// Its name.
    pub name: String,
    /// In hand against what is wanted there; none behind missing ground.
    pub in_hand: Option<Shown>,
    /// It is short.
    pub short: bool,
}

/// Hills with the shares of all cells.
#[derive(Debug, Clone, PartialEq)]
pub struct MastPicture {
    /// What is told.
    pub masts: Masts,
    /// Hundredths of a per cent of all people, row by row from the north-west; [`NO_SHARE`] where no mast can stand.
    pub share_hundredths: Vec<i16>,
}
