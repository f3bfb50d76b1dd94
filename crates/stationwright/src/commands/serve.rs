//! `stationwright serve`: the page on a station's folder; and the demo, when no command is given.

use super::assess::{assess_folder, ended, language_of, name, refused, report, sentence};
use crate::desk::StationDesk;
use crate::language::told;
use crate::office::{Assessed, Office, OfficeError};
use assess::finding::Severity;
use assess::say::joined;
use folder::StationFile;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use words::{Message, said};

/// Serves the page on a station's folder, to this machine only.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: stationwright serve examples/orrenay")]
pub struct ServeArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Port on the loopback address; any free one when left out
    #[arg(long)]
    port: Option<u16>,
    /// Open no browser
    #[arg(long)]
    no_browser: bool,
}

/// Runs the command until it is stopped.
pub fn run(args: &ServeArgs) -> ExitCode {
    match opened(&args.folder) {
        Ok((file, office, assessed)) => serve(file, office, assessed, args.port, !args.no_browser),
        Err(error) => report(&error),
    }
}

fn opened(path: &Path) -> Result<(StationFile, Office, Assessed), OfficeError> {
    let (office, assessed) = assess_folder(path)?;
    Ok((StationFile::open(path)?, office, assessed))
}

/// The station that is shown when no command is given: invented.
const DEMO: &str = include_str!("../../../../examples/orrenay/station.toml");

/// Assesses the demo station, says so in a dozen lines, writes its papers and serves its page.
pub fn demo(port: Option<u16>, no_browser: bool) -> ExitCode {
    let folder = demo_folder();
    let written =
        std::fs::create_dir_all(&folder).and_then(|()| std::fs::write(folder.join("station.toml"), DEMO));
    if let Err(error) = written {
        let why = Message::new("open-failed").text("path", folder.display().to_string());
        return ended(why.message("why", Message::foreign(error)), 3);
    }
    let (file, office, assessed) = match opened(&folder) {
        Ok(opened) => opened,
        Err(error) => return report(&error),
    };
    print!("{}", dozen(&assessed));
    let papers = folder.join("papers");
    match crate::desk::papers::write_all(&office, &assessed, &papers) {
        Ok(()) => println!(
            "{}",
            told(Message::new("serve-papers").text("folder", papers.display().to_string()))
        ),
        Err(refusal) => eprintln!(
            "stationwright: {}",
            told(Message::new("serve-no-papers").message("why", refusal.says))
        ),
    }
    serve(file, office, assessed, port, !no_browser)
}

/// Beside the build where there is one, else where this machine keeps what is not needed tomorrow.
fn demo_folder() -> PathBuf {
    let beside = Path::new("target");
    let base = if beside.is_dir() {
        beside.to_owned()
    } else {
        std::env::temp_dir()
    };
    base.join("demo-station")
}

/// A dozen lines: does it meet its brief, who hears it, what it costs, what is wrong.
fn dozen(assessed: &Assessed) -> String {
    let sheet = &assessed.sheet;
    let mut out = format!("{}\n{}\n{}\n", name(sheet), sentence(sheet), sheet.lead);
    for point in sheet.points.iter().filter(|p| !p.kept) {
        let hand = point.in_hand.as_ref().map(joined).unwrap_or_default();
        let short = Message::new("serve-short")
            .text("point", &point.label)
            .text("answered", joined(&point.answered));
        out += &format!("  {}\n", said(&short.text("hand", hand), language_of(sheet)));
    }
    for finding in sheet
        .findings
        .iter()
        .filter(|f| f.severity <= Severity::Warning)
        .take(6)
    {
        out += &format!("  {} {}  {}\n", finding.severity_word, finding.code, finding.says);
    }
    out
}

fn serve(file: StationFile, office: Office, assessed: Assessed, port: Option<u16>, open: bool) -> ExitCode {
    let runtime = match tokio::runtime::Builder::new_multi_thread().enable_all().build() {
        Ok(runtime) => runtime,
        Err(error) => return ended(Message::foreign(error), 3),
    };
    runtime.block_on(async {
        let listener = match server::bind(port).await {
            Ok(listener) => listener,
            Err(error) => {
                let why = Message::new("serve-port").text("port", port.unwrap_or(0).to_string());
                return refused(why.message("why", Message::foreign(error)));
            }
        };
        let address = match listener.local_addr() {
            Ok(address) => format!("http://{address}/"),
            Err(error) => return ended(Message::foreign(error), 3),
        };
        println!("{}", told(Message::new("serve-page").text("address", &address)));
        if open {
            open_browser(&address);
        }
        let desk = StationDesk::new(file, office, assessed);
        desk.watch_disk();
        let stop = async {
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        };
        match server::serve(desk, listener, stop).await {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => ended(Message::foreign(error), 3),
        }
    })
}

/// Opens the page where a person sits before a screen; silent where there is none.
fn open_browser(address: &str) {
    let (program, wanted) = match std::env::consts::OS {
        "macos" => ("open", true),
        "windows" => ("explorer", true),
        _ => (
            "xdg-open",
            std::env::var_os("DISPLAY").is_some() || std::env::var_os("WAYLAND_DISPLAY").is_some(),
        ),
    };
    if wanted {
        let _ = Command::new(program)
            .arg(address)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn();
    }
}
