//! Writes every paper of the demo station into a folder under `target/` and prints, as JSON, what the assessment says that they
//! must hold: field at cells, areas inside outlines, named points, prices. Independent readers compare (`tools/witness/papers.py`).

use assess::assessment::Assessment;
use papers::Map;
use serde_json::{Value, json};
use stationwright::commands::{coverage::map_of, papers as command};
use stationwright::office::{Office, read, today};
use std::error::Error;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let out = root.join("target/papers-witness");
    let station = out.join("station");
    std::fs::create_dir_all(&station)?;
    std::fs::copy(
        root.join("examples/orrenay/station.toml"),
        station.join("station.toml"),
    )?;
    let file = folder::StationFile::open(&station)?;
    let office = Office::open(&station, read(&file)?, today())?;
    let assessed = office.assess(
        read(&file)?,
        &file.digest.to_string(),
        &coverage::Control::quiet(),
    )?;
    command::write(&office, &assessed, &out, |_| true)?;
    let map = map_of(&office, &assessed)?.ok_or("the demo radiates")?;
    let facts = json!({
        "folder": out.canonicalize()?,
        "raster": raster(&map),
        "outlines": map.contours.iter().map(|c| json!({
            "level_db": c.level_db, "area_km2": c.area_km2, "parts": c.cut_at_antimeridian().0.len(),
        })).collect::<Vec<_>>(),
        "points": map.marks.iter().map(|m| json!({
            "name": m.name, "lon": m.position.lon_deg(), "lat": m.position.lat_deg(),
        })).collect::<Vec<_>>(),
        "money": money(&assessed.assessment),
    });
    println!("{facts}");
    Ok(())
}

/// The raster's size and twenty of its cells with a field, spread over all of it.
fn raster(map: &Map) -> Value {
    let grid = &map.raster.grid;
    let (width, height) = (grid.width() as usize, grid.height() as usize);
    let known: Vec<usize> = (0..width * height)
        .filter(|i| map.raster.values_cdb[*i] != coverage::NODATA)
        .collect();
    let cells: Vec<Value> = (0..20)
        .map(|part| known[part * known.len() / 20 + known.len() / 41])
        .map(|index| {
            let (lon, lat) = grid.xy((index % width) as u32, (index / width) as u32);
            json!({ "lon": lon, "lat": lat, "cdb": map.raster.values_cdb[index] })
        })
        .collect();
    json!({ "width": width, "height": height, "nodata": coverage::NODATA, "cells": cells })
}

/// Prices as the assessment has them.
fn money(assessment: &Assessment) -> Value {
    let figure = |id: &str| assessment.figure(id).and_then(|f| f.value.number());
    let costs = assessment.costs();
    json!({
        "goods": figure("money.goods"),
        "capital": figure("money.capital"),
        "yearly": figure("money.yearly"),
        "mass_kg": figure("money.mass"),
        "lines": assessment.bill.iter().map(|l| json!({ "id": l.id, "price": l.line.map(|m| m.to_f64()) })).collect::<Vec<_>>(),
        "cost": costs.cost.map(|m| m.to_f64()),
        "earned": costs.earned.map(|m| m.to_f64()),
    })
}
