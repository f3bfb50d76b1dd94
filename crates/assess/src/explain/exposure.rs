//! Figures of people's safety near the antennas.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Input, Stage, Value};
use crate::outcome::Outcome;
use crate::unit::Unit;
use words::Message;

/// Distances and shares of the limits.
pub fn figures(case: &Case, outcome: &Outcome) -> Vec<Figure> {
    let mut out = Vec::new();
    let public = &case.country.exposure_public;
    for d in &outcome.exposure.emissions {
        let id = |what: &str| format!("exposure.{}.{what}", d.tag);
        let label = |code: &'static str| Message::new(code).text("tag", d.tag.as_str());
        let limit = Input::Table {
            what: Message::new("table-exposure-limit").quantity("limit", public.value),
            source: "clause-country-limits",
            mark: public.mark,
        };
        let erp = Input::Figure(format!("transmission.{}.erp", d.tag));
        let distance = |what: &str, code: &'static str, metres: f64| {
            Figure::new(
                id(what),
                Stage::Sites,
                label(code),
                Value::of(metres, Unit::Metre),
                &SCREENING,
            )
            .using(erp.clone())
            .using(limit.clone())
            .marked(public.mark)
        };
        out.push(distance("public", "fig-exposure-public", d.public_printed_m()));
        out.push(distance("workers", "fig-exposure-workers", d.workers_printed_m()));
        out.push(distance("public_screening", "fig-exposure-screening", d.public_m));
        if let Some(by_bays) = d.public_by_bays_m {
            out.push(distance("public_by_bays", "fig-exposure-by-bays", by_bays));
        }
        out.push(distance("fence", "fig-exposure-fence", d.wavelength_m));
        out.push(distance("far_field", "fig-far-field", d.far_field_m));
    }
    for p in &outcome.exposure.points {
        let label = Message::new("fig-exposure-point").text("place", p.name.as_str());
        let share = 100.0 * (p.ratio + p.others_ratio);
        let value = if p.fenced {
            Value::NotKnown(Message::new("missing-fenced"))
        } else {
            Value::of(share, Unit::Percent)
        };
        let id = format!("exposure.{}.{}", p.site, p.tag);
        let mut figure = Figure::new(&id, Stage::Sites, label, value, &EXPOSURE_POINT)
            .using(stated(&format!("sites.{}.public_points.{}", p.site, p.tag)))
            .using_all(
                outcome
                    .exposure
                    .emissions
                    .iter()
                    .map(|d| Input::Figure(format!("transmission.{}.erp", d.tag))),
            );
        if !p.fenced {
            figure = figure.margin(
                Value::of(100.0 - share, Unit::Percent),
                Value::of(100.0, Unit::Percent),
                Message::new("whose-exposure"),
            );
        }
        out.push(figure);
        if !p.fenced {
            out.push(Figure::new(
                format!("{id}.field"),
                Stage::Sites,
                Message::new("fig-exposure-field").text("place", p.name.as_str()),
                Value::of(p.field_v_m, Unit::VoltPerMetre),
                &EXPOSURE_POINT,
            ));
        }
    }
    out
}
