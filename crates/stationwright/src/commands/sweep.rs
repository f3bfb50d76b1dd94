//! `stationwright sweep`: the chain from transmitter to antenna over the band, and a measurement laid over it.

use super::assess::{refused, report};
use crate::language;
use crate::office::Opened;
use antenna::chain::Touchstone;
use assess::sweep::{Sweep, sweep};
use quantity::{Decibels, Digits, Frequency, Power};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use words::{Arg, Message, said};

/// Sweeps the line and antenna of an emission over the FM band: VSWR, reflected power, voltages, where the transmitter folds back.
///
/// A measured reflection at the transmitter (Touchstone, one or two ports) is laid over the prediction.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright sweep examples/orrenay --measured line.s1p")]
pub struct SweepArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Tag of the emission; the first when left out
    #[arg(long, value_name = "TAG")]
    emission: Option<String>,
    /// Touchstone file (.s1p, .s2p) as measured at the transmitter's end
    #[arg(long, value_name = "FILE")]
    measured: Option<PathBuf>,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// Runs the command: 0 when swept, 2 when the input is refused or the chain cannot be computed.
pub fn run(args: &SweepArgs) -> ExitCode {
    let opened = match Opened::at(&args.folder) {
        Ok(opened) => opened,
        Err(error) => return report(&error),
    };
    let case = opened.case();
    let tag = opened.emission(args.emission.as_deref());
    // The power is settled by licence and rating: no coverage is needed for it.
    let outcome = assess::evaluate(&case, &assess::Fields::default());
    let power_w = outcome
        .transmission
        .emissions
        .iter()
        .find(|e| e.tag == tag)
        .and_then(|e| e.power_w);
    let measured = match args.measured.as_deref().map(touchstone).transpose() {
        Ok(measured) => measured,
        Err(refusal) => return refused(refusal),
    };
    // Without a power the sweep says what is missing first; ratios would be the same at any.
    let swept = match sweep(&case, &tag, power_w.unwrap_or(0.0), measured.as_ref()) {
        Ok(_) if power_w.is_none() => {
            return refused(Message::new("sweep-no-power").text("tag", tag));
        }
        Ok(swept) => swept,
        Err(why) => return refused(why.says(&tag)),
    };
    if args.json {
        println!("{:#}", serde_json::json!(swept));
    } else {
        print!("{}", sheet(&swept, args.measured.as_deref()));
    }
    ExitCode::SUCCESS
}

/// Reads a measurement; how many ports it has is in its name.
fn touchstone(path: &Path) -> Result<Touchstone, Message> {
    let refusal = |why: Message| {
        Message::new("sweep-measured")
            .text("path", path.display().to_string())
            .message("why", why)
    };
    let two = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("s2p"));
    let text = std::fs::read_to_string(path).map_err(|e| refusal(Message::foreign(e)))?;
    Touchstone::parse(&text, if two { 2 } else { 1 }).map_err(|e| refusal((&e).into()))
}

fn words(message: &Message) -> String {
    said(message, language::here())
}

fn column(code: &'static str) -> String {
    words(&Message::new(code))
}

fn sheet(swept: &Sweep, measured: Option<&Path>) -> String {
    let mut lines = vec![words(
        &Message::new("sweep-head")
            .text("tag", &swept.emission)
            .quantity("power", Power::from_w(swept.forward_w))
            .text("transmitter", &swept.planes[0])
            .quantity("frequency", Frequency::from_mhz(swept.frequency_mhz)),
    )];
    if let Some(at) = swept.at_carrier() {
        lines.push(words(
            &Message::new("sweep-carrier")
                .number("vswr", at.vswr.ratio(), Digits::Decimals(2))
                .quantity("return", Decibels::from_db(at.return_loss_db()))
                .quantity("reflected", Power::from_w(at.planes[0].reflected_w))
                .quantity("loss", Decibels::from_db(at.loss_db)),
        ));
    }
    if let Some(vswr) = swept.channel_vswr() {
        lines.push(words(&Message::new("sweep-channel").number(
            "vswr",
            vswr,
            Digits::Decimals(2),
        )));
    }
    lines.push(words(&fold_back(swept)));
    if let (Some(path), Some((mean, worst))) = (measured, swept.apart) {
        lines.push(words(
            &Message::new("sweep-laid")
                .text("path", path.display().to_string())
                .number("mean", mean, Digits::Decimals(3))
                .number("worst", worst, Digits::Decimals(3)),
        ));
    }
    lines.push(String::new());
    lines.extend(planes(swept));
    lines.push(String::new());
    lines.extend(band(swept));
    lines.push(String::new());
    lines.push(column("sweep-caution"));
    lines.join("\n") + "\n"
}

fn fold_back(swept: &Sweep) -> Message {
    let Some(limit) = swept.fold_back_vswr else {
        return Message::new("sweep-no-limit");
    };
    let stretch = |(from, to): &(f64, f64)| {
        words(
            &Message::new("sweep-stretch")
                .number("from", *from, Digits::Decimals(1))
                .number("to", *to, Digits::Decimals(1)),
        )
    };
    let stretches: Vec<String> = swept.folds_back_mhz.iter().map(stretch).collect();
    if stretches.is_empty() {
        return Message::new("sweep-never-folds").number("limit", limit, Digits::Decimals(1));
    }
    Message::new("sweep-folds")
        .number("limit", limit, Digits::Decimals(1))
        .with("stretches", Arg::All(stretches))
}

/// What stands at every joint on the carrier.
fn planes(swept: &Sweep) -> Vec<String> {
    let mut lines = vec![format!(
        "{:12}{:>12}{:>12}{:>12}",
        column("sweep-plane"),
        column("sweep-forward"),
        column("sweep-back"),
        column("sweep-peak")
    )];
    let readings = swept.at_carrier().map_or(&[][..], |a| &a.planes);
    lines.extend(swept.planes.iter().zip(readings).map(|(tag, at)| {
        let (forward_w, back_w) = (at.forward_w, at.reflected_w);
        let numbers = format!("{forward_w:12.2}{back_w:12.3}{:12.1}", at.worst_voltage_peak_v);
        format!("{tag:12}{}", language::row(&numbers))
    }));
    lines
}

/// The band, row by row.
fn band(swept: &Sweep) -> Vec<String> {
    let last = if swept.overlay.is_empty() {
        String::new()
    } else {
        column("sweep-measured-column")
    };
    let mut lines = vec![format!(
        "{:>8}{:>8}{:>12}{:>12}{last:>14}",
        column("sweep-mhz"),
        column("sweep-vswr"),
        column("sweep-return"),
        column("sweep-back")
    )];
    lines.extend(swept.answers.iter().map(|a| {
        let laid = swept
            .overlay
            .iter()
            .find(|o| (o.freq_mhz - a.freq_mhz).abs() < 1e-9);
        let laid = laid.map_or(String::new(), |o| format!("{:14.1}", o.measured_db));
        let (mhz, vswr, back_w) = (a.freq_mhz, a.vswr.ratio(), a.planes[0].reflected_w);
        language::row(&format!(
            "{mhz:8.2}{vswr:8.2}{:12.1}{back_w:12.2}{laid}",
            a.return_loss_db()
        ))
    }));
    lines
}
