//! Where things stand and where people live.

use crate::brief::Surroundings;
use crate::known::Known;
use quantity::{
    Area, FieldStrength, Frequency, HeightAgl, HeightAmsl, Length, Position, Power, Speed, Temperature,
    Voltage, Volume,
};

crate::record! {
    /// The ground everything stands on.
    pub struct Ground {
        /// A generated ground: `demo island`, `rolling plain`, `alpine valley`, `hill coast`; absent when tiles are read.
        pub generated: Known<GeneratedGround>,
        /// Folder of elevation tiles, from the station's folder.
        pub tiles: Option<String>,
        /// Whether the tiles hold bare ground or a surface with roofs and trees.
        pub model: Known<ElevationModel>,
        /// Folder of land cover tiles.
        pub land_cover: Option<String>,
        /// Folder of rasters that count people.
        pub people: Option<String>,
        /// CSV file of places with people.
        pub places: Option<String>,
        /// Take missing tiles as sea.
        pub missing_is_sea: Option<bool>,
    }
}

crate::record! {
    /// How coverage is studied.
    pub struct Study {
        /// Distance between profile samples: P.1812's answer depends on it.
        pub step: Known<Length>,
        /// How far out coverage is computed.
        pub radius: Known<Length>,
        /// Share of time for which the field is exceeded.
        pub time: Known<quantity::Percent>,
        /// Share of places for which the field is exceeded.
        pub places: Known<quantity::Percent>,
        /// Fall of refractivity in the lowest kilometre, N-units.
        pub delta_n: Known<f64>,
        /// Refractivity at the sea's surface, N-units.
        pub n0: Known<f64>,
        /// Spread of the field within a small square; by p1812 when absent.
        pub location_spread: Known<quantity::Decibels>,
        /// Standard deviation of prediction against measurement.
        pub model_error: Known<quantity::Decibels>,
        /// Height at which the field is predicted: by the surroundings' rule, or P.1812 at the true height.
        pub reception: Option<Reception>,
        /// How antennas are computed; as wires when absent.
        pub antennas: Option<AntennaModel>,
    }
}

crate::choice! {
    /// How antennas are computed.
    pub enum AntennaModel {
        /// Half-wave dipoles by the array model: a draft, a round pole included.
        Array = "array",
        /// Wires with the mast among them, by the method of moments.
        Wires = "wires",
    }
}

crate::choice! {
    /// How the field at a listener's height is found.
    pub enum Reception {
        /// Predicted at 10 m or at the clutter's top, then the row of the surroundings.
        ByRow = "by row",
        /// P.1812 at the true height, no row added.
        TrueHeight = "true height",
    }
}

crate::choice! {
    /// Grounds made by the program, invented.
    pub enum GeneratedGround {
        /// An island in the open ocean.
        DemoIsland = "demo island",
        /// Rolling land, 90 m between its height deciles.
        RollingPlain = "rolling plain",
        /// A deep valley between mountains.
        AlpineValley = "alpine valley",
        /// Hills along a coast.
        HillCoast = "hill coast",
    }
}

crate::choice! {
    /// What an elevation model measures.
    pub enum ElevationModel {
        /// Bare ground; clutter heights are added.
        BareGround = "bare ground",
        /// Roofs and tree tops included; no clutter is added.
        Surface = "surface",
    }
}

crate::record! {
    /// A place where people live and may be wanted as listeners.
    pub struct Place {
        /// Its short name in this file.
        pub tag: String,
        /// Its name.
        pub name: String,
        /// Where it is.
        pub position: Position,
        /// How many live there, where no raster says so.
        pub people: Option<u32>,
        /// What it is like.
        pub surroundings: Option<Surroundings>,
    }
}

crate::record! {
    /// A site: a hill, a roof, a building.
    pub struct Site {
        /// Its short name, such as `HILL`.
        pub tag: String,
        /// Its name.
        pub name: String,
        /// Where it is.
        pub position: Position,
        /// Height of its ground above the sea; from the terrain when absent.
        pub ground: Known<HeightAmsl>,
        /// The mast, pole or roof for antennas.
        pub mast: Mast,
        /// The electrical supply.
        pub supply: Supply,
        /// The weather it must bear.
        pub climate: Climate,
        /// The room for the equipment.
        pub shelter: Shelter,
        /// Points where people can be while it is on the air.
        pub public_points: Vec<PublicPoint>,
        /// Other stations on the mast or the roof.
        pub others: Vec<OtherEmitter>,
        /// Rent a year.
        pub rent: Known<quantity::Money>,
        /// A road reaches it.
        pub road: Option<bool>,
    }
}

crate::record! {
    /// The mast, pole or roof for antennas.
    pub struct Mast {
        /// New, there already, or a roof pole.
        pub status: Option<MastStatus>,
        /// How it is built.
        pub kind: Known<MastKind>,
        /// Its height above the ground at its foot; a roof pole's top above ground.
        pub height: Known<HeightAgl>,
        /// Height of the roof it stands on.
        pub roof: Option<HeightAgl>,
        /// Diameter of the pole, or width of a lattice face.
        pub width: Known<Length>,
        /// Height of a lattice's panel, from one horizontal to the next.
        pub panel: Known<Length>,
        /// Diameter of a lattice's legs; an angle counts as 0.8 of its width.
        pub leg: Known<Length>,
        /// Diameter of a lattice's horizontals and diagonals.
        pub bracing: Known<Length>,
        /// Wind area it can still bear at its top, from its owner's structural engineer.
        pub spare_wind_area: Known<Area>,
        /// The most that may stand on it, above ground, where someone limits it.
        pub allowed_height: Option<HeightAgl>,
    }
}

crate::choice! {
    /// Whether the mast is there.
    pub enum MastStatus {
        /// To be built, from the price list.
        New = "new",
        /// There, and free to use.
        Existing = "existing",
        /// There, and rented.
        Rented = "rented",
    }
}

crate::choice! {
    /// How a mast is built.
    pub enum MastKind {
        /// A tube, on the ground or on a roof.
        Pole = "pole",
        /// Lattice held by guys.
        GuyedLattice = "guyed lattice",
        /// Lattice that stands by itself.
        SelfSupportingLattice = "self-supporting lattice",
    }
}

crate::record! {
    /// The electrical supply of a site.
    pub struct Supply {
        /// Mains is there.
        pub mains: Known<bool>,
        /// Mains voltage, phase to neutral.
        pub voltage: Known<Voltage>,
        /// Three phases are there.
        pub three_phase: Option<bool>,
        /// The most the connection gives.
        pub capacity: Known<Power>,
        /// Power cuts a week.
        pub cuts_per_week: Known<f64>,
        /// How long a usual cut lasts.
        pub usual_cut: Known<quantity::Duration>,
        /// Hours of full sun a day in the worst month.
        pub peak_sun_hours: Known<f64>,
    }
}

crate::record! {
    /// The weather a site must bear.
    pub struct Climate {
        /// Salt in the air.
        pub sea_air: Known<bool>,
        /// Basic wind speed, 10 min mean at 10 m, 50 years.
        pub wind: Known<Speed>,
        /// Ice all round, in thickness.
        pub ice: Known<Length>,
        /// The hottest day outdoors.
        pub hottest: Known<Temperature>,
        /// Rain exceeded 0.01 % of an average year, mm/h.
        pub rain_mm_per_h: Known<f64>,
        /// Ground roughness class of EN 1991-1-4, 0 to 4.
        pub terrain_category: Known<u32>,
        /// Lightning flashes per square kilometre and year.
        pub flashes_per_km2_year: Known<f64>,
    }
}

crate::record! {
    /// The room for the equipment.
    pub struct Shelter {
        /// Its air.
        pub volume: Known<Volume>,
        /// Air through it, m³/h.
        pub airflow_m3_h: Known<f64>,
        /// Cooling power installed.
        pub cooling: Known<Power>,
        /// The warmest it may get inside.
        pub warmest: Known<Temperature>,
    }
}

crate::record! {
    /// A point where people can be while the station is on the air.
    pub struct PublicPoint {
        /// Its short name.
        pub tag: String,
        /// What it is: a terrace, a footpath, a window.
        pub name: String,
        /// Horizontal distance from the mast.
        pub distance: Length,
        /// Height of the floor people stand on, above the ground at the mast's foot.
        pub floor: HeightAgl,
        /// Direction from the mast; the strongest is taken when absent.
        pub azimuth: Option<quantity::Azimuth>,
        /// Only trained workers get there.
        pub workers_only: Option<bool>,
    }
}

crate::record! {
    /// Another emitter on the same mast or roof.
    pub struct OtherEmitter {
        /// Its short name.
        pub tag: String,
        /// Who or what it is.
        pub name: String,
        /// Its frequency.
        pub frequency: Frequency,
        /// What it radiates.
        pub erp: Option<crate::value::RadiatedPower>,
        /// Its antenna's height.
        pub height: Option<HeightAgl>,
        /// The share of the exposure limit it brings at this site's public points, when its owner has said so.
        pub exposure_share: Known<quantity::Percent>,
        /// The field it lays over the service area, where known.
        pub nuisance: Option<FieldStrength>,
    }
}
