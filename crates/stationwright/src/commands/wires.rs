//! `stationwright wires FILE`: the method of moments on any wires.

use antenna::wires::format::{Answer, WireFile};
use std::path::PathBuf;
use std::process::ExitCode;

/// Solves an antenna made of wires and prints impedance, gain, cuts and power balance.
///
/// The file is JSON: `frequency_mhz`, `wires` (name, start_m, end_m, radius_m, segments), `sources` (wire, position, volts),
/// optionally `loads` (wire, position, ohm), `ground` (free_space or perfect), `cuts`, `feed`. Wires are counted from 0.
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
            .map_err(|fault| fault.to_string()),
        Err(fault) => Err(fault.to_string()),
    };
    match answer {
        Ok(answer) if args.json => println!("{}", answer.to_json()),
        Ok(answer) => print!("{}", summary(&answer)),
        Err(fault) => {
            eprintln!("{name}: {fault}");
            return ExitCode::from(2);
        }
    }
    ExitCode::SUCCESS
}

fn summary(answer: &Answer) -> String {
    let mut lines = vec![format!(
        "{} segments, {} unknowns",
        answer.segments_total, answer.unknowns
    )];
    for (index, [r, x]) in answer.input_impedance_ohm.iter().enumerate() {
        let sign = if *x < 0.0 { '−' } else { '+' };
        lines.push(format!("source {index}: {r:.1} {sign} j{:.1} Ω", x.abs()));
    }
    lines.push(format!(
        "maximum gain {:.2} dBi at azimuth {}°, elevation {}°",
        answer.max_gain_dbi, answer.max_gain_azimuth_deg, answer.max_gain_elevation_deg
    ));
    lines.push(format!("power balance {:.4}", answer.power_balance));
    lines.extend(answer.cautions.iter().map(|c| format!("caution: {c}")));
    lines.join("\n") + "\n"
}
