//! `stationwright path`: one radio path from a profile file.

mod answer;
mod itm_case;
mod p1812_case;

use answer::{Answer, Refusal, words};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use words::Message;

/// Computes the loss and field of one radio path from a profile file.
///
/// The file is JSON: `inputs`, `profile`, and optionally `format`, which says the method. For P.1812 the profile holds `d_km`, `h_m`,
/// `clutter_m` and `zone` (1 sea, 3 coast, 4 inland); for the Irregular Terrain Model `spacing_m` and `h_m`.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright path --model p1812 --profile path.json --json")]
pub struct PathArgs {
    /// Method; taken from the file's `format` when left out
    #[arg(long, value_enum)]
    model: Option<Model>,
    /// File of inputs and profile, `-` for standard input
    #[arg(long, value_name = "FILE")]
    profile: PathBuf,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// Method of prediction.
#[derive(clap::ValueEnum, Debug, Clone, Copy, PartialEq, Eq)]
enum Model {
    /// Rec. ITU-R P.1812-7
    P1812,
    /// Irregular Terrain Model, point to point
    Itm,
}

impl Model {
    fn name(self) -> &'static str {
        match self {
            Self::P1812 => "p1812",
            Self::Itm => "itm",
        }
    }

    fn of_format(format: &str) -> Option<Self> {
        match format.split(['-', '/']).next() {
            Some("p1812") => Some(Self::P1812),
            Some("itm") => Some(Self::Itm),
            _ => None,
        }
    }
}

/// Runs the command: 0 when computed, warnings included; 2 when the input is refused.
pub fn run(args: &PathArgs) -> ExitCode {
    let outcome = read(&args.profile).and_then(|text| answer(args, &text));
    match outcome {
        Ok(answer) => {
            for warning in &answer.warnings {
                eprintln!(
                    "{}",
                    words(&Message::new("path-warning").message("what", warning.clone()))
                );
            }
            if args.json {
                println!("{:#}", answer.to_json());
            } else {
                print!("{}", answer.to_text());
            }
            ExitCode::SUCCESS
        }
        Err(refusal) => {
            eprintln!("{}: {}", args.profile.display(), words(&refusal.reason));
            if args.json {
                println!("{:#}", refusal.to_json());
            }
            ExitCode::from(2)
        }
    }
}

fn read(file: &Path) -> Result<String, Refusal> {
    let text = if file.as_os_str() == "-" {
        std::io::read_to_string(std::io::stdin())
    } else {
        std::fs::read_to_string(file)
    };
    text.map_err(|fault| {
        Refusal::because(Message::new("path-unreadable").message("why", Message::foreign(fault)))
    })
}

/// Just enough of a file to know its method.
#[derive(serde::Deserialize)]
struct Head {
    format: Option<String>,
}

fn answer(args: &PathArgs, text: &str) -> Result<Answer, Refusal> {
    let head: Head = serde_json::from_str(text).map_err(Refusal::json)?;
    let stated = head
        .format
        .as_deref()
        .map(|format| (format, Model::of_format(format)));
    let model = match (args.model, stated) {
        (Some(asked), Some((format, Some(found)))) if asked != found => {
            let reason = Message::new("path-other-model")
                .text("format", format)
                .text("model", asked.name());
            return Err(Refusal::because(reason));
        }
        (Some(asked), _) => asked,
        (None, Some((_, Some(found)))) => found,
        (None, Some((format, None))) => {
            let reason = Message::new("path-unknown-format").text("format", format);
            return Err(Refusal::because(reason));
        }
        (None, None) => {
            return Err(Refusal::because(Message::new("path-no-format")));
        }
    };
    match model {
        Model::P1812 => p1812_case::answer(text),
        Model::Itm => itm_case::answer(text, args.profile.parent().unwrap_or(Path::new("."))),
    }
}
