//! A message: its code and its typed arguments.

use std::borrow::Cow;
use std::collections::BTreeMap;

use quantity::{Definition, Digits, Locale, Money, Position, Quantity};
use serde::{Deserialize, Serialize};

/// A sentence not yet said: which one, and what goes into it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Message {
    /// Code of the message, as in the message files; `code.attribute` for an attribute.
    pub code: Cow<'static, str>,
    /// The arguments by name.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub args: BTreeMap<Cow<'static, str>, Arg>,
}

/// One argument of a message.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Arg {
    /// Words that are nobody's to translate: a name, a path, an offending text.
    Text(String),
    /// A stable tag that chooses a variant: `mast`. Never printed itself.
    Tag(String),
    /// A whole number of things: chooses the plural, printed grouped.
    Count(i64),
    /// A number with its digits, and a unit where it has one that is no quantity of ours (`MWh/y`).
    Number {
        /// The value.
        value: f64,
        /// Its digits.
        digits: Digits,
        /// Its unit, set apart by the language's space; none for a pure number.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        unit: Option<String>,
        /// Whether a `+` is printed before what is above zero.
        #[serde(default)]
        signed: bool,
    },
    /// A quantity.
    Quantity {
        /// Name of its definition: `power`.
        quantity: String,
        /// Value in the base unit.
        base: f64,
        /// Unit to show it in; by size where none is named.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        unit: Option<String>,
        /// Digits, where the usual ones do not suit.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        digits: Option<Digits>,
    },
    /// An amount of money, rounded to its smallest coin.
    Money(Money),
    /// A position, in degrees, minutes and seconds.
    Place(Position),
    /// Several texts of which one may be chosen: `a, b or c`.
    Choices(Vec<String>),
    /// Several texts together: `a, b and c`.
    All(Vec<String>),
    /// Another message, said in the language of the one it stands in: the cause of a refusal.
    Said(Box<Message>),
    /// Several messages, a line each.
    Lines(Vec<Message>),
}

impl Message {
    /// A message without arguments.
    pub fn new(code: impl Into<Cow<'static, str>>) -> Self {
        Self {
            code: code.into(),
            args: BTreeMap::new(),
        }
    }

    /// With one more argument.
    #[must_use]
    pub fn with(mut self, name: impl Into<Cow<'static, str>>, arg: impl Into<Arg>) -> Self {
        self.args.insert(name.into(), arg.into());
        self
    }

    /// With a text: a name, a path, an offending text.
    #[must_use]
    pub fn text(self, name: &'static str, text: impl Into<String>) -> Self {
        self.with(name, Arg::Text(text.into()))
    }

    /// With a tag that chooses a variant.
    #[must_use]
    pub fn tag(self, name: &'static str, tag: impl Into<String>) -> Self {
        self.with(name, Arg::Tag(tag.into()))
    }

    /// With a whole number of things.
    #[must_use]
    pub fn count(self, name: &'static str, count: i64) -> Self {
        self.with(name, Arg::Count(count))
    }

    /// With a quantity, shown with its usual digits in the unit that suits its size.
    #[must_use]
    pub fn quantity<Q: Quantity>(self, name: &'static str, quantity: Q) -> Self {
        self.with(name, Arg::quantity(quantity))
    }

    /// With a pure number.
    #[must_use]
    pub fn number(self, name: &'static str, value: f64, digits: Digits) -> Self {
        self.with(
            name,
            Arg::Number {
                value,
                digits,
                unit: None,
                signed: false,
            },
        )
    }

    /// With a number and a unit that is no quantity of ours.
    #[must_use]
    pub fn amount(self, name: &'static str, value: f64, digits: Digits, unit: impl Into<String>) -> Self {
        self.with(
            name,
            Arg::Number {
                value,
                digits,
                unit: Some(unit.into()),
                signed: false,
            },
        )
    }

    /// With a number as it was given: every digit it has, in the language's separators. What is no number is written as it stands
    /// (`NaN`), since a refusal must be able to name it.
    #[must_use]
    pub fn given(self, name: &'static str, value: f64) -> Self {
        self.with(name, Arg::given(value, None))
    }

    /// With a number as it was given and its unit.
    #[must_use]
    pub fn given_in(self, name: &'static str, value: f64, unit: &str) -> Self {
        self.with(name, Arg::given(value, Some(unit)))
    }

    /// With another message, such as the cause of a refusal.
    #[must_use]
    pub fn message(self, name: &'static str, message: impl Into<Message>) -> Self {
        self.with(name, Arg::Said(Box::new(message.into())))
    }

    /// With several messages, a line each.
    #[must_use]
    pub fn lines(self, name: &'static str, messages: impl IntoIterator<Item = Message>) -> Self {
        self.with(name, Arg::Lines(messages.into_iter().collect()))
    }

    /// What a system or a library of others says of a failure, in its own words and language.
    pub fn foreign(why: impl std::fmt::Display) -> Self {
        Message::new("foreign").text("why", why.to_string())
    }

    /// With an amount of money.
    #[must_use]
    pub fn money(self, name: &'static str, money: Money) -> Self {
        self.with(name, Arg::Money(money))
    }
}

impl Arg {
    /// A quantity, shown with its usual digits in the unit that suits its size.
    pub fn quantity<Q: Quantity>(quantity: Q) -> Arg {
        Arg::Quantity {
            quantity: Q::DEFINITION.name.into(),
            base: quantity.base(),
            unit: None,
            digits: None,
        }
    }

    /// A quantity in a unit and with digits of one's own.
    pub fn quantity_in<Q: Quantity>(quantity: Q, unit: &str, digits: Digits) -> Arg {
        Arg::Quantity {
            quantity: Q::DEFINITION.name.into(),
            base: quantity.base(),
            unit: Some(unit.into()),
            digits: Some(digits),
        }
    }

    /// A number with every digit it has, and its unit; text where it is none.
    fn given(value: f64, unit: Option<&str>) -> Arg {
        if !value.is_finite() {
            return Arg::Text(unit.map_or_else(|| value.to_string(), |unit| format!("{value} {unit}")));
        }
        let plain = value.to_string();
        let decimals = plain.split_once('.').map_or(0, |(_, fraction)| fraction.len());
        Arg::Number {
            value,
            digits: Digits::AtMost(u8::try_from(decimals).unwrap_or(u8::MAX)),
            unit: unit.map(Into::into),
            signed: false,
        }
    }

    /// The argument as finished text; none where it names a quantity or unit that does not exist, or is not finite.
    ///
    /// Lists come back joined by commas, quantities without their reference, and messages not at all: the catalogue says those.
    pub(crate) fn shown(&self, locale: &Locale) -> Option<String> {
        Some(match self {
            Arg::Text(text) | Arg::Tag(text) => text.clone(),
            Arg::Count(count) => locale.count(*count),
            Arg::Number { value, .. } if !value.is_finite() => return None,
            Arg::Number {
                value,
                digits,
                unit,
                signed,
            } => {
                let number = if *signed {
                    locale.signed(*value, *digits)
                } else {
                    locale.number(*value, *digits)
                };
                match unit {
                    Some(unit) => format!("{number}{}{unit}", locale.unit_space),
                    None => number,
                }
            }
            Arg::Quantity { base, .. } if !base.is_finite() => return None,
            Arg::Quantity {
                quantity,
                base,
                unit,
                digits,
            } => Definition::named(quantity)?.show_amount(*base, unit.as_deref(), *digits, locale)?,
            Arg::Money(money) => money.show(locale),
            Arg::Place(position) => position.show_dms(),
            Arg::Choices(texts) | Arg::All(texts) => texts.join(", "),
            Arg::Said(_) | Arg::Lines(_) => return None,
        })
    }
}

impl From<&str> for Arg {
    fn from(text: &str) -> Self {
        Arg::Text(text.into())
    }
}

impl From<String> for Arg {
    fn from(text: String) -> Self {
        Arg::Text(text)
    }
}

impl From<i64> for Arg {
    fn from(count: i64) -> Self {
        Arg::Count(count)
    }
}

impl From<Money> for Arg {
    fn from(money: Money) -> Self {
        Arg::Money(money)
    }
}

impl From<Position> for Arg {
    fn from(position: Position) -> Self {
        Arg::Place(position)
    }
}
