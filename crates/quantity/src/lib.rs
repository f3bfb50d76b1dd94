//! Quantities with their units: read, printed, converted.
//!
//! A quantity is a type at the border (files, fields, papers) and an `f64` with its unit in the name inside. Each type here is
//! a newtype over one `f64` in its base unit; accessors and constructors carry the unit in their names.
//!
//! Two written forms:
//! - the **file form** ([`Quantity::file_form`], also `Display`) is exact: printing and parsing it again is the identity;
//! - the **display form** ([`Quantity::show`], [`Quantity::show_in`]) is for people: within half its last digit, by [`Locale`].
//!
//! Two ways in: [`Quantity::parse`] (files, command line: the decimal point only) and [`Quantity::parse_field`] (a field on the
//! page: one separator of either kind, `1,234` refused with both readings named).
//!
//! Every type's units stand in one table, beside its definition: see [`Definition`] and [`ALL`].
//!
//! # Example
//! ```
//! use quantity::{Erp, Frequency, Locale, Quantity};
//! let f: Frequency = "98.3 MHz".parse().unwrap();
//! assert_eq!(f.hz(), 98_300_000.0);
//! assert_eq!(Erp::from_w(500.0).file_form(), "500 W");
//! assert_eq!(Erp::from_w(1234.5).show(&Locale::ENGLISH), "1.23\u{a0}kW");
//! let fault = Erp::parse("500").unwrap_err();
//! assert_eq!(fault.to_string(), "`500`: the unit is missing: expected a radiated power such as `500 W`, `2 kW` or `27 dBW`");
//! ```

mod audio;
mod convert;
mod define;
mod electric;
mod error;
mod geometry;
mod locale;
mod money;
mod number;
mod physical;
mod position;
mod print;
mod radio;
mod read;
mod reference;
mod unit;

pub use audio::{LevelDbfs, LevelDbr, LevelDbu, Loudness, SoundLevel};
pub use convert::{DIPOLE_OVER_ISOTROPE_DB, FREE_SPACE_IMPEDANCE_OHM};
pub use define::Quantity;
pub use electric::{ApparentPower, Charge, Current, Energy, Resistance, Voltage};
pub use error::{Kind, QuantityError};
pub use geometry::{
    Angle, Area, Azimuth, EffectiveHeight, Elevation, HeightAgl, HeightAmsl, Length, Tilt, Volume,
};
pub use locale::{Digits, Locale};
pub use money::{Currency, Decimal, EnergyPrice, Money};
pub use physical::{Bitrate, Duration, Force, Mass, Percent, Speed, Temperature, TimeConstant};
pub use position::Position;
pub use radio::{
    AttenuationRate, Decibels, Deviation, Eirp, Erp, FieldStrength, Frequency, GainDbd, GainDbi, Power,
    PowerDensity, Vswr,
};
pub use reference::{AntennaGain, Height};
pub use unit::{Definition, Law, Range, Suffix, Unit};

/// The definition of every quantity that is a number with a unit: where a unit met in the wrong place is looked up.
pub static ALL: &[&Definition] = &[
    Frequency::DEFINITION,
    Deviation::DEFINITION,
    Power::DEFINITION,
    Erp::DEFINITION,
    Eirp::DEFINITION,
    GainDbd::DEFINITION,
    GainDbi::DEFINITION,
    Decibels::DEFINITION,
    FieldStrength::DEFINITION,
    PowerDensity::DEFINITION,
    AttenuationRate::DEFINITION,
    Vswr::DEFINITION,
    Length::DEFINITION,
    HeightAgl::DEFINITION,
    HeightAmsl::DEFINITION,
    EffectiveHeight::DEFINITION,
    Area::DEFINITION,
    Volume::DEFINITION,
    Angle::DEFINITION,
    Azimuth::DEFINITION,
    Elevation::DEFINITION,
    Tilt::DEFINITION,
    Temperature::DEFINITION,
    Duration::DEFINITION,
    TimeConstant::DEFINITION,
    Mass::DEFINITION,
    Force::DEFINITION,
    Speed::DEFINITION,
    Bitrate::DEFINITION,
    Percent::DEFINITION,
    Voltage::DEFINITION,
    Current::DEFINITION,
    Resistance::DEFINITION,
    ApparentPower::DEFINITION,
    Energy::DEFINITION,
    Charge::DEFINITION,
    LevelDbu::DEFINITION,
    LevelDbfs::DEFINITION,
    LevelDbr::DEFINITION,
    Loudness::DEFINITION,
    SoundLevel::DEFINITION,
];
