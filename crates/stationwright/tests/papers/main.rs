//! The papers of the demo station against its assessment: no figure of their own, no cost price, nothing changed but what changed.
#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

use folder::StationFile;
use papers::{Audience, Book, CostLine, PaperError};
use serde_json::Value;
use stationwright::commands::{coverage::map_of, papers as command};
use stationwright::office::{Assessed, Office, read, today};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;
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

/// The demo, opened and assessed once for all tests.
static OPENED: LazyLock<(tempfile::TempDir, Office, Assessed)> = LazyLock::new(|| {
    let folder = folder();
    let (office, assessed) = opened(folder.path());
    (folder, office, assessed)
});

fn opened(folder: &Path) -> (Office, Assessed) {
    let file = StationFile::open(folder).unwrap();
    let office = Office::open(folder, read(&file).unwrap(), today()).unwrap();
    let assessed = assessed(&office, folder);
    (office, assessed)
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

fn offer(office: &Office, assessed: &Assessed) -> Vec<u8> {
    let map = map_of(office, assessed).unwrap();
    papers::offer::pdf(&Book {
        sheet: &assessed.sheet,
        handover: &command::handover(office, assessed).unwrap(),
        map: map.as_ref(),
        costs: &[],
    })
    .unwrap()
}

/// The text of a PDF by `pdftotext`; `None`, said aloud, where the machine has none.
fn text_of(pdf: &[u8]) -> Option<String> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("offer.pdf");
    std::fs::write(&path, pdf).unwrap();
    match Command::new("pdftotext")
        .args(["-layout"])
        .arg(&path)
        .arg("-")
        .output()
    {
        Ok(output) => Some(String::from_utf8(output.stdout).unwrap()),
        Err(error) => {
            assert!(std::env::var_os("CI").is_none(), "pdftotext: {error}");
            println!("left out: pdftotext: {error}");
            None
        }
    }
}

/// Every string of a sheet, and every number with its unit as it is set.
fn said(assessed: &Assessed) -> BTreeSet<String> {
    fn walk(value: &Value, out: &mut BTreeSet<String>) {
        match value {
            Value::String(text) => {
                out.insert(plain(text));
            }
            Value::Array(list) => list.iter().for_each(|v| walk(v, out)),
            Value::Object(fields) => {
                if let (Some(text), Some(unit)) = (fields.get("text"), fields.get("unit")) {
                    out.insert(plain(&format!(
                        "{} {}",
                        text.as_str().unwrap(),
                        unit.as_str().unwrap()
                    )));
                }
                fields.values().for_each(|v| walk(v, out));
            }
            Value::Number(number) => {
                out.insert(number.to_string());
            }
            _ => {}
        }
    }
    let mut out = BTreeSet::new();
    walk(&serde_json::to_value(&assessed.sheet).unwrap(), &mut out);
    out
}

/// One kind of space, once.
fn plain(text: &str) -> String {
    text.split(|c: char| c.is_whitespace() || c == '\u{a0}' || c == '\u{202f}')
        .filter(|w| !w.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

/// Units a figure of a sheet may carry.
const UNITS: &[&str] = &[
    "dB", "dBµV/m", "W", "kW", "dBm", "dBd", "dBi", "dBu", "dBr", "MHz", "GHz", "m", "km", "km²", "m²",
    "people", "h", "min", "min/a", "s", "a", "W/m²", "V/m", "kWh/a", "kg", "EUR", "%", "°C", "U", "each",
    "days", "job", "mm", "m/s", "kVA", "m³/h",
];

fn is_number(word: &str) -> bool {
    let digits = word.trim_start_matches(['+', '−', '±', '(']);
    digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || c == ',' || c == '.')
}

fn trimmed(word: &str) -> &str {
    word.trim_matches(['(', ')', ';', ',', '.', ':'])
}

/// Numbers that stand before a unit.
fn with_units(text: &str) -> BTreeSet<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    // The number of a finding's code, such as `SA 04`, is none.
    let is_code = |word: &str| word.len() == 2 && word.chars().all(|c| c.is_ascii_uppercase());
    let after_code = |i: usize| i > 0 && is_code(words[i - 1]) && words[i].len() == 2;
    let pairs = words
        .windows(2)
        .enumerate()
        .filter(|(i, pair)| !after_code(*i) && is_number(pair[0]) && UNITS.contains(&trimmed(pair[1])));
    pairs
        .map(|(_, pair)| format!("{} {}", pair[0].trim_start_matches('('), trimmed(pair[1])))
        .collect()
}

/// Figures of the map's frame that belong to the drawing: the scale bar, the height of aerial that the strip names, and the
/// frequency as the station file states it.
const OF_THE_DRAWING: &[&str] = &["5 km", "10 m", "97.4 MHz"];

#[test]
fn every_number_of_the_offer_is_the_assessments() {
    let (_, office, assessed) = &*OPENED;
    let Some(text) = text_of(&offer(office, assessed)) else {
        return;
    };
    let said = said(assessed);
    let all = said.iter().cloned().collect::<Vec<_>>().join(" | ");
    let found = with_units(&text);
    assert!(
        found.len() > 60,
        "only {} numbers with a unit were found",
        found.len()
    );
    let strange: Vec<_> = found
        .iter()
        .filter(|number| !OF_THE_DRAWING.contains(&number.as_str()) && !all.contains(number.as_str()))
        .collect();
    assert!(
        strange.is_empty(),
        "in the offer but not in the assessment: {strange:?}"
    );
    // The two columns headed by a currency hold prices of the bill, sums of money and nothing else.
    let money: BTreeSet<String> = said
        .iter()
        .filter_map(|s| s.strip_suffix(" EUR").map(str::to_owned))
        .collect();
    let page = text
        .split('\u{c}')
        .find(|p| p.contains("Price, EUR"))
        .expect("a page of prices");
    let lines = page
        .lines()
        .skip_while(|l| !l.contains("Price, EUR"))
        .skip(1)
        .filter(|l| l.contains(".00") || l.contains(".40"));
    for word in lines
        .filter_map(|l| l.split_whitespace().last())
        .filter(|w| is_number(w))
    {
        assert!(money.contains(word), "{word} is no price of the assessment");
    }
}

#[test]
fn no_paper_for_the_client_holds_a_cost_price() {
    let (_, office, assessed) = &*OPENED;
    let map = map_of(office, assessed).unwrap();
    // Cost prices that cannot be taken for anything else.
    let costs: Vec<CostLine> = command::costs(assessed)
        .into_iter()
        .enumerate()
        .map(|(i, line)| CostLine {
            cost: Some(7_313_000.0 + i as f64),
            ..line
        })
        .collect();
    let handover = command::handover(office, assessed).unwrap();
    let book = |costs| Book {
        sheet: &assessed.sheet,
        handover: &handover,
        map: map.as_ref(),
        costs,
    };
    let with = book(&costs);
    for paper in papers::all() {
        let bytes = (paper.make)(&with).unwrap();
        assert_eq!(
            bytes,
            (paper.make)(&with).unwrap(),
            "{}: same data, other bytes",
            paper.file
        );
        let without = (paper.make)(&book(&[])).unwrap();
        match paper.audience {
            Audience::Client => assert_eq!(bytes, without, "{} looks at cost prices", paper.file),
            Audience::Builder => {
                assert_ne!(bytes, without, "{} shows no cost", paper.file);
                assert!(paper.file.contains("not-for-the-client"));
            }
        }
    }
    // And nothing reaches the papers by the sheet.
    let sheet = serde_json::to_string(&assessed.sheet).unwrap();
    assert!(!sheet.contains("\"cost\""), "the sheet holds a cost price");
    let Err(PaperError::NoMap) = papers::map::plate::png(&Book { map: None, ..with }) else {
        panic!("a map of nothing")
    };
}

#[test]
fn three_edits_change_exactly_what_they_change() {
    let (_, office, before) = &*OPENED;
    let folder = folder();
    let Some(old) = text_of(&offer(office, before)) else {
        return;
    };
    let original = std::fs::read_to_string(folder.path().join("station.toml")).unwrap();
    for (from, to) in [
        ("budget = \"52000 EUR\"", "budget = \"50000 EUR\""),
        (
            "energy_price = \"0.25 EUR/kWh\"",
            "energy_price = \"0.31 EUR/kWh\"",
        ),
        ("share = \"60 %\"", "share = \"55 %\""),
    ] {
        assert!(original.contains(from));
        std::fs::write(folder.path().join("station.toml"), original.replace(from, to)).unwrap();
        let after = assessed(office, folder.path());
        let new = text_of(&offer(office, &after)).unwrap();
        let (was, is) = (said(before), said(&after));
        let (gone, come) = (with_units(&old), with_units(&new));
        let joined = |set: &BTreeSet<String>| set.iter().cloned().collect::<Vec<_>>().join(" | ");
        // What left the paper left the sheet, or moved to a figure that is not printed: it is in the sheets' difference.
        let (only_was, only_is) = (
            was.difference(&is).cloned().collect(),
            is.difference(&was).cloned().collect(),
        );
        let (left, entered) = (joined(&only_was), joined(&only_is));
        for number in gone.difference(&come) {
            assert!(
                left.contains(number.as_str()),
                "{to}: {number} left the offer, not the assessment"
            );
        }
        for number in come.difference(&gone) {
            assert!(
                entered.contains(number.as_str()),
                "{to}: {number} entered the offer, not the assessment"
            );
        }
        // What left the sheet is nowhere on the paper any more.
        let new = plain(&new);
        for number in only_was
            .iter()
            .flat_map(|s| with_units(s))
            .filter(|n| !is.iter().any(|s| s.contains(n.as_str())))
        {
            assert!(
                !new.contains(&format!(" {number} ")),
                "{to}: the offer still says {number}"
            );
        }
        assert_ne!(gone, come, "{to}: nothing changed on paper");
    }
}
