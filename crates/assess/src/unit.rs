//! Units of figures, and how many places each is shown with.

use serde::Serialize;

macro_rules! units {
    ($($(#[doc = $doc:expr])* $name:ident = $symbol:literal, $places:expr;)*) => {
        /// The unit of a figure.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
        pub enum Unit { $($(#[doc = $doc])* $name),* }

        impl Unit {
            /// Its symbol.
            pub fn symbol(self) -> &'static str {
                match self { $(Unit::$name => $symbol),* }
            }
            /// How it is shown.
            pub fn places(self) -> Places {
                match self { $(Unit::$name => $places),* }
            }
        }
    };
}

/// How a number of a unit is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Places {
    /// With so many decimal places.
    Fixed(usize),
    /// With three significant figures, in the unit's thousands where it is large (W, kW).
    ThreeFigures,
    /// To the next ten.
    Tens,
}

use Places::{Fixed, Tens, ThreeFigures};

units! {
    /// Decibels: a ratio.
    Decibel = "dB", Fixed(1);
    /// Decibels, where hundredths matter: losses of feeder and joints.
    SmallDecibel = "dB", Fixed(2);
    /// Field strength.
    DbuvPerMetre = "dBµV/m", Fixed(1);
    /// Power.
    Watt = "W", ThreeFigures;
    /// Power over 1 W.
    DbWatt = "dBW", Fixed(2);
    /// Power over 1 mW.
    Dbm = "dBm", Fixed(1);
    /// Gain over a half-wave dipole.
    Dbd = "dBd", Fixed(2);
    /// Gain over an isotropic antenna.
    Dbi = "dBi", Fixed(2);
    /// Audio level over 0.7746 V.
    Dbu = "dBu", Fixed(1);
    /// Digital level under full scale.
    Dbfs = "dBFS", Fixed(1);
    /// Multiplex power over a 19 kHz sine.
    Dbr = "dBr", Fixed(1);
    /// Frequency.
    Megahertz = "MHz", Fixed(1);
    /// Carriers of links, GHz.
    Gigahertz = "GHz", Fixed(1);
    /// Deviation, a carrier's drift.
    Kilohertz = "kHz", Fixed(2);
    /// Length.
    Metre = "m", Fixed(1);
    /// Length, where centimetres matter.
    FineMetre = "m", Fixed(2);
    /// Distance.
    Kilometre = "km", Fixed(1);
    /// Area.
    SquareKilometre = "km²", Fixed(0);
    /// Area of panels, wind area.
    SquareMetre = "m²", Fixed(2);
    /// Angle.
    Degree = "°", Fixed(1);
    /// Temperature.
    Celsius = "°C", Fixed(0);
    /// People.
    People = "people", Tens;
    /// A count of things.
    Count = "", Fixed(0);
    /// A ratio without unit, such as VSWR.
    Ratio = "", Fixed(2);
    /// A share.
    Percent = "%", Fixed(0);
    /// A share close to the whole.
    FinePercent = "%", Fixed(3);
    /// Hours.
    Hour = "h", Fixed(1);
    /// Minutes.
    Minute = "min", Fixed(0);
    /// Minutes a year.
    MinutePerYear = "min/a", Fixed(0);
    /// Seconds.
    Second = "s", Fixed(2);
    /// Years.
    Year = "a", Fixed(0);
    /// Power density.
    WattPerSquareMetre = "W/m²", Fixed(2);
    /// Electric field.
    VoltPerMetre = "V/m", Fixed(1);
    /// Energy.
    KilowattHour = "kWh", Fixed(1);
    /// Energy a year.
    KilowattHourPerYear = "kWh/a", Fixed(0);
    /// Heat.
    BtuPerHour = "BTU/h", Fixed(0);
    /// Airflow.
    CubicMetrePerHour = "m³/h", Fixed(0);
    /// Apparent power.
    KilovoltAmpere = "kVA", Fixed(1);
    /// Mass.
    Kilogram = "kg", Fixed(0);
    /// Rack units.
    RackUnit = "U", Fixed(0);
    /// Current.
    Ampere = "A", Fixed(1);
    /// Voltage.
    Volt = "V", Fixed(0);
    /// Wind pressure.
    Pascal = "Pa", Fixed(0);
    /// Moment.
    NewtonMetre = "Nm", Fixed(0);
    /// Bit rate.
    KilobitPerSecond = "kb/s", Fixed(0);
}
