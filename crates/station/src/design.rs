//! What is chosen: emissions, antennas, hops, rooms, items, cables.

use crate::known::Known;
use crate::licence::Licence;
use crate::place::PublicPoint;
use quantity::{
    Angle, Azimuth, Decibels, Frequency, Height, Length, Money, Percent, Power, Temperature, Tilt,
    TimeConstant, Volume,
};

crate::record! {
    /// One programme on one frequency.
    pub struct Emission {
        /// Its short name, such as `E1`.
        pub tag: String,
        /// The programme's name.
        pub programme: Option<String>,
        /// The carrier.
        pub frequency: Known<Frequency>,
        /// What the licence allows it.
        pub licence: Licence,
        /// The antenna it goes out from, by tag.
        pub antenna: Option<String>,
        /// The transmitter it comes from, by tag of an item.
        pub transmitter: Option<String>,
        /// Power the transmitter is set to; from the licence when absent.
        pub power: Option<Power>,
        /// Pre-emphasis; from the country profile when absent.
        pub pre_emphasis: Option<TimeConstant>,
        /// Radio data are sent.
        pub radio_data: Option<bool>,
    }
}

crate::record! {
    /// A stack of bays on a mast.
    pub struct Antenna {
        /// Its short name, such as `ANT1`.
        pub tag: String,
        /// The site it stands on, by tag.
        pub site: String,
        /// Height of its centre.
        pub height: Known<Height>,
        /// How many bays.
        pub bays: Known<u32>,
        /// Distance from bay to bay.
        pub spacing: Known<Length>,
        /// The bay, by its shelf id.
        pub element: Option<String>,
        /// Direction its bays face.
        pub azimuth: Known<Azimuth>,
        /// Beam tilt below the horizon.
        pub tilt: Known<Tilt>,
        /// Share of the power in the upper half of the stack, to fill the first null; 50 % is none.
        pub upper_half: Known<Percent>,
        /// Distance from the mast's face to the bays.
        pub stand_off: Known<Length>,
        /// The splitter, by tag of an item.
        pub splitter: Option<String>,
        /// Bays found upside down, numbered from the top.
        pub inverted_bays: Vec<u32>,
        /// Direction of each bay from the mast, from the top; all as `azimuth` when absent.
        pub bay_azimuths: Vec<Azimuth>,
        /// Share of the power each bay gets, from the top; with `bay_phases` instead of `tilt` and `upper_half`.
        pub bay_shares: Vec<Percent>,
        /// Phase of each bay, from the top; positive leads.
        pub bay_phases: Vec<Angle>,
        /// It stands there already.
        pub status: Option<ItemStatus>,
        /// Its elements are turned in this way; from the shelf when absent.
        pub polarisation: Option<crate::licence::Polarisation>,
    }
}

crate::record! {
    /// One hop of the programme's way from studio to transmitter.
    pub struct Hop {
        /// Its short name, such as `L1`.
        pub tag: String,
        /// Site it starts from.
        pub from: String,
        /// Site it ends at.
        pub to: String,
        /// How the programme travels.
        pub way: Known<Way>,
        /// First or reserve.
        pub role: Option<Role>,
        /// Carrier of a radio hop.
        pub frequency: Option<Frequency>,
        /// The radio or codec pair, by its shelf id.
        pub equipment: Option<String>,
        /// The link antenna at each end, by its shelf id.
        pub dish: Option<String>,
        /// Height of the antenna at the start.
        pub from_height: Known<Height>,
        /// Height of the antenna at the end.
        pub to_height: Known<Height>,
        /// Loss of the lines at both ends together.
        pub line_loss: Known<Decibels>,
        /// Share of the year it must work.
        pub availability: Known<Percent>,
        /// Trees and buildings on its path.
        pub obstacles: Vec<Obstacle>,
        /// Yearly fee for a leased way.
        pub fee: Known<Money>,
        /// Share of the year a leased way works.
        pub leased_availability: Known<Percent>,
    }
}

crate::choice! {
    /// How the programme travels.
    pub enum Way {
        /// Cable within one building.
        SameBuilding = "same building",
        /// A radio hop.
        Radio = "radio",
        /// A public internet connection.
        Internet = "internet",
        /// A fibre of one's own or leased.
        Fibre = "fibre",
        /// A mobile data connection.
        MobileData = "mobile data",
    }
}

crate::choice! {
    /// First way or reserve.
    pub enum Role {
        /// The way that carries the programme.
        Main = "main",
        /// The way that takes over.
        Reserve = "reserve",
    }
}

crate::record! {
    /// Something on a path that no terrain model knows.
    pub struct Obstacle {
        /// Distance from the hop's start.
        pub distance: Length,
        /// Height above the ground there.
        pub height: Length,
        /// What it is.
        pub kind: ObstacleKind,
        /// How far the path runs through it.
        pub depth: Option<Length>,
    }
}

crate::choice! {
    /// What stands in a path.
    pub enum ObstacleKind {
        /// Trees.
        Trees = "trees",
        /// A building.
        Building = "building",
    }
}

crate::record! {
    /// A room of the station.
    pub struct Room {
        /// Its short name, such as `STUDIO`.
        pub tag: String,
        /// The site it is on.
        pub site: String,
        /// What it is for.
        pub kind: RoomKind,
        /// Its air; from length, width and height when absent.
        pub volume: Known<Volume>,
        /// Length inside.
        pub length: Option<Length>,
        /// Width inside.
        pub width: Option<Length>,
        /// Height inside.
        pub height: Option<Length>,
        /// The warmest it may get.
        pub warmest: Known<Temperature>,
        /// Points in it where people are, for exposure.
        pub public_points: Vec<PublicPoint>,
    }
}

crate::choice! {
    /// What a room is for.
    pub enum RoomKind {
        /// Open microphones on the air.
        OnAir = "on-air studio",
        /// Recording and editing.
        Edit = "edit room",
        /// Racks.
        Apparatus = "apparatus room",
    }
}

crate::record! {
    /// A thing the station has or gets.
    pub struct Item {
        /// Its short name, such as `TX1`; it stays for life.
        pub tag: String,
        /// What it is, by its shelf id.
        pub shelf: String,
        /// New, there already, going, second-hand, lent.
        pub status: Option<ItemStatus>,
        /// Where it stands: a site or a room, by tag.
        pub place: Option<String>,
        /// How many.
        pub count: Option<u32>,
        /// It waits in reserve.
        pub reserve: Option<bool>,
        /// A word about it.
        pub note: Option<String>,
    }
}

crate::choice! {
    /// What becomes of a thing.
    pub enum ItemStatus {
        /// Bought new.
        New = "new",
        /// Stays as it is.
        Keep = "keep",
        /// Goes to another place.
        Move = "move",
        /// Is taken away.
        Remove = "remove",
        /// Bought second-hand.
        Used = "used",
        /// Lent by somebody.
        Lent = "lent",
    }
}

impl Way {
    /// Ways over a network that others run.
    pub const LEASED: [Way; 3] = [Way::Internet, Way::Fibre, Way::MobileData];

    /// It goes over a network that others run.
    pub fn is_leased(self) -> bool {
        Self::LEASED.contains(&self)
    }

    /// Its word as a variant of a message: `mobile-data`.
    pub fn variant(self) -> String {
        self.word().replace(' ', "-")
    }
}

impl Hop {
    /// It belongs to the way that carries the programme, not to one that waits in reserve.
    pub fn is_main(&self) -> bool {
        self.role != Some(Role::Reserve)
    }
}

impl ItemStatus {
    /// Whether it must be paid for.
    pub fn is_bought(self) -> bool {
        matches!(self, ItemStatus::New | ItemStatus::Used)
    }
    /// Whether it is part of the station when all is done.
    pub fn is_present(self) -> bool {
        self != ItemStatus::Remove
    }
}

crate::record! {
    /// A cable between two ports.
    pub struct Cable {
        /// Its short name, such as `F1`.
        pub tag: String,
        /// What it is, by its shelf id.
        pub shelf: String,
        /// Where it starts: an item's tag, or `TX1:rf out` to name the port.
        pub from: String,
        /// Where it ends: an item's or antenna's tag, with or without a port.
        pub to: String,
        /// Its length.
        pub length: Length,
        /// How many alike, such as the tails to the bays.
        pub count: Option<u32>,
        /// Connector fitted at its start, by shelf id; the one that mates is taken when absent.
        pub from_connector: Option<String>,
        /// Connector fitted at its end, by shelf id; the one that mates is taken when absent.
        pub to_connector: Option<String>,
        /// New, there already, going.
        pub status: Option<ItemStatus>,
        /// How warm its inner conductor runs, for the loss.
        pub temperature: Known<Temperature>,
    }
}

crate::record! {
    /// A design told as changes to this one.
    pub struct Variant {
        /// Its short name, such as `B`.
        pub tag: String,
        /// What it is called.
        pub name: String,
        /// The changes.
        pub edits: Vec<crate::edit::Edit>,
    }
}

impl crate::read::FromNode for crate::edit::Edit {
    fn from_node(node: &crate::document::Node, path: &str, faults: &mut crate::read::Faults) -> Option<Self> {
        let table = crate::read::TableReader::open(node, path, faults)?;
        let at = table.field::<String>("path", faults);
        table.close(&["path", "from", "to"], faults);
        let side = |key| node.get(key).map(crate::document::Node::to_json);
        Some(crate::edit::Edit {
            path: at?,
            from: side("from"),
            to: side("to"),
            at: Vec::new(),
        })
    }
}
