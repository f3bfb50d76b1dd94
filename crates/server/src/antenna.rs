//! The antenna as it radiates and as it is fed: pattern unrolled, currents, bays, cables, the table by azimuth.

use assess::said::Shown;
use serde::Serialize;
use utoipa::ToSchema;

/// One antenna with one emission.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Antenna {
    /// Tag of the emission.
    pub emission: String,
    /// Tag of the antenna.
    pub antenna: String,
    /// By which model it was solved, in a sentence.
    pub model: String,
    /// It is the fast model's draft.
    pub draft: bool,
    /// How far the fast model was off, in a sentence.
    pub apart: Option<String>,
    /// The planes it is made for.
    pub planes: Vec<UnrolledPattern>,
    /// Currents along its wires; none for a draft.
    pub currents: Option<Currents>,
    /// The bays, the topmost first.
    pub bays: Vec<AntennaBay>,
    /// The cables to cut, by way of the splitter.
    pub harness: Vec<HarnessWay>,
    /// What those cables are.
    pub harness_cable: Option<String>,
    /// By azimuth: ERP, licence, room in hand, effective height.
    pub annex: Vec<AnnexLine>,
    /// Height over the mean terrain, said.
    pub mean_height: Option<String>,
    /// Room in hand by azimuth, to be drawn: degrees, dB; empty without a licence.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub in_hand: Vec<(f64, f64)>,
}

/// A pattern on the plane of azimuth and depression.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct UnrolledPattern {
    /// The plane, in words.
    pub plane: String,
    /// Greatest gain.
    pub gain: Shown,
    /// Where it is greatest, said.
    pub towards: String,
    /// Degrees of azimuth from row's cell to cell; the first cell is about north.
    pub azimuth_step_deg: f64,
    /// Depression of the first row, degrees below the horizon; rows go down.
    pub from_deg: f64,
    /// Degrees from row to row.
    pub step_deg: f64,
    /// Class of each cell, row by row: 0 is the weakest.
    pub rows: Vec<Vec<u8>>,
    /// What each class is, the weakest first.
    pub classes: Vec<String>,
    /// Places on it.
    pub places: Vec<PlaceOnPattern>,
}

/// A place as the antenna sees it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PlaceOnPattern {
    /// Its name.
    pub name: String,
    /// Degrees clockwise from true north.
    pub az_deg: f64,
    /// Degrees below the horizon.
    pub depression_deg: f64,
    /// Its direction and what goes there, said.
    pub says: String,
}

/// Currents along wires, seen from beside the bays.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Currents {
    /// The greatest current and the power it is at, said.
    pub says: String,
    /// Pieces of wire by class, the weakest first.
    pub classes: Vec<CurrentClass>,
}

/// Pieces of wire with about one current.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CurrentClass {
    /// What the class is, said.
    pub says: String,
    /// Pieces: out and up, then out and up, metres from the mast's axis and above the ground.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub pieces: Vec<[f64; 4]>,
}

/// One bay.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct AntennaBay {
    /// Number from the top.
    pub number: usize,
    /// It hangs upside down.
    pub inverted: bool,
    /// Height above ground.
    pub height: Shown,
    /// Direction it faces.
    pub azimuth: Shown,
    /// Power into it.
    pub power: Option<Shown>,
    /// Greatest voltage at its connector.
    pub peak: Option<Shown>,
    /// Phase of its current against the top bay's.
    pub phase: Shown,
    /// VSWR at its connector.
    pub vswr: Option<Shown>,
}

/// One cable of the harness.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct HarnessWay {
    /// Way of the splitter.
    pub way: usize,
    /// Bay it feeds, from the top.
    pub bay: usize,
    /// Length to cut.
    pub cut: Shown,
    /// How much longer than the shortest.
    pub longer: String,
    /// Electrical length.
    pub electrical: Shown,
    /// Phase it gives against bay 1.
    pub phase: Shown,
    /// Share of the power.
    pub share: Shown,
}

/// One row by azimuth.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct AnnexLine {
    /// Azimuth, said.
    pub azimuth: String,
    /// ERP in the vertical plane.
    pub vertical: Option<Shown>,
    /// ERP in the horizontal plane.
    pub horizontal: Option<Shown>,
    /// As the licence counts it.
    pub counted: Option<Shown>,
    /// Allowed.
    pub allowed: Option<Shown>,
    /// In hand.
    pub in_hand: Option<Shown>,
    /// It is over.
    pub short: bool,
    /// Effective height.
    pub height: Option<Shown>,
}
