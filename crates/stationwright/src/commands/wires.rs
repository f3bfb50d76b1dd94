//! `stationwright wires FILE`: the method of moments on any wires.

use crate::language;
use antenna::wires::format::{Answer, WireFile};
use quantity::Digits;
use std::path::PathBuf;
use std::process::ExitCode;
use words::{Message, said};

/// Solves an antenna made of wires and prints impedance, gain, cuts and power balance.
///
/// The file is JSON: `frequency_mhz`, `wires` (name, start_m, end_m, radius_m, segments), `sources` (wire, position, volts),
/// optionally `loads` (wire, position, ohm), `ground` (free_space or perfect), `cuts`, `feed`. Wires are counted from 0.
/// Wires are joined where ends meet, where one ends on another's axis and, over perfect ground, where one ends at z = 0.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright wires dipole.json --json")]
pub struct Args {
    /// File of wires, `-` for standard input
    file: PathBuf,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// Runs the command: 0 when computed, 2 when the file is refused.
pub fn run(args: &Args) -> ExitCode {
    let name = args.file.display();
    let text = if args.file.as_os_str() == "-" {
        std::io::read_to_string(std::io::stdin())
    } else {
        std::fs::read_to_string(&args.file)
    };
    let answer = match text {
        Ok(text) => WireFile::parse(&text)
            .and_then(|file| file.answer())
            .map_err(|fault| Message::from(&fault)),
        Err(fault) => Err(Message::foreign(fault)),
    };
    match answer {
        Ok(answer) if args.json => println!("{}", answer.to_json()),
        Ok(answer) => print!("{}", summary(&answer)),
        Err(fault) => {
            eprintln!("{name}: {}", words(&fault));
            return ExitCode::from(2);
        }
    }
    ExitCode::SUCCESS
}

fn words(message: &Message) -> String {
    said(message, language::here())
}

fn summary(answer: &Answer) -> String {
    let mut lines = vec![
        Message::new("wires-size")
            .count("segments", answer.segments_total as i64)
            .count("unknowns", answer.unknowns as i64),
    ];
    for (index, [r, x]) in answer.input_impedance_ohm.iter().enumerate() {
        let sign = if *x < 0.0 { '−' } else { '+' };
        let impedance = format!("{r:.1} {sign} j{:.1} Ω", x.abs());
        lines.push(
            Message::new("wires-source")
                .count("source", index as i64)
                .text("impedance", impedance),
        );
    }
    lines.push(
        Message::new("wires-gain")
            .amount("gain", answer.max_gain_dbi, Digits::Decimals(2), "dBi")
            .given("azimuth", answer.max_gain_azimuth_deg)
            .given("elevation", answer.max_gain_elevation_deg),
    );
    lines.push(Message::new("wires-power").number("balance", answer.power_balance, Digits::Decimals(4)));
    let cautions = answer.cautions.iter();
    lines.extend(cautions.map(|c| Message::new("wires-caution").message("what", c.clone())));
    lines.iter().map(|line| words(line) + "\n").collect()
}
