//! No cost price reaches a client: not in the text of a paper, its metadata, its cells.

use super::reading::{poppler, text};
use super::{DEMO, Desk, folder};
use assess::assessment::Costs;
use papers::{Audience, PaperError};
use quantity::Money;
use std::io::Read;

/// A price that cannot be taken for anything else.
const TELLING: &str = "7313.37 EUR";

/// Everything readable in a file: parts of a workbook unpacked, text and metadata of a PDF, else its bytes as they are.
fn readable(file: &str, bytes: &[u8]) -> String {
    if file.ends_with(".xlsx") {
        let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
        let mut all = String::new();
        for index in 0..archive.len() {
            archive.by_index(index).unwrap().read_to_string(&mut all).unwrap();
        }
        return all;
    }
    if file.ends_with(".pdf") {
        return [
            text(bytes),
            poppler("pdfinfo", &["FILE"], bytes),
            poppler("pdfinfo", &["-meta", "FILE"], bytes),
        ]
        .into_iter()
        .flatten()
        .collect();
    }
    String::from_utf8_lossy(bytes).into_owned()
}

/// A sum as a spreadsheet stores it and as a reader of either language is shown it.
fn spelt(money: Money) -> [String; 4] {
    let plain = format!("{:.2}", money.to_f64());
    let locale = |language: words::Language| {
        let locale = language.locale();
        locale.number(money.to_f64(), quantity::Digits::Decimals(2))
    };
    let whole = words::Language::English
        .locale()
        .number(money.to_f64(), quantity::Digits::Decimals(0));
    [
        plain,
        locale(words::Language::English),
        locale(words::Language::French),
        whole,
    ]
}

#[test]
fn no_paper_for_the_client_holds_a_cost_price() {
    let telling = Money::parse(TELLING).unwrap();
    let desk = Desk::of(folder(), |office| {
        for item in &mut office.shelf.items {
            if let Some(price) = &mut item.price {
                price.cost = Some(telling);
            }
        }
    });
    let costs = desk.assessed.assessment.costs();
    let known: Vec<String> = costs
        .lines
        .iter()
        .flat_map(|l| [l.cost, l.earned])
        .chain([costs.cost, costs.earned, desk.assessed.outcome.money.cost])
        .flatten()
        .filter(|money| money.to_f64().abs() > 1000.0)
        .flat_map(spelt)
        .collect();
    assert!(known.len() > 200 && known.contains(&"7313.37".to_owned()));
    let book = desk.book(&costs);
    for paper in papers::all() {
        let bytes = (paper.make)(&book).unwrap();
        let again = (paper.make)(&book).unwrap();
        assert_eq!(bytes, again, "{}: same data, other bytes", paper.file);
        let text = readable(paper.file, &bytes);
        let leaked: Vec<_> = known.iter().filter(|k| text.contains(k.as_str())).collect();
        match paper.audience {
            Audience::Client => assert!(leaked.is_empty(), "{} tells {leaked:?}", paper.file),
            Audience::Builder => {
                assert!(leaked.len() > 40, "{} tells only {leaked:?}", paper.file);
                assert!(paper.file.contains("not-for-the-client"));
            }
        }
    }
    let sheet = serde_json::to_string(&desk.assessed.sheet).unwrap();
    assert!(!sheet.contains("\"cost\"") && !sheet.contains("7313.37") && !sheet.contains("7,313.37"));
}

#[test]
fn a_client_s_paper_does_not_look_at_costs() {
    let costs = DEMO.assessed.assessment.costs();
    let none = Costs::default();
    for paper in papers::all() {
        let bytes = (paper.make)(&DEMO.book(&costs)).unwrap();
        let without = (paper.make)(&DEMO.book(&none)).unwrap();
        match paper.audience {
            Audience::Client => assert_eq!(bytes, without, "{} looks at cost prices", paper.file),
            Audience::Builder => assert_ne!(bytes, without, "{} shows no cost", paper.file),
        }
    }
    let book = DEMO.book(&none);
    let Err(PaperError::NoMap) = papers::map::plate::png(&papers::Book { map: None, ..book }) else {
        panic!("a map of nothing")
    };
}
