//! The studio's signals, to be drawn: sources left, the console as a crossbar, who listens right.

use serde::Serialize;
use utoipa::ToSchema;

/// The studio.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Studio {
    /// What the console is.
    pub console: String,
    /// Sources, in the order of its inputs.
    pub sources: Vec<StudioSource>,
    /// Its buses, left to right.
    pub buses: Vec<StudioBus>,
    /// Who listens, from the top.
    pub outputs: Vec<StudioOutput>,
    /// Who hears whom.
    pub hears: HearsTable,
    /// Racks.
    pub racks: Vec<StudioRack>,
}

/// What a wire carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum StudioWire {
    /// Balanced audio.
    Balanced,
    /// Digital audio.
    Digital,
    /// Logic.
    Logic,
}

/// What is drawn at the end of a wire.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum StudioSymbol {
    /// A microphone.
    Microphone,
    /// A player.
    Player,
    /// A telephone, two wires to four.
    Telephone,
    /// A codec.
    Codec,
    /// A socket.
    Socket,
    /// Processing.
    Processing,
    /// Headphones.
    Headphones,
    /// A loudspeaker.
    Loudspeaker,
    /// A lamp.
    Lamp,
}

/// One source.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StudioSource {
    /// Who or what.
    pub name: String,
    /// Its level, or what it lacks.
    pub note: Option<String>,
    /// Its symbol.
    pub symbol: StudioSymbol,
    /// Its wire.
    pub wire: StudioWire,
    /// Number of its input; none when none is left.
    pub input: Option<String>,
    /// Gain from there to line-up.
    pub gain: Option<String>,
    /// Buses it is routed to, as places in the list.
    pub routed: Vec<usize>,
    /// Buses it is left out of on purpose.
    pub left_out: Vec<usize>,
    /// Something is lacking.
    pub short: bool,
}

/// One bus of the console.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StudioBus {
    /// Its letter.
    pub letter: String,
    /// What it is.
    pub says: String,
}

/// One listener.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StudioOutput {
    /// Who or what.
    pub name: String,
    /// What is heard there, how many there are, or what is lacking.
    pub note: Option<String>,
    /// Its symbol.
    pub symbol: StudioSymbol,
    /// Its wire.
    pub wire: StudioWire,
    /// The bus it hears, as a place in the list; none for logic.
    pub bus: Option<usize>,
    /// Something is lacking.
    pub short: bool,
}

/// Who hears whom.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct HearsTable {
    /// Who is heard.
    pub columns: Vec<String>,
    /// Who hears.
    pub rows: Vec<HearsRow>,
}

/// One who hears.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct HearsRow {
    /// Who.
    pub name: String,
    /// Column by column.
    pub cells: Vec<Hearing>,
    /// Something is wrong with it.
    pub short: bool,
}

/// How somebody is heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Hearing {
    /// Heard.
    Yes,
    /// Silent while a microphone is open.
    Silent,
    /// Left out, as it is their own voice.
    NotOwn,
    /// Their own voice comes back.
    Own,
    /// Not heard: it has no input.
    No,
}

/// A rack.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StudioRack {
    /// Where it stands.
    pub title: String,
    /// Its units.
    pub units: u32,
    /// What stands in it, from the top.
    pub items: Vec<RackItem>,
}

/// One thing in a rack.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RackItem {
    /// What it is.
    pub name: String,
    /// Its units.
    pub units: u32,
    /// It finds no place.
    pub over: bool,
}
