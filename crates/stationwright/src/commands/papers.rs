//! `stationwright papers`: everything that is handed over, written into a folder.

use super::assess::{assess_folder, ended, report};
use super::coverage::map_of;
use crate::office::{Assessed, Office};
use assess::{Handover, hand_over};
use papers::{Audience, Book, Paper, PaperError};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use words::Message;

/// Writes the papers of a station: offer, bill of materials, drawings, map files.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright papers examples/orrenay --out target/orrenay")]
pub struct PapersArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Where to write; `papers` in the station's folder when left out
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Write the builder's spreadsheet too, which holds cost prices
    #[arg(long)]
    with_costs: bool,
}

/// Why papers could not be written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// A paper could not be made.
    Paper {
        /// Which.
        file: &'static str,
        /// Why.
        error: PaperError,
    },
    /// It could not be written.
    File {
        /// Where.
        path: PathBuf,
        /// Why.
        error: std::io::Error,
    },
}

impl From<&WriteError> for Message {
    fn from(error: &WriteError) -> Self {
        match error {
            WriteError::Paper { file, error } => Message::new("open-failed")
                .text("path", *file)
                .message("why", error),
            WriteError::File { path, error } => Message::new("open-failed")
                .text("path", path.display().to_string())
                .message("why", Message::foreign(error)),
        }
    }
}

words::said_in_english!(WriteError);

/// Runs the command: 0 when written, whatever the findings are; 2 when the input is refused, 3 when a paper could not be written.
pub fn run(args: &PapersArgs) -> ExitCode {
    let (office, assessed) = match assess_folder(&args.folder) {
        Ok(both) => both,
        Err(error) => return report(&error),
    };
    let out = args.out.clone().unwrap_or_else(|| office.folder.join("papers"));
    let wanted = |paper: &Paper| paper.audience == Audience::Client || args.with_costs;
    match write(&office, &assessed, &out, wanted) {
        Ok(written) => {
            written.iter().for_each(|path| println!("{}", path.display()));
            ExitCode::SUCCESS
        }
        Err(error) => failed(&error),
    }
}

/// Says that writing failed.
pub(super) fn failed(error: &WriteError) -> ExitCode {
    ended(error, 3)
}

/// Writes the wanted papers of an assessed station and names the files. What a station is not far enough for, such as
/// a map of nothing, is left out.
///
/// # Errors
/// [`WriteError`], naming the file.
pub fn write(
    office: &Office,
    assessed: &Assessed,
    out: &Path,
    wanted: impl Fn(&Paper) -> bool,
) -> Result<Vec<PathBuf>, WriteError> {
    let at = |path: &Path| {
        let path = path.to_owned();
        move |error| WriteError::File { path, error }
    };
    std::fs::create_dir_all(out).map_err(at(out))?;
    let map = map_of(office, assessed).map_err(|error| WriteError::Paper {
        file: "map.png",
        error,
    })?;
    let costs = assessed.assessment.costs();
    let handover = handover(office, assessed).map_err(|error| WriteError::Paper {
        file: "offer.pdf",
        error,
    })?;
    let book = Book {
        sheet: &assessed.sheet,
        handover: &handover,
        map: map.as_ref(),
        costs: &costs,
    };
    let mut written = Vec::new();
    for paper in papers::all().iter().filter(|p| wanted(p)) {
        let bytes = match (paper.make)(&book) {
            Ok(bytes) => bytes,
            Err(error) if error.is_not_yet() => continue,
            Err(error) => {
                return Err(WriteError::Paper {
                    file: paper.file,
                    error,
                });
            }
        };
        let path = out.join(paper.file);
        std::fs::write(&path, bytes).map_err(at(&path))?;
        written.push(path);
    }
    Ok(written)
}

/// What is handed over with a signature.
///
/// # Errors
/// [`PaperError::Words`] for a missing sentence: a fault of ours.
pub fn handover(office: &Office, assessed: &Assessed) -> Result<Handover, PaperError> {
    let case = office.case(&assessed.file, &assessed.document, &assessed.station);
    Ok(hand_over(
        &case,
        &assessed.outcome,
        &assessed.assessment,
        &assessed.sheet,
    )?)
}
