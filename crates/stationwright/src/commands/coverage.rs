//! `stationwright coverage`: the map and what can be counted on it.

mod masts;
mod second;

use super::assess::{assess_folder, ended, language_of, refused, report};
use super::papers::{failed, write};
use crate::language::told;
use crate::office::{Assessed, Office};
use assess::masts::MastAsk;
use assess::proofs::coverage::erp_table;
use assess::said::{SaidFigure, SaidPoint};
use assess::say::{joined, show_number};
use assess::unit::Unit;
use coverage::Situation;
use papers::{Map, MapAsk, Mark, MarkKind, PaperError};
use serde::Serialize;
use station::Station;
use std::path::PathBuf;
use std::process::ExitCode;
use words::{Language, Message, say_best};

/// Writes the map of a station and prints who is served: GeoTIFF, PNG, GeoJSON, KML, CSV.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples: stationwright coverage examples/orrenay --json\n          \
    stationwright coverage examples/orrenay --difference\n          \
    stationwright coverage examples/orrenay --where --erp 500W --mast 30m"
)]
pub struct CoverageArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Where to write; `papers` in the station's folder when left out
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Print the statistics as JSON
    #[arg(long)]
    json: bool,
    /// Method of the map and of the statistics; the proof and the papers stay with P.1812
    #[arg(long, value_enum, default_value_t = Method::P1812, conflicts_with = "find_mast")]
    model: Method,
    /// Write the field by P.1812 less the field by the Irregular Terrain Model, as CSV and GeoTIFF
    #[arg(long, conflicts_with = "find_mast")]
    difference: bool,
    /// Climate of the Irregular Terrain Model, 1 to 7; 5 is continental temperate
    #[arg(long, default_value_t = assess::second_opinion::CLIMATE, value_parser = clap::value_parser!(u8).range(1..=7))]
    climate: u8,
    /// Look for the ten best hills for the mast instead: by people served of the places wanted
    #[arg(long = "where", help_heading = "Where the mast should stand")]
    find_mast: bool,
    /// Place to serve, by tag, name or position; may be given up to 20 times. Those the brief wants when left out
    #[arg(
        long = "place",
        value_name = "PLACE",
        requires = "find_mast",
        help_heading = "Where the mast should stand"
    )]
    places: Vec<String>,
    /// Radiated power in the plane listeners hear, such as "500 W"; the licence's when left out
    #[arg(long, value_parser = typed::<quantity::Power>, requires = "find_mast", help_heading = "Where the mast should stand")]
    erp: Option<quantity::Power>,
    /// Height of the antenna above ground, such as 30m; the station's when left out
    #[arg(long, value_parser = typed::<quantity::Length>, requires = "find_mast", help_heading = "Where the mast should stand")]
    mast: Option<quantity::Length>,
    /// Carrier; the station's when left out
    #[arg(long, value_parser = typed::<quantity::Frequency>, requires = "find_mast", help_heading = "Where the mast should stand")]
    frequency: Option<quantity::Frequency>,
    /// How far from the middle to look; the study's radius when left out
    #[arg(long, value_parser = typed::<quantity::Length>, requires = "find_mast", help_heading = "Where the mast should stand")]
    radius: Option<quantity::Length>,
    /// Side of a cell, of the difference too; the study's step when left out
    #[arg(long, value_parser = typed::<quantity::Length>)]
    cell: Option<quantity::Length>,
    /// Hills nearer to each other than this are one; 2 km when left out
    #[arg(long, value_parser = typed::<quantity::Length>, requires = "find_mast", help_heading = "Where the mast should stand")]
    apart: Option<quantity::Length>,
}

/// Method of prediction.
#[derive(clap::ValueEnum, Debug, Clone, Copy, PartialEq, Eq)]
enum Method {
    /// Rec. ITU-R P.1812-7
    P1812,
    /// Irregular Terrain Model
    Itm,
}

impl CoverageArgs {
    fn mast_ask(&self) -> MastAsk {
        MastAsk {
            places: self.places.clone(),
            erp_w: self.erp.map(|p| p.w()),
            mast_m: self.mast.map(|m| m.m()),
            freq_mhz: self.frequency.map(|f| f.mhz()),
            radius_km: self.radius.map(|r| r.km()),
            cell_m: self.cell.map(|c| c.m()),
            apart_km: self.apart.map(|a| a.km()),
            usual_erp_w: None,
        }
    }
}

/// A quantity as typed on the command line, or why it is none.
fn typed<Q: std::str::FromStr<Err = quantity::QuantityError>>(text: &str) -> Result<Q, String> {
    text.parse()
        .map_err(|error: quantity::QuantityError| told(&error))
}

/// What is printed as JSON.
#[derive(Serialize)]
struct Statistics<'a> {
    name: &'a str,
    invented: bool,
    figures: Vec<&'a SaidFigure>,
    files: Vec<String>,
}

/// Runs the command: 0 when written, 2 when the input is refused or nothing radiates, 3 when a file could not be written.
pub fn run(args: &CoverageArgs) -> ExitCode {
    if args.find_mast {
        return masts::run(&args.folder, &args.mast_ask(), args.json);
    }
    if args.difference || args.model == Method::Itm {
        return second::run(&second::Ask {
            folder: &args.folder,
            out: args.out.as_deref(),
            difference: args.difference,
            climate: args.climate,
            cell_m: args.cell.map(|c| c.m()),
            json: args.json,
        });
    }
    let (office, assessed) = match assess_folder(&args.folder) {
        Ok(both) => both,
        Err(error) => return report(&error),
    };
    if assessed.fields.by_emission.values().all(Result::is_err) {
        return refused(&PaperError::NoMap);
    }
    let out = args.out.clone().unwrap_or_else(|| office.folder.join("papers"));
    let written = match write(&office, &assessed, &out, |p| {
        p.file.starts_with("map.") || p.file == "places.csv"
    }) {
        Ok(written) => written,
        Err(error) => return failed(&error),
    };
    let files: Vec<String> = written.iter().map(|p| p.display().to_string()).collect();
    let sheet = &assessed.sheet;
    let figures: Vec<_> = sheet
        .figures
        .iter()
        .filter(|f| f.id.starts_with("coverage."))
        .collect();
    if args.json {
        let statistics = Statistics {
            name: &sheet.name,
            invented: sheet.invented,
            figures,
            files,
        };
        match serde_json::to_string_pretty(&statistics) {
            Ok(text) => println!("{text}"),
            Err(error) => return ended(Message::foreign(error), 3),
        }
    } else {
        for figure in figures {
            let spread = figure
                .spread
                .as_deref()
                .map(|s| format!(" {s}"))
                .unwrap_or_default();
            println!("{:60} {:>16}{spread}", figure.label, joined(&figure.value));
        }
        files.iter().for_each(|file| println!("{file}"));
    }
    ExitCode::SUCCESS
}

/// The map of the first emission that radiates; `None` when none does.
///
/// # Errors
/// [`PaperError`] for a field that cannot be laid on a map.
pub fn map_of(office: &Office, assessed: &Assessed) -> Result<Option<Map>, PaperError> {
    let paths = assessed.outcome.transmission.emissions.iter();
    let radiating = paths.filter_map(|path| {
        let field = assessed.fields.by_emission.get(&path.tag)?.as_ref().ok()?;
        Some((path.tag.as_str(), field, erp_table(path)?))
    });
    let Some((emission, field, erp)) = radiating.into_iter().next() else {
        return Ok(None);
    };
    let language = language_of(&assessed.sheet);
    Map::draw(MapAsk {
        world: &office.world.world,
        field,
        erp: &erp,
        situation: Situation::Roof,
        emission,
        marks: marks(assessed, by_itm(field.study())),
        strip: strip(field.study(), language)?,
    })
    .map(Some)
}

fn position(at: quantity::Position) -> Option<terrain::Position> {
    terrain::Position::new(at.lat_deg(), at.lon_deg()).ok()
}

/// Masts first, then places with what the assessment says of them, then studios that stand in no place.
///
/// What is answered at a place is answered by P.1812: a map by another method names places only.
fn marks(assessed: &Assessed, names_only: bool) -> Vec<Mark> {
    let station = &assessed.station;
    let is_mast = |tag: &str| station.antennas.iter().any(|a| a.site == tag);
    let site = |site: &station::place::Site, kind| {
        let position = position(site.position)?;
        Some(Mark {
            kind,
            name: site.name.clone(),
            position,
            note: None,
            in_hand: None,
        })
    };
    let masts = station
        .sites
        .iter()
        .filter(|s| is_mast(&s.tag))
        .filter_map(|s| site(s, MarkKind::Mast));
    let places = station.places.iter().filter_map(|place| {
        let point = point_of(assessed, station, &place.tag).filter(|_| !names_only);
        Some(Mark {
            kind: MarkKind::Place,
            name: place.name.clone(),
            position: position(place.position)?,
            note: point.map(|p| p.answered.clone()),
            in_hand: point.and_then(|p| p.in_hand.clone()),
        })
    });
    let in_place = |s: &station::place::Site| {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-4;
        station.places.iter().any(|p| {
            near(p.position.lat_deg(), s.position.lat_deg())
                && near(p.position.lon_deg(), s.position.lon_deg())
        })
    };
    let studios = station
        .sites
        .iter()
        .filter(|s| !is_mast(&s.tag) && !in_place(s))
        .filter_map(|s| site(s, MarkKind::Studio));
    masts.chain(places).chain(studios).collect()
}

/// The point of the brief that asks for a place.
fn point_of<'a>(assessed: &'a Assessed, station: &Station, place: &str) -> Option<&'a SaidPoint> {
    let wish = station
        .brief
        .wanted
        .iter()
        .find(|w| w.place.as_deref() == Some(place))?;
    let figure = format!("coverage.{}.field", wish.tag);
    assessed.sheet.points.iter().find(|p| p.figure == figure)
}

fn by_itm(study: &coverage::Study) -> bool {
    matches!(study.walker, coverage::study::Walker::Itm(_))
}

fn strip(study: &coverage::Study, language: Language) -> Result<Vec<(String, String)>, PaperError> {
    let word = |code: &'static str| Ok::<_, PaperError>(say_best(&Message::new(code), language)?.text);
    let shown = |number: f64, unit: Unit| joined(&show_number(number, unit, language.locale()));
    let method = if by_itm(study) {
        word("second-itm")?
    } else {
        word("strip-p1812")?
    };
    let frequency = shown(study.conditions.freq_mhz, Unit::Megahertz);
    Ok(vec![
        (word("paper-strip-method")?, format!("{method}, {frequency}")),
        (word("paper-strip-step")?, shown(study.step_m, Unit::Metre)),
        (
            word("paper-strip-radius")?,
            shown(study.radius_km, Unit::Kilometre),
        ),
        (word("paper-strip-heard")?, word("paper-strip-roof")?),
    ])
}
