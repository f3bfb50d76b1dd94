//! Faults, refusals and notes in sentences.

use super::{Errors, FieldRead};
use crate::proofs::transmission::NoPattern;
use crate::sweep::NoSweep;
use antenna::fault::{Fault, InstallationError};
use antenna::feed::End;
use coverage::CoverageError;
use quantity::{Decibels, Digits, Power};
use station::Station;
use station::readings::FieldTest;
use words::{Arg, Message};

/// Why there is no diagnosis.
#[derive(Debug, Clone, PartialEq)]
pub enum NoDiagnosis {
    /// The station has no emission with that tag; those it has.
    NoEmission {
        /// Their tags.
        known: Vec<String>,
    },
    /// It has no transmitter, power or antenna yet.
    NothingRadiates,
    /// The antenna cannot be computed.
    Antenna(NoPattern),
    /// The line cannot be computed.
    Line(NoSweep),
    /// A reading names a place that nobody knows.
    UnknownPlace {
        /// As it was asked.
        asked: String,
        /// The station's places.
        known: Vec<String>,
    },
    /// No field can be predicted at a point that was read.
    Point {
        /// Its name, or where it is.
        name: String,
        /// Why.
        why: CoverageError,
    },
    /// The faults cannot be computed.
    Installation(InstallationError),
}

impl NoDiagnosis {
    /// Why there is none, for the emission asked for.
    pub fn says(&self, emission: &str) -> Message {
        match self {
            NoDiagnosis::NoEmission { known } => Message::new("sweep-no-emission")
                .text("tag", emission)
                .with("known", Arg::All(known.clone())),
            NoDiagnosis::NothingRadiates => Message::new("mounted-nothing").text("tag", emission),
            NoDiagnosis::Antenna(why) => crate::rules::antenna::no_pattern::says(emission, why),
            NoDiagnosis::Line(why) => why.says(emission),
            NoDiagnosis::UnknownPlace { asked, known } => Message::new("diagnosis-unknown-place")
                .text("place", asked.as_str())
                .with("known", Arg::All(known.clone())),
            NoDiagnosis::Point { name, why } => Message::new("diagnosis-no-prediction")
                .text("place", name.as_str())
                .message("why", why),
            NoDiagnosis::Installation(why) => Message::new("mounted-refused")
                .text("tag", emission)
                .message("why", why),
        }
    }
}

/// A fault of a stack of so many bays, which are numbered from the top.
pub fn suspected(fault: &Fault, bays: usize) -> Message {
    let number = |bay: usize| bays.saturating_sub(bay) as i64;
    let loss = |message: Message, extra_db: f64| message.quantity("loss", Decibels::from_db(extra_db));
    match *fault {
        Fault::Healthy => Message::new("fault-healthy"),
        Fault::UpsideDown { bay } => Message::new("fault-upside-down").count("bay", number(bay)),
        Fault::DeadBay { bay, end } => Message::new("fault-dead-bay")
            .tag("end", if end == End::Short { "short" } else { "open" })
            .count("bay", number(bay)),
        Fault::Swapped { first, second } => Message::new("fault-swapped")
            .count("first", number(first.max(second)))
            .count("second", number(first.min(second))),
        Fault::WrongVelocity {
            branch,
            velocity_ratio,
        } => Message::new("fault-wrong-velocity")
            .number("velocity", velocity_ratio, Digits::Decimals(2))
            .count("bay", number(branch)),
        Fault::WaterInFeeder { extra_db } => loss(Message::new("fault-water-in-feeder"), extra_db),
        Fault::WaterInBranch { branch, extra_db } => {
            loss(Message::new("fault-water-in-branch"), extra_db).count("bay", number(branch))
        }
        Fault::Detuned { bay, by_mhz } => Message::new("fault-detuned")
            .tag("side", if by_mhz < 0.0 { "low" } else { "high" })
            .number("by", by_mhz.abs(), Digits::Decimals(0))
            .count("bay", number(bay)),
    }
}

/// What a reader must know beside the answer.
pub(super) fn notes(
    station: &Station,
    antenna: &str,
    test: Option<&FieldTest>,
    fields: &[FieldRead],
    errors: &Errors,
    design_w: f64,
    forward_w: f64,
) -> Vec<Message> {
    let mut notes = Vec::new();
    let inverted = station.antenna(antenna).map_or(&[][..], |a| &a.inverted_bays);
    if !inverted.is_empty() {
        let bays = inverted.iter().map(ToString::to_string).collect();
        notes.push(Message::new("diagnosis-as-meant").with("bays", Arg::All(bays)));
    }
    if (forward_w - design_w).abs() > 0.005 * design_w {
        notes.push(
            Message::new("diagnosis-other-power")
                .quantity("set", Power::from_w(forward_w))
                .quantity("design", Power::from_w(design_w)),
        );
    }
    if let Some(test) = test {
        let unsaid = |said: Option<Decibels>, code: &'static str, taken_db: f64| {
            said.is_none()
                .then(|| Message::new(code).quantity("error", Decibels::from_db(taken_db)))
        };
        if test.meters.forward.is_some() || test.meters.reflected.is_some() {
            notes.extend(unsaid(
                test.meters.accuracy,
                "diagnosis-meters-taken",
                errors.meters_db,
            ));
        } else {
            notes.push(Message::new("diagnosis-no-meters"));
        }
        if !fields.is_empty() {
            notes.extend(unsaid(
                test.measuring_set.accuracy,
                "diagnosis-set-taken",
                errors.set_db,
            ));
            notes.extend(unsaid(
                test.measuring_set.repeat,
                "diagnosis-repeat-taken",
                errors.repeat_db,
            ));
        }
        if fields.iter().any(|f| !f.before) {
            notes.push(Message::new("diagnosis-against-prediction"));
        }
    }
    notes.push(Message::new("diagnosis-climbing"));
    notes
}
