//! `stationwright coverage --where`: the best hills for the places to be served.

use crate::commands::assess::{ended, report};
use crate::commands::watched::Watched;
use crate::office::{OfficeError, Opened};
use assess::masts::{Found, MastAsk, MastError, find, text_of};
use assess::say::{joined, show_number};
use assess::unit::Unit;
use coverage::{CoverageError, MastCell};
use quantity::Locale;
use serde_json::{Value, json};
use std::path::Path;
use std::process::ExitCode;
use words::{Language, Message, said};

/// Runs the search: 0 when hills are named, 1 when no cell serves anybody, 2 when the question is refused, 3 when stopped.
pub fn run(folder: &Path, ask: &MastAsk, as_json: bool) -> ExitCode {
    let (found, language) = match searched(folder, ask) {
        Ok(answer) => answer,
        Err(Wrong::Office(error)) => return report(&error),
        Err(Wrong::Masts(error)) => {
            let stopped = matches!(error, MastError::Coverage(CoverageError::Cancelled));
            return ended(error.message(), if stopped { 3 } else { 2 });
        }
    };
    let notes: Vec<String> = found.notes().iter().map(|note| said(note, language)).collect();
    if as_json {
        println!("{:#}", as_value(&found, &notes));
    } else {
        print!("{}", told(&found, language));
        for note in &notes {
            println!("{note}");
        }
    }
    ExitCode::from(u8::from(found.nobody()))
}

enum Wrong {
    Office(OfficeError),
    Masts(MastError),
}

/// What was found, and the station's language.
fn searched(folder: &Path, ask: &MastAsk) -> Result<(Found, Language), Wrong> {
    let watched = Watched::begin();
    let opened = Opened::at(folder).map_err(Wrong::Office)?;
    let language = opened.language();
    let found = watched.work(|control| find(&opened.case(), ask, control));
    let found = found.map_err(Wrong::Masts)?;
    Ok((found, language))
}

fn shown(number: f64, unit: Unit, locale: &Locale) -> String {
    joined(&show_number(number, unit, locale))
}

fn told(found: &Found, language: Language) -> String {
    let locale = language.locale();
    let search = &found.search;
    let mut out = said(&found.head(locale), language) + "\n\n";
    for (i, hill) in found.masts.best.iter().enumerate() {
        out += &hill_line(found, i, hill, language);
    }
    let searched = Message::new("masts-searched")
        .count("cells", found.cells_on_land() as i64)
        .text("side", shown(search.cell_m, Unit::Metre, locale));
    out + "\n" + &said(&searched, language) + "\n"
}

fn hill_line(found: &Found, i: usize, hill: &MastCell, language: Language) -> String {
    let locale = language.locale();
    let margins: Vec<String> = found
        .places
        .iter()
        .zip(&hill.margin_db)
        .map(|(place, margin)| {
            let margin = margin.map_or("–".into(), |db| {
                joined(&assess::say::signed(db, Unit::Decibel, locale))
            });
            format!("{} {margin}", place.name)
        })
        .collect();
    format!(
        "{:2}  {}  {:>10}  {:>16}  {}\n      {}\n",
        i + 1,
        text_of(hill.position),
        shown(hill.ground_m, Unit::Metre, locale),
        shown(hill.people, Unit::People, locale),
        said(&found.reaches(hill), language),
        margins.join(", ")
    )
}

fn as_value(found: &Found, notes: &[String]) -> Value {
    let search = &found.search;
    let study = &search.study;
    let hill = |hill: &MastCell| {
        let margins = found.places.iter().zip(&hill.margin_db);
        json!({
            "lat_deg": hill.position.lat_deg(),
            "lon_deg": hill.position.lon_deg(),
            "ground_m": hill.ground_m,
            "people": hill.people,
            "places_reached": found.reached(hill).count(),
            "places": margins.map(|(place, margin_db)| json!({
                "name": place.name,
                "margin_db": margin_db,
                "reached": margin_db.is_some_and(|db| db >= 0.0),
            })).collect::<Vec<_>>(),
        })
    };
    json!({
        "erp_kw": search.erp_kw,
        "mast_agl_m": study.tx_agl_m,
        "freq_mhz": study.conditions.freq_mhz,
        "time_pct": study.conditions.time_pct,
        "middle": { "lat_deg": study.site.lat_deg(), "lon_deg": study.site.lon_deg() },
        "radius_km": study.radius_km,
        "step_m": study.step_m,
        "cell_m": search.cell_m,
        "apart_km": search.apart_km,
        "cells_on_land": found.cells_on_land(),
        "people_total": found.people_total(),
        "places": found.places.iter().map(|p| json!({
            "name": p.name,
            "lat_deg": p.position.lat_deg(),
            "lon_deg": p.position.lon_deg(),
            "people": p.people,
        })).collect::<Vec<_>>(),
        "best": found.masts.best.iter().map(hill).collect::<Vec<_>>(),
        "notes": notes,
    })
}
