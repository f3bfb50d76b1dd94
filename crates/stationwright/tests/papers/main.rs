//! The papers of the demo station against its assessment: no figure of their own, no cost price, nothing changed but what changed.
#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

mod costs;
mod dates;
mod edits;
mod numbers;
mod reading;

use assess::Handover;
use assess::assessment::Costs;
use folder::StationFile;
use papers::{Book, Map, Paper};
use stationwright::commands::{coverage::map_of, papers as command};
use stationwright::office::{Assessed, Office, read, today};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/orrenay")
}

/// The demo's folder, copied where a test may write.
fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::copy(demo().join("station.toml"), folder.path().join("station.toml")).unwrap();
    folder
}

/// A station with everything its papers are made from.
struct Desk {
    folder: tempfile::TempDir,
    office: Office,
    assessed: Assessed,
    handover: Handover,
    map: Option<Map>,
}

/// The demo, opened and assessed once for all tests.
static DEMO: LazyLock<Desk> = LazyLock::new(|| Desk::of(folder(), |_| {}));

impl Desk {
    /// Opens a folder, after the shelf was changed by a hand.
    fn of(folder: tempfile::TempDir, change: impl Fn(&mut Office)) -> Self {
        let file = StationFile::open(folder.path()).unwrap();
        let mut office = Office::open(folder.path(), read(&file).unwrap(), today()).unwrap();
        change(&mut office);
        let assessed = assessed(&office, folder.path());
        let handover = command::handover(&office, &assessed).unwrap();
        let map = map_of(&office, &assessed).unwrap();
        Self {
            folder,
            office,
            assessed,
            handover,
            map,
        }
    }

    fn book<'a>(&'a self, costs: &'a Costs) -> Book<'a> {
        Book {
            sheet: &self.assessed.sheet,
            handover: &self.handover,
            map: self.map.as_ref(),
            costs,
        }
    }

    fn paper(&self, file: &str) -> Vec<u8> {
        let paper: &Paper = papers::all().iter().find(|p| p.file == file).unwrap();
        (paper.make)(&self.book(&Costs::default())).unwrap()
    }
}

fn assessed(office: &Office, folder: &Path) -> Assessed {
    let file = StationFile::open(folder).unwrap();
    office
        .assess(
            read(&file).unwrap(),
            &file.digest.to_string(),
            &::coverage::Control::quiet(),
        )
        .unwrap()
}
