//! The station as the page shows it: the sheet, and what stands round it.

use assess::said::{Piece, Sheet, Shown};
use serde::Serialize;
use station::Edit;
use utoipa::ToSchema;

/// A sheet with its state, its history and the handles on it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct View {
    /// Changes whenever anything shown changes.
    pub token: String,
    /// A fast echo: the whole answer follows.
    pub draft: bool,
    /// The assessment, said.
    pub sheet: Sheet,
    /// The line beside the name, such as `97.4 MHz, island of Halvane (invented)`.
    pub subtitle: String,
    /// The station file.
    pub file: FileState,
    /// The last change that stands.
    pub last: Option<Change>,
    /// There is something to undo.
    pub can_undo: bool,
    /// There is something to redo.
    pub can_redo: bool,
    /// First sentence of each sheet that has its own; the others open with level and margin of their stage.
    pub openings: Vec<Opening>,
    /// What can be moved by hand.
    pub handles: Vec<Handle>,
    /// The mast, to be drawn to scale.
    pub mast: Option<Mast>,
    /// What the pattern round the horizon is drawn from.
    pub horizon: Option<Horizon>,
    /// From transmitter to ERP, step by step.
    pub ladder: Vec<LadderStep>,
    /// What a little more would buy.
    pub more: Vec<Purchase>,
}

/// State of the station file.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FileState {
    /// Its name, such as `station.toml`.
    pub name: String,
    /// Digest of its text.
    pub digest: String,
    /// How it stands.
    pub condition: FileCondition,
    /// Why it is not saved, or what was changed outside.
    pub why: Option<String>,
}

/// How the file stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FileCondition {
    /// On disk as shown.
    Saved,
    /// Being written.
    Writing,
    /// Not on disk; held in memory.
    NotSaved,
    /// Another hand changed it.
    ChangedOutside,
}

/// One change, in words.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Change {
    /// What was changed, such as `Feeder 45 m, was 60 m`.
    pub says: String,
    /// Its effect, such as `+0.2 dB, 40 people more`.
    pub effect: Option<String>,
    /// When, as the page shows it.
    pub at: Option<String>,
    /// It was taken back and can be done again.
    pub undone: bool,
}

/// How a sheet opens.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Opening {
    /// The sheet: `brief`, `offers`, `studio`, `link`, `antenna`, `coverage`, `sites`, `money`, `papers`, `acceptance`.
    pub sheet: String,
    /// How it stands, in one or two sentences.
    pub sentence: Vec<Piece>,
    /// What stands before a signature there.
    pub lead: Option<String>,
}

/// Something that can be moved by hand: a slider with finished stops, or a field to type into.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Handle {
    /// Stable id, such as `power`, `bays`, `height`.
    pub id: String,
    /// The sheet it stands on.
    pub sheet: String,
    /// What it moves.
    pub label: String,
    /// Path of the value in the station file.
    pub path: String,
    /// The value as the file writes it: what a field to type into starts from.
    pub typed: String,
    /// The value in other units, and the limit.
    pub also: Option<String>,
    /// Every value it can be moved to, rising. Few stops are shown as segments, many as a slider.
    pub stops: Vec<Stop>,
    /// Where the value stands on the axis, 0 to 1.
    pub at: f64,
}

/// One value a handle can be moved to.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Stop {
    /// Place on the axis, 0 to 1.
    pub at: f64,
    /// The value with its unit.
    pub says: String,
    /// Named on the axis.
    pub named: bool,
    /// The edits that move it there.
    #[schema(value_type = Vec<Object>)]
    pub edits: Vec<Edit>,
}

/// A mast and what hangs on it, in metres above its foot, for a drawing to scale.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Mast {
    /// Name of the site.
    pub site: String,
    /// Height of the mast's top.
    pub top_m: f64,
    /// Its height, said.
    pub top_says: String,
    /// Height of the building it stands on; 0 for ground.
    pub foot_m: f64,
    /// Width of its face.
    pub width_m: f64,
    /// It is a lattice, not a pole.
    pub lattice: bool,
    /// Heights of the bays' centres, topmost first.
    pub bays_m: Vec<f64>,
    /// Those heights above ground, said.
    pub bays_say: Vec<String>,
    /// Height of the middle of all bays.
    pub centre_m: f64,
    /// That height, said.
    pub centre_says: String,
    /// Distance between bays, said.
    pub spacing_says: Option<String>,
    /// Length of one element.
    pub element_m: f64,
    /// Its elements stand upright.
    pub upright: bool,
    /// Distance of the elements from the face.
    pub stand_off_m: f64,
    /// That distance and the direction the bays face, said.
    pub stand_off_says: Option<String>,
    /// What the elements are; first line and second.
    pub elements_say: Vec<String>,
    /// What the splitter is; first line and second.
    pub splitter_says: Vec<String>,
    /// What the feeder is.
    pub feeder_says: String,
    /// What the transmitter is; then the power it is set to.
    pub transmitter_says: Vec<String>,
    /// Distance the public must keep from the bays while on air.
    pub public_distance_m: Option<f64>,
    /// That distance and its clause.
    pub public_says: Vec<String>,
}

/// What is drawn round the horizon.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Horizon {
    /// Unit of the curves.
    pub unit: String,
    /// ERP by azimuth: degrees clockwise from true north, value in `unit`.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub erp: Vec<(f64, f64)>,
    /// What the licence allows by azimuth; empty when it names no limit.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub allowed: Vec<(f64, f64)>,
    /// Rings, with what is written on them.
    pub rings: Vec<Ring>,
    /// Places round about.
    pub places: Vec<Bearing>,
    /// Where least is in hand.
    pub tightest: Option<Tightest>,
}

/// A ring of the pattern.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Ring {
    /// Value it stands for.
    pub value: f64,
    /// Distance from the middle, share of the radius.
    pub share: f64,
    /// What is written on it.
    pub says: String,
}

/// A place in some direction.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Bearing {
    /// Its name.
    pub name: String,
    /// Degrees clockwise from true north.
    pub az_deg: f64,
    /// Degrees below the horizon.
    pub depression_deg: f64,
    /// Gain towards it, in the plane that is strongest there, dBd.
    pub gain_dbd: Option<f64>,
    /// Depression and gain, said.
    pub seen: String,
}

/// Where the licence is nearest.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Tightest {
    /// Degrees clockwise from true north.
    pub az_deg: f64,
    /// What is written there, such as `0.3 dB in hand` and `at 320°`.
    pub says: Vec<String>,
    /// It is over.
    pub short: bool,
}

/// One step from transmitter to ERP.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LadderStep {
    /// What it is.
    pub label: String,
    /// What it adds or takes.
    pub change: Option<Shown>,
    /// Level after it, logarithmic.
    pub level: Option<Shown>,
    /// Power after it.
    pub power: Option<Shown>,
    /// The figure behind it, by id.
    pub figure: Option<String>,
}

/// What a little more would buy.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Purchase {
    /// What would be changed.
    pub says: String,
    /// What it gives.
    pub gives: String,
    /// What it costs.
    pub price: Option<Shown>,
    /// The edits.
    #[schema(value_type = Vec<Object>)]
    pub edits: Vec<Edit>,
}
