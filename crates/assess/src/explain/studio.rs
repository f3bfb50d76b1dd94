//! Figures of the studio.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Stage, Value};
use crate::outcome::Outcome;
use crate::proofs::studio::{HEADROOM_WANTED_DB, Need};
use crate::unit::Unit;
use words::Message;

fn stage(need: Need) -> Stage {
    match need {
        Need::Microphones
        | Need::Arms
        | Need::Headphones
        | Need::Monitors
        | Need::OnAirLights
        | Need::DeskSeats => Stage::Microphones,
        Need::Processors => Stage::Processing,
        _ => Stage::Console,
    }
}

/// Counts, levels, racks.
pub fn figures(case: &Case, outcome: &Outcome) -> Vec<Figure> {
    let studio = &outcome.studio;
    let mut out = Vec::new();
    for count in &studio.counts {
        let name = count.what.word();
        let label = Message::new("fig-count").tag("what", name.replace('_', "-"));
        let value = match count.there {
            Some(there) => Value::of(f64::from(there), Unit::Count),
            None => Value::NotKnown(Message::new("missing-count")),
        };
        let mut figure = Figure::new(
            format!("studio.{name}"),
            stage(count.what),
            label,
            value,
            &COUNT_RULE,
        )
        .using(stated("brief.seats"));
        if let Some(there) = count.there {
            figure = figure.margin(
                Value::of(f64::from(there) - f64::from(count.needed), Unit::Count),
                Value::of(f64::from(count.needed), Unit::Count),
                Message::new("whose-brief"),
            );
        }
        out.push(figure);
    }
    if let Some(level) = studio.microphone_dbu {
        let mut figure = Figure::new(
            "studio.microphone_level",
            Stage::Microphones,
            Message::new("fig-microphone-level"),
            Value::of(level, Unit::Dbu),
            &MICROPHONE_LEVEL,
        );
        if let Some((needed, Some(there))) = studio.microphone_gain_db {
            figure = figure.margin(
                Value::of(there - needed, Unit::Decibel),
                Value::of(needed, Unit::Decibel),
                Message::new("whose-gain"),
            );
        }
        out.push(figure);
    }
    if let Some(level) = studio.console_dbu {
        let mut figure = Figure::new(
            "studio.console_level",
            Stage::Console,
            Message::new("fig-console-level"),
            Value::of(level, Unit::Dbu),
            &MICROPHONE_LEVEL,
        );
        if let Some(headroom) = studio.headroom_db {
            figure = figure.margin(
                Value::of(headroom - HEADROOM_WANTED_DB, Unit::Decibel),
                Value::of(HEADROOM_WANTED_DB, Unit::Decibel),
                Message::new("whose-practice"),
            );
        }
        out.push(figure);
    }
    out.push(Figure::new(
        "studio.open_microphones",
        Stage::Microphones,
        Message::new("fig-open-microphones"),
        Value::of(studio.open_microphones_db, Unit::Decibel),
        &COUNT_RULE,
    ));
    if let Some(limited) = studio.mpx_limited {
        let value = match (&case.country.mpx_power, limited) {
            (Some(limit), true) => Value::of(limit.value.dbr(), Unit::Dbr),
            _ => Value::NotKnown(Message::new("missing-mpx")),
        };
        out.push(Figure::new(
            "studio.mpx_power",
            Stage::Processing,
            Message::new("fig-mpx-power"),
            value,
            &MPX_POWER,
        ));
    }
    for (place, used, offered) in &studio.racks {
        out.push(
            Figure::new(
                format!("studio.rack.{place}"),
                Stage::Console,
                Message::new("fig-rack").text("place", place.as_str()),
                Value::of(f64::from(*used), Unit::RackUnit),
                &COUNT_RULE,
            )
            .margin(
                Value::of(f64::from(*offered) - f64::from(*used), Unit::RackUnit),
                Value::of(f64::from(*offered), Unit::RackUnit),
                Message::new("whose-rack"),
            ),
        );
    }
    out
}
