//! Money in decimals with its ISO 4217 currency; a price of energy.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

pub use iso_currency::Currency;
pub use rust_decimal::Decimal;
use rust_decimal::RoundingStrategy;
use rust_decimal::prelude::ToPrimitive;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::error::{Kind, QuantityError};
use crate::locale::Locale;
use crate::number::{Source, leading_number};
use crate::read::plain_text;

const MONEY: (&str, &str, &[&str]) = (
    "money",
    "an amount of money such as `3400 EUR` or `1250.50 USD`",
    &["3400 EUR", "1250.50 USD"],
);
const ENERGY_PRICE: (&str, &str, &[&str]) = (
    "energy-price",
    "a price of energy such as `0.24 EUR/kWh`",
    &["0.24 EUR/kWh"],
);

/// An amount of money. Amounts of two currencies never add up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Money {
    /// How much, exactly.
    pub amount: Decimal,
    /// In which currency.
    pub currency: Currency,
}

impl Money {
    /// An amount in a currency.
    pub fn new(amount: Decimal, currency: Currency) -> Self {
        Self { amount, currency }
    }

    /// Nothing, in a currency.
    pub fn zero(currency: Currency) -> Self {
        Self {
            amount: Decimal::ZERO,
            currency,
        }
    }

    /// Reads `3400 EUR` or `EUR 3400`, decimal point only.
    ///
    /// # Errors
    /// [`QuantityError`] with what stood there and what was expected.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Self::read(text, Source::File).map_err(|kind| refused(text, MONEY, kind))
    }

    /// Reads a field on the page: one separator, point or comma.
    ///
    /// # Errors
    /// As [`Money::parse`], and [`Kind::TwoReadings`] for `1,234 EUR`.
    pub fn parse_field(text: &str) -> Result<Self, QuantityError> {
        Self::read(text, Source::Field).map_err(|kind| refused(text, MONEY, kind))
    }

    fn read(text: &str, source: Source) -> Result<Self, Kind> {
        let plain = plain_text(text);
        if plain.is_empty() {
            return Err(Kind::Empty);
        }
        if let Some((code, amount)) = plain.split_once(' ')
            && let Some(currency) = Currency::from_code(code)
        {
            return Ok(Self {
                amount: amount_of(amount.trim_start(), source)?,
                currency,
            });
        }
        let (_, code) = leading_number(&plain, source)?;
        if code.is_empty() {
            return Err(Kind::MissingUnit);
        }
        let currency = currency_of(code)?;
        Ok(Self {
            amount: amount_of(plain[..plain.len() - code.len()].trim_end(), source)?,
            currency,
        })
    }

    /// The exact form: parsing it gives this amount again.
    pub fn file_form(self) -> String {
        format!("{} {}", self.amount.normalize(), self.currency.code())
    }

    /// The display form: to the smallest coin of the currency; whole amounts without a fraction.
    pub fn show(self, locale: &Locale) -> String {
        let rounded = self.rounded();
        let places = if rounded.amount.fract().is_zero() {
            0
        } else {
            coin_places(self.currency)
        };
        shown(rounded.amount, places, self.currency.code(), locale)
    }

    /// The display form with all the places of the currency: for columns of prices.
    pub fn show_full(self, locale: &Locale) -> String {
        shown(
            self.rounded().amount,
            coin_places(self.currency),
            self.currency.code(),
            locale,
        )
    }

    /// The display form without a fraction: for round figures in a sentence.
    pub fn show_whole(self, locale: &Locale) -> String {
        shown(self.whole().amount, 0, self.currency.code(), locale)
    }

    /// In whole units, halves away from zero: how every sentence speaks of it, so that none mixes coins with round figures.
    pub fn whole(self) -> Self {
        Self {
            amount: round(self.amount, 0),
            ..self
        }
    }

    /// Rounded to the smallest coin of the currency, halves away from zero.
    pub fn rounded(self) -> Self {
        Self {
            amount: round(self.amount, coin_places(self.currency)),
            ..self
        }
    }

    /// The sum; none when the currencies differ or the amount overflows.
    pub fn checked_add(self, other: Money) -> Option<Money> {
        let amount = self.amount.checked_add(other.amount)?;
        (self.currency == other.currency).then_some(Money { amount, ..self })
    }

    /// The difference; none when the currencies differ or the amount overflows.
    pub fn checked_sub(self, other: Money) -> Option<Money> {
        self.checked_add(Money {
            amount: -other.amount,
            ..other
        })
    }

    /// So many times this amount; none when it overflows.
    pub fn checked_mul(self, times: Decimal) -> Option<Money> {
        Some(Money {
            amount: self.amount.checked_mul(times)?,
            ..self
        })
    }

    /// The amount as a float, for drawing and for searching; sums are made in decimals.
    pub fn to_f64(self) -> f64 {
        self.amount.to_f64().unwrap_or(f64::NAN)
    }
}

/// A price of energy per kWh.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct EnergyPrice {
    /// Price of one kWh.
    pub per_kwh: Money,
}

impl EnergyPrice {
    /// Reads `0.24 EUR/kWh`.
    ///
    /// # Errors
    /// [`QuantityError`] with what stood there and what was expected.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Self::read(text, Source::File)
    }

    /// Reads a field on the page: one separator, point or comma.
    ///
    /// # Errors
    /// As [`EnergyPrice::parse`], and [`Kind::TwoReadings`] for `1,234 EUR/kWh`.
    pub fn parse_field(text: &str) -> Result<Self, QuantityError> {
        Self::read(text, Source::Field)
    }

    fn read(text: &str, source: Source) -> Result<Self, QuantityError> {
        let plain = plain_text(text);
        let money = plain.strip_suffix("/kWh").ok_or_else(|| {
            let kind = if plain.is_empty() {
                Kind::Empty
            } else {
                Kind::MissingUnit
            };
            refused(text, ENERGY_PRICE, kind)
        })?;
        let per_kwh = Money::read(money, source).map_err(|kind| refused(text, ENERGY_PRICE, kind))?;
        Ok(Self { per_kwh })
    }

    /// The exact form.
    pub fn file_form(self) -> String {
        format!("{}/kWh", self.per_kwh.file_form())
    }

    /// The display form, to a hundredth of the smallest coin.
    pub fn show(self, locale: &Locale) -> String {
        let places = coin_places(self.per_kwh.currency) + 2;
        let amount = round(self.per_kwh.amount, places).normalize();
        let places = amount.scale().max(coin_places(self.per_kwh.currency));
        shown(
            amount,
            places,
            &format!("{}/kWh", self.per_kwh.currency.code()),
            locale,
        )
    }
}

fn refused(
    text: &str,
    (quantity, expected, examples): (&'static str, &'static str, &'static [&'static str]),
    kind: Kind,
) -> QuantityError {
    QuantityError {
        text: text.into(),
        quantity,
        expected,
        examples,
        kind: Box::new(kind),
    }
}

fn currency_of(code: &str) -> Result<Currency, Kind> {
    Currency::from_code(code).ok_or_else(|| Kind::UnknownCurrency { code: code.into() })
}

fn amount_of(text: &str, source: Source) -> Result<Decimal, Kind> {
    let (_, rest) = leading_number(text, source)?;
    if !rest.is_empty() {
        return Err(Kind::NotANumber);
    }
    let plain = text.replace(',', ".");
    let limit = || Kind::OutOfRange {
        low: "−10^28".into(),
        high: "10^28".into(),
    };
    if plain.contains(['e', 'E']) {
        Decimal::from_scientific(&plain)
    } else {
        Decimal::from_str_exact(&plain)
    }
    .map(|amount| amount.normalize())
    .map_err(|_| limit())
}

/// Places behind the point of the currency's smallest coin.
fn coin_places(currency: Currency) -> u32 {
    currency.exponent().map_or(2, u32::from)
}

fn round(amount: Decimal, places: u32) -> Decimal {
    amount.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
}

fn shown(amount: Decimal, places: u32, unit: &str, locale: &Locale) -> String {
    let text = format!("{:.*}", places as usize, amount.abs());
    let (whole, fraction) = text.split_once('.').unwrap_or((text.as_str(), ""));
    let sign = if amount.is_sign_negative() && !amount.is_zero() {
        "\u{2212}"
    } else {
        ""
    };
    let point = if fraction.is_empty() {
        String::new()
    } else {
        locale.decimal.to_string()
    };
    format!(
        "{sign}{}{point}{fraction}{}{unit}",
        locale.grouped(whole),
        locale.unit_space
    )
}

/// `Display`, `FromStr`, serde and JSON Schema by the file form.
macro_rules! text_form {
    ($type:ident, $about:expr, $pattern:literal) => {
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
                serializer.serialize_str(&self.file_form())
            }
        }
        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = Cow::<'de, str>::deserialize(deserializer)?;
                Self::parse(&text).map_err(de::Error::custom)
            }
        }
        impl JsonSchema for $type {
            fn schema_name() -> Cow<'static, str> {
                stringify!($type).into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                schemars::json_schema!({ "type": "string", "description": $about.1, "pattern": $pattern, "examples": $about.2 })
            }
        }
    };
}

text_form!(
    Money,
    MONEY,
    r"^[+\-−]?\d+(\.\d+)? ?[A-Z]{3}$|^[A-Z]{3} [+\-−]?\d+(\.\d+)?$"
);
text_form!(EnergyPrice, ENERGY_PRICE, r"^[+\-−]?\d+(\.\d+)? ?[A-Z]{3}/kWh$");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_keeps_its_decimals_and_its_currency() {
        let price = Money::parse("1250.50 EUR").unwrap();
        assert_eq!(price.file_form(), "1250.5 EUR");
        assert_eq!(price.show(&Locale::ENGLISH), "1,250.50\u{a0}EUR");
        assert_eq!(
            Money::parse("EUR 3400").unwrap().show(&Locale::ENGLISH),
            "3,400\u{a0}EUR"
        );
        assert_eq!(
            Money::parse("3400 EUR").unwrap().show_full(&Locale::FRENCH),
            "3\u{202f}400,00\u{a0}EUR"
        );
        assert_eq!(
            Money::parse("1234.6 JPY").unwrap().show_full(&Locale::ENGLISH),
            "1,235\u{a0}JPY"
        );
        let tenth = Money::parse("0.1 EUR").unwrap();
        let fifth = Money::parse("0.2 EUR").unwrap();
        assert_eq!(tenth.checked_add(fifth), Some(Money::parse("0.3 EUR").unwrap()));
        assert_eq!(tenth.checked_add(Money::parse("1 USD").unwrap()), None);
        assert_eq!(
            EnergyPrice::parse("0.24 EUR/kWh").unwrap().show(&Locale::ENGLISH),
            "0.24\u{a0}EUR/kWh"
        );
        assert_eq!(
            EnergyPrice::parse("0.2437 EUR/kWh")
                .unwrap()
                .show(&Locale::ENGLISH),
            "0.2437\u{a0}EUR/kWh"
        );
    }

    #[test]
    fn bad_money_is_refused_by_kind() {
        for (text, code) in [
            ("3400", "quantity-missing-unit"),
            ("3400 euros", "quantity-unknown-currency"),
            ("3,400 EUR", "quantity-comma"),
            ("NaN EUR", "quantity-not-finite"),
            ("9e99 EUR", "quantity-out-of-range"),
            ("", "quantity-empty"),
        ] {
            assert_eq!(Money::parse(text).unwrap_err().code(), code, "{text}");
        }
        assert_eq!(
            Money::parse_field("1,234 EUR").unwrap_err().code(),
            "quantity-two-readings"
        );
        assert_eq!(
            Money::parse_field("1234,5 EUR").unwrap().file_form(),
            "1234.5 EUR"
        );
    }
}
