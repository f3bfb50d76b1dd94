//! What defines a quantity: its units, each with names and the law to the base unit.

use crate::locale::{Digits, Locale};
use crate::print;

/// How a number in one unit becomes a number in the base unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// `base = x · 10^n`: shifted in the decimal text, so reading and printing are exact.
    Tens(i32),
    /// `base = x · factor`.
    Times(f64),
    /// `base = (x + shift) · factor`, for temperatures.
    Shifted {
        /// Added before the factor is applied.
        shift: f64,
        /// Multiplied after the shift.
        factor: f64,
    },
    /// `base = scale · 10^(x / per_decade)`: a level (dBW) of a quantity held in plain units (W).
    FromLevel {
        /// 10 for powers, 20 for fields and voltages.
        per_decade: f64,
        /// The base value at level 0.
        scale: f64,
    },
    /// `base = per_decade · log10(x · scale)`: a plain unit (V/m) of a quantity held as a level (dBµV/m).
    ToLevel {
        /// 10 for powers, 20 for fields and voltages.
        per_decade: f64,
        /// Multiplies the plain value so that 1 is level 0.
        scale: f64,
    },
}

impl Law {
    /// The base value of `x` in this unit. Not finite where the law has none (0 V/m as a level).
    pub fn to_base(self, x: f64) -> f64 {
        match self {
            Law::Tens(n) if n >= 0 => x * 10f64.powi(n),
            Law::Tens(n) => x / 10f64.powi(-n),
            Law::Times(factor) => x * factor,
            Law::Shifted { shift, factor } => (x + shift) * factor,
            Law::FromLevel { per_decade, scale } => scale * 10f64.powf(x / per_decade),
            Law::ToLevel { per_decade, scale } => per_decade * (x * scale).log10(),
        }
    }

    /// The number in this unit that stands for the base value `base`.
    pub fn from_base(self, base: f64) -> f64 {
        match self {
            Law::Tens(n) if n >= 0 => base / 10f64.powi(n),
            Law::Tens(n) => base * 10f64.powi(-n),
            Law::Times(factor) => base / factor,
            Law::Shifted { shift, factor } => base / factor - shift,
            Law::FromLevel { per_decade, scale } => per_decade * (base / scale).log10(),
            Law::ToLevel { per_decade, scale } => 10f64.powf(base / per_decade) / scale,
        }
    }
}

/// One unit of a quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// The name that is printed: `dBµV/m`.
    pub name: &'static str,
    /// Other spellings that are read: `dBuV/m`.
    pub also: &'static [&'static str],
    /// The law to the base unit.
    pub law: Law,
    /// Whether the file form may use it; inches and feet are read and never written.
    pub written: bool,
}

impl Unit {
    /// The name behind this number: `1 year`, `2 years`.
    pub fn name_for(&self, number: &str) -> &'static str {
        let singular = self
            .name
            .strip_suffix('s')
            .filter(|name| number == "1" && self.also.contains(name));
        singular.unwrap_or(self.name)
    }

    /// True when the unit follows its number without a space, as `°` and `:1` do.
    pub fn is_tight(&self) -> bool {
        self.name == "°" || self.name.starts_with(':')
    }
}

/// Words after the unit that name the reference: `above ground`, `ERP`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suffix {
    /// As printed.
    pub name: &'static str,
    /// Other spellings that are read.
    pub also: &'static [&'static str],
    /// Whether a text without it is refused ("30 m above what?").
    pub required: bool,
    /// Whether the file form prints it.
    pub written: bool,
}

/// The values a quantity may take, in its base unit; both ends are allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Lowest value.
    pub low: f64,
    /// Highest value.
    pub high: f64,
}

impl Range {
    /// Any finite number.
    pub const ANY: Range = Range {
        low: f64::NEG_INFINITY,
        high: f64::INFINITY,
    };
    /// Zero and above.
    pub const NOT_NEGATIVE: Range = Range {
        low: 0.0,
        high: f64::INFINITY,
    };

    /// True when `value` lies inside.
    pub fn holds(&self, value: f64) -> bool {
        value >= self.low && value <= self.high
    }
}

/// All there is to know about writing one quantity: the single place where its units are defined.
#[derive(Debug, PartialEq)]
pub struct Definition {
    /// Short stable name, used as a tag in messages: `power`, `height-above-ground`.
    pub name: &'static str,
    /// What a reader expected, for errors: "a power such as `500 W`, `2 kW` or `27 dBW`".
    pub expected: &'static str,
    /// Texts that are accepted.
    pub examples: &'static [&'static str],
    /// The units, in the order of preference for printing; the first one is used for zero.
    pub units: &'static [Unit],
    /// Units among which the display form chooses by size, smallest first.
    pub shown: &'static [&'static str],
    /// Digits of the display form.
    pub digits: Digits,
    /// Allowed values in the base unit.
    pub range: Range,
    /// Words that follow the unit.
    pub suffix: Option<Suffix>,
    /// Units that lack their reference level here: `dB` for a gain.
    pub bare: &'static [&'static str],
}

impl Definition {
    /// The unit called `name`, in any of its spellings.
    pub fn unit(&self, name: &str) -> Option<&'static Unit> {
        self.units
            .iter()
            .find(|u| u.name == name || u.also.contains(&name))
    }

    /// The definition called `name`: `power`.
    pub fn named(name: &str) -> Option<&'static Definition> {
        crate::ALL.iter().find(|d| d.name == name).copied()
    }

    /// The display form of a value in the base unit, when the quantity's type is not at hand: in `unit`, or in the one that suits
    /// its size; with `digits`, or the usual ones. None for a unit the quantity does not have.
    pub fn show(
        &self,
        base: f64,
        unit: Option<&str>,
        digits: Option<Digits>,
        locale: &Locale,
    ) -> Option<String> {
        let digits = digits.unwrap_or(self.digits);
        Some(match unit {
            None => print::shown(base, self, digits, locale),
            Some(name) => print::shown_in(base, self.unit(name)?, self, digits, locale),
        })
    }

    /// As [`Definition::show`] without the reference behind the unit (`above ground`): for languages that have their own words.
    pub fn show_amount(
        &self,
        base: f64,
        unit: Option<&str>,
        digits: Option<Digits>,
        locale: &Locale,
    ) -> Option<String> {
        let unit = match unit {
            None => None,
            Some(name) => Some(self.unit(name)?),
        };
        Some(print::amount(
            base,
            unit,
            self,
            digits.unwrap_or(self.digits),
            locale,
        ))
    }
}
