//! Stationwright: from a brief to a proven, priced FM radio station.

use stationwright::{commands, language};

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// Plans FM radio stations from a brief to proven, priced papers.
#[derive(Parser)]
#[command(version)]
struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
    /// Port of the demo's page, on the loopback address; any free one when left out
    #[arg(long)]
    port: Option<u16>,
    /// Open no browser for the demo's page
    #[arg(long)]
    no_browser: bool,
    /// Language of what is printed, shown and written, en or fr; that of the station file when left out, else the machine's
    #[arg(long, global = true, value_name = "TAG", value_parser = language::typed)]
    language: Option<words::Language>,
}

#[derive(Subcommand)]
enum Command {
    Antenna(commands::antenna::AntennaArgs),
    Ask(commands::ask::AskArgs),
    Assess(commands::assess::AssessArgs),
    New(commands::new::NewArgs),
    Coverage(commands::coverage::CoverageArgs),
    Diagnose(commands::diagnose::DiagnoseArgs),
    Papers(commands::papers::PapersArgs),
    Path(commands::path::PathArgs),
    Plan(commands::plan::PlanArgs),
    Serve(commands::serve::ServeArgs),
    Sweep(commands::sweep::SweepArgs),
    Wires(commands::wires::Args),
}

/// A reader that has seen enough, such as `head`, ends the program without a word: 3, as for anything stopped from outside.
fn end_when_nobody_reads() {
    let told = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        let why = panic.payload().downcast_ref::<String>();
        if why.is_some_and(|w| w.starts_with("failed printing to stdout") && w.contains("Broken pipe")) {
            std::process::exit(3);
        }
        told(panic);
    }));
}

fn main() -> ExitCode {
    end_when_nobody_reads();
    language::settle(std::env::args());
    let cli = Cli::parse();
    let Some(command) = cli.command else {
        return commands::serve::demo(cli.port, cli.no_browser);
    };
    match command {
        Command::Antenna(args) => commands::antenna::run(&args),
        Command::Ask(args) => commands::ask::run(&args),
        Command::Assess(args) => commands::assess::run(&args),
        Command::New(args) => commands::new::run(&args),
        Command::Plan(args) => commands::plan::run(&args),
        Command::Coverage(args) => commands::coverage::run(&args),
        Command::Diagnose(args) => commands::diagnose::run(&args),
        Command::Papers(args) => commands::papers::run(&args),
        Command::Path(args) => commands::path::run(&args),
        Command::Serve(args) => commands::serve::run(&args),
        Command::Sweep(args) => commands::sweep::run(&args),
        Command::Wires(args) => commands::wires::run(&args),
    }
}
