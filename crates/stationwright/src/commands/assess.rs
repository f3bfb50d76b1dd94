//! `stationwright assess`: the whole proof on the terminal.

use super::watched;
use crate::language::{self, told};
use crate::office::{Assessed, Office, OfficeError, read, today};
use assess::finding::Severity;
use assess::said::{SaidFinding, Sheet};
use assess::say::joined;
use coverage::Control;
use folder::StationFile;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use words::{Language, Message, said};

/// Proves a station: every figure, every finding.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright assess examples/orrenay")]
pub struct AssessArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
    /// Print every figure, not the summary alone
    #[arg(long)]
    figures: bool,
}

/// Runs the command: 0 when no finding is an error, 1 when one is, 2 when the input is refused.
pub fn run(args: &AssessArgs) -> ExitCode {
    match assess_folder(&args.folder) {
        Ok((_, assessed)) => {
            if args.json {
                match serde_json::to_string_pretty(&assessed.sheet) {
                    Ok(text) => println!("{text}"),
                    Err(error) => return refused(Message::foreign(error)),
                }
            } else {
                print!("{}", summary(&assessed.sheet));
                if args.figures {
                    print!("{}", figures(&assessed.sheet));
                }
            }
            ExitCode::from(u8::from(assessed.assessment.has_errors()))
        }
        Err(error) => report(&error),
    }
}

/// Opens a folder and assesses what is in it, with progress on a terminal.
///
/// # Errors
/// [`OfficeError`], naming the file.
pub fn assess_folder(path: &Path) -> Result<(Office, Assessed), OfficeError> {
    let file = StationFile::open(path)?;
    language::of_file(&file.reading.document);
    let document = read(&file)?;
    let office = Office::open(file.folder(), document, today())?;
    let bar = watched::bar();
    let show = |p| watched::show(bar.as_ref(), p);
    let control = Control {
        progress: Some(&show),
        ..Control::quiet()
    };
    let assessed = office.assess(document, &file.digest.to_string(), &control)?;
    if let Some(bar) = bar {
        bar.finish_and_clear();
    }
    Ok((office, assessed))
}

/// Says why the input is refused.
pub fn refused(why: impl Into<Message>) -> ExitCode {
    ended(why, 2)
}

/// Says why the program ends, and with what.
pub fn ended(why: impl Into<Message>, code: u8) -> ExitCode {
    eprintln!("stationwright: {}", told(why));
    ExitCode::from(code)
}

/// Says why nothing was computed: 2 for refused input, 3 when cancelled or a fault of ours.
pub fn report(error: &OfficeError) -> ExitCode {
    match error {
        OfficeError::Faults(faults) => {
            for fault in faults {
                eprintln!("{}", fault.said(language::here()));
            }
            refused(error)
        }
        OfficeError::Cancelled | OfficeError::Words(_) => ended(error, 3),
        other => refused(other),
    }
}

/// The answer in a dozen lines and the findings.
pub fn summary(sheet: &Sheet) -> String {
    let language = language_of(sheet);
    let word = |code: &'static str| said(&Message::new(code), language);
    let mut out = format!("{}\n{}\n{}\n\n", name(sheet), sentence(sheet), sheet.lead);
    let width = sheet
        .points
        .iter()
        .map(|p| p.label.chars().count())
        .max()
        .unwrap_or(0);
    for point in &sheet.points {
        let hand = point.in_hand.as_ref().map(joined).unwrap_or_default();
        // Without a design a point is asked, and neither kept nor short.
        let answered = match point.in_hand {
            Some(_) => joined(&point.answered),
            None => "-".to_owned(),
        };
        out += &format!(
            "  {:width$}  {:>16}  {} {:>16}  {:>14}  {}\n",
            point.label,
            answered,
            word("assess-asked"),
            joined(&point.asked),
            hand,
            if point.kept || point.in_hand.is_none() {
                String::new()
            } else {
                word("assess-short")
            },
        );
    }
    out += "\n";
    for finding in &sheet.findings {
        out += &said_finding(finding);
    }
    out
}

/// The language a sheet is said in.
pub(crate) fn language_of(sheet: &Sheet) -> Language {
    Language::from_tag(&sheet.language).unwrap_or_default()
}

/// The station's name, and whether it is invented.
pub(super) fn name(sheet: &Sheet) -> String {
    if !sheet.invented {
        return sheet.name.clone();
    }
    said(
        &Message::new("assess-invented").text("name", &sheet.name),
        language_of(sheet),
    )
}

/// The sentence as one text.
pub fn sentence(sheet: &Sheet) -> String {
    sheet.sentence.iter().map(|p| p.text.as_str()).collect()
}

fn said_finding(finding: &SaidFinding) -> String {
    let mut out = format!("{} {}  {}\n", finding.severity_word, finding.code, finding.says);
    if finding.severity != Severity::Note {
        for remedy in &finding.remedies {
            let effect = remedy
                .effect
                .as_ref()
                .map(|e| format!(" ({e})"))
                .unwrap_or_default();
            out += &format!("    {}{effect}\n", remedy.does);
        }
    }
    out
}

fn figures(sheet: &Sheet) -> String {
    let mut out = String::from("\n");
    for figure in &sheet.figures {
        let hand = figure
            .in_hand
            .as_ref()
            .map(|h| Message::new("assess-in-hand").text("hand", joined(h)))
            .map(|message| format!("  {}", said(&message, language_of(sheet))))
            .unwrap_or_default();
        let spread = figure
            .spread
            .as_deref()
            .map(|s| format!(" {s}"))
            .unwrap_or_default();
        let missing = figure
            .missing
            .as_deref()
            .map(|m| said(&Message::new("words-colon"), language_of(sheet)) + m)
            .unwrap_or_default();
        out += &format!(
            "{}  {}  {}{missing}{spread}{hand}  [{}]\n",
            figure.id,
            figure.label,
            joined(&figure.value),
            figure.mark
        );
    }
    out
}
