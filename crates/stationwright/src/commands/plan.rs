//! `stationwright plan`: the design for a brief, what stands beside it, and why not otherwise.

pub(crate) mod sentences;
mod sheet;

use crate::commands::assess::{ended, language_of, refused, report};
use crate::commands::watched::Watched;
use crate::language;
use crate::office::{Office, OfficeError, read, today};
use coverage::Control;
use folder::StationFile;
use folder::{Expected, save};
use planner::{Plan, PlanError, Task};
use station::{Node, Station};
use std::path::PathBuf;
use std::process::ExitCode;
use words::Message;

/// Answers a brief: the cheapest design that keeps it, what one step less or more would cost and give.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright plan examples/saltlight")]
pub struct PlanArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
    /// Write the chosen design into the station file; comments and order stay
    #[arg(long)]
    write: bool,
}

/// What went wrong.
#[derive(Debug, thiserror::Error)]
enum Wrong {
    Office(#[from] OfficeError),
    Plan(#[from] PlanError),
    Text(#[from] folder::TextEditError),
    Save(#[from] folder::SaveError),
    Words(#[from] words::WordsError),
}

impl From<&Wrong> for Message {
    fn from(wrong: &Wrong) -> Self {
        match wrong {
            Wrong::Office(error) => error.into(),
            Wrong::Plan(error) => error.into(),
            Wrong::Text(error) => error.into(),
            Wrong::Save(error) => error.into(),
            Wrong::Words(error) => Message::new("office-no-words").text("why", error.to_string()),
        }
    }
}

words::said_in_english!(Wrong);

/// Runs the command: 0 when the design holds, 1 when no design keeps everything, 2 when the input is refused.
pub fn run(args: &PlanArgs) -> ExitCode {
    match answer(args) {
        Ok(holds) => ExitCode::from(u8::from(!holds)),
        Err(Wrong::Office(error)) => report(&error),
        Err(error @ (Wrong::Words(_) | Wrong::Plan(PlanError::Cancelled))) => ended(&error, 3),
        Err(error) => refused(&error),
    }
}

/// Plans a document.
///
/// # Errors
/// [`OfficeError`] for what could not be opened, [`PlanError`] for what cannot be planned.
fn plan_document(office: &Office, document: &Node, control: &Control) -> Result<Plan, Wrong> {
    let filled = station::assumptions::fill(document);
    let station = Station::read(&filled).map_err(|_| PlanError::NotAStation)?;
    let task = Task {
        case: office.case(document, &filled, &station),
        store: office.store(),
        control,
    };
    Ok(planner::plan(&task)?)
}

fn answer(args: &PlanArgs) -> Result<bool, Wrong> {
    let file = StationFile::open(&args.folder).map_err(OfficeError::from)?;
    language::of_file(&file.reading.document);
    let document = read(&file)?;
    let office = Office::open(file.folder(), document, today())?;
    let watched = Watched::begin();
    let plan = watched.work(|control| plan_document(&office, document, control))?;
    let mut planned = document.clone();
    for edit in &plan.chosen.trial.edits {
        edit.apply(&mut planned).map_err(PlanError::from)?;
    }
    let assessed = watched.work(|control| office.assess(&planned, &file.digest.to_string(), control))?;
    if args.json {
        println!("{:#}", sheet::sheet(&plan, &assessed));
    } else {
        print!("{}", sentences::text(&plan, &assessed, &office.shelf)?);
    }
    let name = file.path.display().to_string();
    let closing = if args.write {
        let text = folder::edit_text(file.reading.source.text(), &plan.chosen.trial.edits)?;
        save(&file.path, text.as_bytes(), Expected::Is(file.digest))?;
        Message::new("plan-written").count("count", plan.chosen.trial.edits.len() as i64)
    } else {
        Message::new("plan-not-written")
    }
    .text("file", name);
    if !args.json {
        println!("{}", words::said(&closing, language_of(&assessed.sheet)));
    }
    Ok(plan.chosen.holds)
}
