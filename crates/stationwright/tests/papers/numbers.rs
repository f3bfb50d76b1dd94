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
    told
}

/// Numbers that are no figures, by the pattern they stand in.
const LISTED: &[(&str, fn(&[&str], usize) -> bool)] = &[
    ("page: `2 / 6`", |w, i| {
        w.get(i + 1) == Some(&"/") || (i > 0 && w[i - 1] == "/")
    }),
    ("clause: `Table 1`, `§ 3.1`", |w, i| {
        i > 0 && matches!(w[i - 1], "Table" | "§")
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
    for (file, least) in [("offer.pdf", 180), ("rigging.pdf", 25), ("acceptance.pdf", 40)] {
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
fn every_column_headed_by_a_currency_holds_the_assessments_prices() {
    let told = told(&DEMO);
    let Some(words) = words(&DEMO.paper("offer.pdf")) else {
        return;
    };
    let heads: Vec<&Word> = heads(&words, &told.units)
        .into_iter()
        .filter(|head| head.text == DEMO.assessed.sheet.currency)
        .collect();
    assert_eq!(heads.len(), 2, "each and price are headed by the currency");
    for head in heads {
        let column: Vec<&Word> = words
            .iter()
            .filter(|w| w.page == head.page && w.top > head.top + 2.0 && (w.right - head.right).abs() < 2.0)
            .filter(|w| is_number(&w.text))
            .collect();
        assert!(column.len() >= 38, "only {} prices in a column", column.len());
        for word in column {
            let pair = (word.text.clone(), head.text.clone());
            assert!(
                told.pairs.contains(&pair),
                "{} {} is no price of the assessment",
                pair.0,
                pair.1
            );
        }
    }
}
