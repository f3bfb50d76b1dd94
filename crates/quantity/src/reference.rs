//! Quantities whose reference is part of the value: a height above ground, above sea or effective; a gain in dBd or dBi.

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::define::Quantity;
use crate::error::{Kind, QuantityError};
use crate::geometry::{EffectiveHeight, HeightAgl, HeightAmsl};
use crate::locale::Locale;
use crate::radio::{GainDbd, GainDbi};

/// A height that says what it is above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Height {
    /// Above the ground at its place.
    AboveGround(HeightAgl),
    /// Above mean sea level.
    AboveSea(HeightAmsl),
    /// Above the mean ground of the land around.
    Effective(EffectiveHeight),
}

/// An antenna gain that says what it is over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AntennaGain {
    /// Over a half-wave dipole.
    OverDipole(GainDbd),
    /// Over an isotrope.
    OverIsotrope(GainDbi),
}

impl AntennaGain {
    /// Over a half-wave dipole, whichever way it was given.
    pub fn to_dbd(self) -> GainDbd {
        match self {
            AntennaGain::OverDipole(gain) => gain,
            AntennaGain::OverIsotrope(gain) => gain.to_dbd(),
        }
    }
}

/// Makes an enum of quantities readable: the first one whose parser accepts the text.
macro_rules! one_of {
    ($type:ident { $($variant:ident($inner:ident)),+ }, $name:literal, $expected:literal, [$($example:literal),+]) => {
        impl $type {
            /// Reads a file's text: see [`Quantity::parse`].
            ///
            /// # Errors
            /// [`QuantityError`] with what stood there and what was expected.
            pub fn parse(text: &str) -> Result<Self, QuantityError> {
                Self::first_of(text, [$($inner::parse(text).map(Self::$variant)),+])
            }
            /// Reads a field on the page: see [`Quantity::parse_field`].
            ///
            /// # Errors
            /// As [`Self::parse`].
            pub fn parse_field(text: &str) -> Result<Self, QuantityError> {
                Self::first_of(text, [$($inner::parse_field(text).map(Self::$variant)),+])
            }
            fn first_of<const N: usize>(text: &str, readings: [Result<Self, QuantityError>; N]) -> Result<Self, QuantityError> {
                let mut kinds = Vec::new();
                for reading in readings {
                    match reading {
                        Ok(read) => return Ok(read),
                        Err(fault) => kinds.push(fault.kind),
                    }
                }
                let is_telling = |kind: &&Box<Kind>| !matches!(***kind, Kind::WrongReference { .. } | Kind::WrongUnit { .. });
                let kind = kinds.iter().find(is_telling).or(kinds.first()).cloned().unwrap_or(Box::new(Kind::Empty));
                Err(QuantityError { text: text.into(), quantity: $name, expected: $expected, examples: &[$($example),+], kind })
            }
            /// The exact form, reference included.
            pub fn file_form(self) -> String {
                match self { $(Self::$variant(inner) => inner.file_form()),+ }
            }
            /// The display form, reference included.
            pub fn show(self, locale: &Locale) -> String {
                match self { $(Self::$variant(inner) => inner.show(locale)),+ }
            }
        }
        $(impl From<$inner> for $type {
            fn from(inner: $inner) -> Self {
                Self::$variant(inner)
            }
        })+
        impl fmt::Display for $type {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(&self.file_form())
            }
        }
        impl FromStr for $type {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> {
                Self::parse(text)
            }
        }
        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                match self { $(Self::$variant(inner) => inner.serialize(serializer)),+ }
            }
        }
        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = std::borrow::Cow::<'de, str>::deserialize(deserializer)?;
                Self::parse(&text).map_err(de::Error::custom)
            }
        }
        impl JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                schemars::json_schema!({
                    "description": $expected,
                    "examples": [$($example),+],
                    "anyOf": [$(crate::define::schema($inner::DEFINITION)),+],
                })
            }
        }
    };
}

one_of!(
    Height { AboveGround(HeightAgl), AboveSea(HeightAmsl), Effective(EffectiveHeight) },
    "height",
    "a height such as `30 m above ground`, `120 m above sea` or `120 m effective`",
    ["30 m above ground", "120 m above sea", "120 m effective"]
);

one_of!(
    AntennaGain { OverDipole(GainDbd), OverIsotrope(GainDbi) },
    "gain",
    "a gain such as `6 dBd` (over a dipole) or `8.15 dBi` (over an isotrope)",
    ["6 dBd", "8.15 dBi"]
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reference_left_out_is_asked_for() {
        let fault = Height::parse("30 m").unwrap_err();
        assert_eq!(fault.code(), "quantity-above-what");
        assert_eq!(
            *fault.kind,
            Kind::NoReference {
                amount: "30 m".into(),
                is_height: true
            }
        );
        let fault = AntennaGain::parse("6 dB").unwrap_err();
        assert_eq!(
            *fault.kind,
            Kind::NoReference {
                amount: "6 dB".into(),
                is_height: false
            }
        );
        assert_eq!(
            AntennaGain::parse("500 W").unwrap_err().code(),
            "quantity-wrong-unit"
        );
        assert_eq!(
            AntennaGain::parse("6").unwrap_err().code(),
            "quantity-missing-unit"
        );
    }

    #[test]
    fn each_reference_is_its_own_type() {
        assert_eq!(
            Height::parse("30 m above ground").unwrap(),
            HeightAgl::from_m(30.0).into()
        );
        assert_eq!(
            Height::parse("120 m AMSL").unwrap().file_form(),
            "120 m above sea"
        );
        assert_eq!(
            Height::parse("-12 m effective").unwrap().file_form(),
            "-12 m effective"
        );
        assert_eq!(
            AntennaGain::parse("8.15 dBi").unwrap().to_dbd(),
            GainDbd::from_dbd(6.0)
        );
    }
}
