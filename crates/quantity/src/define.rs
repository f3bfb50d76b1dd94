//! The trait that all quantities share, and the macro that makes one from its table of units.

use crate::error::QuantityError;
use crate::locale::{Digits, Locale};
use crate::number::Source;
use crate::unit::Definition;
use crate::{print, read};

/// A number with a unit: what reading and printing need.
pub trait Quantity: Copy + Sized {
    /// Names, units, digits and limits.
    const DEFINITION: &'static Definition;

    /// The value in the base unit.
    fn base(self) -> f64;

    /// From the base unit, as it is: see [`Quantity::checked`].
    fn from_base(value: f64) -> Self;

    /// Reads the text of a file or of the command line: the decimal point only.
    ///
    /// # Errors
    /// [`QuantityError`] with what stood there and what was expected.
    fn parse(text: &str) -> Result<Self, QuantityError> {
        read::base_value(text, Self::DEFINITION, Source::File).map(Self::from_base)
    }

    /// Reads a field on the page: one separator, point or comma; units in any case where that leaves one reading.
    ///
    /// # Errors
    /// As [`Quantity::parse`], and [`crate::Kind::TwoReadings`] for `1,234`.
    fn parse_field(text: &str) -> Result<Self, QuantityError> {
        read::base_value(text, Self::DEFINITION, Source::Field).map(Self::from_base)
    }

    /// This quantity, if it is finite and possible.
    ///
    /// # Errors
    /// [`crate::Kind::NotFinite`] or [`crate::Kind::OutOfRange`].
    fn checked(self) -> Result<Self, QuantityError> {
        match read::check(self.base(), Self::DEFINITION) {
            Ok(()) => Ok(self),
            Err(kind) => Err(read::refused(&self.file_form(), Self::DEFINITION, kind)),
        }
    }

    /// The exact form: parsing it gives this value again, bit for bit.
    fn file_form(self) -> String {
        print::file_form(self.base(), Self::DEFINITION)
    }

    /// The display form with the quantity's usual digits, in the unit that suits its size.
    fn show(self, locale: &Locale) -> String {
        print::shown(self.base(), Self::DEFINITION, Self::DEFINITION.digits, locale)
    }

    /// The display form with other digits.
    fn show_digits(self, digits: Digits, locale: &Locale) -> String {
        print::shown(self.base(), Self::DEFINITION, digits, locale)
    }

    /// The display form in the unit called `unit`; none when the quantity has no such unit.
    fn show_in(self, unit: &str, digits: Digits, locale: &Locale) -> Option<String> {
        let unit = Self::DEFINITION.unit(unit)?;
        Some(print::shown_in(
            self.base(),
            unit,
            Self::DEFINITION,
            digits,
            locale,
        ))
    }
}

/// Makes one quantity: the type, its accessors, and everything that follows from the table.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $type:ident {
            name: $name:literal,
            expected: $expected:literal,
            examples: [$($example:literal),+],
            units: { $( $unit:literal $([$($also:literal),*])? = $law:expr $(=> $get:ident, $from:ident)? ; )+ }
            read_only: { $( $ro_unit:literal $([$($ro_also:literal),*])? = $ro_law:expr $(=> $ro_get:ident, $ro_from:ident)? ; )* }
            shown: [$($shown:literal),+], digits: $digits:expr,
            range: $range:expr
            $(, suffix: $suffix:expr)?
            $(, bare: [$($bare:literal),*])?
        }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $type(f64);

        impl $crate::Quantity for $type {
            const DEFINITION: &'static $crate::unit::Definition = &$crate::unit::Definition {
                name: $name,
                expected: $expected,
                examples: &[$($example),+],
                units: &[
                    $( $crate::unit::Unit { name: $unit, also: &[$($($also),*)?], law: $law, written: true }, )+
                    $( $crate::unit::Unit { name: $ro_unit, also: &[$($($ro_also),*)?], law: $ro_law, written: false }, )*
                ],
                shown: &[$($shown),+],
                digits: $digits,
                range: $range,
                suffix: $crate::define::first([$($suffix)?].as_slice()),
                bare: &[$($($bare),*)?],
            };
            fn base(self) -> f64 {
                self.0
            }
            fn from_base(value: f64) -> Self {
                Self(value)
            }
        }

        impl $type {
            $($(
                #[doc = concat!("In ", $unit, ".")]
                pub fn $get(self) -> f64 {
                    $law.from_base(self.0)
                }
                #[doc = concat!("From ", $unit, "; neither range nor finiteness is checked, see [`crate::Quantity::checked`].")]
                pub fn $from(value: f64) -> Self {
                    Self($law.to_base(value))
                }
            )?)+
            $($(
                #[doc = concat!("In ", $ro_unit, ".")]
                pub fn $ro_get(self) -> f64 {
                    $ro_law.from_base(self.0)
                }
                #[doc = concat!("From ", $ro_unit, "; neither range nor finiteness is checked, see [`crate::Quantity::checked`].")]
                pub fn $ro_from(value: f64) -> Self {
                    Self($ro_law.to_base(value))
                }
            )?)*
        }

        $crate::define::text_form!($type, <$type as $crate::Quantity>::DEFINITION);
    };
}
pub(crate) use quantity;

/// The first of none or one, in a constant.
pub(crate) const fn first(suffix: &[crate::unit::Suffix]) -> Option<crate::unit::Suffix> {
    if suffix.is_empty() { None } else { Some(suffix[0]) }
}

/// `Display`, `FromStr`, serde and JSON Schema of a [`Quantity`]: all by its file form.
macro_rules! text_form {
    ($type:ident, $definition:expr) => {
        impl std::fmt::Display for $type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(&$crate::Quantity::file_form(*self))
            }
        }
        impl std::str::FromStr for $type {
            type Err = $crate::QuantityError;
            fn from_str(text: &str) -> Result<Self, $crate::QuantityError> {
                $crate::Quantity::parse(text)
            }
        }
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let checked = $crate::Quantity::checked(*self).map_err(serde::ser::Error::custom)?;
                serializer.serialize_str(&$crate::Quantity::file_form(checked))
            }
        }
        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                deserializer.deserialize_any($crate::define::TextVisitor(std::marker::PhantomData))
            }
        }
        impl schemars::JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                $crate::define::schema($definition)
            }
        }
    };
}
pub(crate) use text_form;

/// Reads any quantity from a text, and refuses bare numbers with the quantity's own words.
pub(crate) struct TextVisitor<T>(pub(crate) std::marker::PhantomData<T>);

impl<T: Quantity> serde::de::Visitor<'_> for TextVisitor<T> {
    type Value = T;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(T::DEFINITION.expected)
    }
    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<T, E> {
        T::parse(text).map_err(E::custom)
    }
    fn visit_i64<E: serde::de::Error>(self, value: i64) -> Result<T, E> {
        T::parse(&value.to_string()).map_err(E::custom)
    }
    fn visit_u64<E: serde::de::Error>(self, value: u64) -> Result<T, E> {
        T::parse(&value.to_string()).map_err(E::custom)
    }
    fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<T, E> {
        T::parse(&value.to_string()).map_err(E::custom)
    }
}

/// The JSON Schema of a quantity's text: description, pattern and examples from its definition.
pub(crate) fn schema(definition: &Definition) -> schemars::Schema {
    let escape = |name: &str| name.replace('/', "\\/").replace('.', "\\.");
    let units: Vec<String> = definition
        .units
        .iter()
        .flat_map(|u| std::iter::once(&u.name).chain(u.also))
        .map(|n| escape(n))
        .collect();
    let suffix = definition.suffix.map_or(String::new(), |s| {
        let names: Vec<String> = std::iter::once(&s.name)
            .chain(s.also)
            .map(|n| escape(n))
            .collect();
        format!("( {}){}", names.join("| "), if s.required { "" } else { "?" })
    });
    let pattern = format!(
        r"^[+\-−]?(\d+(\.\d+)?|\.\d+)([eE][+\-]?\d+)? ?({}){suffix}$",
        units.join("|")
    );
    schemars::json_schema!({
        "type": "string",
        "description": definition.expected,
        "pattern": pattern,
        "examples": definition.examples,
    })
}
