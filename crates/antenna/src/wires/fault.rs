//! Why wires cannot be computed, told by wire and with the mend; and what makes them less certain.

use quantity::Digits;
use words::{Message, said_in_english};

/// Why an antenna made of wires cannot be computed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[expect(
    missing_docs,
    reason = "the message of each variant, in `wires.ftl` of `words`, is its documentation"
)]
pub enum WireFault {
    NoWires,
    BadFrequency {
        frequency_mhz: f64,
    },
    NotFinite {
        wire: String,
        what: &'static str,
    },
    ZeroLength {
        wire: String,
    },
    BadRadius {
        wire: String,
        radius_m: f64,
    },
    TooThick {
        wire: String,
        radius_m: f64,
        segment_m: f64,
        most: usize,
    },
    Crossing {
        first: String,
        second: String,
        at_m: [f64; 3],
        clear_m: f64,
    },
    Overlap {
        first: String,
        second: String,
    },
    Inside {
        wire: String,
        around: String,
        radius_m: f64,
        clear_m: f64,
    },
    NoSuchWire {
        what: &'static str,
        index: usize,
        wire: usize,
        last: usize,
    },
    OffTheWire {
        what: &'static str,
        index: usize,
        wire: String,
        position: f64,
    },
    BadValue {
        what: &'static str,
        index: usize,
        wire: String,
        value: String,
    },
    FreeEnd {
        what: &'static str,
        index: usize,
        wire: String,
    },
    Junction {
        what: &'static str,
        index: usize,
        wire: String,
        others: usize,
    },
    SamePlace {
        first: usize,
        second: usize,
        wire: String,
    },
    BelowGround {
        wire: String,
        z_m: f64,
        least_m: f64,
    },
    AlongGround {
        wire: String,
        least_m: f64,
    },
    ShortPiece {
        wire: String,
        piece_m: f64,
        from: f64,
        to: f64,
        least_m: f64,
    },
    TooFar {
        wire: String,
        wavelengths: f64,
        most: f64,
    },
    TooLarge {
        unknowns: usize,
        most: usize,
    },
    Singular,
    NoPort,
}

/// Computed, but with less certainty than usual.
#[derive(Clone, Debug, PartialEq)]
pub enum WireCaution {
    /// A single wire thicker than λ/50 within one wavelength of a fed wire: use a cage.
    ThickWire {
        /// Its name.
        wire: String,
        /// Its radius in wavelengths.
        radius_wavelengths: f64,
    },
    /// Two unjoined wires closer than four radii, axis to axis: current is uneven round the tubes.
    Close {
        /// One.
        first: String,
        /// The other.
        second: String,
        /// Axis to axis, metres.
        apart_m: f64,
    },
}

said_in_english!(WireFault);
said_in_english!(WireCaution);

const TENTH_OF_A_MILLIMETRE: Digits = Digits::Decimals(4);

/// A message with a length to a tenth of a millimetre.
fn with_m(message: Message, name: &'static str, metres: f64) -> Message {
    message.amount(name, metres, TENTH_OF_A_MILLIMETRE, "m")
}

/// A message about a source or load (the tag `what`) by its number and wire.
fn placed(code: &'static str, what: &'static str, index: usize, wire: &str) -> Message {
    Message::new(code)
        .tag("what", what)
        .count("index", index as i64)
        .text("wire", wire)
}

impl From<&WireFault> for Message {
    fn from(fault: &WireFault) -> Self {
        match fault {
            WireFault::NoWires => Message::new("wires-none"),
            WireFault::BadFrequency { frequency_mhz } => {
                Message::new("wires-bad-frequency").given_in("frequency", *frequency_mhz, "MHz")
            }
            WireFault::NotFinite { wire, what } => Message::new("wires-not-finite")
                .text("wire", wire)
                .tag("what", *what),
            WireFault::ZeroLength { wire } => Message::new("wires-zero-length").text("wire", wire),
            WireFault::BadRadius { wire, radius_m } => Message::new("wires-bad-radius")
                .text("wire", wire)
                .given_in("radius", *radius_m, "m"),
            WireFault::TooThick {
                wire,
                radius_m,
                segment_m,
                most,
            } => with_m(
                Message::new("wires-too-thick")
                    .text("wire", wire)
                    .given_in("radius", *radius_m, "m"),
                "segment",
                *segment_m,
            )
            .count("most", *most as i64),
            WireFault::Crossing {
                first,
                second,
                at_m,
                clear_m,
            } => with_m(Message::new("wires-crossing"), "clear", *clear_m)
                .text("first", first)
                .text("second", second)
                .number("x", at_m[0], TENTH_OF_A_MILLIMETRE)
                .number("y", at_m[1], TENTH_OF_A_MILLIMETRE)
                .number("z", at_m[2], TENTH_OF_A_MILLIMETRE),
            WireFault::Overlap { first, second } => Message::new("wires-overlap")
                .text("first", first)
                .text("second", second),
            WireFault::Inside {
                wire,
                around,
                radius_m,
                clear_m,
            } => with_m(Message::new("wires-inside"), "clear", *clear_m)
                .text("wire", wire)
                .text("around", around)
                .given_in("radius", *radius_m, "m"),
            WireFault::NoSuchWire {
                what,
                index,
                wire,
                last,
            } => placed("wires-no-such-wire", what, *index, &wire.to_string()).count("last", *last as i64),
            WireFault::OffTheWire {
                what,
                index,
                wire,
                position,
            } => placed("wires-off-the-wire", what, *index, wire).given("position", *position),
            WireFault::BadValue {
                what,
                index,
                wire,
                value,
            } => placed("wires-bad-value", what, *index, wire).text("value", value),
            WireFault::FreeEnd { what, index, wire } => placed("wires-free-end", what, *index, wire),
            WireFault::Junction {
                what,
                index,
                wire,
                others,
            } => placed("wires-junction", what, *index, wire).count("others", *others as i64),
            WireFault::SamePlace { first, second, wire } => Message::new("wires-same-place")
                .count("first", *first as i64)
                .count("second", *second as i64)
                .text("wire", wire),
            WireFault::BelowGround { wire, z_m, least_m } => {
                let message = Message::new("wires-below-ground").text("wire", wire);
                with_m(with_m(message, "z", *z_m), "least", *least_m)
            }
            WireFault::AlongGround { wire, least_m } => with_m(
                Message::new("wires-along-ground").text("wire", wire),
                "least",
                *least_m,
            ),
            WireFault::ShortPiece {
                wire,
                piece_m,
                from,
                to,
                least_m,
            } => {
                let message = Message::new("wires-short-piece")
                    .text("wire", wire)
                    .number("from", *from, TENTH_OF_A_MILLIMETRE)
                    .number("to", *to, TENTH_OF_A_MILLIMETRE);
                with_m(with_m(message, "piece", *piece_m), "least", *least_m)
            }
            WireFault::TooFar {
                wire,
                wavelengths,
                most,
            } => Message::new("wires-too-far")
                .text("wire", wire)
                .given("wavelengths", wavelengths.round())
                .number("most", *most, Digits::Decimals(0)),
            WireFault::TooLarge { unknowns, most } => Message::new("wires-too-large")
                .count("unknowns", *unknowns as i64)
                .count("most", *most as i64),
            WireFault::Singular => Message::new("wires-singular"),
            WireFault::NoPort => Message::new("wires-no-port"),
        }
    }
}

impl From<&WireCaution> for Message {
    fn from(caution: &WireCaution) -> Self {
        match caution {
            WireCaution::ThickWire {
                wire,
                radius_wavelengths,
            } => Message::new("wires-thick").text("wire", wire).number(
                "radius",
                *radius_wavelengths,
                Digits::Decimals(3),
            ),
            WireCaution::Close {
                first,
                second,
                apart_m,
            } => with_m(Message::new("wires-close"), "apart", *apart_m)
                .text("first", first)
                .text("second", second),
        }
    }
}
