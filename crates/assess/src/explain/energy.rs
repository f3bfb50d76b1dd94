//! Figures of power and heat.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Input, Stage, Value};
use crate::outcome::Outcome;
use crate::proofs::energy::SiteEnergy;
use crate::unit::Unit;
use words::Message;

/// Figures of every site and of the year.
pub fn figures(_: &Case, outcome: &Outcome) -> Vec<Figure> {
    let mut out: Vec<Figure> = outcome.energy.sites.iter().flat_map(site).collect();
    let load: f64 = outcome.energy.sites.iter().map(|s| s.load_w).sum();
    let of_sites = |what: &str| -> Vec<Input> {
        outcome
            .energy
            .sites
            .iter()
            .map(|s| Input::Figure(format!("energy.{}.{what}", s.tag)))
            .collect()
    };
    out.push(
        Figure::new(
            "energy.load",
            Stage::Sites,
            Message::new("fig-load-all"),
            Value::of(load, Unit::Watt),
            &MAINS_LOAD,
        )
        .using_all(of_sites("load")),
    );
    out.push(
        Figure::new(
            "energy.year",
            Stage::Sites,
            Message::new("fig-energy-year"),
            Value::of(outcome.energy.kwh_per_year, Unit::KilowattHourPerYear),
            &ENERGY_YEAR,
        )
        .using_all(of_sites("load"))
        .using(stated("brief.seats.duty")),
    );
    out
}

fn site(s: &SiteEnergy) -> Vec<Figure> {
    let id = |what: &str| format!("energy.{}.{what}", s.tag);
    let label = |code: &'static str| Message::new(code).text("site", s.tag.as_str());
    let path = |key: &str| stated(&format!("sites.{}.{key}", s.tag));
    let mut load = Figure::new(
        id("load"),
        Stage::Sites,
        label("fig-load"),
        Value::of(s.load_w, Unit::Watt),
        &MAINS_LOAD,
    );
    if let Some(capacity) = s.capacity_w {
        load = load.using(path("supply.capacity")).margin(
            Value::of(capacity - s.load_w, Unit::Watt),
            Value::of(capacity, Unit::Watt),
            Message::new("whose-connection"),
        );
    }
    let mut out = vec![load];
    for (tag, rf, mains) in &s.transmitters {
        out.push(
            Figure::new(
                id(&format!("mains.{tag}")),
                Stage::Sites,
                Message::new("fig-transmitter-mains").text("tag", tag.as_str()),
                Value::of(*mains, Unit::Watt),
                &MAINS_LOAD,
            )
            .using(Input::Shelf {
                id: tag.clone(),
                rating: "transmitter.efficiency",
            }),
        );
        let _ = rf;
    }
    out.push(
        Figure::new(
            id("heat"),
            Stage::Sites,
            label("fig-heat"),
            Value::of(s.heat_w, Unit::Watt),
            &MAINS_LOAD,
        )
        .using(Input::Figure(id("load"))),
    );
    out.push(
        Figure::new(
            id("heat_btu"),
            Stage::Sites,
            label("fig-heat"),
            Value::of(s.heat_w * BTU_PER_WATT_HOUR, Unit::BtuPerHour),
            &MAINS_LOAD,
        )
        .using(Input::Figure(id("heat"))),
    );
    let mut reserve = Figure::new(
        id("reserve"),
        Stage::Sites,
        label("fig-reserve"),
        Value::of(s.reserve_h, Unit::Hour),
        &RESERVE_TIME,
    )
    .using(Input::Figure(id("load")));
    if let Some(wanted) = s.wanted_h {
        reserve = reserve.using(stated("brief.continuity.without_mains")).margin(
            Value::of(s.reserve_h - wanted, Unit::Hour),
            Value::of(wanted, Unit::Hour),
            Message::new("whose-brief"),
        );
    }
    out.push(reserve);
    out.push(
        Figure::new(
            id("dark"),
            Stage::Sites,
            label("fig-dark"),
            Value::of(s.dark_h_per_year, Unit::Hour),
            &RESERVE_TIME,
        )
        .using(path("supply.cuts_per_week"))
        .using(path("supply.usual_cut"))
        .using(Input::Figure(id("reserve"))),
    );
    if let Some(room) = s.room_c {
        let mut figure = Figure::new(
            id("room"),
            Stage::Sites,
            label("fig-room"),
            Value::of(room, Unit::Celsius),
            &ROOM_HEAT,
        )
        .using(Input::Figure(id("heat")))
        .using(path("climate.hottest"))
        .using(path("shelter.airflow_m3_h"));
        if let Some(allowed) = s.room_allowed_c {
            figure = figure.margin(
                Value::of(allowed - room, Unit::Celsius),
                Value::of(allowed, Unit::Celsius),
                Message::new("whose-equipment"),
            );
        }
        out.push(figure);
    }
    if let Some(air) = s.air_m3_h {
        out.push(
            Figure::new(
                id("air"),
                Stage::Sites,
                label("fig-air"),
                Value::of(air, Unit::CubicMetrePerHour),
                &ROOM_HEAT,
            )
            .using(Input::Figure(id("heat"))),
        );
    }
    out
}

/// BTU in a watt-hour (definition: 1 BTU = 1055.06 J).
const BTU_PER_WATT_HOUR: f64 = 3.412_14;
