//! How the refusals of this crate are told: a message by code with typed arguments each, said by `words`.

use words::{Message, said_in_english};

use crate::hop::HopError;
use crate::itm::{self, Refusal, Refused};
use crate::out_of_range::OutOfRange;
use crate::p530::MultipathError;
use crate::p1812::{InputError, ProfileError};

said_in_english!(HopError);
said_in_english!(InputError);
said_in_english!(MultipathError);
said_in_english!(OutOfRange);
said_in_english!(ProfileError);
said_in_english!(Refusal);
said_in_english!(Refused);
said_in_english!(itm::ProfileError);

impl From<&OutOfRange> for Message {
    fn from(error: &OutOfRange) -> Self {
        Message::new("propagation-out-of-range")
            .text("quantity", error.quantity)
            .given("value", error.value)
            .text("method", error.method)
            .given("low", error.low)
            .given_in("high", error.high, error.unit)
    }
}

impl From<&InputError> for Message {
    fn from(error: &InputError) -> Self {
        match error {
            InputError::Range {
                what,
                value,
                unit,
                least,
                most,
            } => {
                let message = Message::new("propagation-p1812-range")
                    .tag("what", *what)
                    .given("least", *least);
                if unit.is_empty() {
                    message.given("value", *value).given("most", *most)
                } else {
                    message
                        .given_in("value", *value, unit)
                        .given_in("most", *most, unit)
                }
            }
            InputError::Setups { setups, lists } => Message::new("propagation-setups")
                .count("setups", *setups as i64)
                .count("lists", *lists as i64),
            InputError::ReceiverHeights { given, points } => Message::new("propagation-receiver-heights")
                .count("heights", *given as i64)
                .count("points", *points as i64),
        }
    }
}

impl From<&ProfileError> for Message {
    fn from(error: &ProfileError) -> Self {
        match error {
            ProfileError::Lengths {
                distances,
                heights,
                clutter,
                zones,
            } => Message::new("propagation-profile-lengths")
                .count("distances", *distances as i64)
                .count("heights", *heights as i64)
                .count("clutter", *clutter as i64)
                .count("zones", *zones as i64),
            ProfileError::TooFew { points } => {
                Message::new("propagation-profile-too-few").count("points", *points as i64)
            }
            ProfileError::Start { distance_km } => {
                Message::new("propagation-profile-start").given_in("distance", *distance_km, "km")
            }
            ProfileError::NotRising {
                index,
                distance_km,
                before_km,
            } => Message::new("propagation-profile-not-rising")
                .count("point", *index as i64)
                .given_in("distance", *distance_km, "km")
                .given_in("before", *before_km, "km"),
            ProfileError::TooLong { distance_km } => {
                Message::new("propagation-profile-too-long").given_in("distance", *distance_km, "km")
            }
            ProfileError::Height { index, height_m } => Message::new("propagation-profile-height")
                .count("point", *index as i64)
                .given_in("height", *height_m, "m"),
            ProfileError::Clutter { index, height_m } => Message::new("propagation-profile-clutter")
                .count("point", *index as i64)
                .given_in("height", *height_m, "m"),
        }
    }
}

impl From<&itm::ProfileError> for Message {
    fn from(error: &itm::ProfileError) -> Self {
        match error {
            itm::ProfileError::TooFewPoints { points } => {
                Message::new("propagation-itm-too-few").count("points", *points as i64)
            }
            itm::ProfileError::Spacing { spacing_m } => {
                Message::new("propagation-itm-spacing").given_in("spacing", *spacing_m, "m")
            }
            itm::ProfileError::Height { index, height_m } => Message::new("propagation-itm-height")
                .count("point", *index as i64)
                .given_in("height", *height_m, "m"),
        }
    }
}

impl From<&Refused> for Message {
    fn from(refused: &Refused) -> Self {
        (&refused.refusal).into()
    }
}

impl From<&Refusal> for Message {
    fn from(refusal: &Refusal) -> Self {
        let why = match refusal {
            Refusal::TxHeight => "tx-height",
            Refusal::RxHeight => "rx-height",
            Refusal::Climate => "climate",
            Refusal::Time => "time",
            Refusal::Location => "places",
            Refusal::Situation => "situations",
            Refusal::Refractivity => "refractivity",
            Refusal::Frequency => "frequency",
            Refusal::Polarisation => "polarisation",
            Refusal::Permittivity => "permittivity",
            Refusal::Conductivity => "conductivity",
            Refusal::GroundImpedance => "ground-impedance",
            Refusal::Variability => "variability",
            Refusal::EarthRadius => "earth-radius",
            Refusal::SurfaceRefractivityLow => "surface-refractivity-low",
            Refusal::SurfaceRefractivityHigh => "surface-refractivity-high",
        };
        Message::new("propagation-itm-refused").tag("why", why)
    }
}

impl From<&MultipathError> for Message {
    fn from(error: &MultipathError) -> Self {
        match error {
            MultipathError::OutOfRange(error) => error.into(),
            MultipathError::FrequencyTooLow { freq_ghz, least_ghz } => {
                Message::new("propagation-multipath-frequency")
                    .given_in("frequency", *freq_ghz, "GHz")
                    .given_in("least", *least_ghz, "GHz")
            }
            MultipathError::OccurrenceTooHigh { p0_pct } => {
                Message::new("propagation-multipath-occurrence").given_in("occurrence", *p0_pct, "%")
            }
        }
    }
}

impl From<&HopError> for Message {
    fn from(error: &HopError) -> Self {
        match error {
            HopError::TooFewPoints => Message::new("propagation-hop-too-few"),
            HopError::DistancesNotRising { index, distance_km } => Message::new("propagation-hop-not-rising")
                .count("point", *index as i64)
                .given_in("distance", *distance_km, "km"),
            HopError::HeightNotFinite { index } => {
                Message::new("propagation-hop-height").count("point", *index as i64)
            }
            HopError::BadValue {
                quantity,
                value,
                expected,
            } => Message::new("propagation-hop-bad-value")
                .text("quantity", *quantity)
                .given("value", *value)
                .tag("expected", *expected),
            HopError::RainMissing { freq_ghz } => {
                Message::new("propagation-hop-rain-missing").given_in("frequency", *freq_ghz, "GHz")
            }
            HopError::OutOfRange(error) => error.into(),
            HopError::Multipath(error) => error.into(),
        }
    }
}
