//! The offer: what one gets, who will hear it, how the signal travels, what it costs and what could be wrong with all of it.

use crate::book::Book;
use crate::chain;
use crate::frame;
use crate::map::plate;
use crate::paper::PaperError;
use crate::wording::Wording;
use assess::figure::Stage;
use assess::finding::Severity;
use assess::said::{SaidAssumption, SaidFigure, SaidFinding, Sheet, Shown};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::Message;

const TEMPLATE: &str = concat!(include_str!("style.typ"), include_str!("offer.typ"));

/// Words that the template asks for, by the name it gives them.
const WORDS: [(&str, &str); 55] = [
    ("for_whom", "paper-for"),
    ("gets", "paper-gets"),
    ("gets_lead", "paper-gets-lead"),
    ("asked_answered", "paper-asked-answered"),
    ("col_point", "paper-col-point"),
    ("col_asked", "paper-col-asked"),
    ("col_answered", "paper-col-answered"),
    ("col_in_hand", "paper-col-in-hand"),
    ("short", "paper-short"),
    ("heard", "paper-heard"),
    ("heard_lead", "paper-heard-lead"),
    ("no_map", "paper-no-map"),
    ("map_alt", "paper-map-alt"),
    ("ruler_alt", "paper-ruler-alt"),
    ("map_lines", "paper-map-lines"),
    ("col_way", "paper-col-way"),
    ("col_people", "paper-col-people"),
    ("col_land", "paper-col-land"),
    ("signal", "paper-signal"),
    ("signal_lead", "paper-signal-lead"),
    ("chain_alt", "paper-chain-alt"),
    ("ladder", "paper-ladder"),
    ("link", "paper-link"),
    ("col_item", "paper-col-item"),
    ("price", "paper-price"),
    ("col_tag", "paper-col-tag"),
    ("col_quantity", "paper-col-quantity"),
    ("col_each", "paper-col-each"),
    ("col_price", "paper-col-price"),
    ("without_tax", "paper-without-tax"),
    ("excluded", "paper-excluded"),
    ("excluded_lead", "paper-excluded-lead"),
    ("running", "paper-running"),
    ("short_heading", "paper-short-heading"),
    ("short_lead", "paper-short-lead"),
    ("cautions", "paper-cautions"),
    ("assumptions", "paper-assumptions"),
    ("assumptions_lead", "paper-assumptions-lead"),
    ("col_taken", "paper-col-taken"),
    ("col_worth", "paper-col-worth"),
    ("questions", "paper-questions"),
    ("sources", "paper-sources"),
    ("sources_lead", "paper-sources-lead"),
    ("col_source", "paper-col-source"),
    ("col_founded", "paper-col-founded"),
    ("services", "paper-services"),
    ("notes", "paper-notes"),
    ("sign", "paper-sign"),
    ("sign_accepts", "paper-sign-accepts"),
    ("sign_client", "paper-sign-client"),
    ("sign_supplier", "paper-sign-supplier"),
    ("sign_whom", "paper-sign-whom"),
    ("sign_name", "paper-sign-name"),
    ("sign_place", "paper-sign-place"),
    ("sign_signature", "paper-sign-signature"),
];

/// The file.
///
/// # Errors
/// [`PaperError::Typeset`] with the typesetter's words, [`PaperError::Words`].
pub fn pdf(book: &Book) -> Result<Vec<u8>, PaperError> {
    let sheet = book.sheet;
    let mut files = vec![("/chain.svg", chain::drawing(sheet).into_bytes())];
    if let Some(map) = book.map {
        files.push(("/map.svg", plate::drawing(map, "#FFFFFF").into_bytes()));
        files.push((
            "/ruler.svg",
            plate::ruler(&wanted_for(Wording::of(&sheet.language))?, "dBµV/m").into_bytes(),
        ));
    }
    let title = if sheet.bill.is_empty() {
        "paper-brief"
    } else {
        "paper-offer"
    };
    frame::set(book, title, TEMPLATE, &WORDS, data(book)?, files)
}

fn wanted_for(words: Wording) -> Result<[String; 6], PaperError> {
    Ok([
        words.word("class-open-mono")?,
        words.word("class-open-stereo")?,
        words.word("class-town-mono")?,
        words.word("class-town-stereo")?,
        words.word("class-city-mono")?,
        words.word("class-city-stereo")?,
    ])
}

/// Everything the template reads: nothing in it is computed here.
fn data(book: &Book) -> Result<Value, PaperError> {
    let sheet = book.sheet;
    let words = Wording::of(&sheet.language);
    let handover = book.handover;
    let covers = Message::new("paper-sign-covers")
        .text("revision", sheet.revision.to_string())
        .text("file", sheet.digest.get(..8).unwrap_or(&sheet.digest));
    Ok(json!({
        "sentence": sheet.sentence.iter().map(|p| p.text.as_str()).collect::<String>(),
        "lead": sheet.lead,
        "points": sheet.points.iter().map(|p| json!({
            "label": p.label,
            "asked": shown(&p.asked),
            "answered": shown(&p.answered),
            "in_hand": p.in_hand.as_ref().map(shown),
            "kept": p.kept,
        })).collect::<Vec<_>>(),
        "gets": handover.gets.iter().map(|g| json!({
            "stage": g.name, "services": g.stage == Stage::Money, "items": g.items,
        })).collect::<Vec<_>>(),
        "heard": figures(sheet, |f| f.id.starts_with("coverage.") && (f.id.contains(".people_") || f.id.contains(".land_"))),
        "designed": !sheet.bill.is_empty(),
        "has_map": book.map.is_some(),
        "ladder": figures(sheet, in_ladder),
        "link": figures(sheet, |f| f.id.starts_with("link.")),
        "bill": bill(sheet),
        "totals": figures(sheet, |f| ["money.goods", "money.freight", "money.duty"].contains(&f.id.as_str())),
        "capital": figures(sheet, |f| f.id == "money.capital"),
        "excluded": sheet.excluded,
        "running": figures(sheet, |f| f.id.starts_with("money.running.")),
        "yearly": figures(sheet, |f| ["money.yearly", "money.over_years", "money.years"].contains(&f.id.as_str())),
        "short": findings(sheet, |s| matches!(s, Severity::Error | Severity::Warning)),
        "cautions": findings(sheet, |s| s == Severity::Caution),
        "notes": findings(sheet, |s| s == Severity::Note),
        "assumptions": handover.assumptions.iter().map(|a| json!({
            "label": a.label,
            "value": a.value,
            "between": a.between,
            "why": a.why,
            "worth": worth(a),
        })).collect::<Vec<_>>(),
        "questions": sheet.questions,
        "sources": sources(sheet, &words.word("words-semicolon")?),
        "terms": handover.terms,
        "supplier": handover.supplier,
        "sign_covers": words.say(&covers)?,
    }))
}

fn shown(shown: &Shown) -> Value {
    json!({ "text": shown.text, "unit": shown.unit, "number": shown.number.is_some() })
}

fn joined(shown: &Shown) -> String {
    assess::say::joined(shown)
}

/// What an assumption is worth, in field, people and money.
fn worth(assumption: &SaidAssumption) -> String {
    let parts = [&assumption.field, &assumption.people, &assumption.money];
    parts
        .into_iter()
        .flatten()
        .map(joined)
        .collect::<Vec<_>>()
        .join(", ")
}

fn figures(sheet: &Sheet, take: impl Fn(&SaidFigure) -> bool) -> Vec<Value> {
    sheet
        .figures
        .iter()
        .filter(|f| take(f))
        .map(|f| {
            json!({
                "label": f.label,
                "value": shown(&f.value),
                "spread": f.spread,
                "in_hand": f.in_hand.as_ref().map(joined),
                "short": f.short,
            })
        })
        .collect()
}

/// The way from transmitter to radiated power, step by step.
fn in_ladder(figure: &SaidFigure) -> bool {
    let Some((_, what)) = figure
        .id
        .strip_prefix("transmission.")
        .and_then(|rest| rest.split_once('.'))
    else {
        return false;
    };
    what.starts_with("step.")
        || what.starts_with("joint.")
        || [
            "power",
            "rated",
            "mismatch",
            "line_loss",
            "gain",
            "height",
            "vswr_transmitter",
            "erp",
        ]
        .contains(&what)
}

fn bill(sheet: &Sheet) -> Vec<Value> {
    let mut groups: Vec<(Stage, &str, Vec<Value>)> = Vec::new();
    for line in &sheet.bill {
        let value = json!({
            "id": line.id,
            "name": line.name,
            "quantity": shown(&line.quantity),
            "each": line.each.as_ref().map(shown),
            "line": line.line.as_ref().map(shown),
            "why": line.why,
        });
        match groups.iter_mut().find(|(stage, ..)| *stage == line.stage) {
            Some((.., lines)) => lines.push(value),
            None => groups.push((line.stage, &line.stage_name, vec![value])),
        }
    }
    groups
        .into_iter()
        .map(|(stage, name, lines)| json!({ "stage": name, "services": stage == Stage::Money, "lines": lines }))
        .collect()
}

pub(crate) fn findings(sheet: &Sheet, take: impl Fn(Severity) -> bool) -> Vec<Value> {
    let finding = |f: &SaidFinding| {
        json!({
            "word": f.severity_word,
            "error": f.severity == Severity::Error,
            "code": f.code,
            "says": f.says,
            "clause": f.clause,
            "remedies": f.remedies.iter().map(|r| json!({ "does": r.does, "effect": r.effect })).collect::<Vec<_>>(),
        })
    };
    sheet
        .findings
        .iter()
        .filter(|f| take(f.severity))
        .map(finding)
        .collect()
}

/// Each source once, and how well what rests on it is founded.
fn sources(sheet: &Sheet, joint: &str) -> Vec<Value> {
    let mut by_clause: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for figure in &sheet.figures {
        let marks = by_clause.entry(figure.how.clause.as_str()).or_default();
        if !marks.contains(&figure.mark_words.as_str()) {
            marks.push(&figure.mark_words);
        }
    }
    by_clause
        .into_iter()
        .map(|(clause, marks)| json!({ "clause": clause, "marks": marks.join(joint) }))
        .collect()
}
