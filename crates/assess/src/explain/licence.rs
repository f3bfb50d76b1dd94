//! Figures of the licence.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Input, Stage, Value};
use crate::outcome::Outcome;
use crate::unit::Unit;
use words::Message;

/// Figures of every licence.
pub fn figures(_: &Case, outcome: &Outcome) -> Vec<Figure> {
    let mut out = Vec::new();
    for check in &outcome.licence.emissions {
        let id = |what: &str| format!("licence.{}.{what}", check.tag);
        let label = |code: &'static str| Message::new(code).text("tag", check.tag.as_str());
        let path = |key: &str| stated(&format!("emissions.{}.licence.{key}", check.tag));
        if let Some(erp) = check.erp_w {
            out.push(
                Figure::new(
                    id("erp"),
                    Stage::Antenna,
                    label("fig-licensed-erp"),
                    Value::of(erp, Unit::Watt),
                    &LICENCE_MARGIN,
                )
                .using(path("erp")),
            );
        }
        if let Some(tight) = check.tightest {
            let margin = tight.margin_db();
            out.push(
                Figure::new(
                    id("margin"),
                    Stage::Antenna,
                    label("fig-licence-margin").amount(
                        "azimuth",
                        tight.azimuth_deg,
                        quantity::Digits::Decimals(0),
                        "°",
                    ),
                    Value::of(margin, Unit::SmallDecibel),
                    &LICENCE_MARGIN,
                )
                .using(path("erp"))
                .using(path("masks"))
                .using(Input::Figure(format!("transmission.{}.erp", check.tag)))
                .margin(
                    Value::of(margin, Unit::SmallDecibel),
                    Value::of(tight.allowed_w, Unit::Watt),
                    Message::new("whose-licence"),
                ),
            );
            out.push(Figure::new(
                id("horizon"),
                Stage::Antenna,
                label("fig-erp-horizon").amount(
                    "azimuth",
                    tight.azimuth_deg,
                    quantity::Digits::Decimals(0),
                    "°",
                ),
                Value::of(tight.horizon_w, Unit::Watt),
                &ERP_CHAIN,
            ));
        }
        for (i, condition) in check.conditions.iter().enumerate() {
            let value = condition.field_dbuv_m.map_or_else(
                || Value::NotKnown(Message::new("missing-field")),
                |f| Value::of(f, Unit::DbuvPerMetre),
            );
            let mut figure = Figure::new(
                id(&format!("condition.{}", i + 1)),
                Stage::Field,
                label("fig-condition").count("number", i as i64 + 1),
                value,
                &FIELD,
            )
            .using(path(&format!("conditions.{i}.below")))
            .using(Input::Figure(format!("transmission.{}.erp", check.tag)));
            if let Some(field) = condition.field_dbuv_m {
                figure = figure.margin(
                    Value::of(condition.below_dbuv_m - field, Unit::Decibel),
                    Value::of(condition.below_dbuv_m, Unit::DbuvPerMetre),
                    Message::new("whose-licence"),
                );
            }
            out.push(figure);
        }
        if let Some(over) = check.over_height_m {
            out.push(
                Figure::new(
                    id("height"),
                    Stage::Antenna,
                    label("fig-licence-height"),
                    Value::of(-over, Unit::Metre),
                    &LICENCE_MARGIN,
                )
                .using(path("height"))
                .margin(
                    Value::of(-over, Unit::Metre),
                    Value::of(0.0, Unit::Metre),
                    Message::new("whose-licence"),
                ),
            );
        }
        if let Some(off) = check.off_position_m {
            out.push(
                Figure::new(
                    id("position"),
                    Stage::Antenna,
                    label("fig-licence-position"),
                    Value::of(off, Unit::Metre),
                    &LICENCE_MARGIN,
                )
                .using(path("position")),
            );
        }
    }
    out
}
