//! A figure: a number with its unit, its doubt, and how it came about.

use crate::method::Method;
use crate::unit::Unit;
use serde::Serialize;
use station::Mark;
use words::Message;

/// A number of the assessment. Its id is public and stable.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// Stable id, such as `transmission.E1.erp`: proof, tag of what it is about, what it is.
    pub id: String,
    /// The stage of the air chain, or the ground it stands on, that it belongs to.
    pub stage: Stage,
    /// What it is, in words.
    pub label: Message,
    /// What it is worth.
    pub value: Value,
    /// One standard deviation, or the bounds, in the figure's own unit.
    pub spread: Option<Spread>,
    /// How much is in hand against what was asked or allowed.
    pub margin: Option<Margin>,
    /// How it was found.
    pub method: &'static Method,
    /// What went into it.
    pub inputs: Vec<Input>,
    /// How good it is: the weakest of method and inputs.
    pub mark: Mark,
}

/// What a figure is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Value {
    /// A number in a unit.
    Number {
        /// The number, never NaN or infinite.
        number: f64,
        /// Its unit.
        unit: Unit,
    },
    /// Money, exact.
    Money(quantity::Money),
    /// Words, such as a polarisation.
    Words(Message),
    /// Not known, and what is missing.
    NotKnown(Message),
}

/// How sure a figure is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Spread {
    /// One standard deviation to either side.
    Sigma(f64),
    /// Least and greatest.
    Between(f64, f64),
}

/// Room in hand against a limit or a wish; negative is short.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Margin {
    /// In hand.
    pub in_hand: Value,
    /// What it is measured against: the wish or the limit itself.
    pub against: Value,
    /// Whose wish or limit that is.
    pub whose: Message,
}

/// What went into a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Input {
    /// Another figure, by id.
    Figure(String),
    /// A value of the station file, by path.
    Stated(String),
    /// A rating on the shelf.
    Shelf {
        /// Shelf id.
        id: String,
        /// Which rating.
        rating: &'static str,
    },
    /// A row of a published or generic table.
    Table {
        /// What the row says, in words.
        what: Message,
        /// Where it stands.
        source: &'static str,
        /// How good it is.
        mark: Mark,
    },
}

/// Where on the air chain a figure or a finding belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, utoipa::ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// The brief itself.
    Brief,
    /// Microphones.
    Microphones,
    /// Console.
    Console,
    /// Processing.
    Processing,
    /// Studio-to-transmitter link.
    Link,
    /// Transmitter.
    Transmitter,
    /// Feeder, with all that stands in it.
    Feeder,
    /// Antenna.
    Antenna,
    /// Field.
    Field,
    /// Listener.
    Listener,
    /// Sites: power, heat, mast, people's safety.
    Sites,
    /// Money.
    Money,
}

impl Stage {
    /// The nine stages of the air chain, in order.
    pub const CHAIN: [Stage; 9] = [
        Stage::Microphones,
        Stage::Console,
        Stage::Processing,
        Stage::Link,
        Stage::Transmitter,
        Stage::Feeder,
        Stage::Antenna,
        Stage::Field,
        Stage::Listener,
    ];
}

impl Figure {
    /// A figure whose inputs are still to be named.
    pub fn new(
        id: impl Into<String>,
        stage: Stage,
        label: Message,
        value: Value,
        method: &'static Method,
    ) -> Figure {
        Figure {
            id: id.into(),
            stage,
            label,
            value: value.finite(),
            spread: None,
            margin: None,
            mark: method.mark,
            method,
            inputs: Vec::new(),
        }
    }

    /// Names an input.
    pub fn using(mut self, input: Input) -> Figure {
        self.inputs.push(input);
        self
    }

    /// Names several inputs.
    pub fn using_all(mut self, inputs: impl IntoIterator<Item = Input>) -> Figure {
        self.inputs.extend(inputs);
        self
    }

    /// Says how sure it is.
    pub fn spread(mut self, spread: Spread) -> Figure {
        self.spread = Some(spread);
        self
    }

    /// Says what is in hand.
    pub fn margin(mut self, in_hand: Value, against: Value, whose: Message) -> Figure {
        self.margin = Some(Margin {
            in_hand: in_hand.finite(),
            against,
            whose,
        });
        self
    }

    /// Weakens the mark.
    pub fn marked(mut self, mark: Mark) -> Figure {
        self.mark = self.mark.weaker(mark);
        self
    }
}

impl Value {
    /// A number in a unit.
    pub fn of(number: f64, unit: Unit) -> Value {
        Value::Number { number, unit }
    }

    /// The number, when it is one.
    pub fn number(&self) -> Option<f64> {
        match self {
            Value::Number { number, .. } => Some(*number),
            Value::Money(money) => Some(money.to_f64()),
            _ => None,
        }
    }

    /// No NaN and no infinity leaves a figure: such a value is not known.
    fn finite(self) -> Value {
        match self {
            Value::Number { number, .. } if !number.is_finite() => {
                Value::NotKnown(Message::new("not-computable"))
            }
            // Minus zero is zero.
            Value::Number { number, unit } => Value::Number {
                number: number + 0.0,
                unit,
            },
            other => other,
        }
    }
}
