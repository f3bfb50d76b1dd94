//! Equipment to choose from.

use crate::known::Mark;
use crate::value::{Date, TextError};
use quantity::{
    AntennaGain, Area, Bitrate, Decibels, Energy, Frequency, Length, LevelDbu, Mass, Money, Percent, Power,
    Resistance, Temperature,
};
use std::fmt;
use std::str::FromStr;
use words::Message;

crate::record! {
    /// One thing on the shelf. A rating it does not give cannot be proved.
    pub struct ShelfItem {
        /// Its id, stable for ever.
        pub id: String,
        /// What kind of thing.
        pub kind: ItemKind,
        /// What it is called in papers.
        pub name: String,
        /// How it may be used.
        pub duty: Option<Duty>,
        /// How good these figures are.
        pub mark: Option<Mark>,
        /// Lines this connector, earth kit or hanger goes on, by shelf id: the inner pin of one fits no other.
        pub for_lines: Vec<String>,
        /// Its plugs and sockets.
        pub ports: Vec<Port>,
        /// The power it takes from mains; for transmitters see `transmitter`.
        pub power: Option<Power>,
        /// The heat it leaves in the room; as much as it takes when absent.
        pub heat: Option<Power>,
        /// Its noise in the room, dB(A) at 1 m.
        pub noise: Option<quantity::SoundLevel>,
        /// Rack units.
        pub rack_units: Option<u32>,
        /// Width, height, depth or length.
        pub size: Vec<Length>,
        /// Mass of one, or of a metre.
        pub mass: Option<Mass>,
        /// Mass packed.
        pub packed: Option<Mass>,
        /// Number of the customs tariff.
        pub tariff: Option<String>,
        /// What it costs, each or by the metre.
        pub price: Option<Price>,
        /// It stands the weather by the sea.
        pub sea_air: Option<bool>,
        /// The warmest surroundings it is rated for.
        pub warmest: Option<Temperature>,
        /// Broadcast-grade points it meets: `tally`, `gpio`, `restart`, `spares`, `balanced`, `fanless`, `monitoring`.
        pub meets: Vec<String>,
        /// Ratings of a transmitter.
        pub transmitter: Option<TransmitterRatings>,
        /// Ratings of a line.
        pub line: Option<LineRatings>,
        /// Ratings of a splitter.
        pub splitter: Option<SplitterRatings>,
        /// Ratings of a filter, an arrester or an adapter: what stands in the line.
        pub inline: Option<InlineRatings>,
        /// Ratings of a bay.
        pub bay: Option<BayRatings>,
        /// Ratings of a link radio or codec.
        pub link: Option<LinkRatings>,
        /// Gain of a link antenna.
        pub dish_gain: Option<AntennaGain>,
        /// Ratings of audio equipment.
        pub audio: Option<AudioRatings>,
        /// Ratings of a supply: battery, generator, solar.
        pub supply: Option<SupplyRatings>,
        /// Ratings of a mast section or pole.
        pub mast: Option<MastRatings>,
    }
}

crate::choice! {
    /// What kind of thing, in the order of the air chain.
    pub enum ItemKind {
        /// A microphone.
        Microphone = "microphone",
        /// A microphone arm.
        Arm = "arm",
        /// Headphones.
        Headphones = "headphones",
        /// A distribution amplifier for headphones.
        HeadphoneAmplifier = "headphone amplifier",
        /// A loudspeaker.
        Loudspeaker = "loudspeaker",
        /// A console.
        Console = "console",
        /// A telephone hybrid.
        Hybrid = "telephone hybrid",
        /// A playout workstation.
        Playout = "playout workstation",
        /// An emergency player with silence detector.
        EmergencyPlayer = "emergency player",
        /// An on-air light.
        OnAirLight = "on-air light",
        /// Studio furniture.
        Furniture = "furniture",
        /// Sound absorbers by the square metre.
        Acoustics = "acoustics",
        /// A rack.
        Rack = "rack",
        /// An audio processor.
        Processor = "processor",
        /// An RDS encoder.
        RdsEncoder = "rds encoder",
        /// A radio pair for the link.
        LinkRadio = "link radio",
        /// An antenna for the link.
        LinkAntenna = "link antenna",
        /// A codec pair.
        Codec = "codec",
        /// Audio or network cable run.
        AudioCable = "audio cable",
        /// A transmitter.
        Transmitter = "transmitter",
        /// A change-over with dummy load.
        ChangeOver = "change-over",
        /// A filter.
        Filter = "filter",
        /// A feeder by the metre.
        Feeder = "feeder",
        /// A connector.
        Connector = "connector",
        /// An adapter.
        Adapter = "adapter",
        /// A surge arrester.
        Arrester = "arrester",
        /// An earth kit, a hanger, a hoist grip.
        FeederFitting = "feeder fitting",
        /// A splitter.
        Splitter = "splitter",
        /// An antenna bay.
        Bay = "bay",
        /// A pole or mast by the metre.
        Mast = "mast",
        /// Battery backup.
        Ups = "ups",
        /// A generator.
        Generator = "generator",
        /// Sun power with battery.
        Solar = "solar",
        /// Cooling or ventilation.
        Cooling = "cooling",
        /// Work: by the day or the job.
        Service = "service",
        /// Spare parts as a set.
        Spares = "spares",
    }
}

crate::choice! {
    /// How a thing may be used.
    pub enum Duty {
        /// All day, all year, at full rating.
        Continuous = "continuous",
        /// For hours, not for ever.
        Intermittent = "intermittent",
    }
}

crate::record! {
    /// What it costs.
    pub struct Price {
        /// What it costs the builder. Never on a client's paper.
        pub cost: Option<Money>,
        /// What the client pays.
        pub sell: Money,
        /// By what it is counted.
        pub per: Option<Per>,
        /// The day the price was given.
        pub date: Option<Date>,
        /// Who gave it.
        pub source: Option<String>,
    }
}

crate::choice! {
    /// By what a price is counted.
    pub enum Per {
        /// Each.
        Each = "each",
        /// By the metre.
        Metre = "metre",
        /// By the square metre.
        SquareMetre = "square metre",
        /// By the day of work.
        Day = "day",
        /// For the whole job.
        Job = "job",
    }
}

crate::record! {
    /// A plug, a socket, a terminal.
    pub struct Port {
        /// Its name, such as `rf out`.
        pub name: String,
        /// Which way the signal goes.
        pub direction: Direction,
        /// What goes through it.
        pub signal: Signal,
        /// Its connector, such as `7-16 jack`.
        pub connector: Option<Connector>,
        /// The most power it bears, at 100 MHz for radio frequency.
        pub power: Option<Power>,
        /// Its level, for audio.
        pub level: Option<LevelDbu>,
        /// Its impedance.
        pub impedance: Option<Resistance>,
        /// How many alike.
        pub count: Option<u32>,
    }
}

crate::choice! {
    /// Which way a signal goes.
    pub enum Direction {
        /// Into the thing.
        In = "in",
        /// Out of it.
        Out = "out",
        /// Both ways.
        Both = "both",
    }
}

crate::choice! {
    /// What goes through a port.
    pub enum Signal {
        /// Radio frequency.
        Rf = "rf",
        /// Analogue audio.
        Analogue = "analogue",
        /// Digital audio.
        Digital = "digital",
        /// The stereo multiplex.
        Multiplex = "multiplex",
        /// Network.
        Network = "network",
        /// Contacts and control.
        Control = "control",
        /// Mains.
        Mains = "mains",
        /// Earth.
        Earth = "earth",
    }
}

/// A connector: series and gender. Only equal series of opposite gender mate; flanges mate with flanges.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Connector {
    /// Series, such as `N` or `7-16`.
    pub series: String,
    /// Its gender.
    pub gender: Gender,
}

/// Which half of a pair a connector is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub enum Gender {
    /// The half with the coupling nut.
    Plug,
    /// The half it screws onto.
    Jack,
    /// Neutral, joined by a bullet.
    Flange,
}

impl Connector {
    /// Series known here, with the standard of each.
    pub const SERIES: [(&'static str, &'static str); 9] = [
        ("BNC", "IEC 61169-8"),
        ("N", "IEC 61169-16"),
        ("7-16", "IEC 61169-4"),
        ("4.3-10", "IEC 61169-54"),
        ("7/8 EIA", "EIA RS-225, IEC 60339"),
        ("1-5/8 EIA", "EIA RS-225, IEC 60339"),
        ("3-1/8 EIA", "EIA RS-225, IEC 60339"),
        ("XLR", "IEC 61076-2-103"),
        ("8P8C", "IEC 60603-7"),
    ];

    /// Whether two connectors go together.
    pub fn mates(&self, other: &Connector) -> bool {
        self.series == other.series
            && matches!(
                (self.gender, other.gender),
                (Gender::Plug, Gender::Jack)
                    | (Gender::Jack, Gender::Plug)
                    | (Gender::Flange, Gender::Flange)
            )
    }

    /// The connector that goes onto this one.
    pub fn opposite(&self) -> Connector {
        let gender = match self.gender {
            Gender::Plug => Gender::Jack,
            Gender::Jack => Gender::Plug,
            Gender::Flange => Gender::Flange,
        };
        Connector {
            series: self.series.clone(),
            gender,
        }
    }
}

impl FromStr for Connector {
    type Err = TextError;
    fn from_str(text: &str) -> Result<Self, TextError> {
        let refuse = || {
            let series: Vec<&str> = Connector::SERIES.iter().map(|s| s.0).collect();
            TextError(
                Message::new("file-connector")
                    .text("text", text)
                    .with("series", crate::read::all(&series)),
            )
        };
        let (series, gender) = text.trim().rsplit_once(' ').ok_or_else(refuse)?;
        let gender = match gender {
            "plug" => Gender::Plug,
            "jack" => Gender::Jack,
            "flange" => Gender::Flange,
            _ => return Err(refuse()),
        };
        if !Connector::SERIES.iter().any(|s| s.0 == series) {
            return Err(refuse());
        }
        Ok(Connector {
            series: series.to_owned(),
            gender,
        })
    }
}

impl fmt::Display for Connector {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let gender = match self.gender {
            Gender::Plug => "plug",
            Gender::Jack => "jack",
            Gender::Flange => "flange",
        };
        write!(to, "{} {gender}", self.series)
    }
}

crate::value::text_value! {
    Connector, "a connector such as `N jack`", "7-16 plug";
}

crate::record! {
    /// Ratings of a transmitter.
    pub struct TransmitterRatings {
        /// The most it gives, all day.
        pub output: Power,
        /// The least it can be set to.
        pub least_output: Option<Power>,
        /// Share of mains power that becomes radio frequency, at full output.
        pub efficiency: Option<Percent>,
        /// Lowest carrier.
        pub from: Option<Frequency>,
        /// Highest carrier.
        pub to: Option<Frequency>,
        /// VSWR at which it begins to fold back.
        pub fold_back_vswr: Option<f64>,
        /// Its harmonic filter is fitted.
        pub harmonic_filter: Option<bool>,
        /// A stereo coder is fitted.
        pub stereo_coder: Option<bool>,
        /// A limiter is fitted.
        pub limiter: Option<bool>,
        /// It needs three phases.
        pub three_phase: Option<bool>,
        /// Hours between failures, on average.
        pub hours_between_failures: Option<f64>,
    }
}

crate::record! {
    /// Ratings of a line: loss in dB per 100 m is a·√f + b·f, f in MHz, at 20 °C.
    pub struct LineRatings {
        /// Conductor term, dB per 100 m at 1 MHz.
        pub a: f64,
        /// Dielectric term, dB per 100 m and MHz.
        pub b: f64,
        /// Average power at 100 MHz and 40 °C.
        pub power_100mhz: Option<Power>,
        /// Speed of the wave, share of light's.
        pub velocity: Option<f64>,
        /// Tightest bend, repeated.
        pub bend: Option<Length>,
        /// Outer diameter.
        pub diameter: Option<Length>,
        /// The hottest its inner conductor may run.
        pub hottest: Option<Temperature>,
    }
}

crate::record! {
    /// Ratings of a splitter.
    pub struct SplitterRatings {
        /// Ways.
        pub ways: u32,
        /// Loss over the ideal division.
        pub excess: Decibels,
        /// The most its input bears.
        pub power: Option<Power>,
        /// The most each branch bears.
        pub branch_power: Option<Power>,
        /// Its ports are isolated from one another.
        pub isolated: Option<bool>,
        /// Share of the power each way gets, the topmost bay's first; equal when absent.
        pub shares: Vec<Percent>,
    }
}

crate::record! {
    /// Ratings of what stands in a line.
    pub struct InlineRatings {
        /// Its loss at FM frequencies.
        pub loss: Decibels,
        /// The most it bears, at 100 MHz.
        pub power: Option<Power>,
    }
}

crate::record! {
    /// Ratings of a bay.
    pub struct BayRatings {
        /// Planes it radiates in.
        pub polarisation: crate::licence::Polarisation,
        /// Length of its dipole, tip to tip.
        pub dipole: Option<Length>,
        /// Diameter of its tube.
        pub tube: Option<Length>,
        /// The most it bears.
        pub power: Option<Power>,
        /// What it is made of.
        pub material: Option<Material>,
        /// Wind area with its clamp, drag included.
        pub wind_area: Option<Area>,
        /// VSWR over the band, at most.
        pub vswr: Option<f64>,
        /// A cover against ice.
        pub radome: Option<bool>,
    }
}

crate::choice! {
    /// What a bay is made of.
    pub enum Material {
        /// Stainless steel.
        StainlessSteel = "stainless steel",
        /// Aluminium.
        Aluminium = "aluminium",
    }
}

crate::record! {
    /// Ratings of a link radio or codec pair.
    pub struct LinkRatings {
        /// Lowest carrier; absent for codecs.
        pub from: Option<Frequency>,
        /// Highest carrier.
        pub to: Option<Frequency>,
        /// Transmit power.
        pub power: Option<Power>,
        /// Received power at which the programme fails.
        pub threshold: Option<Power>,
        /// The most that may be radiated in this band, EIRP.
        pub eirp_at_most: Option<quantity::Eirp>,
        /// Ways that a codec sends over; any leased one when absent.
        pub over: Vec<crate::design::Way>,
        /// Bit rate it needs.
        pub bitrate: Option<Bitrate>,
        /// Delay through both ends.
        pub delay: Option<quantity::Duration>,
        /// Hours between failures, on average.
        pub hours_between_failures: Option<f64>,
    }
}

impl LinkRatings {
    /// Whether it can send over a way that is leased.
    pub fn sends_over(&self, way: crate::design::Way) -> bool {
        self.over.is_empty() || self.over.contains(&way)
    }
}

crate::record! {
    /// Ratings of audio equipment.
    pub struct AudioRatings {
        /// Microphone inputs.
        pub microphone_inputs: Option<u32>,
        /// Line inputs in stereo.
        pub line_inputs: Option<u32>,
        /// Programme and other buses.
        pub buses: Option<u32>,
        /// Sends that can carry a clean feed.
        pub clean_feeds: Option<u32>,
        /// Headphone outputs.
        pub headphone_outputs: Option<u32>,
        /// Control outputs for mute and lights.
        pub control_outputs: Option<u32>,
        /// Most gain of a microphone input.
        pub gain: Option<Decibels>,
        /// Equivalent input noise.
        pub input_noise: Option<LevelDbu>,
        /// Level at which it clips.
        pub clip: Option<LevelDbu>,
        /// Nominal level.
        pub nominal: Option<LevelDbu>,
        /// Microphone sensitivity, mV/Pa.
        pub sensitivity_mv_pa: Option<f64>,
        /// It limits MPX power.
        pub mpx_power_control: Option<bool>,
        /// It makes the stereo multiplex.
        pub stereo_coder: Option<bool>,
        /// It makes radio data.
        pub radio_data: Option<bool>,
        /// Sound absorption by the square metre, 500 Hz to 2 kHz.
        pub absorption: Option<f64>,
        /// Rack units it offers.
        pub rack_space: Option<u32>,
        /// Seats it gives place to.
        pub seats: Option<u32>,
    }
}

crate::record! {
    /// Ratings of a supply.
    pub struct SupplyRatings {
        /// What it gives all day.
        pub output: Power,
        /// Energy stored, when new.
        pub energy: Option<Energy>,
        /// Share of the stored energy that may be used.
        pub depth: Option<Percent>,
        /// Share that comes out again.
        pub efficiency: Option<Percent>,
        /// Fuel, litres an hour for each kilowatt.
        pub litres_per_kwh: Option<f64>,
        /// Tank.
        pub tank_litres: Option<f64>,
        /// Peak power of the sun panels.
        pub panel: Option<Power>,
    }
}

crate::record! {
    /// Ratings of a pole or mast.
    pub struct MastRatings {
        /// How it is built.
        pub kind: crate::place::MastKind,
        /// The highest it can be built.
        pub tallest: Option<Length>,
        /// The least that is worth building.
        pub lowest: Option<Length>,
        /// Width of a face, or outer diameter.
        pub width: Option<Length>,
        /// Wall of a tube.
        pub wall: Option<Length>,
        /// Wind area it bears at its top at the design wind.
        pub wind_area: Option<Area>,
        /// Fixed cost: foundation, anchors, erection.
        pub fixed: Option<Price>,
    }
}

/// The shelf: equipment by id, later lists lying over earlier ones.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Shelf {
    /// The items, in the order they were laid down.
    pub items: Vec<ShelfItem>,
}

impl Shelf {
    /// The item with an id.
    pub fn get(&self, id: &str) -> Option<&ShelfItem> {
        self.items.iter().find(|i| i.id == id)
    }

    /// Items of one kind.
    pub fn of(&self, kind: ItemKind) -> impl Iterator<Item = &ShelfItem> {
        self.items.iter().filter(move |i| i.kind == kind)
    }

    /// Lays items over the shelf: equal ids are replaced, new ones added.
    pub fn lay_over(&mut self, items: Vec<ShelfItem>) {
        for item in items {
            match self.items.iter_mut().find(|i| i.id == item.id) {
                Some(old) => *old = item,
                None => self.items.push(item),
            }
        }
    }
}
