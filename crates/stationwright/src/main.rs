//! Stationwright: from a brief to a proven, priced FM radio station.

use stationwright::commands;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// Plans FM radio stations from a brief to proven, priced papers.
#[derive(Parser)]
#[command(version)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    Assess(commands::assess::AssessArgs),
    Path(commands::path::PathArgs),
    Wires(commands::wires::Args),
}

fn main() -> ExitCode {
    match Cli::parse().command {
        Command::Assess(args) => commands::assess::run(&args),
        Command::Path(args) => commands::path::run(&args),
        Command::Wires(args) => commands::wires::run(&args),
    }
}
