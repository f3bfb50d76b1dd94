//! A vague wish made a brief: site, emission, wish and studio taken to be so, each named as an assumption.

use crate::draft::Draft;
use assess::Case;
use serde_json::{Value as Json, json};
use station::edit::EditError;

/// An assumption as the file writes it.
fn assumed(value: &str, low: Option<&str>, high: Option<&str>, why: &str) -> Json {
    let mut table = json!({ "assumed": value, "why": why, "mark": "common practice" });
    if let (Some(low), Some(high)) = (low, high) {
        table["low"] = low.into();
        table["high"] = high.into();
    }
    table
}

/// Lays in what a brief lacks before it can be answered. A brief that lacks nothing is left alone.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn presume(case: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let station = case.station;
    let largest = case.world.places().iter().max_by(|a, b| {
        let people = |p: &terrain::places::Place| p.people.unwrap_or(0.0);
        people(a).total_cmp(&people(b))
    });
    if station.places.is_empty()
        && let Some(place) = largest
    {
        let urban = match place.surroundings {
            terrain::Surroundings::Rural => "rural",
            terrain::Surroundings::Urban => "urban",
            terrain::Surroundings::LargeCity => "large city",
        };
        draft.set(
            "places.TOWN",
            json!({ "name": place.name, "position": position(place.position), "surroundings": urban }),
        )?;
    }
    let town = station
        .places
        .first()
        .map(|p| (p.name.clone(), position_of(p.position)))
        .or_else(|| largest.map(|p| (p.name.clone(), position(p.position))));
    let Some((name, at)) = town else { return Ok(()) };
    if station.sites.is_empty() {
        draft.set(
            "sites.SITE",
            json!({
                "name": name, "position": at,
                "mast": {
                    "status": "new", "kind": "guyed lattice",
                    "height": assumed("30 m above ground", Some("15 m above ground"), Some("45 m above ground"),
                        "why-no-site-was-named"),
                },
            }),
        )?;
    }
    let site = station.sites.first().map_or("SITE", |s| s.tag.as_str());
    let frequency = || {
        assumed(
            "98 MHz",
            Some("88 MHz"),
            Some("107 MHz"),
            "why-no-frequency-was-named",
        )
    };
    let erp = || {
        let (low, high) = ("25 W ERP total", "500 W ERP total");
        assumed(
            "100 W ERP total",
            Some(low),
            Some(high),
            "why-no-licence-was-named",
        )
    };
    let polarisation = || {
        assumed(
            "vertical",
            None,
            None,
            "why-car-and-portable-aerials-stand-upright",
        )
    };
    match station.emissions.first() {
        None => draft.set(
            "emissions.E1",
            json!({
                "programme": station.name,
                "frequency": frequency(),
                "licence": { "erp": erp(), "polarisation": polarisation() },
            }),
        )?,
        // What the first emission, the one that is planned, leaves open.
        Some(first) => {
            let at = |key: &str| format!("emissions.{}.{key}", first.tag);
            if first.frequency.value().is_none() {
                draft.set(at("frequency"), frequency())?;
            }
            if first.licence.erp.value().is_none() {
                draft.set(at("licence.erp"), erp())?;
            }
            if first.licence.polarisation.value().is_none() {
                draft.set(at("licence.polarisation"), polarisation())?;
            }
        }
    }
    if station.brief.wanted.is_empty() {
        draft.set(
            "brief.wanted.W1",
            json!({ "within": "10 km", "service": "stereo" }),
        )?;
    }
    // A station that is there already has its studio, whether the file speaks of it or not.
    if station.rooms.is_empty() && station.emissions.is_empty() {
        draft.set(
            "rooms.STUDIO",
            json!({ "site": site, "kind": "on-air studio", "length": "5 m", "width": "4 m", "height": "2.7 m" }),
        )?;
    }
    Ok(())
}

fn position(at: terrain::Position) -> Json {
    text(at.lat_deg(), at.lon_deg())
}

fn position_of(at: quantity::Position) -> Json {
    text(at.lat_deg(), at.lon_deg())
}

fn text(lat: f64, lon: f64) -> Json {
    let north = if lat < 0.0 { "S" } else { "N" };
    let east = if lon < 0.0 { "W" } else { "E" };
    format!("{:.5}° {north} {:.5}° {east}", lat.abs(), lon.abs()).into()
}
