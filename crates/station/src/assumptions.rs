//! What is taken to be so when the file is silent: each with bounds, a reason and a mark.
//!
//! Assumptions are laid into a copy of the document, so an assumed value is listed, ranked and replaced by an edit
//! like any other. The user's file never changes.

use crate::document::{Node, Span, Value};
use crate::known::Mark;
use crate::read::join;
use serde_json::{Value as Json, json};

/// One assumption as it stands in a filled document.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Assumption {
    /// Where it stands.
    pub path: String,
    /// What is taken.
    pub value: Json,
    /// The least it may well be.
    pub low: Option<Json>,
    /// The most it may well be.
    pub high: Option<Json>,
    /// Why.
    pub why: String,
    /// How good the reason is.
    pub mark: Mark,
}

struct Default {
    path: &'static str,
    value: &'static str,
    low: Option<&'static str>,
    high: Option<&'static str>,
    why: &'static str,
    mark: Mark,
}

const fn between(
    path: &'static str,
    value: &'static str,
    low: &'static str,
    high: &'static str,
    why: &'static str,
    mark: Mark,
) -> Default {
    Default {
        path,
        value,
        low: Some(low),
        high: Some(high),
        why,
        mark,
    }
}

const fn just(path: &'static str, value: &'static str, why: &'static str, mark: Mark) -> Default {
    Default {
        path,
        value,
        low: None,
        high: None,
        why,
        mark,
    }
}

use Mark::{Invented as I, Memory as M, Practice as P};

/// `*` stands for every item of a list. Values that are numbers or true/false are written as such.
const DEFAULTS: &[Default] = &[
    between("brief.seats.hosts", "1", "1", "2", "one host is usual", P),
    between("brief.seats.guests", "2", "0", "4", "two guests are usual", P),
    just(
        "brief.seats.operators",
        "0",
        "hosts work the console themselves in small stations",
        P,
    ),
    between(
        "brief.seats.callers",
        "1",
        "0",
        "2",
        "most talk programmes take one caller at a time",
        P,
    ),
    just(
        "brief.seats.contributors",
        "0",
        "no outside contributor was asked for",
        P,
    ),
    just(
        "brief.seats.duty",
        "100 %",
        "a broadcast transmitter runs all day, all year",
        P,
    ),
    between(
        "brief.horizon",
        "10 years",
        "5 years",
        "15 years",
        "the life of a transmitter",
        P,
    ),
    between(
        "brief.discount_rate",
        "5 %",
        "3 %",
        "8 %",
        "a usual rate for small investments",
        I,
    ),
    between(
        "brief.energy_price",
        "0.25 EUR/kWh",
        "0.15 EUR/kWh",
        "0.40 EUR/kWh",
        "an indicative price",
        I,
    ),
    between(
        "brief.running.maintenance",
        "4 %",
        "3 %",
        "6 %",
        "a usual share of the capital a year",
        I,
    ),
    between(
        "brief.running.insurance",
        "1 %",
        "1 %",
        "2 %",
        "a usual share of the capital a year",
        I,
    ),
    between(
        "brief.continuity.availability",
        "99.5 %",
        "99 %",
        "99.9 %",
        "about two days a year off the air",
        P,
    ),
    between(
        "brief.continuity.without_mains",
        "30 min",
        "0 min",
        "2 h",
        "most cuts are short",
        P,
    ),
    just(
        "brief.wanted.*.situation",
        "roof",
        "BS.412 speaks of a fixed aerial at 10 m",
        M,
    ),
    just("study.step", "90 m", "the spacing of common elevation tiles", P),
    just(
        "study.radius",
        "40 km",
        "beyond it few small stations are wanted",
        P,
    ),
    just(
        "study.time",
        "50 %",
        "planning of wanted fields, Rec. ITU-R P.1812",
        M,
    ),
    just("study.places", "50 %", "BS.412 wants the median of places", M),
    between(
        "study.delta_n",
        "45.0",
        "35.0",
        "60.0",
        "mid-latitude land, Rec. ITU-R P.453",
        M,
    ),
    between(
        "study.n0",
        "325.0",
        "310.0",
        "350.0",
        "mid-latitude, Rec. ITU-R P.453",
        M,
    ),
    between(
        "study.model_error",
        "6 dB",
        "4 dB",
        "9 dB",
        "until measurements replace it",
        I,
    ),
    just(
        "ground.model",
        "bare ground",
        "said by nobody; a surface model would count roofs twice",
        P,
    ),
    just("sites.*.climate.sea_air", "false", "nobody spoke of salt", P),
    between(
        "sites.*.climate.wind",
        "26 m/s",
        "22 m/s",
        "30 m/s",
        "a middling basic wind, EN 1991-1-4 maps",
        M,
    ),
    between(
        "sites.*.climate.ice",
        "0 mm",
        "0 mm",
        "20 mm",
        "nobody spoke of ice",
        P,
    ),
    between(
        "sites.*.climate.hottest",
        "35 °C",
        "28 °C",
        "42 °C",
        "a hot day",
        P,
    ),
    between(
        "sites.*.climate.rain_mm_per_h",
        "42.0",
        "22.0",
        "95.0",
        "temperate, Rec. ITU-R P.837",
        M,
    ),
    just(
        "sites.*.climate.terrain_category",
        "2",
        "low plants, scattered obstacles, EN 1991-1-4 table 4.1",
        P,
    ),
    between(
        "sites.*.climate.flashes_per_km2_year",
        "2.0",
        "0.5",
        "10.0",
        "temperate land",
        P,
    ),
    just("sites.*.supply.mains", "true", "nobody said there is none", P),
    between(
        "sites.*.supply.cuts_per_week",
        "0.1",
        "0.02",
        "1.0",
        "a fair public supply",
        P,
    ),
    between(
        "sites.*.supply.usual_cut",
        "1 h",
        "10 min",
        "4 h",
        "a usual cut",
        P,
    ),
    just(
        "sites.*.shelter.warmest",
        "40 °C",
        "the rating of most equipment",
        P,
    ),
    between(
        "sites.*.shelter.airflow_m3_h",
        "150.0",
        "50.0",
        "400.0",
        "one small fan",
        P,
    ),
    just("antennas.*.tilt", "0°", "no tilt was asked for", P),
    just("antennas.*.azimuth", "0°", "dipoles on a pole, all round", P),
    just("antennas.*.upper_half", "50 %", "equal power in both halves", P),
    just("hops.*.availability", "99.9 %", "less than nine hours a year", P),
    between(
        "hops.*.line_loss",
        "2 dB",
        "1 dB",
        "4 dB",
        "short lines at both ends",
        P,
    ),
    between(
        "hops.*.leased_availability",
        "99.5 %",
        "98 %",
        "99.9 %",
        "a usual access line without promise",
        P,
    ),
    between(
        "cables.*.temperature",
        "40 °C",
        "20 °C",
        "60 °C",
        "the inner conductor on a warm day at work",
        P,
    ),
];

/// A copy of the document with every assumption laid in where the file is silent.
pub fn fill(document: &Node) -> Node {
    let mut filled = document.clone();
    let currency = filled
        .at("currency")
        .and_then(text_of)
        .unwrap_or_else(|| "EUR".to_owned());
    for default in DEFAULTS {
        let steps: Vec<&str> = default.path.split('.').collect();
        lay(&mut filled, &steps, &assumed(default, &currency));
    }
    filled
}

/// Every assumption that stands in a document, the file's own included.
pub fn listed(document: &Node) -> Vec<Assumption> {
    let mut found = Vec::new();
    collect(document, "", &mut found);
    found
}

fn text_of(node: &Node) -> Option<String> {
    match &node.value {
        Value::Text(text) => Some(text.clone()),
        _ => None,
    }
}

fn assumed(default: &Default, currency: &str) -> Json {
    let scalar = |text: &str| -> Json {
        serde_json::from_str::<Json>(text)
            .ok()
            .filter(|v| v.is_number() || v.is_boolean())
            .unwrap_or_else(|| Json::String(text.replace("EUR", currency)))
    };
    let mut table =
        json!({ "assumed": scalar(default.value), "why": default.why, "mark": default.mark.word() });
    if let Some(low) = default.low {
        table["low"] = scalar(low);
    }
    if let Some(high) = default.high {
        table["high"] = scalar(high);
    }
    table
}

/// Lays a value in at every place the pattern names, where nothing stands.
fn lay(node: &mut Node, steps: &[&str], value: &Json) {
    let Some((step, rest)) = steps.split_first() else {
        return;
    };
    match &mut node.value {
        Value::List(items) if *step == "*" => items.iter_mut().for_each(|item| lay(item, rest, value)),
        Value::Table(entries) => {
            let found = entries.iter().position(|e| e.key == *step);
            match (found, rest) {
                (Some(_), []) => {}
                (Some(i), rest) => lay(&mut entries[i].node, rest, value),
                // A list that is not there has no items to fill.
                (None, ["*", ..]) => {}
                (None, rest) => {
                    let mut inner = if rest.is_empty() {
                        Node::from_json(value)
                    } else {
                        Node::empty_table()
                    };
                    lay(&mut inner, rest, value);
                    let key = (*step).to_owned();
                    entries.push(crate::document::Entry {
                        key,
                        key_span: Span::default(),
                        node: inner,
                    });
                }
            }
        }
        _ => {}
    }
}

fn collect(node: &Node, path: &str, found: &mut Vec<Assumption>) {
    match &node.value {
        Value::Table(entries) => {
            if let Some(value) = node.get("assumed") {
                let mark = node
                    .get("mark")
                    .and_then(text_of)
                    .and_then(|word| Mark::ALL.iter().copied().find(|m| m.word() == word))
                    .unwrap_or(Mark::Practice);
                found.push(Assumption {
                    path: path.to_owned(),
                    value: value.to_json(),
                    low: node.get("low").map(Node::to_json),
                    high: node.get("high").map(Node::to_json),
                    why: node.get("why").and_then(text_of).unwrap_or_default(),
                    mark,
                });
                return;
            }
            for entry in entries {
                collect(&entry.node, &join(path, &entry.key), found);
            }
        }
        Value::List(items) => {
            for (i, item) in items.iter().enumerate() {
                let step = item.get("tag").and_then(text_of).unwrap_or_else(|| i.to_string());
                collect(item, &join(path, &step), found);
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edit, Station};

    #[test]
    fn a_name_alone_makes_a_station_full_of_assumptions() {
        let bare = Node::from_json(&json!({"format": 1, "name": "Somewhere"}));
        let filled = fill(&bare);
        let station = Station::read(&filled).unwrap();
        assert_eq!(station.brief.seats.hosts.value(), Some(&1));
        assert!(listed(&bare).is_empty());
        assert!(listed(&filled).len() > 10);
    }

    #[test]
    fn what_the_file_says_is_kept_and_an_assumption_yields_to_an_edit() {
        let said = Node::from_json(&json!({"format": 1, "name": "X", "brief": {"seats": {"hosts": 3}}}));
        let mut filled = fill(&said);
        assert_eq!(
            Station::read(&filled).unwrap().brief.seats.hosts.value(),
            Some(&3)
        );
        for assumption in listed(&filled.clone()) {
            let value = assumption.high.unwrap_or(assumption.value);
            Edit::set(&filled, assumption.path, value)
                .apply(&mut filled)
                .unwrap();
        }
        assert!(listed(&filled).is_empty());
        Station::read(&filled).unwrap();
    }
}
