//! `stationwright new`: a folder with a commented brief.

use crate::language::told;
use folder::{Expected, save};
use std::path::PathBuf;
use std::process::ExitCode;
use words::Message;

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
    let refused = |why: Message| {
        eprintln!("stationwright: {}: {}", args.folder.display(), told(why));
        ExitCode::from(2)
    };
    if let Err(error) = std::fs::create_dir_all(&args.folder) {
        return refused(Message::foreign(error));
    }
    let file = args.folder.join("station.toml");
    if let Err(error) = save(&file, BRIEF.as_bytes(), Expected::Absent) {
        return refused((&error).into());
    }
    let message = Message::new("new-made")
        .text("file", file.display().to_string())
        .text("folder", args.folder.display().to_string());
    if args.json {
        println!("{:#}", serde_json::json!({ "file": file }));
        return ExitCode::SUCCESS;
    }
    println!("{}", told(message));
    ExitCode::SUCCESS
}
