//! Refused quantities as messages.

use quantity::{AntennaGain, Kind, QuantityError};

use crate::message::{Arg, Message};

impl From<&QuantityError> for Message {
    fn from(fault: &QuantityError) -> Self {
        let examples = fault.examples.iter().map(|e| (*e).to_owned()).collect();
        let message = Message::new(fault.code())
            .text("text", &*fault.text)
            .tag("quantity", fault.quantity)
            .with("examples", Arg::Choices(examples));
        match &*fault.kind {
            Kind::UnknownUnit {
                unit,
                nearest: Some(nearest),
            } => message.text("unit", unit).text("nearest", *nearest),
            Kind::UnknownUnit { unit, nearest: None } => message.text("unit", unit),
            Kind::WrongUnit { unit, belongs_to } => message.text("unit", unit).tag("belongs", *belongs_to),
            Kind::NoReference {
                amount,
                is_height: false,
            } if fault.quantity.starts_with("gain") => over_dipole_or_isotrope(message, amount),
            Kind::NoReference { amount, .. } => message.text("amount", amount),
            Kind::WrongReference { found } => message.text("found", found),
            Kind::TwoReadings { decimal, thousands } => {
                message.text("decimal", decimal).text("thousands", thousands)
            }
            Kind::OutOfRange { low, high } => message.text("low", low).text("high", high),
            Kind::UnknownCurrency { code } => message.text("currency", code),
            _ => message,
        }
    }
}

/// "6 dB over what?": both readings of the gain, each with its unit.
fn over_dipole_or_isotrope(mut message: Message, amount: &str) -> Message {
    let dipole = format!("{amount}d");
    let isotrope = AntennaGain::parse(&dipole).map(|gain| quantity::Quantity::file_form(rounded(gain)));
    message.code = "quantity-gain-over-what".into();
    message
        .text("amount", amount)
        .text("dipole", dipole)
        .text("isotrope", isotrope.unwrap_or_default())
}

/// Over an isotrope, to a thousandth of a dB, so that the suggestion is short.
fn rounded(gain: AntennaGain) -> quantity::GainDbi {
    quantity::GainDbi::from_dbi((gain.to_dbd().to_dbi().dbi() * 1000.0).round() / 1000.0)
}
