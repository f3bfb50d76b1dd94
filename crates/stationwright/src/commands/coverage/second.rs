//! `stationwright coverage --model itm` and `--difference`: the field by the Irregular Terrain Model, and how far the two lie apart.

use super::super::assess::{assess_folder, ended, language_of, refused, report};
use super::super::papers::{failed, write};
use super::super::watched::Watched;
use crate::office::{Assessed, Office, OfficeError};
use assess::Fields;
use assess::say::{joined, show_number};
use assess::second_opinion::{SecondOpinion, second_opinion};
use assess::unit::Unit;
use coverage::{CoverageError, Differences, LossField, Paint};
use serde_json::{Value, json};
use station::brief::{Service, Situation};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use words::{Language, Message, said};

/// What is asked.
pub struct Ask<'a> {
    /// The station.
    pub folder: &'a Path,
    /// Where to write.
    pub out: Option<&'a Path>,
    /// Write and print the difference, not the map alone.
    pub difference: bool,
    /// One of the method's seven climates.
    pub climate: u8,
    /// Side of a cell of the difference, m.
    pub cell_m: Option<f64>,
    /// Print as JSON.
    pub json: bool,
}

/// Cells across a map of differences, unless its cells are given.
const CELLS: f64 = 420.0;

/// Runs the command: 0 when written, 2 when refused or nothing radiates, 3 when a file could not be written.
pub fn run(ask: &Ask<'_>) -> ExitCode {
    let (office, assessed) = match assess_folder(ask.folder) {
        Ok(opened) => opened,
        Err(error) => return report(&error),
    };
    match answered(&office, &assessed, ask) {
        Ok(()) => ExitCode::SUCCESS,
        Err(code) => code,
    }
}

fn answered(office: &Office, assessed: &Assessed, ask: &Ask<'_>) -> Result<(), ExitCode> {
    let case = office.case(&assessed.file, &assessed.document, &assessed.station);
    let both = Watched::begin()
        .work(|control| second_opinion(&case, &assessed.fields, &assessed.outcome, ask.climate, control));
    let both = both.map_err(|e| match e {
        CoverageError::Cancelled => report(&OfficeError::Cancelled),
        other => refused(&other),
    })?;
    let both = both.ok_or_else(|| refused(&papers::PaperError::NoMap))?;
    let language = language_of(&assessed.sheet);
    let out = ask
        .out
        .map_or_else(|| office.folder.join("papers").join("itm"), Path::to_owned);
    let differences = both.first.differences(&both.second).map_err(|e| refused(&e))?;
    let files = if ask.difference {
        difference_files(&both, ask, &out).map_err(|why| ended(why, 3))?
    } else {
        map_files(office, assessed, &both, &out).map_err(|e| failed(&e))?
    };
    let files: Vec<String> = files.iter().map(|f| f.display().to_string()).collect();
    if ask.json {
        println!("{:#}", as_value(&both, ask.climate, differences.as_ref(), &files));
    } else {
        print!("{}", told(&both, ask, differences.as_ref(), language));
        files.iter().for_each(|file| println!("{file}"));
    }
    Ok(())
}

/// The map files of the second method: the station's own map drawn from its losses.
fn map_files(
    office: &Office,
    assessed: &Assessed,
    both: &SecondOpinion,
    out: &Path,
) -> Result<Vec<PathBuf>, super::super::papers::WriteError> {
    let mut fields = Fields::default();
    fields
        .by_emission
        .insert(both.emission.clone(), Ok(both.second.clone()));
    let other = Assessed {
        file: assessed.file.clone(),
        document: assessed.document.clone(),
        station: assessed.station.clone(),
        fields,
        outcome: assessed.outcome.clone(),
        assessment: assessed.assessment.clone(),
        sheet: assessed.sheet.clone(),
    };
    write(office, &other, out, |paper| paper.file.starts_with("map."))
}

/// `difference.csv`, cell by cell, and `difference.tif`, hundredths of a dB.
fn difference_files(both: &SecondOpinion, ask: &Ask<'_>, out: &Path) -> Result<Vec<PathBuf>, Message> {
    let of = |e: coverage::CoverageError| Message::from(&e);
    let study = both.first.study();
    let usual_m = (2000.0 * study.radius_km / CELLS).max(study.step_m);
    let grid = both
        .first
        .raster_grid(ask.cell_m.unwrap_or(usual_m))
        .map_err(of)?;
    let field = |losses: &LossField| {
        let values = losses.painted_db(&both.erp, &Paint::AtPrediction).map_err(of)?;
        Ok::<_, Message>(losses.raster_of(&values, grid))
    };
    let (first, second) = (field(&both.first)?, field(&both.second)?);
    let apart = both.first.exceeds_db(&both.second).map_err(of)?;
    let apart = both.first.raster_of(&apart, grid);
    let mut csv = String::from("lat_deg,lon_deg,p1812_dbuv_m,itm_dbuv_m,difference_db\n");
    for row in 0..grid.height() {
        for col in 0..grid.width() {
            let values = [&first, &second, &apart].map(|raster| raster.value_db(col, row));
            let (Some(at), [Some(a), Some(b), Some(c)]) = (grid.position(col, row), values) else {
                continue;
            };
            let _ = writeln!(
                csv,
                "{:.5},{:.5},{a:.2},{b:.2},{c:.2}",
                at.lat_deg(),
                at.lon_deg()
            );
        }
    }
    let image = papers::geotiff(&apart, "dB").map_err(|e| Message::from(&e))?;
    let at = |path: &Path, why: std::io::Error| {
        let message = Message::new("open-failed").text("path", path.display().to_string());
        message.message("why", Message::foreign(why))
    };
    std::fs::create_dir_all(out).map_err(|e| at(out, e))?;
    let mut written = Vec::new();
    for (name, bytes) in [("difference.csv", csv.into_bytes()), ("difference.tif", image)] {
        let path = out.join(name);
        std::fs::write(&path, bytes).map_err(|e| at(&path, e))?;
        written.push(path);
    }
    Ok(written)
}

fn told(
    both: &SecondOpinion,
    ask: &Ask<'_>,
    differences: Option<&Differences>,
    language: Language,
) -> String {
    let locale = language.locale();
    let shown = |number: f64, unit: Unit| joined(&show_number(number, unit, locale));
    let signed = |db: f64| joined(&assess::say::signed(db, Unit::Decibel, locale));
    let climate = Message::new("second-climate").tag("climate", ask.climate.to_string());
    let head = Message::new("second-head")
        .text("emission", both.emission.as_str())
        .text("climate", ask.climate.to_string())
        .text("climate-name", said(&climate, language));
    let mut out = said(&head, language) + "\n\n";
    let column = |code: &'static str| said(&Message::new(code), language);
    let _ = writeln!(
        out,
        "{:48} {:>16} {:>16}",
        "",
        column("second-column-p1812"),
        column("second-column-itm")
    );
    for served in &both.people {
        let label = Message::new("second-people")
            .tag("service", tag_of(served.service))
            .tag("situation", heard_tag(served.situation));
        let _ = writeln!(
            out,
            "{:48} {:>16} {:>16}",
            said(&label, language),
            shown(served.first, Unit::People),
            shown(served.second, Unit::People)
        );
    }
    out += "\n";
    match differences {
        Some(d) => {
            let message = Message::new("second-difference")
                .text("land", shown(d.land_km2, Unit::SquareKilometre))
                .text("median", signed(d.median_db))
                .text("tenth", signed(d.tenth_db))
                .text("ninetieth", signed(d.ninetieth_db))
                .text("worst", signed(d.worst_db));
            out += &(said(&message, language) + "\n");
            if d.only_one_km2 > 0.5 {
                let more = Message::new("second-only-one")
                    .text("land", shown(d.only_one_km2, Unit::SquareKilometre));
                out += &(said(&more, language) + "\n");
            }
        }
        None => out += &(said(&Message::new("second-no-land"), language) + "\n"),
    }
    out + &said(&Message::new("second-clutter"), language) + "\n"
}

fn tag_of(service: Service) -> &'static str {
    match service {
        Service::Mono => "mono",
        Service::Stereo => "stereo",
    }
}

fn heard_tag(situation: Situation) -> &'static str {
    match situation {
        Situation::Roof => "roof",
        Situation::Car => "car",
        Situation::Indoors | Situation::IndoorsEfficient => "indoors",
    }
}

fn as_value(both: &SecondOpinion, climate: u8, differences: Option<&Differences>, files: &[String]) -> Value {
    json!({
        "emission": both.emission,
        "climate": climate,
        "people": both.people.iter().map(|p| json!({
            "service": tag_of(p.service),
            "situation": heard_tag(p.situation),
            "p1812": p.first,
            "itm": p.second,
        })).collect::<Vec<_>>(),
        "difference": differences.map(|d| json!({
            "of": "field by P.1812 less field by ITM, dB, over land",
            "median_db": d.median_db,
            "tenth_db": d.tenth_db,
            "ninetieth_db": d.ninetieth_db,
            "worst_db": d.worst_db,
            "land_km2": d.land_km2,
            "only_one_km2": d.only_one_km2,
        })),
        "files": files,
    })
}
