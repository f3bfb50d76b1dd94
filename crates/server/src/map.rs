//! The field over the ground, as the desk hands it over and as the page is told of it.

use assess::said::Shown;
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};

/// No field here: outside what was computed.
pub const NO_FIELD: i16 = i16::MIN;

/// How the field is asked for.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize, ToSchema, IntoParams)]
pub struct FieldAsk {
    /// Tag of the emission; the first when absent.
    #[serde(default)]
    pub emission: Option<String>,
    /// Where it is heard.
    #[serde(default)]
    pub heard: Heard,
    /// Share of places, per cent: 50, 90 or 95.
    #[serde(default = "fifty")]
    pub places: u8,
}

fn fifty() -> u8 {
    50
}

/// Where a listener hears it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Heard {
    /// At 10 m, on the roof.
    #[default]
    Roof,
    /// Indoors.
    Indoors,
    /// In a car.
    Car,
}

/// A grid of the field with the ground below it. All planes run row by row from the north-west corner.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldPicture {
    /// What can be said of it.
    pub legend: Legend,
    /// Median field at each cell's middle, hundredths of a dBµV/m; [`NO_FIELD`] where there is none.
    pub field_hundredths: Vec<i16>,
    /// Ground above sea at each cell's middle, m; NaN where there is none.
    pub ground_m: Vec<f32>,
    /// Land, not water.
    pub land: Vec<bool>,
    /// Share of land round each cell, 0 to 1: the coast runs where it is half.
    pub land_round: Vec<f32>,
}

/// Everything about a map but its planes.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Legend {
    /// Token of the view it belongs to.
    pub token: String,
    /// A coarse map; the full one follows.
    pub coarse: bool,
    /// Cells from west to east.
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
    /// Height of a cell over its width, on the ground: what a pixel's sides are drawn by.
    pub aspect: f64,
    /// Width of one cell on the ground, in the middle of the map, m.
    pub cell_m: f64,
    /// The classes, rising; the first has no lower edge.
    pub classes: Vec<Class>,
    /// Unit of the classes.
    pub unit: String,
    /// What is drawn on it by name.
    pub marks: Vec<MapMark>,
    /// The scale bar's marks.
    pub scale: Vec<ScaleMark>,
    /// Places in the table beside it.
    pub places: Vec<PlaceLine>,
    /// The strip below: what it is, and what it says, such as `Method` and `Rec. ITU-R P.1812-7, 97.4 MHz`.
    pub strip: Vec<StripCell>,
    /// Who hears it in no class: a sentence below the small map.
    pub says: String,
}

/// One class of field.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Class {
    /// Lower edge in the map's unit; none for the lowest class.
    pub from: Option<f64>,
    /// That edge as written on map and ruler.
    pub edge: String,
    /// What it is wanted for, such as `town, stereo`.
    pub wanted_for: String,
    /// Its contour is dashed: mono is enough.
    pub mono: bool,
    /// Weight of its contour: 0 open country, 1 town, 2 large city.
    pub weight: u8,
    /// People who live in it.
    pub people: Shown,
}

/// Something named on the map. Places are in cells from the north-west corner.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MapMark {
    /// What is drawn.
    pub kind: MarkKind,
    /// First line.
    pub name: String,
    /// Second line.
    pub note: Option<String>,
    /// Cells from the west.
    pub x: f64,
    /// Cells from the north.
    pub y: f64,
}

/// What is drawn for a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum MarkKind {
    /// An antenna.
    Mast,
    /// The studio.
    Studio,
    /// A place.
    Place,
}

/// One mark of the scale bar.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ScaleMark {
    /// Cells from its start.
    pub cells: f64,
    /// What is written there.
    pub says: String,
}

/// One place in the table.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PlaceLine {
    /// Its name.
    pub name: String,
    /// Who lives there.
    pub people: Option<Shown>,
    /// Median field.
    pub median: Shown,
    /// In hand against what is wanted.
    pub in_hand: Option<Shown>,
    /// It is short.
    pub short: bool,
    /// The figure behind it, by id.
    pub figure: Option<String>,
    /// Cells from the west.
    pub x: f64,
    /// Cells from the north.
    pub y: f64,
}

/// One cell of the strip below a drawing.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StripCell {
    /// What it is.
    pub label: String,
    /// What it says.
    pub says: String,
}

/// A map as the page is told of it: legend and lines; the planes come as bytes.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Map {
    /// Everything but lines and planes.
    pub legend: Legend,
    /// The coast: rings in cells, x and y by turns.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub coast: Vec<Vec<f32>>,
    /// Lines of equal field.
    pub contours: Vec<Contour>,
    /// Where the planes are.
    pub raster: String,
}

/// The line of one class's lower edge.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Contour {
    /// Which class it begins.
    pub class: usize,
    /// Rings in cells, x and y by turns.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub rings: Vec<Vec<f32>>,
}
