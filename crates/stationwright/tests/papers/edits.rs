//! Three edits to the brief change exactly the lines of the offer that the difference of both assessments names.

use super::reading::{Told, text, tokens};
use super::{DEMO, assessed, command, map_of};
use serde_json::{Value, json};
use stationwright::office::Assessed;
use std::collections::{BTreeMap, BTreeSet};

/// One thing an assessment says: a figure, a finding, a line of the bill, a term.
struct Thing {
    json: Value,
    words: BTreeSet<String>,
}

impl Thing {
    fn of(json: Value) -> Self {
        let told = Told::of(&[&json]);
        Self {
            words: told.tokens,
            json,
        }
    }
}

/// Everything an assessment says, by name.
fn things(sheet: &Value, handover: &Value) -> BTreeMap<String, Thing> {
    let mut out = BTreeMap::new();
    for (room, value) in [("sheet", sheet), ("handover", handover)] {
        for (field, value) in value.as_object().unwrap() {
            let name = format!("{room}.{field}");
            match value {
                // The stages stand on one line of the drawing, the pieces of the sentence are one sentence.
                Value::Array(items) if !["stages", "sentence"].contains(&field.as_str()) => {
                    for (index, item) in items.iter().enumerate() {
                        let key = ["id", "key", "path", "figure", "label", "stage", "name", "antenna"]
                            .iter()
                            .find_map(|key| item.get(*key)?.as_str());
                        let key = key.map_or_else(|| index.to_string(), str::to_owned);
                        out.insert(format!("{name}.{key}"), Thing::of(item.clone()));
                    }
                }
                other => {
                    out.insert(name, Thing::of(other.clone()));
                }
            }
        }
    }
    // The title block and the sentence above the signatures name the file.
    let digest = sheet["digest"].as_str().unwrap().get(..8);
    let covers = words::say(
        &words::Message::new("paper-sign-covers")
            .text("revision", sheet["revision"].to_string())
            .text("file", digest.unwrap()),
        words::Language::English,
    );
    let block = json!([
        sheet["name"],
        "(invented) Offer",
        sheet["revision"],
        sheet["date"],
        digest,
        "Revision Date File Sheet Drawn, checked, approved not yet signed / 1 2 3 4 5 6",
        covers.unwrap()
    ]);
    out.insert("title block".into(), Thing::of(block));
    out
}

/// Things of one side that the other side says otherwise or not at all, with what the other side says instead.
fn changed<'a>(
    one: &'a BTreeMap<String, Thing>,
    other: &'a BTreeMap<String, Thing>,
) -> Vec<(&'a str, &'a Thing, Option<&'a Thing>)> {
    one.iter()
        .map(|(name, thing)| (name.as_str(), thing, other.get(name)))
        .filter(|(_, thing, instead)| instead.is_none_or(|i| i.json != thing.json))
        .collect()
}

/// A line is named by a thing that holds all of its words, and a word that the other side's does not hold.
fn names(thing: &Thing, instead: Option<&Thing>, line: &str) -> bool {
    let words = tokens(line);
    words
        .iter()
        .all(|w| thing.words.contains(*w) || *w == "→" || *w == "–")
        && (instead.is_none() || words.iter().any(|w| !instead.unwrap().words.contains(*w)))
}

/// Lines of one text that the other lacks, each as often as it is missing.
fn only<'a>(one: &'a str, other: &str) -> Vec<&'a str> {
    let mut left: BTreeMap<&str, i32> = BTreeMap::new();
    other.lines().for_each(|l| *left.entry(l).or_default() += 1);
    one.lines()
        .filter(|line| {
            let count = left.entry(line).or_default();
            *count -= 1;
            *count < 0
        })
        .collect()
}

fn said(assessed: &Assessed, handover: &assess::Handover) -> (Value, Value) {
    (
        serde_json::to_value(&assessed.sheet).unwrap(),
        serde_json::to_value(handover).unwrap(),
    )
}

#[test]
fn three_edits_change_exactly_the_lines_they_name() {
    let Some(old) = text(&DEMO.paper("offer.pdf")) else {
        return;
    };
    let (sheet, handover) = said(&DEMO.assessed, &DEMO.handover);
    let was = things(&sheet, &handover);
    let told_before = Told::of(&[&sheet, &handover]);
    let original = std::fs::read_to_string(DEMO.folder.path().join("station.toml")).unwrap();
    for (from, to) in [
        ("budget = \"52000 EUR\"", "budget = \"50000 EUR\""),
        (
            "energy_price = \"0.25 EUR/kWh\"",
            "energy_price = \"0.31 EUR/kWh\"",
        ),
        ("share = \"60 %\"", "share = \"55 %\""),
    ] {
        assert!(original.contains(from));
        let folder = super::folder();
        std::fs::write(folder.path().join("station.toml"), original.replace(from, to)).unwrap();
        let after = after(folder);
        let new = text(&after.paper("offer.pdf")).unwrap();
        let (sheet, handover) = said(&after.assessed, &after.handover);
        let is = things(&sheet, &handover);
        // Every line that left, and every line that came, is a changed thing's own.
        for (lines, one, other, way) in [
            (only(&old, &new), &was, &is, "left"),
            (only(&new, &old), &is, &was, "came"),
        ] {
            assert!(!lines.is_empty(), "{to}: nothing {way}");
            let changed = changed(one, other);
            for line in lines {
                assert!(
                    changed
                        .iter()
                        .any(|(_, thing, instead)| names(thing, *instead, line)),
                    "{to}: a line {way} that no change names: {line}"
                );
            }
        }
        // And what the assessment no longer says, no line says any more; what it says newly, none said before.
        let told_after = Told::of(&[&sheet, &handover]);
        let (before, now) = (printed(&old), printed(&new));
        for gone in told_before.pairs.difference(&told_after.pairs) {
            assert!(!now.contains(gone), "{to}: the offer still says {gone:?}");
        }
        for come in told_after.pairs.difference(&told_before.pairs) {
            assert!(!before.contains(come), "{to}: the offer said {come:?} before");
        }
    }
}

/// Numbers with what follows them on the same line.
fn printed(text: &str) -> BTreeSet<(String, String)> {
    let lines: Vec<Value> = text.lines().map(Value::from).collect();
    Told::of(&[&Value::Array(lines)]).pairs
}

/// The edited folder, assessed in the demo's office: ground, shelf and loss fields are the same.
fn after(folder: tempfile::TempDir) -> Edited {
    let assessed = assessed(&DEMO.office, folder.path());
    let handover = command::handover(&DEMO.office, &assessed).unwrap();
    let map = map_of(&DEMO.office, &assessed).unwrap();
    Edited {
        assessed,
        handover,
        map,
    }
}

struct Edited {
    assessed: Assessed,
    handover: assess::Handover,
    map: Option<papers::Map>,
}

impl Edited {
    fn paper(&self, file: &str) -> Vec<u8> {
        let paper = papers::all().iter().find(|p| p.file == file).unwrap();
        let costs = assess::assessment::Costs::default();
        (paper.make)(&papers::Book {
            sheet: &self.assessed.sheet,
            handover: &self.handover,
            map: self.map.as_ref(),
            costs: &costs,
        })
        .unwrap()
    }
}

/// A change that is named is found, one that is not is not: the test can fail.
#[test]
fn a_line_is_named_by_what_changed_only() {
    let thing = |label: &str, text: &str| {
        Thing::of(json!({ "label": label, "value": { "text": text, "unit": "EUR" } }))
    };
    let (was, is) = (thing("Energy a year", "2,121"), thing("Energy a year", "2,630"));
    assert!(names(&is, Some(&was), "Energy a year 2,630 EUR"));
    assert!(!names(&is, Some(&was), "Energy a year"), "nothing new in it");
    assert!(
        !names(&is, Some(&was), "Rent a year 2,630 EUR"),
        "another's label"
    );
    assert_eq!(only("a\nb\nb", "b\nc"), ["a", "b"]);
}
