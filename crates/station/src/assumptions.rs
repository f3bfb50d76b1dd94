//! What is taken to be so when the file is silent: each with bounds, a reason and a mark.
//!
//! Assumptions are laid into a copy of the document, so an assumed value is listed, ranked and replaced by an edit
//! like any other. The user's file never changes.

use crate::document::{Node, Span, Value};
use crate::known::Mark;
use crate::read::join;
use serde_json::{Value as Json, json};
use words::{Language, Message};

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
    /// Why: the code of a message where it is ours, words where it is the user's. See [`Assumption::reason`].
    pub why: String,
    /// How good the reason is.
    pub mark: Mark,
}

impl Assumption {
    /// Why, to be said: ours in a language, the user's own words as they stand.
    pub fn reason(&self) -> Message {
        let is_ours =
            self.why.starts_with("why-") && words::words().arguments(&self.why, Language::English).is_some();
        if is_ours {
            Message::new(self.why.clone())
        } else {
            Message::foreign(&self.why)
        }
    }
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
    between("brief.seats.hosts", "1", "1", "2", "why-one-host-is-usual", P),
    between("brief.seats.guests", "2", "0", "4", "why-two-guests-are-usual", P),
    just(
        "brief.seats.operators",
        "0",
        "why-hosts-work-the-console-themselves-in-small",
        P,
    ),
    between(
        "brief.seats.callers",
        "1",
        "0",
        "2",
        "why-most-talk-programmes-take-one-caller-at",
        P,
    ),
    just(
        "brief.seats.contributors",
        "0",
        "why-no-outside-contributor-was-asked-for",
        P,
    ),
    just(
        "brief.seats.duty",
        "100 %",
        "why-a-broadcast-transmitter-runs-all-day-all",
        P,
    ),
    between(
        "brief.horizon",
        "10 years",
        "5 years",
        "15 years",
        "why-the-life-of-a-transmitter",
        P,
    ),
    between(
        "brief.discount_rate",
        "5 %",
        "3 %",
        "8 %",
        "why-a-usual-rate-for-small-investments",
        I,
    ),
    between(
        "brief.energy_price",
        "0.25 EUR/kWh",
        "0.15 EUR/kWh",
        "0.40 EUR/kWh",
        "why-an-indicative-price",
        I,
    ),
    between(
        "brief.running.maintenance",
        "4 %",
        "3 %",
        "6 %",
        "why-a-usual-share-of-the-capital-a",
        I,
    ),
    between(
        "brief.running.insurance",
        "1 %",
        "1 %",
        "2 %",
        "why-a-usual-share-of-the-capital-a",
        I,
    ),
    between(
        "brief.continuity.availability",
        "99.5 %",
        "99 %",
        "99.9 %",
        "why-about-two-days-a-year-off-the",
        P,
    ),
    between(
        "brief.continuity.without_mains",
        "30 min",
        "0 min",
        "2 h",
        "why-most-cuts-are-short",
        P,
    ),
    just(
        "brief.wanted.*.situation",
        "roof",
        "why-bs-412-speaks-of-a-fixed-aerial",
        M,
    ),
    just(
        "study.step",
        "90 m",
        "why-the-spacing-of-common-elevation-tiles",
        P,
    ),
    just(
        "study.radius",
        "40 km",
        "why-beyond-it-few-small-stations-are-wanted",
        P,
    ),
    just("study.time", "50 %", "why-planning-of-wanted-fields-p-1812", M),
    just("study.places", "50 %", "why-bs-412-wants-the-median-of-places", M),
    between(
        "study.delta_n",
        "45.0",
        "35.0",
        "60.0",
        "why-mid-latitude-land-p-453",
        M,
    ),
    between("study.n0", "325.0", "310.0", "350.0", "why-mid-latitude-p-453", M),
    between(
        "study.model_error",
        "6 dB",
        "4 dB",
        "9 dB",
        "why-until-measurements-replace-it",
        I,
    ),
    just(
        "ground.model",
        "bare ground",
        "why-said-by-nobody-a-surface-model-would",
        P,
    ),
    just("sites.*.climate.sea_air", "false", "why-nobody-spoke-of-salt", P),
    between(
        "sites.*.climate.wind",
        "26 m/s",
        "22 m/s",
        "30 m/s",
        "why-a-middling-basic-wind-maps",
        M,
    ),
    between(
        "sites.*.climate.ice",
        "0 mm",
        "0 mm",
        "20 mm",
        "why-nobody-spoke-of-ice",
        P,
    ),
    between(
        "sites.*.climate.hottest",
        "35 °C",
        "28 °C",
        "42 °C",
        "why-a-hot-day",
        P,
    ),
    between(
        "sites.*.climate.rain_mm_per_h",
        "42.0",
        "22.0",
        "95.0",
        "why-temperate-p-837",
        M,
    ),
    just(
        "sites.*.climate.terrain_category",
        "2",
        "why-low-plants-scattered-obstacles-table-4-1",
        P,
    ),
    between(
        "sites.*.climate.flashes_per_km2_year",
        "2.0",
        "0.5",
        "10.0",
        "why-temperate-land",
        P,
    ),
    just("sites.*.supply.mains", "true", "why-nobody-said-there-is-none", P),
    between(
        "sites.*.supply.cuts_per_week",
        "0.1",
        "0.02",
        "1.0",
        "why-a-fair-public-supply",
        P,
    ),
    between(
        "sites.*.supply.usual_cut",
        "1 h",
        "10 min",
        "4 h",
        "why-a-usual-cut",
        P,
    ),
    just(
        "sites.*.shelter.warmest",
        "40 °C",
        "why-the-rating-of-most-equipment",
        P,
    ),
    between(
        "sites.*.shelter.airflow_m3_h",
        "150.0",
        "50.0",
        "400.0",
        "why-one-small-fan",
        P,
    ),
    just("antennas.*.tilt", "0°", "why-no-tilt-was-asked-for", P),
    just("antennas.*.azimuth", "0°", "why-dipoles-on-a-pole-all-round", P),
    just(
        "antennas.*.upper_half",
        "50 %",
        "why-equal-power-in-both-halves",
        P,
    ),
    just(
        "hops.*.availability",
        "99.9 %",
        "why-less-than-nine-hours-a-year",
        P,
    ),
    between(
        "hops.*.line_loss",
        "2 dB",
        "1 dB",
        "4 dB",
        "why-short-lines-at-both-ends",
        P,
    ),
    between(
        "hops.*.leased_availability",
        "99.5 %",
        "98 %",
        "99.9 %",
        "why-a-usual-access-line-without-promise",
        P,
    ),
    between(
        "cables.*.temperature",
        "40 °C",
        "20 °C",
        "60 °C",
        "why-the-inner-conductor-on-a-warm-day",
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
    lay_mobile_ways(&mut filled);
    for default in DEFAULTS {
        let steps: Vec<&str> = default.path.split('.').collect();
        lay(&mut filled, &steps, &assumed(default, &currency));
    }
    lay_lattices(&mut filled);
    filled
}

/// Panels and tubes of a lattice mast, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lattice {
    /// Height of a panel.
    pub panel_m: f64,
    /// Diameter of the legs.
    pub leg_m: f64,
    /// Diameter of horizontals and diagonals.
    pub bracing_m: f64,
}

/// Usual proportions of a lattice for the width of its face (common practice, no source).
pub fn lattice(face_m: f64) -> Lattice {
    Lattice {
        panel_m: 1.2 * face_m,
        leg_m: face_m / 12.0,
        bracing_m: face_m / 24.0,
    }
}

/// Lays usual proportions into every lattice mast whose width is known.
fn lay_lattices(document: &mut Node) {
    let Some(sites) = document.get("sites") else {
        return;
    };
    let Value::List(sites) = &sites.value else { return };
    let faces: Vec<Option<f64>> = sites.iter().map(lattice_face_m).collect();
    for (index, face_m) in faces.into_iter().enumerate() {
        let Some(face_m) = face_m else { continue };
        let usual = lattice(face_m);
        for (key, value_m, least, most, why) in [
            (
                "panel",
                usual.panel_m,
                0.8,
                1.3,
                "why-a-panel-is-usually-a-little-higher",
            ),
            (
                "leg",
                usual.leg_m,
                0.7,
                1.4,
                "why-legs-are-usually-a-twelfth-of-the",
            ),
            (
                "bracing",
                usual.bracing_m,
                0.7,
                1.5,
                "why-bracing-is-usually-half-as-thick-as",
            ),
        ] {
            let metres = |m: f64| format!("{} m", (m * 1e4).round() / 1e4);
            let value = json!({
                "assumed": metres(value_m),
                "low": metres(value_m * least),
                "high": metres(value_m * most),
                "why": why,
                "mark": P.word(),
            });
            lay_in(document, "sites", index, &["mast", key], &value);
        }
    }
}

/// A mobile network promises nothing and is full when much happens: a way over it works for less of the year than a line.
fn lay_mobile_ways(document: &mut Node) {
    let Some(Value::List(hops)) = document.get("hops").map(|h| &h.value) else {
        return;
    };
    let mobile: Vec<bool> = hops
        .iter()
        .map(|h| h.get("way").and_then(text_of).as_deref() == Some("mobile data"))
        .collect();
    let usual = json!({
        "assumed": "98 %", "low": "95 %", "high": "99.5 %", "why": "why-a-mobile-network-promises-nothing", "mark": P.word(),
    });
    for index in (0..mobile.len()).filter(|i| mobile[*i]) {
        lay_in(document, "hops", index, &["leased_availability"], &usual);
    }
}

/// Lays a value into one of a list's tables.
fn lay_in(document: &mut Node, list: &str, index: usize, steps: &[&str], value: &Json) {
    let Value::Table(entries) = &mut document.value else {
        return;
    };
    let items = entries
        .iter_mut()
        .find(|e| e.key == list)
        .map(|e| &mut e.node.value);
    if let Some(Value::List(items)) = items
        && let Some(item) = items.get_mut(index)
    {
        lay(item, steps, value);
    }
}

/// Width of a site's lattice face, m; none for a pole, or where the width is not known.
fn lattice_face_m(site: &Node) -> Option<f64> {
    let mast = site.get("mast")?;
    let known = |key: &str| {
        let node = mast.get(key)?;
        let inner = ["assumed", "measured"].iter().find_map(|k| node.get(k));
        text_of(inner.unwrap_or(node))
    };
    if !known("kind")?.ends_with("lattice") {
        return None;
    }
    let face_m = known("width")?.parse::<quantity::Length>().ok()?.m();
    (face_m > 0.0).then_some(face_m)
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
    fn every_reason_of_ours_is_a_message_in_every_language_and_a_users_own_stands_as_written() {
        for language in Language::ALL {
            for default in DEFAULTS {
                let known = words::words().arguments(default.why, *language);
                assert!(
                    known.is_some_and(std::collections::BTreeSet::is_empty),
                    "{}",
                    default.why
                );
            }
        }
        let of = |why: &str| Assumption {
            path: "x".into(),
            value: json!(1),
            low: None,
            high: None,
            why: why.into(),
            mark: Mark::Practice,
        };
        let said = |why: &str| words::said(&of(why).reason(), Language::French);
        assert_eq!(said("why-one-host-is-usual"), "un animateur est l’usage");
        assert_eq!(said("because I say so"), "because I say so");
        assert_eq!(said("why-not"), "why-not");
    }

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

    #[test]
    fn a_lattice_is_of_usual_proportions_until_the_file_says_otherwise() {
        let site = |mast: Json| {
            let sites = json!([{"tag": "HILL", "name": "Hill", "position": "43.5° N 35.5° W", "mast": mast}]);
            fill(&Node::from_json(
                &json!({"format": 1, "name": "X", "sites": sites}),
            ))
        };
        let of = |document: &Node| -> Vec<Assumption> {
            let mast = ["panel", "leg", "bracing"].map(|key| format!("sites.HILL.mast.{key}"));
            let mut all = listed(document);
            all.retain(|a| mast.contains(&a.path) || a.path.contains(".mast.leg"));
            all
        };
        let lattice = site(json!({"kind": "guyed lattice", "width": "0.6 m"}));
        let assumed = of(&lattice);
        assert_eq!(assumed.len(), 3, "{assumed:?}");
        assert!(assumed.iter().all(|a| a.low.is_some() && a.high.is_some()));
        let mast = &Station::read(&lattice).unwrap().sites[0].mast;
        assert_eq!(mast.panel.value().map(|l| l.m()), Some(0.72));
        assert_eq!(mast.leg.value().map(|l| l.m()), Some(0.05));
        let stated = site(
            json!({"kind": "guyed lattice", "width": "0.6 m", "leg": "60 mm", "bracing": "20 mm", "panel": "0.5 m"}),
        );
        assert!(of(&stated).is_empty());
        let mast = &Station::read(&stated).unwrap().sites[0].mast;
        assert_eq!(mast.leg.value().map(|l| l.m()), Some(0.06));
        // A pole has none, and neither has a lattice of unknown width.
        assert!(of(&site(json!({"kind": "pole", "width": "0.06 m"}))).is_empty());
        assert!(of(&site(json!({"kind": "guyed lattice"}))).is_empty());
    }
}
