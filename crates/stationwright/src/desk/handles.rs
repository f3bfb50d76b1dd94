//! What can be moved by hand: power, bays, height, each with finished stops.

use super::{view, words_of};
use crate::office::{Assessed, Office};
use assess::proofs::transmission::{EmissionPath, Radiating};
use assess::say::{joined, show_number};
use assess::unit::Unit;
use quantity::Locale;
use server::view::{Handle, Stop};
use station::Edit;
use station::shelf::ItemKind;
use words::Message;

/// Powers a transmitter is usually set to, W; those under its rating become stops.
const POWERS_W: [f64; 22] = [
    5.0, 10.0, 15.0, 20.0, 30.0, 50.0, 75.0, 100.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0, 700.0, 1000.0,
    1500.0, 2000.0, 3000.0, 3500.0, 5000.0, 10_000.0,
];
/// Stops of the height's slider.
const HEIGHTS: usize = 7;

/// The handles of the antenna sheet, for the first emission.
pub fn handles(office: &Office, assessed: &Assessed, locale: &Locale) -> Vec<Handle> {
    let Some(path) = assessed.outcome.transmission.emissions.first() else {
        return Vec::new();
    };
    let mut out = Vec::new();
    out.extend(power(assessed, path, locale));
    if let Ok(radiating) = &path.radiating {
        out.extend(bays(office, assessed, radiating));
        out.extend(height(assessed, radiating, locale));
    }
    out
}

fn set(assessed: &Assessed, path: &str, to: impl Into<serde_json::Value>) -> Edit {
    Edit::set(&assessed.file, path, to)
}

fn power(assessed: &Assessed, path: &EmissionPath, locale: &Locale) -> Option<Handle> {
    let (rated, now) = (path.rated_w?, path.power_w?);
    let at = format!("emissions.{}.power", path.tag);
    let mut values: Vec<f64> = POWERS_W
        .iter()
        .copied()
        .filter(|p| *p <= rated && *p >= rated / 30.0)
        .collect();
    values.extend(path.licence_w.map(|l| l.min(rated)));
    values.push(rated);
    values.sort_by(f64::total_cmp);
    values.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    let (least, most) = (*values.first()?, *values.last()?);
    let place = |w: f64| {
        if most > least {
            ((w / least).ln() / (most / least).ln()).clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    let stops = values
        .iter()
        .map(|w| {
            let from_licence = path.licence_w.is_some_and(|l| (l.min(rated) - w).abs() < 0.05);
            let edit = if from_licence && path.power_stated {
                Edit::remove(&assessed.file, at.clone())
            } else {
                set(assessed, &at, format!("{w:.1} W"))
            };
            Stop {
                at: place(*w),
                says: joined(&show_number(*w, Unit::Watt, locale)),
                named: from_licence || *w == least || *w == most,
                edits: vec![edit],
            }
        })
        .collect();
    let limit = path
        .licence_w
        .map(|l| joined(&show_number(l, Unit::Watt, locale)))
        .map(|power| Message::new("handle-limit").text("power", power))
        .map(|message| words::said(&message, view::language(assessed)));
    Some(Handle {
        id: "power".into(),
        sheet: "antenna".into(),
        label: words_of("handle-power", view::language(assessed)),
        typed: format!("{now:.1} W"),
        also: limit,
        at: place(now),
        path: at,
        stops,
    })
}

fn bays(office: &Office, assessed: &Assessed, radiating: &Radiating) -> Option<Handle> {
    let path = format!("antennas.{}.bays", radiating.tag);
    let antenna = assessed.station.antenna(&radiating.tag)?;
    let splitter = antenna
        .splitter
        .as_deref()
        .and_then(|tag| assessed.station.item(tag));
    let now_shelf = splitter.and_then(|i| office.shelf.get(&i.shelf));
    // A splitter of the same connectors with as many ways, where the shelf has one.
    let connectors = |s: &station::ShelfItem| {
        s.ports
            .iter()
            .filter_map(|p| p.connector.clone())
            .collect::<Vec<_>>()
    };
    let mut choices: Vec<(u32, String)> = office
        .shelf
        .of(ItemKind::Splitter)
        .filter(|s| now_shelf.is_some_and(|now| connectors(now).last() == connectors(s).last()))
        .filter_map(|s| Some((s.splitter.as_ref()?.ways, s.id.clone())))
        .collect();
    choices.sort();
    choices.dedup_by_key(|c| c.0);
    let tails = assessed
        .station
        .cables
        .iter()
        .find(|c| c.to.split(':').next() == Some(&radiating.tag));
    let last = choices.len().max(2) - 1;
    let stops: Vec<Stop> = choices
        .iter()
        .enumerate()
        .map(|(i, (ways, shelf))| {
            let mut edits = Vec::new();
            if *ways != radiating.bays {
                edits.push(set(assessed, &path, *ways));
                if let Some(item) = splitter {
                    edits.push(set(
                        assessed,
                        &format!("items.{}.shelf", item.tag),
                        shelf.as_str(),
                    ));
                }
                if let Some(tails) = tails {
                    edits.push(set(assessed, &format!("cables.{}.count", tails.tag), *ways));
                }
            }
            Stop {
                at: i as f64 / last as f64,
                says: ways.to_string(),
                named: true,
                edits,
            }
        })
        .collect();
    let at = stops.iter().find(|s| s.edits.is_empty()).map_or(0.0, |s| s.at);
    Some(Handle {
        id: "bays".into(),
        sheet: "antenna".into(),
        label: words_of("handle-bays", view::language(assessed)),
        typed: radiating.bays.to_string(),
        also: None,
        path,
        stops,
        at,
    })
}

/// Heights a hand can choose, m above ground: from the lowest that clears the ground to the mast's top.
fn heights_m(assessed: &Assessed, radiating: &Radiating) -> Option<Vec<f64>> {
    let mast = assessed.station.site(&radiating.site)?.mast.height.value()?.m();
    let half = 0.5 * f64::from(radiating.bays - 1) * radiating.spacing_m;
    let (low, high) = (
        (half + 3.0).max(mast * 0.3).min(mast),
        (mast - half).max(half + 3.0),
    );
    let mut all: Vec<f64> = (0..HEIGHTS)
        .map(|i| (low + (high - low) * i as f64 / (HEIGHTS - 1) as f64).round())
        .collect();
    all.push(radiating.centre_agl_m);
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 0.5);
    Some(all)
}

fn height(assessed: &Assessed, radiating: &Radiating, locale: &Locale) -> Option<Handle> {
    let path = format!("antennas.{}.height", radiating.tag);
    let values = heights_m(assessed, radiating)?;
    let (low, high) = (*values.first()?, *values.last()?);
    let place = |m: f64| {
        if high > low {
            ((m - low) / (high - low)).clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    let stops = values
        .iter()
        .map(|m| Stop {
            at: place(*m),
            says: joined(&show_number(*m, Unit::Metre, locale)),
            named: *m == low || *m == high,
            edits: vec![set(assessed, &path, format!("{m} m above ground"))],
        })
        .collect();
    Some(Handle {
        id: "height".into(),
        sheet: "antenna".into(),
        label: words_of("handle-height", view::language(assessed)),
        typed: format!("{} m above ground", radiating.centre_agl_m),
        also: None,
        at: place(radiating.centre_agl_m),
        path,
        stops,
    })
}

/// Edits whose fields are worth computing before a hand asks for them.
pub fn heights_ahead(assessed: &Assessed) -> Vec<Vec<Edit>> {
    let Some(path) = assessed.outcome.transmission.emissions.first() else {
        return Vec::new();
    };
    let Ok(radiating) = &path.radiating else {
        return Vec::new();
    };
    height(assessed, radiating, &Locale::ENGLISH)
        .map(|h| h.stops.into_iter().map(|s| s.edits).collect())
        .unwrap_or_default()
}
