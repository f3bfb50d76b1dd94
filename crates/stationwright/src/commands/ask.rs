//! `stationwright ask`: one enquiry answered in a breath, with an honest band.

use coverage::{
    Control, CoverRows, CoverageError, ErpTable, GroundWorld, LossField, Mode, ReceivingRule, Situation,
    Study, Threshold, Wanted, World,
};
use propagation::p1812::Polarisation;
use propagation::p2109::Building;
use quantity::{Decibels, Digits, Erp, Length, Position, Power};
use serde_json::json;
use std::path::PathBuf;
use std::process::ExitCode;
use terrain::Surroundings;
use words::{Arg, Language, Message, say};

/// Line and connectors between transmitter and bays of a small station, dB (common practice, no source).
const USUAL_LINE_DB: f64 = 1.0;
/// Gain of two vertical half-wave dipoles 0.9 wavelengths apart over one, dB (array formula, mutual impedance included).
const TWO_BAYS_DB: f64 = 3.2;
/// The middle of the band, MHz.
const MIDDLE_MHZ: f64 = 98.0;
/// Every n-th radial is walked: an enquiry needs a band, not a map.
const EVERY: u32 = 16;
/// Power is hardly ever known better than this on the telephone, dB (common practice, no source).
const POWER_DOUBT_DB: f64 = 3.0;

/// Answers an enquiry: how far this power goes from that mast.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples: stationwright ask --power 500W --mast 30m --ground rolling\n          \
    stationwright ask --erp 1kW --mast 60m --at \"46.5 N 8.1 E\" --tiles tiles"
)]
pub struct AskArgs {
    /// Power at the transmitter, such as 500W; a usual line and --bays are assumed
    #[arg(long, value_parser = power, required_unless_present = "erp")]
    power: Option<Power>,
    /// Radiated power instead, such as "1 kW"
    #[arg(long, value_parser = power, conflicts_with = "power")]
    erp: Option<Power>,
    /// Height of the antenna above ground, such as 30m
    #[arg(long, value_parser = length)]
    mast: Length,
    /// Bays of the antenna, one or two
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=2))]
    bays: u32,
    /// An invented ground to stand for the real one
    #[arg(long, value_enum, default_value_t = Ground::Rolling, conflicts_with = "tiles")]
    ground: Ground,
    /// Where the mast stands, such as "46.5 N 8.1 E"
    #[arg(long, value_parser = position)]
    at: Option<Position>,
    /// Folder of elevation tiles
    #[arg(long, value_name = "DIR", requires = "at")]
    tiles: Option<PathBuf>,
    /// Carrier
    #[arg(long, value_parser = frequency)]
    frequency: Option<quantity::Frequency>,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// The invented grounds.
#[derive(clap::ValueEnum, Debug, Clone, Copy, PartialEq, Eq)]
enum Ground {
    /// An island in the open sea
    Island,
    /// A rolling plain
    Rolling,
    /// A valley between high mountains
    Alpine,
    /// Hills along a coast
    Coast,
}

impl Ground {
    fn id(self) -> &'static str {
        match self {
            Ground::Island => "island",
            Ground::Rolling => "rolling",
            Ground::Alpine => "alpine",
            Ground::Coast => "coast",
        }
    }
}

fn refused(error: &quantity::QuantityError) -> String {
    say(&Message::from(error), Language::English).unwrap_or_else(|_| error.to_string())
}

fn power(text: &str) -> Result<Power, String> {
    text.parse().map_err(|e| refused(&e))
}
fn length(text: &str) -> Result<Length, String> {
    text.parse().map_err(|e| refused(&e))
}
fn frequency(text: &str) -> Result<quantity::Frequency, String> {
    text.parse().map_err(|e| refused(&e))
}
fn position(text: &str) -> Result<Position, String> {
    text.parse().map_err(|e| refused(&e))
}

/// One service's distances over the horizon.
struct Band {
    service: &'static str,
    low_km: f64,
    likely_km: f64,
    high_km: f64,
    beyond: bool,
}

/// Everything an enquiry is answered with.
struct Answer {
    erp_w: f64,
    bands: Vec<Band>,
    mast_up_km: f64,
    power_km: (f64, f64),
    spreads: Vec<SpreadAt>,
    place: String,
}

/// Runs the command: 0 when answered, 2 when the input is refused.
pub fn run(args: &AskArgs) -> ExitCode {
    match answer(args) {
        Ok(answer) if args.json => {
            println!("{:#}", sheet(args, &answer));
            ExitCode::SUCCESS
        }
        Ok(answer) => match text(args, &answer) {
            Ok(text) => {
                print!("{text}");
                ExitCode::SUCCESS
            }
            Err(error) => {
                eprintln!("stationwright: a sentence is missing: {error}");
                ExitCode::from(3)
            }
        },
        Err(reason) => {
            eprintln!("stationwright: {reason}");
            ExitCode::from(2)
        }
    }
}

/// ERP of the enquiry, W: as given, or what a usual line and the bays make of a transmitter's power.
fn erp_w(args: &AskArgs, bays: u32) -> f64 {
    match (args.erp, args.power) {
        (Some(erp), _) => erp.w(),
        (None, Some(power)) => power.w() * 10f64.powf((gain_db(bays) - USUAL_LINE_DB) / 10.0),
        (None, None) => 0.0,
    }
}

fn gain_db(bays: u32) -> f64 {
    if bays > 1 { TWO_BAYS_DB } else { 0.0 }
}

fn world(args: &AskArgs) -> Result<GroundWorld, String> {
    let Some(tiles) = &args.tiles else {
        return GroundWorld::generated(args.ground.id()).ok_or_else(|| "no such ground".to_owned());
    };
    let document = station::Node::from_json(&json!({
        "format": 1, "name": "enquiry", "ground": { "tiles": tiles.display().to_string() },
        // A site tells which part of the tiles is looked at.
        "sites": [{ "tag": "MAST", "name": "the mast", "position": args.at.map(|at| at.to_string()) }],
    }));
    let filled = station::assumptions::fill(&document);
    let station = station::Station::read(&filled).map_err(|_| "the enquiry is no station".to_owned())?;
    let here = std::env::current_dir().map_err(|e| e.to_string())?;
    folder::OpenedWorld::of(&station, &here)
        .map(|w| w.world)
        .map_err(|e| e.to_string())
}

/// Where the mast stands: as said, else beside the largest place of the ground.
fn site(args: &AskArgs, world: &GroundWorld) -> Result<(terrain::Position, String), String> {
    if let Some(at) = args.at {
        let position = terrain::Position::new(at.lat_deg(), at.lon_deg()).map_err(|e| e.to_string())?;
        return Ok((position, at.to_string()));
    }
    world
        .places()
        .iter()
        .max_by(|a, b| a.people.unwrap_or(0.0).total_cmp(&b.people.unwrap_or(0.0)))
        .map(|p| (p.position, p.name.clone()))
        .ok_or_else(|| "say where the mast stands: --at \"46.5 N 8.1 E\"".to_owned())
}

fn answer(args: &AskArgs) -> Result<Answer, String> {
    let erp_w = erp_w(args, args.bays);
    if !(erp_w > 0.0 && erp_w.is_finite()) {
        return Err("the power must be above 0 W".to_owned());
    }
    let mast_m = args.mast.m();
    if !(1.0..=1500.0).contains(&mast_m) {
        return Err(format!(
            "--mast {}: a height from 1 m to 1500 m above ground is wanted",
            args.mast
        ));
    }
    let world = world(args)?;
    let (site, place) = site(args, &world)?;
    let field = |agl_m: f64| {
        let frequency = args.frequency.map_or(MIDDLE_MHZ, |f| f.mhz());
        let study = Study::new(site, agl_m, frequency, Polarisation::Vertical)
            .within_km(radius_km(erp_w, mast_m))
            .coarse(EVERY);
        LossField::compute(&world, &study, &Control::quiet()).map_err(|e| match (&e, args.at, &args.tiles) {
            (CoverageError::MissingGround { .. }, Some(at), None) => format!(
                "{at} lies outside the invented ground; give --tiles, or leave --at away for a mast beside its largest place"
            ),
            (CoverageError::MissingGround { .. }, Some(at), Some(tiles)) => {
                format!("no tile in {} holds {at}: {e}", tiles.display())
            }
            _ => e.to_string(),
        })
    };
    let (now, up) = (field(mast_m)?, field(2.0 * mast_m)?);
    let band = |service, mode, situation| distances(&now, erp_w, service, mode, situation, 0.0);
    let bands = vec![
        band("stereo", Mode::Stereo, Situation::Roof)?,
        band("mono", Mode::Mono, Situation::Roof)?,
        band("car", Mode::Mono, Situation::Car)?,
    ];
    let stereo = |field, db| distances(field, erp_w, "stereo", Mode::Stereo, Situation::Roof, db);
    let spreads = spreads(&world, args.frequency.map_or(MIDDLE_MHZ, |f| f.mhz()))?;
    Ok(Answer {
        erp_w,
        mast_up_km: stereo(&up, 0.0)?.likely_km,
        power_km: (
            stereo(&now, -POWER_DOUBT_DB)?.likely_km,
            stereo(&now, POWER_DOUBT_DB)?.likely_km,
        ),
        bands,
        spreads,
        place,
    })
}

/// The spread of the field for a listener, and what it is made of: the root of the sum of squares.
struct SpreadAt {
    listener: &'static str,
    threshold: Threshold,
    model_db: f64,
}

/// Spreads at a roof aerial in the open, at one among houses, and indoors among houses.
fn spreads(world: &GroundWorld, freq_mhz: f64) -> Result<Vec<SpreadAt>, String> {
    let rule = ReceivingRule::ByCover;
    let rows = CoverRows::new(world.clutter_table(), rule, world.clutter_mode());
    let rows = rows.as_ref().map(CoverRows::rows).unwrap_or_default();
    let open = rows.iter().find(|r| !r.in_clutter());
    let houses = rows
        .iter()
        .find(|r| r.in_clutter() && r.surroundings() == Surroundings::Urban);
    let indoors = Situation::Indoors(Building::Traditional);
    let listeners = [
        ("open", Situation::Roof, open, Surroundings::Rural),
        ("houses", Situation::Roof, houses, Surroundings::Urban),
        ("indoors", indoors, houses, Surroundings::Urban),
    ];
    let mut all = Vec::new();
    for (listener, situation, row, around) in listeners {
        let Some(row) = row else { continue };
        let wanted = Wanted::bs412(Mode::Mono, situation);
        let threshold = wanted
            .threshold_in(row, around, rule, freq_mhz)
            .map_err(|e| e.to_string())?;
        all.push(SpreadAt {
            listener,
            threshold,
            model_db: wanted.spread.model_error_db,
        });
    }
    Ok(all)
}

/// As far as the field of mono could reach over a smooth earth, with room, km.
fn radius_km(erp_w: f64, mast_m: f64) -> f64 {
    let horizon = 4.12 * ((2.0 * mast_m).sqrt() + 10f64.sqrt());
    (horizon + 12.0 * (erp_w / 10.0).max(1.0).log10()).clamp(15.0, 120.0)
}

fn distances(
    field: &LossField,
    erp_w: f64,
    service: &'static str,
    mode: Mode,
    situation: Situation,
    plus_db: f64,
) -> Result<Band, String> {
    let table = ErpTable::omni(erp_w / 1000.0).plus_db(plus_db);
    let towards = field
        .distances(&table, &Wanted::bs412(mode, situation), true)
        .map_err(|e| e.to_string())?;
    let mut km: Vec<f64> = towards.iter().map(|d| d.served_km).collect();
    km.sort_by(f64::total_cmp);
    let at = |share: f64| {
        km.get(((km.len().max(1) - 1) as f64 * share).round() as usize)
            .copied()
            .unwrap_or(0.0)
    };
    Ok(Band {
        service,
        low_km: at(0.1),
        likely_km: at(0.5),
        high_km: at(0.9),
        beyond: towards.iter().any(|d| !d.ends_inside),
    })
}

fn km(value: f64) -> Arg {
    Arg::quantity_in(Length::from_km(value), "km", Digits::Significant(2))
}

fn db(value: f64) -> Arg {
    Arg::quantity_in(Decibels::from_db(value), "dB", Digits::Decimals(1))
}

fn text(args: &AskArgs, answer: &Answer) -> Result<String, words::WordsError> {
    let told = |message: Message| say(&message, Language::English);
    let ground = if args.tiles.is_some() {
        "the tiles' ground"
    } else {
        args.ground.id()
    };
    let mut parts = Vec::new();
    for band in &answer.bands {
        let rim = if band.beyond {
            told(Message::new("ask-rim"))?
        } else {
            String::new()
        };
        parts.push(told(
            Message::new("ask-band")
                .tag("service", band.service)
                .with("low", km(band.low_km))
                .with("likely", km(band.likely_km))
                .with("high", km(band.high_km))
                .text("rim", rim),
        )?);
    }
    let head = told(
        Message::new("ask-head")
            .quantity("erp", Erp::from_w(answer.erp_w))
            .quantity("mast", args.mast)
            .text("ground", ground),
    )?;
    let mut lines = vec![format!("{head} {}.", parts.join("; "))];
    lines.push(told(
        Message::new("ask-site").text("place", answer.place.as_str()),
    )?);
    if let Some(power) = args.power {
        let other = 3 - args.bays;
        lines.push(told(
            Message::new("ask-power")
                .quantity("erp", Erp::from_w(answer.erp_w))
                .quantity("power", power)
                .with("line", db(-USUAL_LINE_DB))
                .count("bays", i64::from(args.bays))
                .with("gain", db(gain_db(args.bays)))
                .count("other", i64::from(other))
                .quantity("other-erp", Erp::from_w(erp_w(args, other))),
        )?);
    }
    lines.push(told(Message::new("ask-matters"))?);
    let stereo = &answer.bands[0];
    for message in [
        Message::new("ask-mast-up").with("distance", km(answer.mast_up_km)),
        Message::new("ask-erp-down")
            .with("db", db(POWER_DOUBT_DB))
            .with("low", km(answer.power_km.0))
            .with("high", km(answer.power_km.1)),
        Message::new("ask-direction")
            .with("low", km(stereo.low_km))
            .with("high", km(stereo.high_km)),
        Message::new("ask-spread"),
    ] {
        lines.push(format!("  {}", told(message)?));
    }
    for at in &answer.spreads {
        let message = Message::new("ask-spread-at")
            .tag("listener", at.listener)
            .with("sum", db(at.threshold.spread_db))
            .with("location", db(at.threshold.location_db))
            .with("building", db(at.threshold.building_db))
            .with("model", db(at.model_db));
        lines.push(format!("    {}", told(message)?));
    }
    lines.push(told(Message::new("ask-questions"))?);
    for code in ["ask-q-site", "ask-q-places", "ask-q-licence"] {
        lines.push(format!("  {}", told(Message::new(code))?));
    }
    Ok(lines.join("\n") + "\n")
}

fn sheet(args: &AskArgs, answer: &Answer) -> serde_json::Value {
    let bands: serde_json::Map<String, serde_json::Value> = answer
        .bands
        .iter()
        .map(|b| {
            let band = json!({ "low_km": b.low_km, "likely_km": b.likely_km, "high_km": b.high_km, "ends_inside": !b.beyond });
            (b.service.to_owned(), band)
        })
        .collect();
    json!({
        "erp_w": answer.erp_w,
        "mast_agl_m": args.mast.m(),
        "ground": if args.tiles.is_some() { "tiles" } else { args.ground.id() },
        "place": answer.place,
        "assumed": args.power.map(|p| json!({
            "transmitter_w": p.w(), "line_db": USUAL_LINE_DB, "bays": args.bays, "gain_over_dipole_db": gain_db(args.bays),
        })),
        "distances": bands,
        "mast_twice_as_high_stereo_km": answer.mast_up_km,
        "power_doubt_db": POWER_DOUBT_DB,
        "stereo_with_power_doubt_km": [answer.power_km.0, answer.power_km.1],
        "spreads": answer.spreads.iter().map(|s| json!({
            "listener": s.listener, "spread_db": s.threshold.spread_db, "location_db": s.threshold.location_db,
            "building_db": s.threshold.building_db, "model_db": s.model_db,
        })).collect::<Vec<_>>(),
    })
}
