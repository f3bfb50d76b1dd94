//! Why wires cannot be computed, told by wire and with the mend; and what makes them less certain.

/// Why an antenna made of wires cannot be computed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[expect(
    missing_docs,
    reason = "the message of each variant is its documentation, and its fields are named there"
)]
pub enum WireFault {
    #[error("the antenna has no wires: give at least one")]
    NoWires,
    #[error("frequency {frequency_mhz} MHz: expected a positive number")]
    BadFrequency { frequency_mhz: f64 },
    #[error("wire `{wire}`: {what} is not a finite number: give metres as plain numbers")]
    NotFinite { wire: String, what: &'static str },
    #[error("wire `{wire}` has no length: start and end are the same point; move one end or remove the wire")]
    ZeroLength { wire: String },
    #[error("wire `{wire}`: radius {radius_m} m: expected a positive number")]
    BadRadius { wire: String, radius_m: f64 },
    #[error(
        "wire `{wire}`: radius {radius_m} m is too thick for its segments of {segment_m:.4} m, which must be at least 1.5 radii: \
         {}make it longer, or model the tube as a cage of thin wires",
        if *most > 0 { format!("give at most {most} segments, ") } else { String::new() }
    )]
    TooThick {
        wire: String,
        radius_m: f64,
        segment_m: f64,
        most: usize,
    },
    #[error(
        "wires `{first}` and `{second}` cross or touch at ({x:.4}, {y:.4}, {z:.4}) m without a junction: end one of them on the \
         other's axis there to join them, or move them more than {clear_m:.4} m apart",
        x = at_m[0], y = at_m[1], z = at_m[2]
    )]
    Crossing {
        first: String,
        second: String,
        at_m: [f64; 3],
        clear_m: f64,
    },
    #[error(
        "wires `{first}` and `{second}` lie on one another from where they meet: remove one or turn it away"
    )]
    Overlap { first: String, second: String },
    #[error(
        "fed wire `{wire}` lies inside `{around}` (radius {radius_m} m): move it at least {clear_m:.4} m from that axis"
    )]
    Inside {
        wire: String,
        around: String,
        radius_m: f64,
        clear_m: f64,
    },
    #[error(
        "{what} {index} names wire {wire}, but the wires are 0 to {last}: give the index of a wire that exists"
    )]
    NoSuchWire {
        what: &'static str,
        index: usize,
        wire: usize,
        last: usize,
    },
    #[error(
        "{what} {index} on wire `{wire}`: position {position} is not on the wire: give a fraction from 0 to 1"
    )]
    OffTheWire {
        what: &'static str,
        index: usize,
        wire: String,
        position: f64,
    },
    #[error("{what} {index} on wire `{wire}`: {value} is not a finite number")]
    BadValue {
        what: &'static str,
        index: usize,
        wire: String,
        value: String,
    },
    #[error(
        "{what} {index} sits at a free end of wire `{wire}`, where no current flows: move it along the wire"
    )]
    FreeEnd {
        what: &'static str,
        index: usize,
        wire: String,
    },
    #[error("{what} {index} sits where wire `{wire}` meets {others} others: move it a little along the wire")]
    Junction {
        what: &'static str,
        index: usize,
        wire: String,
        others: usize,
    },
    #[error("sources {first} and {second} sit at the same place of wire `{wire}`: keep one of them")]
    SamePlace {
        first: usize,
        second: usize,
        wire: String,
    },
    #[error(
        "wire `{wire}` reaches z = {z_m:.4} m: over perfect ground every wire must stay above {least_m:.4} m, or end at z = 0 to \
         be joined to the ground"
    )]
    BelowGround { wire: String, z_m: f64, least_m: f64 },
    #[error(
        "wire `{wire}` lies along the ground, where its image takes its current away: lift its other end above {least_m:.4} m"
    )]
    AlongGround { wire: String, least_m: f64 },
    #[error(
        "wire `{wire}` has ends, sources, loads or other wires' ends {piece_m:.4} m apart, at {from:.4} and {to:.4} of its length: \
         put them at one place, or at least {least_m:.4} m apart (1.5 radii)"
    )]
    ShortPiece {
        wire: String,
        piece_m: f64,
        from: f64,
        to: f64,
        least_m: f64,
    },
    #[error(
        "wire `{wire}` stands {wavelengths:.0} wavelengths from the middle of the antenna: at most {most:.0} can be computed; \
         move it nearer, or compute it alone"
    )]
    TooFar {
        wire: String,
        wavelengths: f64,
        most: f64,
    },
    #[error("the antenna needs {unknowns} unknowns, more than {most}: use fewer or coarser segments")]
    TooLarge { unknowns: usize, most: usize },
    #[error("the matrix is singular to working precision: look for wires that nearly coincide")]
    Singular,
    #[error("there is no source: name a wire and a position for at least one")]
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

impl std::fmt::Display for WireCaution {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::ThickWire {
                wire,
                radius_wavelengths,
            } => write!(
                f,
                "wire `{wire}` is {radius_wavelengths:.3} wavelengths in radius: above 0.020 a single wire is too coarse near a fed one; use a cage"
            ),
            Self::Close {
                first,
                second,
                apart_m,
            } => {
                write!(
                    f,
                    "wires `{first}` and `{second}` are {apart_m:.4} m apart, less than four radii: currents round the tubes are uneven"
                )
            }
        }
    }
}
