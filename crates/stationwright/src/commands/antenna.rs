//! `stationwright antenna`: one antenna as it is, or its bays shaped for the people they serve.

mod pattern;

use super::assess::{refused, report};
use super::watched::Watched;
use crate::language;
use crate::office::{OfficeError, Opened};
use assess::antenna_sheet::{AntennaSheet, antenna_sheets};
use assess::shaping::{Given, NoShape, ShapedAntenna, shape_for_people};
use assess::{Case, Fields, Outcome, evaluate};
use folder::{Expected, StationFile, save};
use quantity::{Azimuth, Decibels, Digits, Elevation, Erp, Frequency, GainDbd, Length, Power};
use std::path::PathBuf;
use std::process::ExitCode;
use words::{Message, said};

/// Shows an antenna on its mast: gain, bays, harness, licence annex; or shapes its bays for the people they serve.
///
/// Shaping chooses each bay's direction, phase and power, and the stand-off, for most people under the licence.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples: stationwright antenna examples/orrenay --for-people\n          stationwright antenna examples/orrenay --pattern ant1.nsma"
)]
pub struct AntennaArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Tag of the emission; the first when left out
    #[arg(long, value_name = "TAG")]
    emission: Option<String>,
    /// Shape the bays for most people with stereo on the roof
    #[arg(long)]
    for_people: bool,
    /// Seek the least power that reaches as many as the best equal stack, too
    #[arg(long, requires = "for_people")]
    least_power: bool,
    /// Write the shaped bays into the station file
    #[arg(long, requires = "for_people")]
    write: bool,
    /// Write its pattern to a file: .nsma, .adf or .txt for NSMA WG16.99.050, .csv for a table
    #[arg(long, value_name = "FILE", conflicts_with = "for_people")]
    pattern: Option<PathBuf>,
    /// Lay a measured pattern (the same forms) over the computed one: largest and rms difference of each cut
    #[arg(long, value_name = "FILE", conflicts_with = "for_people")]
    measured_pattern: Option<PathBuf>,
    /// True bearing of the measurement's azimuth 0, degrees
    #[arg(
        long,
        value_name = "DEG",
        default_value_t = 0.0,
        requires = "measured_pattern",
        allow_negative_numbers = true
    )]
    measured_zero: f64,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// Runs the command: 0 when answered, 2 when the input is refused or nothing radiates.
pub fn run(args: &AntennaArgs) -> ExitCode {
    let opened = match Opened::at(&args.folder) {
        Ok(opened) => opened,
        Err(error) => return report(&error),
    };
    let case = opened.case();
    let tag = opened.emission(args.emission.as_deref());
    let fields = Watched::begin().work(|control| Fields::prepare(&case, opened.office.store(), control));
    let Ok(fields) = fields else {
        return report(&OfficeError::Cancelled);
    };
    let outcome = evaluate(&case, &fields);
    if !args.for_people {
        return match listed(args, &case, &outcome, &tag) {
            Ok(text) => {
                print!("{text}");
                ExitCode::SUCCESS
            }
            Err(why) => refused(why),
        };
    }
    let shaped = match shape_for_people(&case, &fields, &outcome, &tag, args.least_power) {
        Ok(shaped) => shaped,
        Err(why) => return refused(no_shape(&why, &tag)),
    };
    if args.json {
        println!("{:#}", serde_json::json!(shaped));
    } else {
        print!("{}", shaped_shown(&shaped));
    }
    let name = opened.file.path.display().to_string();
    if !args.write {
        if !args.json {
            println!(
                "{}",
                words(&Message::new("mounted-not-written").text("file", name))
            );
            for edit in &shaped.edits {
                println!("  {} = {}", edit.path, edit.to.clone().unwrap_or_default());
            }
        }
        return ExitCode::SUCCESS;
    }
    match written(&opened.file, &shaped) {
        Ok(()) if args.json => {}
        Ok(()) => println!(
            "{}",
            words(
                &Message::new("mounted-written")
                    .count("count", shaped.edits.len() as i64)
                    .text("file", name)
            )
        ),
        Err(why) => {
            return refused(
                Message::new("mounted-refused")
                    .text("tag", tag)
                    .message("why", why),
            );
        }
    }
    ExitCode::SUCCESS
}

/// The antenna as it is, its pattern written and a measured one laid over it where that is asked for.
fn listed(args: &AntennaArgs, case: &Case, outcome: &Outcome, tag: &str) -> Result<String, Message> {
    let sheets = antenna_sheets(case, outcome);
    let sheet = sheets
        .iter()
        .find(|s| s.emission == tag)
        .ok_or_else(|| Message::new("mounted-nothing").text("tag", tag))?;
    if let Some(path) = &args.pattern {
        pattern::write(outcome, tag, &sheet.antenna, path)?;
    }
    let laid = match &args.measured_pattern {
        Some(path) => Some((path, pattern::laid(outcome, tag, path, args.measured_zero)?)),
        None => None,
    };
    if args.json {
        let mut json = serde_json::json!(sheet);
        if let Some((_, cuts)) = &laid {
            json["measured_less_computed"] = serde_json::json!(cuts);
        }
        return Ok(format!("{json:#}\n"));
    }
    let mut text = shown(sheet);
    if let Some(path) = &args.pattern {
        let path = path.display().to_string();
        text += &format!(
            "\n{}\n",
            words(&Message::new("pattern-written").text("path", path))
        );
    }
    if let Some((path, cuts)) = &laid {
        text += &format!("\n{}", pattern::shown(path, cuts));
    }
    Ok(text)
}

fn written(file: &StationFile, shaped: &ShapedAntenna) -> Result<(), Message> {
    let text = folder::edit_text(file.reading.source.text(), &shaped.edits).map_err(|e| Message::from(&e))?;
    save(&file.path, text.as_bytes(), Expected::Is(file.digest)).map_err(|e| Message::from(&e))?;
    Ok(())
}

fn no_shape(why: &NoShape, tag: &str) -> Message {
    let refused = |why: Message| {
        Message::new("mounted-refused")
            .text("tag", tag)
            .message("why", why)
    };
    match why {
        NoShape::NothingRadiates => Message::new("mounted-nothing").text("tag", tag),
        NoShape::NoField => Message::new("mounted-no-field").text("tag", tag),
        NoShape::Coverage(error) => refused(error.into()),
        NoShape::Mount(error) => refused(error.into()),
    }
}

fn words(message: &Message) -> String {
    said(message, language::here())
}

fn word(code: &'static str) -> String {
    words(&Message::new(code))
}

fn number(value: Option<f64>, width: usize, places: usize) -> String {
    value.map_or_else(|| format!("{:>width$}", "–"), |v| format!("{v:>width$.places$}"))
}

fn shown(sheet: &AntennaSheet) -> String {
    let model = if sheet.full {
        "mounted-full"
    } else {
        "mounted-draft"
    };
    let mut lines = vec![words(
        &Message::new("mounted-head")
            .text("antenna", &sheet.antenna)
            .text("tag", &sheet.emission)
            .quantity("frequency", Frequency::from_mhz(sheet.frequency_mhz))
            .text("model", word(model)),
    )];
    if let Some(apart_db) = sheet.draft_apart_db {
        lines.push(words(
            &Message::new("mounted-apart").quantity("apart", Decibels::from_db(apart_db)),
        ));
    }
    for plane in &sheet.planes {
        lines.push(words(
            &Message::new("mounted-plane")
                .text("plane", &plane.plane)
                .quantity("gain", GainDbd::from_dbd(plane.gain_dbd))
                .quantity("azimuth", Azimuth::from_deg(plane.azimuth_deg))
                .quantity("elevation", Elevation::from_deg(plane.elev_deg))
                .quantity("erp", Erp::from_w(plane.erp_w.unwrap_or(0.0))),
        ));
    }
    if let (Some(power_w), Some(vswr)) = (sheet.power_w, sheet.vswr) {
        lines.push(words(
            &Message::new("mounted-input")
                .quantity("power", Power::from_w(power_w))
                .number("vswr", vswr, Digits::Decimals(2)),
        ));
    }
    lines.push(String::new());
    lines.push(format!(
        "{:>5}{:>16}{:>9}{:>9}{:>9}{:>9}{:>9}{:>9}{:>10}",
        word("mounted-bay"),
        word("mounted-height"),
        word("mounted-azimuth"),
        word("mounted-power"),
        word("mounted-peak"),
        word("mounted-phase"),
        word("mounted-share"),
        word("mounted-cut"),
        word("mounted-velocity")
    ));
    for (bay, way) in sheet.bays.iter().zip(&sheet.harness) {
        lines.push(language::row(&format!(
            "{:>5}{:>16.2}{:>8.0}°{}{}{:>8.0}°{:>9.1}{:>9.3}{:>10.3}",
            bay.number,
            bay.height_agl_m,
            bay.bearing_deg,
            number(bay.power_w, 9, 1),
            number(bay.peak_v, 9, 1),
            bay.phase_deg.round() + 0.0,
            100.0 * way.share,
            way.cut_m,
            way.velocity_ratio
        )));
    }
    lines.push(String::new());
    lines.push(word("mounted-annex"));
    for row in &sheet.annex {
        lines.push(language::row(&format!(
            "{:>6.0}°{}{}{}{}{}",
            row.azimuth_deg,
            number(row.vertical_w, 12, 1),
            number(row.horizontal_w, 14, 1),
            number(row.allowed_w, 12, 1),
            number(row.margin_db, 11, 2),
            number(row.effective_height_m, 21, 1)
        )));
    }
    if let Some(haat_m) = sheet.haat_m {
        lines.push(words(
            &Message::new("mounted-haat").quantity("height", Length::from_m(haat_m.round())),
        ));
    }
    lines.join("\n") + "\n"
}

fn shaped_shown(shaped: &ShapedAntenna) -> String {
    let row = |code: &'static str, given: &Given| {
        words(
            &Message::new("mounted-shape-row")
                .text("what", word(code))
                .count("people", given.people.round() as i64)
                .quantity("power", Power::from_w(given.power_w))
                .quantity("margin", Decibels::from_db(given.mask_margin_db)),
        )
    };
    let mut lines = vec![
        row("mounted-shape-now", &shaped.now),
        row("mounted-shape-equal", &shaped.equal),
        row("mounted-shape-shaped", &shaped.shaped),
    ];
    lines.extend(
        shaped
            .assessed
            .iter()
            .map(|given| row("mounted-shape-assessed", given)),
    );
    if let Some(power_w) = shaped.as_many_w {
        lines.push(words(
            &Message::new("mounted-shape-as-many").quantity("power", Power::from_w(power_w)),
        ));
    }
    lines.push(String::new());
    lines.push(format!(
        "{:>5}{:>9}{:>9}{:>9}{:>9}",
        word("mounted-bay"),
        word("mounted-azimuth"),
        word("mounted-phase"),
        word("mounted-share"),
        word("mounted-cut")
    ));
    for bay in &shaped.bays {
        lines.push(language::row(&format!(
            "{:>5}{:>8.0}°{:>8.0}°{:>9.1}{:>9.3}",
            bay.number,
            bay.azimuth_deg,
            bay.phase_deg.round() + 0.0,
            100.0 * bay.share,
            bay.cut_m
        )));
    }
    lines.push(words(
        &Message::new("mounted-shape-stand-off").quantity("off", Length::from_m(shaped.stand_off_m)),
    ));
    lines.push(words(
        &Message::new("mounted-shape-looked")
            .count("places", shaped.solved as i64)
            .count("looks", shaped.looked_at as i64),
    ));
    lines.push(word("mounted-caution"));
    lines.join("\n") + "\n"
}
