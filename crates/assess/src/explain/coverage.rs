//! Figures of field and listeners.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Input, Spread, Stage, Value};
use crate::outcome::Outcome;
use crate::proofs::coverage::{EmissionCoverage, WantedCheck};
use crate::unit::Unit;
use station::Mark;
use words::Message;

/// Figures of every coverage and wish.
pub fn figures(case: &Case, outcome: &Outcome) -> Vec<Figure> {
    let mut out: Vec<Figure> = outcome
        .coverage
        .emissions
        .iter()
        .flat_map(|c| emission(case, c))
        .collect();
    out.extend(outcome.coverage.wanted.iter().flat_map(|w| wanted(case, w)));
    out
}

fn emission(case: &Case, covered: &EmissionCoverage) -> Vec<Figure> {
    let id = |what: &str| format!("coverage.{}.{what}", covered.tag);
    let label = |code: &'static str| Message::new(code).text("tag", covered.tag.as_str());
    let inputs = [
        Input::Figure(format!("transmission.{}.erp", covered.tag)),
        stated("study.step"),
        stated("study.radius"),
        stated("study.model_error"),
    ];
    let mark = case.station.study.model_error.mark().unwrap_or(Mark::Invented);
    let mut out = Vec::new();
    for row in &covered.served {
        let words = (row.service.word(), row.situation.word());
        let key = format!("people_{}_{}", words.0, words.1.replace([' ', ','], "_"));
        let tagged = |code: &'static str| {
            label(code)
                .tag("service", words.0)
                .tag("situation", words.1.replace([' ', ','], "-"))
        };
        out.push(
            Figure::new(
                id(&key),
                Stage::Listener,
                tagged("fig-people"),
                Value::of(row.people, Unit::People),
                &PEOPLE,
            )
            .using_all(inputs.clone())
            .marked(mark),
        );
        out.push(
            Figure::new(
                id(&key.replace("people", "land")),
                Stage::Listener,
                tagged("fig-land"),
                Value::of(row.land_km2, Unit::SquareKilometre),
                &PEOPLE,
            )
            .using_all(inputs.clone())
            .marked(mark),
        );
    }
    if covered.shares.is_some() {
        out.push(Figure::new(
            id("people_total"),
            Stage::Listener,
            label("fig-people-total"),
            Value::of(covered.people_total, Unit::People),
            &PEOPLE,
        ));
    }
    if let Some(study) = &covered.study {
        out.push(
            Figure::new(
                id("step"),
                Stage::Field,
                label("fig-study-step"),
                Value::of(study.step_m, Unit::Metre),
                &FIELD,
            )
            .using(stated("study.step")),
        );
        out.push(
            Figure::new(
                id("radius"),
                Stage::Field,
                label("fig-study-radius"),
                Value::of(study.radius_km, Unit::Kilometre),
                &FIELD,
            )
            .using(stated("study.radius")),
        );
    }
    if let Some(shares) = &covered.shares {
        for (what, code, share) in [
            ("void", "fig-void", shares.void),
            ("water", "fig-water", shares.water),
            ("missing", "fig-missing", shares.missing),
        ] {
            out.push(Figure::new(
                id(what),
                Stage::Field,
                label(code),
                Value::of(100.0 * share, Unit::Percent),
                &FIELD,
            ));
        }
        out.push(Figure::new(
            id("clutter"),
            Stage::Field,
            label("fig-clutter"),
            Value::Words(clutter(case)),
            &FIELD,
        ));
    }
    out
}

fn clutter(case: &Case) -> Message {
    Message::new(match case.world.clutter_mode() {
        terrain::ClutterMode::AddedToBareGround => "clutter-added",
        terrain::ClutterMode::HeldBySurfaceModel => "clutter-in-surface",
        terrain::ClutterMode::NoLandCover => "clutter-none",
    })
}

fn wanted(case: &Case, check: &WantedCheck) -> Vec<Figure> {
    let mut out = Vec::new();
    let place = case
        .station
        .brief
        .wanted
        .iter()
        .find(|w| w.tag == check.tag)
        .and_then(|w| w.place.as_deref())
        .and_then(|tag| case.station.place(tag));
    let path = |key: &str| stated(&format!("brief.wanted.{}.{key}", check.tag));
    let mark = case.station.study.model_error.mark().unwrap_or(Mark::Invented);
    if let Some(answer) = &check.place {
        let name = place.map_or(check.tag.as_str(), |p| p.name.as_str());
        let id = |what: &str| format!("coverage.{}.{what}", check.tag);
        let label = |code: &'static str| Message::new(code).text("place", name);
        match answer {
            Ok(at) => {
                out.push(
                    Figure::new(
                        id("wanted"),
                        Stage::Field,
                        label("fig-wanted"),
                        Value::of(at.threshold.wanted_dbuv_m, Unit::DbuvPerMetre),
                        &WANTED_FIELD,
                    )
                    .using(path("service"))
                    .using(path("situation"))
                    .using(path("surroundings")),
                );
                out.push(
                    Figure::new(
                        id("field"),
                        Stage::Field,
                        label("fig-field"),
                        Value::of(at.field_dbuv_m, Unit::DbuvPerMetre),
                        &FIELD,
                    )
                    .using_all(["erp", "loss"].map(|w| Input::Figure(id(w))))
                    .using(stated("study.step"))
                    .spread(Spread::Sigma(at.threshold.spread_db))
                    .margin(
                        Value::of(at.margin_db, Unit::Decibel),
                        Value::of(at.threshold.wanted_dbuv_m, Unit::DbuvPerMetre),
                        Message::new("whose-brief"),
                    )
                    .marked(mark),
                );
                out.push(Figure::new(
                    id("erp"),
                    Stage::Field,
                    label("fig-erp-towards"),
                    Value::of(1000.0 * 10f64.powf(at.erp_dbkw / 10.0), Unit::Watt),
                    &ERP_CHAIN,
                ));
                out.push(Figure::new(
                    id("loss"),
                    Stage::Field,
                    label("fig-loss"),
                    Value::of(at.loss_db, Unit::Decibel),
                    &FIELD,
                ));
                out.push(Figure::new(
                    id("distance"),
                    Stage::Field,
                    label("fig-distance"),
                    Value::of(at.distance_km, Unit::Kilometre),
                    &FIELD,
                ));
                out.push(Figure::new(
                    id("azimuth"),
                    Stage::Field,
                    label("fig-azimuth"),
                    Value::of(at.azimuth_deg, Unit::Degree),
                    &FIELD,
                ));
                out.push(Figure::new(
                    id("depression"),
                    Stage::Field,
                    label("fig-depression"),
                    Value::of(-at.elev_deg, Unit::Degree),
                    &FIELD,
                ));
                out.push(
                    Figure::new(
                        id("probability"),
                        Stage::Listener,
                        label("fig-probability"),
                        Value::of(100.0 * at.probability, Unit::Percent),
                        &PEOPLE,
                    )
                    .marked(mark),
                );
                if let Some(obstacle) = &at.obstacle {
                    out.push(Figure::new(
                        id("obstacle_loss"),
                        Stage::Field,
                        label("fig-obstacle-loss"),
                        Value::of(obstacle.knife_edge_db, Unit::Decibel),
                        &FIELD,
                    ));
                    out.push(Figure::new(
                        id("obstacle_distance"),
                        Stage::Field,
                        label("fig-obstacle-distance"),
                        Value::of(obstacle.distance_km, Unit::Kilometre),
                        &FIELD,
                    ));
                }
            }
            Err(_) => out.push(Figure::new(
                id("field"),
                Stage::Field,
                label("fig-field"),
                Value::NotKnown(Message::new("missing-field")),
                &FIELD,
            )),
        }
    }
    if let Some(area) = &check.area {
        let id = |what: &str| format!("coverage.{}.{what}", check.tag);
        let label = |code: &'static str| {
            Message::new(code).quantity("radius", quantity::Length::from_km(area.radius_km))
        };
        let share = 100.0 * area.people / area.people_total;
        let mut figure = Figure::new(
            id("people"),
            Stage::Listener,
            label("fig-area-people"),
            Value::of(area.people, Unit::People),
            &PEOPLE,
        )
        .using(path("within"))
        .using(path("share"))
        .marked(mark);
        if let Some(ratio) = area.wanted_ratio {
            let asked = ratio * area.people_total;
            figure = figure.margin(
                Value::of(area.people - asked, Unit::People),
                Value::of(asked, Unit::People),
                Message::new("whose-brief"),
            );
        }
        out.push(figure);
        out.push(
            Figure::new(
                id("share"),
                Stage::Listener,
                label("fig-area-share"),
                Value::of(share, Unit::Percent),
                &PEOPLE,
            )
            .marked(mark),
        );
        out.push(Figure::new(
            id("people_total"),
            Stage::Listener,
            label("fig-area-total"),
            Value::of(area.people_total, Unit::People),
            &PEOPLE,
        ));
    }
    out
}
