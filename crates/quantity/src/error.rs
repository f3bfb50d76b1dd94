//! What can be wrong with the text of a quantity.

use thiserror::Error;

/// A text that is no such quantity: what stood there, what was expected, and what was wrong.
///
/// `Display` is the short form for a terminal; the full sentence is a message made from [`QuantityError::code`] and the fields.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("`{text}`: {kind}: expected {expected}")]
pub struct QuantityError {
    /// The text as it stood.
    pub text: String,
    /// The quantity's stable name: `power`.
    pub quantity: &'static str,
    /// What was expected: "a power such as `500 W`, `2 kW` or `27 dBW`".
    pub expected: &'static str,
    /// Texts that would be accepted.
    pub examples: &'static [&'static str],
    /// What was wrong.
    pub kind: Box<Kind>,
}

/// The ways in which the text of a quantity is wrong.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Kind {
    /// Nothing there.
    #[error("nothing stands here")]
    Empty,
    /// No number at the beginning.
    #[error("it does not begin with a number")]
    NotANumber,
    /// NaN, infinity, or a number too large to hold.
    #[error("not a finite number")]
    NotFinite,
    /// A number with no unit behind it.
    #[error("the unit is missing")]
    MissingUnit,
    /// A unit that nobody here knows.
    #[error("`{unit}` is not a unit known here{}", nearest.map(|n| format!(", did you mean `{n}`?")).unwrap_or_default())]
    UnknownUnit {
        /// As it stood.
        unit: String,
        /// The same letters in the right case, or the like.
        nearest: Option<&'static str>,
    },
    /// A unit of another quantity.
    #[error("`{unit}` is a unit of {}", belongs_to.replace('-', " "))]
    WrongUnit {
        /// As it stood.
        unit: String,
        /// Name of the quantity whose unit it is.
        belongs_to: &'static str,
    },
    /// The reference is missing: "6 dB over what?", "30 m above what?".
    #[error("{amount} {} what?", if *is_height { "above" } else { "over" })]
    NoReference {
        /// Number and unit as written: `6 dB`.
        amount: String,
        /// True for heights ("above what"), false for levels ("over what").
        is_height: bool,
    },
    /// Another reference than the one wanted: `above sea` where `above ground` is expected.
    #[error("`{found}` is another reference")]
    WrongReference {
        /// As it stood.
        found: String,
    },
    /// A comma where only the decimal point is read.
    #[error("a file takes the decimal point only")]
    Comma,
    /// `1,234`: two readings.
    #[error("this can be read as {decimal} or as {thousands}")]
    TwoReadings {
        /// With the comma as decimal separator: `1.234`.
        decimal: String,
        /// With the comma between thousands: `1234`.
        thousands: String,
    },
    /// More than one separator in a number.
    #[error("one separator at most: write no marks between thousands")]
    TwoSeparators,
    /// A finite number outside what the quantity can be.
    #[error("outside what is possible ({low} to {high})")]
    OutOfRange {
        /// Lowest value in words, or `−∞`.
        low: String,
        /// Highest value in words, or `∞`.
        high: String,
    },
    /// An unknown currency code.
    #[error("`{code}` is no ISO 4217 currency code")]
    UnknownCurrency {
        /// As it stood.
        code: String,
    },
    /// Latitude beyond the poles while the other number would be one.
    #[error("latitude and longitude seem swapped")]
    Swapped,
    /// A position that cannot be read.
    #[error("not two coordinates")]
    NotAPosition,
}

impl QuantityError {
    /// Code of the message that says it in full.
    pub fn code(&self) -> &'static str {
        match &*self.kind {
            Kind::Empty => "quantity-empty",
            Kind::NotANumber => "quantity-not-a-number",
            Kind::NotFinite => "quantity-not-finite",
            Kind::MissingUnit => "quantity-missing-unit",
            Kind::UnknownUnit { nearest: None, .. } => "quantity-unknown-unit",
            Kind::UnknownUnit { nearest: Some(_), .. } => "quantity-unknown-unit-nearest",
            Kind::WrongUnit { .. } => "quantity-wrong-unit",
            Kind::NoReference { is_height: true, .. } => "quantity-above-what",
            Kind::NoReference { is_height: false, .. } => "quantity-over-what",
            Kind::WrongReference { .. } => "quantity-wrong-reference",
            Kind::Comma => "quantity-comma",
            Kind::TwoReadings { .. } => "quantity-two-readings",
            Kind::TwoSeparators => "quantity-two-separators",
            Kind::OutOfRange { .. } => "quantity-out-of-range",
            Kind::UnknownCurrency { .. } => "quantity-unknown-currency",
            Kind::Swapped => "quantity-swapped",
            Kind::NotAPosition => "quantity-not-a-position",
        }
    }
}
