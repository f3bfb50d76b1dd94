//! `stationwright new`: a folder with a commented brief.

use folder::{Expected, save};
use std::path::PathBuf;
use std::process::ExitCode;
use words::{Language, Message};

/// Makes a folder with a commented brief to fill in.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright new hilltop")]
pub struct NewArgs {
    /// Folder to make; a station file that is there already stays as it is
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Print what was made as JSON
    #[arg(long)]
    json: bool,
}

/// The brief: it loads as it stands, and every line says what may be put there.
const BRIEF: &str = include_str!("brief.toml");

/// Runs the command: 0 when made, 2 when something is there already or the folder cannot be written.
pub fn run(args: &NewArgs) -> ExitCode {
    let refused = |error: &dyn std::fmt::Display| {
        eprintln!("stationwright: {}: {error}", args.folder.display());
        ExitCode::from(2)
    };
    if let Err(error) = std::fs::create_dir_all(&args.folder) {
        return refused(&error);
    }
    let file = args.folder.join("station.toml");
    if let Err(error) = save(&file, BRIEF.as_bytes(), Expected::Absent) {
        return refused(&error);
    }
    let message = Message::new("new-made")
        .text("file", file.display().to_string())
        .text("folder", args.folder.display().to_string());
    if args.json {
        println!("{:#}", serde_json::json!({ "file": file }));
        return ExitCode::SUCCESS;
    }
    match words::say(&message, Language::English) {
        Ok(text) => println!("{text}"),
        Err(error) => return refused(&error),
    }
    ExitCode::SUCCESS
}
