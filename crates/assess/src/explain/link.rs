//! Figures of the programme's way to the transmitter.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Input, Stage, Value};
use crate::outcome::Outcome;
use crate::proofs::link::{HopCheck, RadioCheck};
use crate::unit::Unit;
use words::Message;

/// Fade margin wanted where the yearly method does not apply, dB (common practice, no source).
pub const MARGIN_WANTED_DB: f64 = 20.0;

/// Figures of every hop.
pub fn figures(case: &Case, outcome: &Outcome) -> Vec<Figure> {
    let mut out: Vec<Figure> = outcome.link.main_first().flat_map(|h| hop(case, h)).collect();
    if let Some(ratio) = outcome.link.availability_ratio {
        let hops = outcome.link.hops.iter();
        let figure = Figure::new(
            "link.availability",
            Stage::Link,
            Message::new("fig-link-availability"),
            Value::of(100.0 * ratio, Unit::FinePercent),
            &AVAILABILITY,
        )
        .using_all(hops.map(|h| Input::Figure(format!("link.{}.availability", h.tag))));
        out.push(match outcome.link.wanted_ratio {
            Some(wanted) => against(figure, ratio, wanted),
            None => figure,
        });
    }
    out
}

fn hop(case: &Case, check: &HopCheck) -> Vec<Figure> {
    let id = |what: &str| format!("link.{}.{what}", check.tag);
    let label = |code: &'static str| Message::new(code).text("tag", check.tag.as_str());
    let mut out = Vec::new();
    match &check.radio {
        Some(Ok(radio)) => out.extend(radio_figures(case, check, radio)),
        Some(Err(_)) => {
            let missing = Value::NotKnown(Message::new("missing-hop"));
            out.push(Figure::new(
                id("received"),
                Stage::Link,
                label("fig-received"),
                missing,
                &FREE_SPACE_DIFFRACTION,
            ));
        }
        None => {}
    }
    let value = match check.availability_ratio {
        Some(ratio) => Value::of(100.0 * ratio, Unit::FinePercent),
        None => Value::NotKnown(Message::new("missing-availability")),
    };
    let method = if check.radio.is_some() {
        &AVAILABILITY
    } else {
        &LEASED
    };
    let mut figure = Figure::new(
        id("availability"),
        Stage::Link,
        label("fig-hop-availability"),
        value,
        method,
    );
    // What is asked is asked of the main way and its reserve together: a reserve by itself owes nothing.
    if let (Some(there), Some(wanted), false) = (check.availability_ratio, check.wanted_ratio, check.reserve)
    {
        let figure_of_hop = figure.using(stated(&format!("hops.{}.availability", check.tag)));
        figure = against(figure_of_hop, there, wanted);
    }
    out.push(figure);
    if let Some(delay) = check.delay_s {
        out.push(Figure::new(
            id("delay"),
            Stage::Link,
            label("fig-delay"),
            Value::of(delay, Unit::Second),
            &LEASED,
        ));
    }
    out
}

/// A share of the year with what is in hand against the one asked.
fn against(figure: Figure, there: f64, wanted: f64) -> Figure {
    figure.margin(
        Value::of(100.0 * (there - wanted), Unit::FinePercent),
        Value::of(100.0 * wanted, Unit::FinePercent),
        Message::new("whose-brief"),
    )
}

/// A rating of a hop's radio or dish, as an input.
fn rating(id: Option<&str>, rating: &'static str) -> Option<Input> {
    id.map(|id| Input::Shelf {
        id: id.to_owned(),
        rating,
    })
}

/// EIRP; where the band has a ceiling, with the room under it: the reason why a better dish does not radiate more.
fn eirp(case: &Case, check: &HopCheck, radio: &RadioCheck, figure: Figure) -> Figure {
    let Some(hop) = case.station.hops.iter().find(|h| h.tag == check.tag) else {
        return figure;
    };
    let figure = figure
        .using_all(rating(hop.equipment.as_deref(), "link.power"))
        .using_all(rating(hop.dish.as_deref(), "dish_gain"))
        .using(stated(&format!("hops.{}.line_loss", check.tag)));
    match radio.eirp_limit_dbm {
        Some(limit) => figure
            .using_all(rating(hop.equipment.as_deref(), "link.eirp_at_most"))
            .margin(
                Value::of(limit - radio.summary.median.levels.eirp_dbm, Unit::Decibel),
                Value::of(limit, Unit::Dbm),
                Message::new("whose-ceiling"),
            ),
        None => figure,
    }
}

fn radio_figures(case: &Case, check: &HopCheck, radio: &RadioCheck) -> Vec<Figure> {
    let stated_hop = case.station.hops.iter().find(|h| h.tag == check.tag);
    let equipment = stated_hop.and_then(|h| h.equipment.as_deref());
    let dish = stated_hop.and_then(|h| h.dish.as_deref());
    let id = |what: &str| format!("link.{}.{what}", check.tag);
    let label = |code: &'static str| Message::new(code).text("tag", check.tag.as_str());
    let path = |key: &str| stated(&format!("hops.{}.{key}", check.tag));
    let summary = &radio.summary;
    let levels = &summary.median.levels;
    let figure = |what: &str, code: &'static str, number: f64, unit: Unit| {
        Figure::new(
            id(what),
            Stage::Link,
            label(code),
            Value::of(number, unit),
            &FREE_SPACE_DIFFRACTION,
        )
    };
    let clear = |what: &str, code: &'static str, at: &propagation::hop::HopAtK| {
        Figure::new(
            id(what),
            Stage::Link,
            label(code),
            Value::of(at.clearance.worst.clearance_m, Unit::Metre),
            &CLEARANCE,
        )
        .using(path("from_height"))
        .using(path("to_height"))
        .margin(
            Value::of(
                at.clearance.worst.clearance_m - at.required_ratio * at.clearance.worst.first_zone_m,
                Unit::Metre,
            ),
            Value::of(at.required_ratio * at.clearance.worst.first_zone_m, Unit::Metre),
            Message::new("whose-clearance"),
        )
    };
    let mut out = vec![
        figure("path", "fig-path", summary.path_km, Unit::Kilometre),
        figure(
            "free_space",
            "fig-free-space",
            levels.free_space_db,
            Unit::Decibel,
        ),
        figure(
            "diffraction",
            "fig-diffraction",
            levels.diffraction_db,
            Unit::Decibel,
        ),
        figure("gas", "fig-gas", levels.gas_db, Unit::Decibel),
        eirp(
            case,
            check,
            radio,
            figure("eirp", "fig-eirp", levels.eirp_dbm, Unit::Dbm),
        ),
        figure("received", "fig-received", levels.received_dbm, Unit::Dbm)
            .using_all(["eirp", "free_space", "diffraction", "gas"].map(|w| Input::Figure(id(w))))
            .using_all(rating(dish, "dish_gain"))
            .using(path("line_loss"))
            .margin(
                Value::of(levels.fade_margin_db, Unit::Decibel),
                Value::of(levels.received_dbm - levels.fade_margin_db, Unit::Dbm),
                Message::new("whose-threshold"),
            ),
        figure("margin", "fig-fade-margin", levels.fade_margin_db, Unit::Decibel)
            .using(Input::Figure(id("received")))
            .using_all(rating(equipment, "link.threshold"))
            .margin(
                Value::of(levels.fade_margin_db - MARGIN_WANTED_DB, Unit::Decibel),
                Value::of(MARGIN_WANTED_DB, Unit::Decibel),
                Message::new("whose-practice"),
            ),
        clear("clearance", "fig-clearance", &summary.median),
        clear("clearance_low_k", "fig-clearance-low-k", &summary.low),
    ];
    if let Some(minutes) = summary.availability.minutes_per_year {
        out.push(
            Figure::new(
                id("outage"),
                Stage::Link,
                label("fig-outage"),
                Value::of(minutes, Unit::MinutePerYear),
                &AVAILABILITY,
            )
            .using(Input::Figure(id("margin"))),
        );
    }
    out
}
