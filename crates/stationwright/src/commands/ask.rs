//! `stationwright ask`: one enquiry answered in a breath, with an honest band.

use super::assess::{ended, refused};
use crate::language::{self, told};
use assess::enquiry::{
    Answer, Change, Enquiry, EnquiryError, Known, MIDDLE_MHZ, Matter, POWER_DOUBT_DB, USUAL_LINE_DB, enquire,
    gain_db, other_bays,
};
use coverage::{GroundWorld, World};
use quantity::{Decibels, Digits, Erp, Length, Position, Power};
use serde_json::json;
use std::path::PathBuf;
use std::process::ExitCode;
use words::{Arg, Message, say};

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

fn not_read(error: &quantity::QuantityError) -> String {
    told(error)
}

fn power(text: &str) -> Result<Power, String> {
    text.parse().map_err(|e| not_read(&e))
}
fn length(text: &str) -> Result<Length, String> {
    text.parse().map_err(|e| not_read(&e))
}
fn frequency(text: &str) -> Result<quantity::Frequency, String> {
    text.parse().map_err(|e| not_read(&e))
}
fn position(text: &str) -> Result<Position, String> {
    text.parse().map_err(|e| not_read(&e))
}

/// Runs the command: 0 when answered, 2 when the input is refused.
pub fn run(args: &AskArgs) -> ExitCode {
    match answer(args) {
        Ok((answer, place)) if args.json => {
            println!("{:#}", sheet(args, &answer, &place));
            ExitCode::SUCCESS
        }
        Ok((answer, place)) => match text(args, &answer, &place) {
            Ok(text) => {
                print!("{text}");
                ExitCode::SUCCESS
            }
            Err(error) => ended(Message::new("office-no-words").text("why", error.to_string()), 3),
        },
        Err(reason) => refused(reason),
    }
}

fn world(args: &AskArgs) -> Result<GroundWorld, Message> {
    let refused = |reason: Message| Message::new("ask-refused").message("reason", reason);
    let Some(tiles) = &args.tiles else {
        let none = || refused(Message::foreign(args.ground.id()));
        return GroundWorld::generated(args.ground.id()).ok_or_else(none);
    };
    let document = station::Node::from_json(&json!({
        "format": 1, "name": "enquiry", "ground": { "tiles": tiles.display().to_string() },
        // A site tells which part of the tiles is looked at.
        "sites": [{ "tag": "MAST", "name": "MAST", "position": args.at.map(|at| at.to_string()) }],
    }));
    let filled = station::assumptions::fill(&document);
    let station = station::Station::read(&filled).map_err(|faults| {
        refused(Message::new("several-lines").lines("lines", faults.iter().map(Message::from)))
    })?;
    let here = std::env::current_dir().map_err(Message::foreign)?;
    folder::OpenedWorld::of(&station, &here)
        .map(|w| w.world)
        .map_err(|e| Message::from(&e))
}

/// Where the mast stands: as said, else beside the largest place of the ground.
fn site(args: &AskArgs, world: &GroundWorld) -> Result<(terrain::Position, String), Message> {
    if let Some(at) = args.at {
        let position = terrain::Position::new(at.lat_deg(), at.lon_deg());
        let position = position.map_err(|e| Message::new("ask-refused").message("reason", &e))?;
        return Ok((position, at.to_string()));
    }
    world
        .places()
        .iter()
        .max_by(|a, b| a.people.unwrap_or(0.0).total_cmp(&b.people.unwrap_or(0.0)))
        .map(|p| (p.position, p.name.clone()))
        .ok_or_else(|| Message::new("ask-no-site"))
}

/// The power that was named: the command line wants one of the two.
fn known(args: &AskArgs) -> Known {
    match (args.erp, args.power) {
        (Some(erp), _) => Known::ErpW(erp.w()),
        (None, power) => Known::TransmitterW(power.map_or(0.0, Power::w)),
    }
}

fn answer(args: &AskArgs) -> Result<(Answer, String), Message> {
    let world = world(args)?;
    let (site, place) = site(args, &world)?;
    let enquiry = Enquiry {
        power: known(args),
        bays: args.bays,
        mast_agl_m: args.mast.m(),
        freq_mhz: args.frequency.map_or(MIDDLE_MHZ, |f| f.mhz()),
        site,
    };
    match enquire(&world, &enquiry) {
        Ok(answer) => Ok((answer, place)),
        Err(EnquiryError::NoGround(at)) => Err(match &args.tiles {
            Some(tiles) => Message::new("ask-no-tile").text("folder", tiles.display().to_string()),
            None => Message::new("ask-outside"),
        }
        .text("at", at.to_string())),
        Err(error) => Err(Message::from(&error)),
    }
}

fn km(value: f64) -> Arg {
    Arg::quantity_in(Length::from_km(value), "km", Digits::Significant(2))
}

fn db(value: f64) -> Arg {
    Arg::quantity_in(Decibels::from_db(value), "dB", Digits::Decimals(1))
}

fn ground(args: &AskArgs) -> Message {
    match &args.tiles {
        Some(_) => Message::new("ask-tiles"),
        None => Message::new("ask-generated").tag("ground", args.ground.id()),
    }
}

fn change(args: &AskArgs, change: &Change) -> Message {
    let level = db(change.db.unwrap_or(0.0));
    match change.matter {
        Matter::MastTwice => Message::new("ask-mast-up").with("distance", km(change.high_km)),
        Matter::OtherBays => Message::new("ask-other-bays")
            .count("bays", i64::from(other_bays(args.bays)))
            .count("now", i64::from(args.bays))
            .with("db", level)
            .with("distance", km(change.high_km)),
        Matter::Power => between(Message::new("ask-erp-down").with("db", level), change),
        Matter::Prediction => between(Message::new("ask-prediction").with("db", level), change),
        Matter::Direction => between(Message::new("ask-direction"), change),
    }
}

fn between(message: Message, change: &Change) -> Message {
    message
        .with("low", km(change.low_km))
        .with("high", km(change.high_km))
}

fn text(args: &AskArgs, answer: &Answer, place: &str) -> Result<String, words::WordsError> {
    let told = |message: Message| say(&message, language::here());
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
            .text("ground", told(ground(args))?),
    )?;
    let mut lines = vec![format!(
        "{head} {}.",
        parts.join(&told(Message::new("words-semicolon"))?)
    )];
    lines.push(told(Message::new("ask-site").text("place", place))?);
    if let Some((power, other_erp_w)) = args.power.zip(answer.other_erp_w) {
        lines.push(told(
            Message::new("ask-power")
                .quantity("erp", Erp::from_w(answer.erp_w))
                .quantity("power", power)
                .with("line", db(-USUAL_LINE_DB))
                .count("bays", i64::from(args.bays))
                .with("gain", db(gain_db(args.bays)))
                .count("other", i64::from(other_bays(args.bays)))
                .quantity("other-erp", Erp::from_w(other_erp_w)),
        )?);
    }
    lines.push(told(Message::new("ask-matters"))?);
    for each in &answer.changes {
        lines.push(format!("  {}", told(change(args, each))?));
    }
    lines.push(told(Message::new("ask-spread"))?);
    for at in &answer.spreads {
        let message = Message::new("ask-spread-at")
            .tag("listener", at.listener)
            .with("sum", db(at.threshold.spread_db))
            .with("location", db(at.threshold.location_db))
            .with("building", db(at.threshold.building_db))
            .with("model", db(at.model_db));
        lines.push(format!("  {}", told(message)?));
    }
    lines.push(told(Message::new("ask-questions"))?);
    for code in ["ask-q-site", "ask-q-places", "ask-q-licence"] {
        lines.push(format!("  {}", told(Message::new(code))?));
    }
    Ok(lines.join("\n") + "\n")
}

fn sheet(args: &AskArgs, answer: &Answer, place: &str) -> serde_json::Value {
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
        "place": place,
        "assumed": args.power.map(|p| json!({
            "transmitter_w": p.w(), "line_db": USUAL_LINE_DB, "bays": args.bays, "gain_over_dipole_db": gain_db(args.bays),
        })),
        "distances": bands,
        "changes": answer.changes.iter().map(|c| json!({
            "matter": matter(c.matter), "db": c.db, "stereo_low_km": c.low_km, "stereo_high_km": c.high_km,
        })).collect::<Vec<_>>(),
        "power_doubt_db": POWER_DOUBT_DB,
        "spreads": answer.spreads.iter().map(|s| json!({
            "listener": s.listener, "spread_db": s.threshold.spread_db, "location_db": s.threshold.location_db,
            "building_db": s.threshold.building_db, "model_db": s.model_db,
        })).collect::<Vec<_>>(),
    })
}

fn matter(of: Matter) -> &'static str {
    match of {
        Matter::Direction => "direction",
        Matter::MastTwice => "mast_twice_as_high",
        Matter::Power => "power",
        Matter::OtherBays => "other_bays",
        Matter::Prediction => "prediction",
    }
}
