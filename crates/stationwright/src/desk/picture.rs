//! The map: field, ground and land on one grid, with what is named on it.

use super::probe::situation;
use super::{view, words_of};
use crate::office::{Assessed, Office};
use assess::proofs::coverage::erp_table;
use assess::say::{show_number, signed};
use assess::unit::Unit;
use coverage::{LossField, Paint, World};
use quantity::{Digits, Locale};
use server::desk::Refusal;
use server::map::{
    Class, FieldAsk, FieldPicture, Legend, MapMark, MarkKind, NO_FIELD, PlaceLine, ScaleMark, StripCell,
};
use std::sync::Arc;
use words::{Language, Message, said};

/// Cells across the map at most.
const CELLS: f64 = 420.0;

/// Lower edges of the field's classes, dBµV/m: Rec. ITU-R BS.412-9, Table 1 (mono and stereo by surroundings).
const EDGES: [(Option<f64>, &str, bool, u8); 7] = [
    (None, "class-none", true, 0),
    (Some(48.0), "class-open-mono", true, 0),
    (Some(54.0), "class-open-stereo", false, 0),
    (Some(60.0), "class-town-mono", true, 1),
    (Some(66.0), "class-town-stereo", false, 1),
    (Some(70.0), "class-city-mono", true, 2),
    (Some(74.0), "class-city-stereo", false, 2),
];

fn field<'a>(assessed: &'a Assessed, emission: &str) -> Result<&'a Arc<LossField>, Refusal> {
    match assessed.fields.by_emission.get(emission) {
        Some(Ok(field)) => Ok(field),
        Some(Err(error)) => Err(Refusal::new("failed", error)),
        None => Err(Refusal::new("not-ready", Message::new("probe-nothing-radiates"))),
    }
}

/// The map's grid.
pub fn grid(assessed: &Assessed, emission: &str) -> Result<terrain::Grid, Refusal> {
    let field = field(assessed, emission)?;
    let cell_m = (2000.0 * field.study().radius_km / CELLS).max(field.study().step_m);
    field.raster_grid(cell_m).map_err(|e| Refusal::new("failed", &e))
}

/// Paints the map as it is asked for.
pub fn picture(
    office: &Office,
    assessed: &Assessed,
    ask: &FieldAsk,
    token: &str,
) -> Result<FieldPicture, Refusal> {
    let language = view::language(assessed);
    let locale = language.locale();
    let not_ready = || Refusal::new("not-ready", Message::new("probe-nothing-radiates"));
    let tag = match &ask.emission {
        Some(tag) => tag.clone(),
        None => assessed
            .station
            .emissions
            .first()
            .map(|e| e.tag.clone())
            .ok_or_else(not_ready)?,
    };
    let field = field(assessed, &tag)?;
    let path = assessed
        .outcome
        .transmission
        .emissions
        .iter()
        .find(|p| p.tag == tag)
        .ok_or_else(not_ready)?;
    let table = erp_table(path).ok_or_else(not_ready)?;
    let failed = |e: coverage::CoverageError| Refusal::new("failed", &e);
    let grid = grid(assessed, &tag)?;
    let case = office.case(&assessed.file, &assessed.document, &assessed.station);
    let wanted = assess::proofs::coverage::wanted_field(
        &case,
        station::brief::Service::Stereo,
        situation(ask.heard),
        None,
    );
    let paint = Paint::FieldAt(wanted, f64::from(ask.places));
    let values = field.painted_db(&table, &paint).map_err(failed)?;
    let raster = field.raster_of(&values, grid);
    let grid = &raster.grid;
    let (width, height) = (grid.width() as usize, grid.height() as usize);
    let mut ground_m = vec![f32::NAN; width * height];
    let mut land = vec![false; width * height];
    for row in 0..height {
        for col in 0..width {
            let spot = grid
                .position(col as u32, row as u32)
                .and_then(|at| case.world.spot(at).ok());
            if let Some(spot) = spot {
                ground_m[row * width + col] = spot.height_m as f32;
                land[row * width + col] = !spot.water;
            }
        }
    }
    let (west, south, east, north) = {
        let (w, s, e, n) = grid.edges();
        (w, s, e, n)
    };
    let (step_lon, step_lat) = ((east - west) / width as f64, (north - south) / height as f64);
    let middle =
        terrain::Position::new(0.5 * (north + south), 0.5 * (west + east)).map_err(|_| not_ready())?;
    let cell_m = step_lon.to_radians() * 6_371_000.0 * middle.lat_deg().to_radians().cos();
    let edges: Vec<f64> = EDGES.iter().filter_map(|(from, ..)| *from).collect();
    let people = case.world.people().map(|p| raster.people_by_class(p, &edges));
    let classes = EDGES
        .iter()
        .enumerate()
        .map(|(i, (from, code, mono, weight))| Class {
            from: *from,
            edge: from.map_or(String::new(), |f| format!("{f:.0}")),
            wanted_for: words_of(code, language),
            mono: *mono,
            weight: *weight,
            people: show_number(people.as_ref().map_or(0.0, |p| p[i]), Unit::People, locale),
        })
        .collect();
    let (places, marks) = (
        places(case.world, assessed, &raster.grid, locale),
        marks(assessed, &raster.grid),
    );
    let study = field.study();
    let dry = land.iter().map(|land| f32::from(u8::from(*land))).collect();
    let heard = assessed
        .sheet
        .figures
        .iter()
        .find(|f| f.id == format!("coverage.{tag}.people_stereo_roof"));
    let legend = Legend {
        token: token.to_owned(),
        coarse: study.every_azimuth > 1,
        width,
        height,
        west_deg: west,
        north_deg: north,
        step_lon_deg: step_lon,
        step_lat_deg: step_lat,
        aspect: step_lat / (step_lon * middle.lat_deg().to_radians().cos()),
        cell_m,
        classes,
        unit: Unit::DbuvPerMetre.symbol().into(),
        marks,
        scale: scale(cell_m, width as f64, locale),
        places,
        strip: strip(office, study, language),
        says: heard.map_or(String::new(), |f| {
            let message = Message::new("figure-is").text("label", &f.label);
            said(&message.text("value", assess::say::joined(&f.value)), language)
        }),
    };
    let field_hundredths = raster
        .values_cdb
        .iter()
        .map(|v| if *v == coverage::NODATA { NO_FIELD } else { *v })
        .collect();
    Ok(FieldPicture {
        legend,
        field_hundredths,
        ground_m,
        land_round: coverage::shares_of_land(dry, width, study.step_m, cell_m),
        land,
    })
}

fn cells(grid: &terrain::Grid, position: quantity::Position) -> Option<(f64, f64)> {
    let at = terrain::Position::new(position.lat_deg(), position.lon_deg()).ok()?;
    grid.locate(at)
}

fn marks(assessed: &Assessed, grid: &terrain::Grid) -> Vec<MapMark> {
    let station = &assessed.station;
    let mut out = Vec::new();
    for site in &station.sites {
        let Some((x, y)) = cells(grid, site.position) else {
            continue;
        };
        let kind = if station.antennas.iter().any(|a| a.site == site.tag) {
            MarkKind::Mast
        } else {
            MarkKind::Studio
        };
        out.push(MapMark {
            kind,
            name: site.name.clone(),
            note: None,
            x,
            y,
        });
    }
    for place in &station.places {
        let near_site = station.sites.iter().any(|s| {
            cells(grid, s.position)
                .zip(cells(grid, place.position))
                .is_some_and(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1) < 2.0)
        });
        if let Some((x, y)) = cells(grid, place.position).filter(|_| !near_site) {
            out.push(MapMark {
                kind: MarkKind::Place,
                name: place.name.clone(),
                note: None,
                x,
                y,
            });
        }
    }
    out
}

fn places(world: &dyn World, assessed: &Assessed, grid: &terrain::Grid, locale: &Locale) -> Vec<PlaceLine> {
    let mut out = Vec::new();
    for check in &assessed.outcome.coverage.wanted {
        let Some(Ok(at)) = &check.place else { continue };
        let wish = assessed.station.brief.wanted.iter().find(|w| w.tag == check.tag);
        let Some(place) = wish.and_then(|w| assessed.station.place(w.place.as_deref()?)) else {
            continue;
        };
        let (x, y) = cells(grid, place.position).unwrap_or((0.0, 0.0));
        out.push(PlaceLine {
            name: place.name.clone(),
            people: people_of(world, place).map(|n| show_number(n, Unit::People, locale)),
            median: show_number(at.field_dbuv_m, Unit::DbuvPerMetre, locale),
            in_hand: Some(signed(at.margin_db, Unit::Decibel, locale)),
            short: at.margin_db < 0.0,
            figure: Some(format!("coverage.{}.field", check.tag)),
            x,
            y,
        });
    }
    out
}

/// Who lives in a place: as the file says, else as the world does; nothing where neither knows.
fn people_of(world: &dyn World, place: &station::place::Place) -> Option<f64> {
    let known = || {
        world
            .places()
            .iter()
            .find(|p| p.name == place.name)
            .and_then(|p| p.people)
    };
    place.people.map(f64::from).or_else(known)
}

/// A scale bar of round kilometres, about a fifth of the map wide.
fn scale(cell_m: f64, width: f64, locale: &Locale) -> Vec<ScaleMark> {
    let wish_km = width * cell_m / 5000.0;
    let km = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0]
        .into_iter()
        .rfind(|k| *k <= wish_km)
        .unwrap_or(1.0);
    [0.0, 0.5, 1.0]
        .into_iter()
        .map(|share| ScaleMark {
            cells: share * km * 1000.0 / cell_m,
            says: if share == 1.0 {
                format!("{km} km")
            } else {
                locale.number(share * km, Digits::AtMost(1))
            },
        })
        .collect()
}

fn strip(office: &Office, study: &coverage::Study, language: Language) -> Vec<StripCell> {
    let locale = language.locale();
    let cell = |label: &'static str, says: String| StripCell {
        label: words_of(label, language),
        says,
    };
    let step = assess::say::joined(&show_number(study.step_m, Unit::Metre, locale));
    let ground = match office.world.made_of.generated {
        Some(_) => words_of("strip-generated", language),
        None => {
            let tiles = office.world.made_of.heights.len() as i64;
            said(&Message::new("strip-tiles").count("tiles", tiles), language)
        }
    };
    vec![
        cell(
            "strip-method",
            format!(
                "{}, {} MHz, {:.0} %",
                words_of("strip-p1812", language),
                locale.number(study.conditions.freq_mhz, Digits::Decimals(1)),
                study.conditions.time_pct
            ),
        ),
        cell("strip-step", step),
        cell("strip-ground", ground),
    ]
}
