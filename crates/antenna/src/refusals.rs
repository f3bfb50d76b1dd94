//! How the refusals of this crate are told: a message by code with typed arguments each, said by `words`.

use words::{Message, said_in_english};

use crate::array::ArrayError;
use crate::chain::{ChainError, TouchstoneError};
use crate::line::LineError;
use crate::mount::MountError;
use quantity::Digits;

said_in_english!(ArrayError);
said_in_english!(ChainError);
said_in_english!(LineError);
said_in_english!(MountError);
said_in_english!(TouchstoneError);

const MILLIMETRE: Digits = Digits::Decimals(3);

fn out_of_range(what: &'static str, value: f64, wanted: &'static str) -> Message {
    Message::new("antenna-range")
        .tag("what", what)
        .given("value", value)
        .tag("wanted", wanted)
}

impl From<&LineError> for Message {
    fn from(error: &LineError) -> Self {
        let LineError::Range { what, value, wanted } = error;
        out_of_range(what, *value, wanted)
    }
}

impl From<&ArrayError> for Message {
    fn from(error: &ArrayError) -> Self {
        match error {
            ArrayError::Range { what, value, wanted } => out_of_range(what, *value, wanted),
            ArrayError::BayCount { count } => Message::new("antenna-bay-count").count("bays", *count as i64),
            ArrayError::Length { what, given, wanted } => Message::new("antenna-length")
                .tag("what", *what)
                .count("given", *given as i64)
                .count("wanted", *wanted as i64),
            ArrayError::Touching {
                first,
                second,
                distance_m,
                needed_m,
            } => Message::new("antenna-touching")
                .count("first", *first as i64)
                .count("second", *second as i64)
                .amount("distance", *distance_m, MILLIMETRE, "m")
                .amount("needed", *needed_m, MILLIMETRE, "m"),
            ArrayError::InsidePole {
                bay,
                distance_m,
                radius_m,
            } => Message::new("antenna-inside-pole")
                .count("bay", *bay as i64)
                .amount("distance", *distance_m, MILLIMETRE, "m")
                .amount("radius", *radius_m, MILLIMETRE, "m"),
            ArrayError::Silent => Message::new("antenna-silent"),
            ArrayError::Singular { what, freq_mhz } => Message::new("antenna-singular")
                .tag("what", *what)
                .given_in("frequency", *freq_mhz, "MHz"),
            ArrayError::Line(error) => error.into(),
        }
    }
}

impl From<&MountError> for Message {
    fn from(error: &MountError) -> Self {
        match error {
            MountError::Array(error) => error.into(),
            MountError::Wire(fault) => fault.into(),
            MountError::InsideMast {
                bay,
                distance_m,
                mast_m,
            } => Message::new("antenna-inside-mast")
                .count("bay", *bay as i64)
                .amount("distance", *distance_m, MILLIMETRE, "m")
                .amount("mast", *mast_m, MILLIMETRE, "m"),
            MountError::Unmatchable { bay, resistance_ohm } => Message::new("antenna-unmatchable")
                .count("bay", *bay as i64)
                .amount("resistance", *resistance_ohm, Digits::Decimals(2), "Ω"),
            MountError::NoPlace { tried, first } => Message::new("antenna-no-place")
                .count("tried", *tried as i64)
                .message("first", first.clone()),
        }
    }
}

impl From<&ChainError> for Message {
    fn from(error: &ChainError) -> Self {
        match error {
            ChainError::Line(error) => error.into(),
            ChainError::Part { part, why } => Message::new("antenna-part")
                .count("part", *part as i64)
                .message("why", why),
            ChainError::Cut { part, freq_mhz } => Message::new("antenna-part-cut")
                .count("part", *part as i64)
                .given_in("frequency", *freq_mhz, "MHz"),
        }
    }
}

impl From<&TouchstoneError> for Message {
    fn from(error: &TouchstoneError) -> Self {
        match error {
            TouchstoneError::Line { line, text, wanted } => Message::new("antenna-touchstone-line")
                .text("line", line.to_string())
                .text("text", text)
                .tag("wanted", *wanted),
            TouchstoneError::Short { ports, found, wanted } => Message::new("antenna-touchstone-short")
                .count("found", *found as i64)
                .count("ports", *ports as i64)
                .count("wanted", *wanted as i64),
            TouchstoneError::Outside {
                freq_mhz,
                from_mhz,
                to_mhz,
            } => Message::new("antenna-touchstone-outside")
                .given_in("frequency", *freq_mhz, "MHz")
                .given_in("from", *from_mhz, "MHz")
                .given_in("to", *to_mhz, "MHz"),
            TouchstoneError::Ports { given, wanted } => Message::new("antenna-touchstone-ports")
                .count("given", *given as i64)
                .count("wanted", *wanted as i64),
        }
    }
}
