//! Values of the file that are more than a quantity: how radiated power is counted, days.

use crate::document::Node;
use crate::read::{Faults, FromNode, from_text};
use quantity::{Eirp, Erp};
use std::fmt;
use std::str::FromStr;
use words::Message;

/// Why a text is none of the values below.
#[derive(Debug, Clone, PartialEq)]
pub struct TextError(pub Message);

impl From<&TextError> for Message {
    fn from(error: &TextError) -> Self {
        error.0.clone()
    }
}

words::said_in_english!(TextError);

impl std::error::Error for TextError {}

/// Radiated power that says how it is counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadiatedPower {
    /// Over which reference.
    pub power: OverReference,
    /// Total of both polarisation planes, or each plane.
    pub counted: Counted,
}

/// Radiated power over its reference antenna.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OverReference {
    /// Over a half-wave dipole.
    Erp(Erp),
    /// Over an isotropic antenna.
    Eirp(Eirp),
}

/// How radiated power is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Counted {
    /// The planes' sum.
    Total,
    /// Each plane for itself.
    PerPlane,
}

impl RadiatedPower {
    /// As ERP, whatever was written.
    pub fn erp(&self) -> Erp {
        match self.power {
            OverReference::Erp(erp) => erp,
            OverReference::Eirp(eirp) => eirp.to_erp(),
        }
    }
}

impl FromStr for RadiatedPower {
    type Err = TextError;
    fn from_str(text: &str) -> Result<Self, TextError> {
        let refuse = || TextError(Message::new("file-radiated-power").text("text", text));
        let plain = text.trim();
        let (rest, counted) = if let Some(rest) = plain.strip_suffix("per plane") {
            (rest.trim_end(), Counted::PerPlane)
        } else if let Some(rest) = plain.strip_suffix("total") {
            (rest.trim_end(), Counted::Total)
        } else {
            return Err(refuse());
        };
        let power = if let Some(rest) = rest.strip_suffix("ERP") {
            OverReference::Erp(
                rest.trim_end()
                    .parse()
                    .map_err(|_: quantity::QuantityError| refuse())?,
            )
        } else if let Some(rest) = rest.strip_suffix("EIRP") {
            OverReference::Eirp(
                rest.trim_end()
                    .parse()
                    .map_err(|_: quantity::QuantityError| refuse())?,
            )
        } else {
            return Err(refuse());
        };
        Ok(RadiatedPower { power, counted })
    }
}

impl fmt::Display for RadiatedPower {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let counted = match self.counted {
            Counted::Total => "total",
            Counted::PerPlane => "per plane",
        };
        match self.power {
            OverReference::Erp(erp) => write!(to, "{erp} ERP {counted}"),
            OverReference::Eirp(eirp) => write!(to, "{eirp} {counted}"),
        }
    }
}

/// A day, ISO 8601.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// Year of the common era.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
}

impl Date {
    /// Days since 1 March of year 0 in the proleptic Gregorian calendar, for differences.
    pub fn day_number(self) -> i64 {
        let (y, m) = (
            i64::from(self.year) - i64::from(self.month < 3),
            i64::from(self.month),
        );
        let shifted = (m + 9) % 12;
        365 * y + y / 4 - y / 100 + y / 400 + (153 * shifted + 2) / 5 + i64::from(self.day) - 1
    }
}

impl Date {
    /// The day so many days after 1 January 1970, proleptic Gregorian.
    pub fn from_unix_days(days: i64) -> Date {
        // Counted from 1 March of year 0, in eras of 400 years.
        let shifted = days + 719_468;
        let era = shifted.div_euclid(146_097);
        let of_era = shifted.rem_euclid(146_097);
        let year = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year + year / 4 - year / 100);
        let month_from_march = (5 * of_year + 2) / 153;
        let day = of_year - (153 * month_from_march + 2) / 5 + 1;
        let month = if month_from_march < 10 {
            month_from_march + 3
        } else {
            month_from_march - 9
        };
        Date {
            year: (year + era * 400 + i64::from(month <= 2)) as u16,
            month: month as u8,
            day: day as u8,
        }
    }
}

impl FromStr for Date {
    type Err = TextError;
    fn from_str(text: &str) -> Result<Self, TextError> {
        let refuse = || TextError(Message::new("file-day").text("text", text));
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts[..] else {
            return Err(refuse());
        };
        if year.len() != 4 || month.len() != 2 || day.len() != 2 {
            return Err(refuse());
        }
        let date = Date {
            year: year.parse().map_err(|_| refuse())?,
            month: month.parse().map_err(|_| refuse())?,
            day: day.parse().map_err(|_| refuse())?,
        };
        let leap =
            date.year.is_multiple_of(4) && (!date.year.is_multiple_of(100) || date.year.is_multiple_of(400));
        let days = match date.month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 => 28 + u8::from(leap),
            _ => return Err(refuse()),
        };
        if date.day == 0 || date.day > days {
            Err(refuse())
        } else {
            Ok(date)
        }
    }
}

impl fmt::Display for Date {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// Lets a type that is text in the file be read, written and described as such.
macro_rules! text_value {
    ($($ty:ty, $expected:literal, $example:literal;)*) => { $(
        impl $crate::read::FromNode for $ty {
            fn from_node(node: &$crate::document::Node, path: &str, faults: &mut $crate::read::Faults) -> Option<Self> {
                $crate::read::from_text(node, path, faults)
            }
        }
        impl serde::Serialize for $ty {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.collect_str(self)
            }
        }
        impl schemars::JsonSchema for $ty {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($ty).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "description": $expected, "examples": [$example] })
            }
        }
    )* };
}

pub(crate) use text_value;

text_value! {
    RadiatedPower, "radiated power such as `500 W ERP total`", "500 W ERP total";
    Date, "a day such as `2031-03-14`", "2031-03-14";
}

/// Lets the quantities be read from the file.
macro_rules! quantities {
    ($($ty:ty)*) => { $(
        impl FromNode for $ty {
            fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
                from_text(node, path, faults)
            }
        }
    )* };
}

quantities! {
    quantity::Frequency quantity::Power quantity::Erp quantity::Eirp quantity::GainDbd quantity::GainDbi
    quantity::Decibels quantity::FieldStrength quantity::PowerDensity quantity::Length quantity::Height
    quantity::HeightAgl quantity::HeightAmsl quantity::EffectiveHeight quantity::AntennaGain quantity::Azimuth
    quantity::Angle quantity::Tilt quantity::Temperature quantity::Duration quantity::Mass quantity::Area quantity::Volume
    quantity::Voltage quantity::Current quantity::Resistance quantity::Energy quantity::EnergyPrice
    quantity::Bitrate quantity::Percent quantity::Speed quantity::Money quantity::Position
    quantity::TimeConstant quantity::LevelDbu quantity::LevelDbfs quantity::LevelDbr quantity::SoundLevel
    quantity::Deviation
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_printed_is_read_back() {
        for text in ["500 W ERP total", "1 kW ERP per plane", "820 W EIRP total"] {
            assert_eq!(text.parse::<RadiatedPower>().unwrap().to_string(), text);
        }
    }

    #[test]
    fn bad_what_leaves_a_question_open_is_refused() {
        assert!(
            "500 W"
                .parse::<RadiatedPower>()
                .unwrap_err()
                .to_string()
                .contains("how counted")
        );
        assert!("500 W ERP".parse::<RadiatedPower>().is_err());
        assert!("2031-02-29".parse::<Date>().is_err());
        assert!("2032-02-29".parse::<Date>().is_ok());
    }

    #[test]
    fn days_between_dates() {
        let day = |t: &str| t.parse::<Date>().unwrap().day_number();
        assert_eq!(day("2031-03-01") - day("2031-02-28"), 1);
        assert_eq!(day("2032-03-01") - day("2032-02-28"), 2);
        assert_eq!(day("2031-01-01") - day("2030-01-01"), 365);
        // 20 417 days after 1 January 1970 (by the calendar of the standard library's users everywhere).
        assert_eq!(Date::from_unix_days(20_417).to_string(), "2025-11-25");
        assert_eq!(Date::from_unix_days(11_016).to_string(), "2000-02-29");
    }
}
