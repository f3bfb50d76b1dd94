//! What is wanted.

use crate::known::Known;
use crate::value::Date;
use quantity::{Azimuth, Duration, EnergyPrice, FieldStrength, Length, Mass, Money, Percent};

crate::record! {
    /// What is wanted: who the station is for, where it must be heard, what there is to spend.
    pub struct Brief {
        /// Who it is for and why, in the client's own words.
        pub purpose: Option<String>,
        /// Where it must be heard, and how well.
        pub wanted: Vec<Wanted>,
        /// The people round the desk.
        pub seats: Seats,
        /// What is asked of the programme's continuity.
        pub continuity: Continuity,
        /// Money to build the station with.
        pub budget: Known<Money>,
        /// Years over which costs are counted.
        pub horizon: Known<Duration>,
        /// Interest rate a year for discounting.
        pub discount_rate: Known<Percent>,
        /// Price of electrical energy.
        pub energy_price: Known<EnergyPrice>,
        /// What the station costs each year besides energy and rent.
        pub running: Running,
        /// The day by which it must be on the air.
        pub deadline: Option<Date>,
        /// How the equipment gets there.
        pub delivery: Delivery,
        /// Who installs it.
        pub installation: Option<Installation>,
        /// Questions the client has left open, kept as they came.
        pub open_questions: Vec<String>,
    }
}

crate::record! {
    /// One place or area that must be served.
    pub struct Wanted {
        /// A short name for it, such as `W1`.
        pub tag: String,
        /// The place, by its tag; absent when `within` gives an area round the transmitter.
        pub place: Option<String>,
        /// A circle round the antenna's site.
        pub within: Option<Length>,
        /// The service.
        pub service: Service,
        /// How it is listened to.
        pub situation: Known<Situation>,
        /// The surroundings, which set the field wanted.
        pub surroundings: Known<Surroundings>,
        /// A wanted field at 10 m that replaces the table's.
        pub field: Option<FieldStrength>,
        /// Share of the people in `within` who must be served.
        pub share: Option<Percent>,
    }
}

crate::choice! {
    /// Mono or stereo.
    pub enum Service {
        /// One channel.
        Mono = "mono",
        /// Two channels.
        Stereo = "stereo",
    }
}

crate::choice! {
    /// How people listen.
    pub enum Situation {
        /// A fixed aerial on the roof, 10 m above ground.
        Roof = "roof",
        /// A car or a portable set outdoors, 1.5 m.
        Car = "car",
        /// A set indoors in a traditional building, 1.5 m.
        Indoors = "indoors",
        /// A set indoors in a thermally efficient building, 1.5 m.
        IndoorsEfficient = "indoors, efficient building",
    }
}

crate::choice! {
    /// What stands round the listener.
    pub enum Surroundings {
        /// Open country.
        Rural = "rural",
        /// A town.
        Urban = "urban",
        /// A large city.
        LargeCity = "large city",
    }
}

crate::record! {
    /// The people round the desk and those who call in.
    pub struct Seats {
        /// Hosts in the on-air studio.
        pub hosts: Known<u32>,
        /// Guests in the on-air studio.
        pub guests: Known<u32>,
        /// Operator's seats apart from the hosts'.
        pub operators: Known<u32>,
        /// Telephone callers on the air at once.
        pub callers: Known<u32>,
        /// Contributors by codec at once.
        pub contributors: Known<u32>,
        /// Share of the year on the air.
        pub duty: Known<Percent>,
    }
}

crate::record! {
    /// What is asked of the programme's continuity.
    pub struct Continuity {
        /// Share of the year the programme must be on the air.
        pub availability: Known<Percent>,
        /// How long the station must stay on the air without mains.
        pub without_mains: Known<Duration>,
        /// A second transmitter is asked for.
        pub reserve_transmitter: Option<bool>,
        /// Playout goes on by itself if the studio falls silent.
        pub emergency_player: Option<bool>,
        /// A second way for the programme to the transmitter is asked for.
        pub reserve_link: Option<bool>,
    }
}

crate::record! {
    /// How the equipment gets there.
    pub struct Delivery {
        /// Import duty as a share of the goods.
        pub duty: Known<Percent>,
        /// Freight for the whole delivery.
        pub freight: Known<Money>,
        /// Value-added tax, shown apart.
        pub value_added_tax: Known<Percent>,
        /// The most one case may weigh.
        pub case_mass: Option<Mass>,
        /// The longest piece that can travel.
        pub longest_piece: Option<Length>,
        /// By what: `road`, `ferry`, `air`.
        pub by: Option<Transport>,
        /// Time a spare part takes to arrive.
        pub spare_lead_time: Known<Duration>,
    }
}

crate::choice! {
    /// How goods travel.
    pub enum Transport {
        /// By road all the way.
        Road = "road",
        /// By ship for the last part.
        Ferry = "ferry",
        /// By aircraft.
        Air = "air",
    }
}

crate::choice! {
    /// Who installs.
    pub enum Installation {
        /// The client's own people, without pay.
        Volunteers = "volunteers",
        /// A contractor, by the price list's services.
        Contractor = "contractor",
    }
}

crate::record! {
    /// A limit on the field at a distance, such as "below 66 dBµV/m at 5 km".
    pub struct FieldCondition {
        /// The field that may not be exceeded, at 10 m above ground.
        pub below: FieldStrength,
        /// At this distance from the antenna.
        pub at: Option<Length>,
        /// At this place instead, by its tag.
        pub place: Option<String>,
        /// Only towards here; all round when absent.
        pub azimuth: Option<Azimuth>,
    }
}

crate::record! {
    /// What the station costs each year besides energy and rent.
    pub struct Running {
        /// Upkeep a year, as a share of the capital.
        pub maintenance: Known<Percent>,
        /// Insurance a year, as a share of the capital.
        pub insurance: Known<Percent>,
        /// Fee for the licence a year. Never assumed.
        pub licence_fee: Known<Money>,
        /// Music rights a year. Never assumed.
        pub music_rights: Known<Money>,
        /// Staff a year. Never assumed.
        pub staff: Known<Money>,
    }
}
