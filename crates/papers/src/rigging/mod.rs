//! The installer's sheet: every antenna on its mast with its dimensions, the harness, the cautions.

mod drawing;
mod plan;

use crate::book::Book;
use crate::frame;
use crate::offer::findings;
use crate::paper::PaperError;
use crate::wording::Wording;
use assess::finding::Severity;
use assess::handover::{Harness, Rigging};
use assess::said::Shown;
use serde_json::{Value, json};

const TEMPLATE: &str = concat!(include_str!("../style.typ"), include_str!("../rigging.typ"));

const WORDS: [(&str, &str); 34] = [
    ("lead", "paper-rigging-lead"),
    ("drawing_alt", "paper-rigging-alt"),
    ("plan_alt", "paper-rigging-plan-alt"),
    ("mast", "paper-rigging-mast"),
    ("kind", "paper-rigging-kind"),
    ("top", "paper-rigging-top"),
    ("width", "paper-rigging-width"),
    ("mass", "paper-rigging-mass"),
    ("wind_area", "paper-rigging-wind-area"),
    ("stack", "paper-rigging-stack"),
    ("element", "paper-rigging-element"),
    ("polarisation", "paper-rigging-polarisation"),
    ("centre", "paper-rigging-centre"),
    ("spacing", "paper-rigging-spacing"),
    ("stand_off", "paper-rigging-stand-off"),
    ("azimuth", "paper-rigging-azimuth"),
    ("splitter", "paper-rigging-splitter"),
    ("col_bay", "paper-col-bay"),
    ("col_height", "paper-col-height"),
    ("col_measured", "paper-col-measured"),
    ("inverted", "paper-rigging-inverted"),
    ("away", "paper-rigging-away"),
    ("public", "paper-rigging-public"),
    ("workers", "paper-rigging-workers"),
    ("not_to_scale", "paper-rigging-not-to-scale"),
    ("harness", "paper-rigging-harness"),
    ("col_label", "paper-col-label"),
    ("col_item", "paper-col-item"),
    ("col_from", "paper-col-from"),
    ("col_to", "paper-col-to"),
    ("col_length", "paper-col-length"),
    ("col_bend", "paper-col-bend"),
    ("how", "paper-rigging-how"),
    ("cautions", "paper-cautions"),
];

/// Common practice of the trade, no source.
const NOTES: [&str; 6] = [
    "rigging-note-arrows",
    "rigging-note-labels",
    "rigging-note-reel",
    "rigging-note-bends",
    "rigging-note-weather",
    "rigging-note-sweep",
];

/// The file.
///
/// # Errors
/// [`PaperError::NothingToRig`] when no antenna is chosen; [`PaperError::Typeset`], [`PaperError::Words`].
pub fn pdf(book: &Book) -> Result<Vec<u8>, PaperError> {
    let rigs = &book.handover.rigging;
    if rigs.is_empty() {
        return Err(PaperError::NothingToRig);
    }
    let words = Wording::of(&book.sheet.language);
    let mut drawings = Vec::new();
    for (i, rig) in rigs.iter().enumerate() {
        drawings.push((format!("/rig{i}.svg"), drawing::of(rig, words)?));
        drawings.extend(plan::of(rig, words)?.map(|plan| (format!("/plan{i}.svg"), plan)));
    }
    let files = drawings
        .iter()
        .map(|(name, svg)| (name.as_str(), svg.clone().into_bytes()))
        .collect();
    let notes: Vec<String> = NOTES
        .iter()
        .map(|code| words.word(code))
        .collect::<Result<_, _>>()?;
    let data = json!({
        "rigs": rigs.iter().map(rig).collect::<Vec<_>>(),
        "notes": notes,
        "cautions": findings(book.sheet, |s| s == Severity::Caution),
    });
    frame::set(book, "paper-rigging", TEMPLATE, &WORDS, data, files)
}

fn joined(shown: &Shown) -> String {
    assess::say::joined(shown)
}

fn rig(rig: &Rigging) -> Value {
    let shown = |s: &Option<Shown>| s.as_ref().map(joined);
    json!({
        "has_plan": rig.azimuth.is_some(),
        "antenna": rig.antenna,
        "site": rig.site,
        "mast": rig.mast,
        "top": shown(&rig.top),
        "width": shown(&rig.width),
        "mass": shown(&rig.mass),
        "wind_area": shown(&rig.wind_area),
        "element": rig.element,
        "polarisation": rig.polarisation,
        "centre": joined(&rig.centre),
        "spacing": shown(&rig.spacing),
        "stand_off": shown(&rig.stand_off),
        "azimuth": shown(&rig.azimuth),
        "splitter": rig.splitter,
        "public": shown(&rig.public),
        "workers": shown(&rig.workers),
        "bays": rig.bays.iter().map(|b| json!({ "number": b.number, "height": joined(&b.height), "inverted": b.inverted })).collect::<Vec<_>>(),
        "harness": rig.harness.iter().map(harness).collect::<Vec<_>>(),
    })
}

fn harness(line: &Harness) -> Value {
    json!({
        "label": line.label,
        "name": line.name,
        "from": line.from,
        "to": line.to,
        "length": joined(&line.length),
        "bend": line.bend.as_ref().map(joined),
    })
}
