//! Every number of a paper is the assessment's: whole numbers with their units, and every column headed by a unit or a currency.

use super::reading::{Told, is_number, poppler, text, tokens};
use super::{DEMO, Desk};
use std::collections::BTreeSet;

fn told(desk: &Desk) -> Told {
    let sheet = serde_json::to_value(&desk.assessed.sheet).unwrap();
    let handover = serde_json::to_value(&desk.handover).unwrap();
    let mut told = Told::of(&[&sheet, &handover]);
    let head = serde_json::json!([
        desk.assessed.sheet.revision.to_string(),
        desk.assessed.sheet.digest.get(..8)
    ]);
    told.tokens.extend(Told::of(&[&head]).tokens);
    // Rows of the annex are set bare: the head of their column has the unit.
    for row in desk.handover.radiation.iter().flat_map(|r| &r.annex) {
        for (number, unit) in [
            (&row.vertical, "W"),
            (&row.horizontal, "W"),
            (&row.counted, "W"),
            (&row.allowed, "W"),
            (&row.margin, "dB"),
            (&row.effective_height, "m"),
        ] {
            told.pairs.insert((number.clone(), unit.to_owned()));
        }
    }
    told
}

/// Whether the word at a place stands in a pattern.
type Pattern = fn(&[&str], usize) -> bool;

/// Numbers that are no figures, by the pattern they stand in.
const LISTED: &[(&str, Pattern)] = &[
    ("page: `2 / 6`", |w, i| {
        w.get(i + 1) == Some(&"/") || (i > 0 && w[i - 1] == "/")
    }),
    ("clause: `Table 1`, `§ 3.1`", |w, i| {
        i > 0 && matches!(w[i - 1], "Table" | "§")
    }),
    ("clause: `47 CFR 73.313`", |w, i| {
        w.get(i + 1) == Some(&"CFR") || (i > 0 && w[i - 1] == "CFR")
    }),
    ("clause: `3 to 15 km, Rec. ITU-R P.1546-6`", |w, i| {
        w.get(i + 1..).is_some_and(|after| {
            after.starts_with(&["km", "Rec", "ITU-R", "P.1546-6"])
                || after.starts_with(&["to", "15", "km", "Rec", "ITU-R", "P.1546-6"])
        })
    }),
    ("code of a finding: `SA 04`", |w, i| {
        i > 0 && w[i].len() == 2 && w[i - 1].len() == 2 && w[i - 1].chars().all(|c| c.is_ascii_uppercase())
    }),
    (
        "class on the map and its ruler, Rec. ITU-R BS.412-9, Table 1",
        |w, i| matches!(w[i], "48" | "54" | "60" | "66" | "70" | "74"),
    ),
    ("scale bar of the map", |w, i| {
        w[i] == "0" || (w.get(i + 1) == Some(&"km") && matches!(w[i], "1" | "2" | "5" | "10" | "20" | "50"))
    }),
    ("strip of the map: `aerial at 10 m`", |w, i| {
        i > 0 && w[i - 1] == "at" && w[i] == "10"
    }),
];

fn is_listed(words: &[&str], at: usize) -> bool {
    LISTED.iter().any(|(_, holds)| holds(words, at))
}

/// Numbers of a text that the assessment does not say, and how many carried a unit.
fn strange(text: &str, told: &Told) -> (Vec<String>, usize) {
    let words = tokens(text);
    let (mut strange, mut with_unit) = (Vec::new(), 0);
    for (at, word) in words.iter().enumerate().filter(|(_, w)| is_number(w)) {
        let unit = words.get(at + 1).filter(|next| told.units.contains(**next));
        let known = match unit {
            Some(unit) => {
                with_unit += 1;
                told.pairs.contains(&((*word).to_owned(), (*unit).to_owned()))
            }
            None => told.tokens.contains(*word),
        };
        if !known && !is_listed(&words, at) {
            strange.push(format!("{word} {}", unit.unwrap_or(&"")));
        }
    }
    (strange, with_unit)
}

#[test]
fn every_number_of_the_papers_is_the_assessments() {
    let told = told(&DEMO);
    for (file, least) in [
        ("offer.pdf", 180),
        ("rigging.pdf", 25),
        ("licence-annex.pdf", 30),
        ("acceptance.pdf", 40),
    ] {
        let Some(text) = text(&DEMO.paper(file)) else {
            return;
        };
        // The number of a check is its place in the list.
        let checks: usize = DEMO.handover.acceptance.iter().map(|g| g.checks.len()).sum();
        let numbered: Vec<String> = (1..=checks).map(|n| n.to_string()).collect();
        let (mut strange, with_unit) = strange(&text, &told);
        if file == "acceptance.pdf" {
            strange.retain(|s| !numbered.contains(&s.trim().to_owned()));
        }
        assert!(strange.is_empty(), "{file}: not in the assessment: {strange:?}");
        assert!(
            with_unit >= least,
            "{file}: only {with_unit} numbers with a unit were found"
        );
    }
}

#[test]
fn a_number_is_compared_whole_and_with_its_unit() {
    let told = Told::of(&[
        &serde_json::json!([{ "text": "149,556", "unit": "EUR" }, "loses 12.5 dB", { "text": "4.1", "unit": "dB" }, { "text": "3", "unit": "m" }]),
    ]);
    let found = |text: &str| strange(text, &told).0;
    assert!(found("costs 149,556 EUR, and 12.5\u{a0}dB; 3 m").is_empty());
    // Neither a part of a number, nor another sign, nor another unit.
    assert_eq!(
        found("49,556 EUR 2.5 dB −12.5 dB 3 EUR 12.5 m 7"),
        ["49,556 EUR", "2.5 dB", "−12.5 dB", "3 EUR", "12.5 m", "7 "]
    );
    assert!(found("3 / 6 SA 04 Table 1.").is_empty());
}

/// One word of a page, by its place.
struct Word {
    page: u32,
    right: f64,
    top: f64,
    text: String,
}

fn words(pdf: &[u8]) -> Option<Vec<Word>> {
    let table = poppler("pdftotext", &["-tsv", "FILE", "-"], pdf)?;
    let word = |line: &str| {
        let cells: Vec<&str> = line.split('\t').collect();
        let number = |i: usize| cells.get(i)?.parse::<f64>().ok();
        (number(0)? == 5.0).then_some(())?;
        Some(Word {
            page: number(1)? as u32,
            right: number(6)? + number(8)?,
            top: number(7)?,
            text: (*cells.get(11)?).to_owned(),
        })
    };
    Some(table.lines().filter_map(word).collect())
}

/// Heads such as `Each, EUR`: a word that ends in a comma, then a unit or the currency, on one line.
fn heads<'a>(words: &'a [Word], units: &BTreeSet<String>) -> Vec<&'a Word> {
    words
        .windows(2)
        .filter(|pair| pair[0].text.ends_with(',') && units.contains(&pair[1].text))
        .filter(|pair| pair[0].page == pair[1].page && (pair[0].top - pair[1].top).abs() < 2.0)
        .map(|pair| &pair[1])
        .collect()
}

#[test]
fn every_column_headed_by_a_unit_or_a_currency_holds_the_assessments_numbers() {
    let told = told(&DEMO);
    // Groups of the price table part its rows by as much as a heading; the annex has none.
    for (file, wanted, apart) in [
        ("offer.pdf", &["EUR", "EUR"][..], 45.0),
        ("licence-annex.pdf", &["W", "W", "W", "W", "dB", "m"], 16.0),
    ] {
        let Some(words) = words(&DEMO.paper(file)) else {
            return;
        };
        let heads = heads(&words, &told.units);
        let units: Vec<&str> = heads.iter().map(|h| h.text.as_str()).collect();
        assert_eq!(units, wanted, "{file}: columns headed by a unit");
        let mut rows = 0;
        for head in heads {
            // Down from the head until the table ends: rows stand close, what follows does not.
            let mut column: Vec<&Word> = words
                .iter()
                .filter(|w| w.page == head.page && w.top > head.top + 2.0)
                .filter(|w| (w.right - head.right).abs() < 2.0 && is_number(&w.text))
                .collect();
            column.sort_by(|a, b| a.top.total_cmp(&b.top));
            let gap = column.windows(2).position(|w| w[1].top - w[0].top > apart);
            column.truncate(gap.map_or(column.len(), |at| at + 1));
            rows = rows.max(column.len());
            for word in column {
                let pair = (word.text.clone(), head.text.clone());
                assert!(
                    told.pairs.contains(&pair),
                    "{file}: {} {} is not in the assessment",
                    pair.0,
                    pair.1
                );
            }
        }
        assert!(rows >= 36, "{file}: {rows} rows");
    }
}
