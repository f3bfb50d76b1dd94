//! The licence annex: every antenna as it radiates, with its thirty-six rows.

mod currents;
mod cut;
mod round;
mod unrolled;

use crate::book::Book;
use crate::frame;
use crate::paper::PaperError;
use crate::wording::Wording;
use assess::handover::{Cuts, Radiation, Seen};
use assess::said::Shown;
use serde_json::{Value, json};
use words::Message;

const TEMPLATE: &str = concat!(include_str!("../style.typ"), include_str!("../annex.typ"));

const WORDS: [(&str, &str); 42] = [
    ("lead", "paper-annex-lead"),
    ("carrier", "paper-annex-carrier"),
    ("computed", "paper-annex-computed"),
    ("vswr", "paper-annex-vswr"),
    ("gain", "paper-annex-gain"),
    ("towards", "paper-annex-towards"),
    ("elevation", "paper-annex-elevation"),
    ("erp", "paper-annex-erp"),
    ("haat", "paper-annex-haat"),
    ("round", "paper-annex-round"),
    ("round_alt", "paper-annex-round-alt"),
    ("round_says", "paper-annex-round-says"),
    ("cut", "paper-annex-cut"),
    ("cut_alt", "paper-annex-cut-alt"),
    ("unrolled", "paper-annex-unrolled"),
    ("unrolled_alt", "paper-annex-unrolled-alt"),
    ("unrolled_says", "paper-annex-unrolled-says"),
    ("currents", "paper-annex-currents"),
    ("currents_alt", "paper-annex-currents-alt"),
    ("places", "paper-annex-places"),
    ("bays", "paper-annex-bays"),
    ("cuts", "paper-annex-cuts"),
    ("rows", "paper-annex-rows"),
    ("rows_says", "paper-annex-rows-says"),
    ("col_item", "paper-col-item"),
    ("col_azimuth", "paper-col-azimuth"),
    ("col_elevation", "paper-col-elevation"),
    ("col_erp", "paper-col-erp"),
    ("col_vertical", "paper-col-vertical"),
    ("col_horizontal", "paper-col-horizontal"),
    ("col_counted", "paper-col-counted"),
    ("col_allowed", "paper-col-allowed"),
    ("col_in_hand", "paper-col-in-hand"),
    ("col_effective", "paper-col-effective"),
    ("col_bay", "paper-col-bay"),
    ("col_height", "paper-col-height"),
    ("col_current", "paper-col-current"),
    ("col_phase", "paper-col-phase"),
    ("col_power", "paper-col-power"),
    ("col_vswr", "paper-col-vswr"),
    ("col_port", "paper-col-port"),
    ("col_length", "paper-col-length"),
];

/// Columns of the cutting list.
const CUT_WORDS: [(&str, &str); 3] = [
    ("col_longer", "paper-col-longer"),
    ("col_electrical", "paper-col-electrical"),
    ("col_velocity", "paper-col-velocity"),
];

/// The file.
///
/// # Errors
/// [`PaperError::NothingRadiates`] when no antenna is chosen; [`PaperError::Typeset`], [`PaperError::Words`].
pub fn pdf(book: &Book) -> Result<Vec<u8>, PaperError> {
    let antennas = &book.handover.radiation;
    if antennas.is_empty() {
        return Err(PaperError::NothingRadiates);
    }
    let words = Wording::of(&book.sheet.language);
    // The letters of north, east, south and west.
    let compass = [
        words.word("compass-north")?,
        words.word("compass-east")?,
        words.word("compass-south")?,
        words.word("compass-west")?,
    ];
    let mut drawings = Vec::new();
    for (i, antenna) in antennas.iter().enumerate() {
        drawings.push((format!("/round{i}.svg"), round::of(antenna, &compass)));
        for (k, plane) in antenna.planes.iter().enumerate() {
            drawings.push((format!("/cut{i}-{k}.svg"), cut::of(plane, antenna)));
            drawings.push((
                format!("/unrolled{i}-{k}.svg"),
                unrolled::of(plane, antenna, &compass),
            ));
        }
        if !antenna.wires.is_empty() {
            drawings.push((format!("/currents{i}.svg"), currents::of(antenna)));
        }
    }
    let files = drawings
        .iter()
        .map(|(name, svg)| (name.as_str(), svg.clone().into_bytes()))
        .collect();
    let antennas: Vec<Value> = antennas.iter().map(|a| set(a, words)).collect::<Result<_, _>>()?;
    let said: Vec<_> = WORDS.iter().chain(&CUT_WORDS).copied().collect();
    frame::set(
        book,
        "paper-annex",
        TEMPLATE,
        &said,
        json!({ "antennas": antennas }),
        files,
    )
}

fn joined(shown: &Shown) -> String {
    assess::say::joined(shown)
}

fn set(antenna: &Radiation, words: Wording) -> Result<Value, PaperError> {
    let shown = |s: &Option<Shown>| s.as_ref().map(joined);
    let strongest = antenna.strongest.clone().unwrap_or_default();
    Ok(json!({
        "emission": antenna.emission,
        "antenna": antenna.antenna,
        "carrier": joined(&antenna.carrier),
        "computed": antenna.computed,
        "draft": antenna.draft,
        "vswr": shown(&antenna.vswr),
        "planes": antenna.planes.iter().map(plane).collect::<Vec<_>>(),
        "places": antenna.places.iter().map(place).collect::<Vec<_>>(),
        "annex": antenna.annex,
        "haat": shown(&antenna.haat),
        "haat_radials": antenna.haat_radials,
        "bays": antenna.bays,
        "cuts": antenna.cuts,
        "has_currents": !antenna.wires.is_empty(),
        "currents_say": words.say(&Message::new("paper-annex-currents-says").text("amps", strongest))?,
    }))
}

fn plane(plane: &Cuts) -> Value {
    json!({
        "name": plane.name,
        "gain": joined(&plane.gain),
        "azimuth": joined(&plane.azimuth),
        "elevation": joined(&plane.elevation),
        "erp": plane.erp.as_ref().map(joined),
    })
}

fn place(place: &Seen) -> Value {
    json!({
        "name": place.name,
        "azimuth": joined(&place.azimuth),
        "elevation": joined(&place.elevation),
        "erp": joined(&place.erp),
    })
}
