//! The antenna sheet in words: what `assess` worked out, with finished numbers and cells to paint.

use crate::office::{Assessed, Office};
use assess::antenna_sheet::{AnnexRow, AntennaSheet, BaySheet, PlaneSheet, WaySheet, WireSheet};
use assess::pen::Pen;
use assess::unit::Unit;
use server::antenna::{
    AnnexLine, Antenna, AntennaBay, CurrentClass, Currents, HarnessWay, PlaceOnPattern, UnrolledPattern,
};
use words::{Language, Message, WordsError};

/// Classes of the unrolled pattern, dB below the greatest gain, weakest first: what is drawn, no measure.
const BELOW_DB: [f64; 6] = [25.0, 20.0, 15.0, 10.0, 6.0, 3.0];
/// Classes of currents, share of the greatest, weakest first.
const SHARES: [f64; 4] = [0.05, 0.15, 0.35, 0.7];
/// Depressions drawn, degrees below the horizon.
const DRAWN_DEG: (f64, f64) = (-10.0, 30.0);
/// How far what lies across the view is shifted aside, so that a ring is seen as one.
const ASLANT: f64 = 0.3;

/// Every antenna of the station.
///
/// # Errors
/// [`WordsError`] for a sentence that is missing: a fault of ours.
pub fn antennas(
    office: &Office,
    assessed: &Assessed,
    language: Language,
) -> Result<Vec<Antenna>, WordsError> {
    let case = office.case(&assessed.file, &assessed.document, &assessed.station);
    let pen = Pen::of(language);
    assess::antenna_sheets(&case, &assessed.outcome)
        .iter()
        .map(|sheet| antenna(office, assessed, sheet, pen))
        .collect()
}

fn antenna(
    office: &Office,
    assessed: &Assessed,
    sheet: &AntennaSheet,
    pen: Pen,
) -> Result<Antenna, WordsError> {
    let apart = sheet
        .draft_apart_db
        .map(|db| pen.text(&Message::new("aerial-apart").text("apart", pen.joined(db, Unit::Decibel))));
    let cable = sheet.harness_cable.as_deref().and_then(|tag| {
        let cable = assessed.station.cables.iter().find(|c| c.tag == tag)?;
        let name = office
            .shelf
            .get(&cable.shelf)
            .map_or(cable.shelf.as_str(), |s| s.name.as_str());
        Some(format!("{tag}, {name}"))
    });
    Ok(Antenna {
        emission: sheet.emission.clone(),
        antenna: sheet.antenna.clone(),
        model: pen.text(&Message::new(if sheet.full {
            "aerial-full"
        } else {
            "aerial-draft"
        }))?,
        draft: !sheet.full,
        apart: apart.transpose()?,
        planes: sheet
            .planes
            .iter()
            .map(|plane| unrolled(sheet, plane, pen))
            .collect::<Result<_, _>>()?,
        currents: currents(sheet, pen)?,
        bays: sheet.bays.iter().map(|b| bay(b, pen)).collect(),
        harness: sheet
            .harness
            .iter()
            .map(|w| way(w, pen))
            .collect::<Result<_, _>>()?,
        harness_cable: cable,
        annex: sheet.annex.iter().map(|row| line(row, pen)).collect(),
        mean_height: sheet
            .haat_m
            .map(|m| pen.text(&Message::new("aerial-mean-height").text("height", pen.joined(m, Unit::Metre))))
            .transpose()?,
        in_hand: sheet
            .annex
            .iter()
            .filter_map(|row| Some((row.azimuth_deg, row.margin_db?)))
            .collect(),
    })
}

/// The pattern's rows from above the horizon down, each cell in its class.
fn unrolled(sheet: &AntennaSheet, plane: &PlaneSheet, pen: Pen) -> Result<UnrolledPattern, WordsError> {
    let grid = &plane.unrolled;
    let depression = |row: usize| -(grid.from_elev_deg + grid.elev_step_deg * row as f64);
    let class = |gain: &f64| {
        BELOW_DB
            .iter()
            .filter(|below| *gain >= plane.gain_dbd - **below)
            .count() as u8
    };
    let drawn = |row: &usize| (DRAWN_DEG.0..=DRAWN_DEG.1).contains(&depression(*row));
    let kept: Vec<usize> = (0..grid.gain_dbd.len()).rev().filter(drawn).collect();
    let mut classes =
        vec![pen.text(&Message::new("pattern-weakest").text("below", format!("{:.0}", BELOW_DB[0])))?];
    for below in BELOW_DB {
        classes.push(pen.text(&Message::new("pattern-within").text("below", format!("{below:.0}")))?);
    }
    let word = if plane.plane == "horizontal" {
        "plane-horizontal"
    } else {
        "plane-vertical"
    };
    let towards = Message::new("pattern-towards")
        .text("azimuth", pen.joined(plane.azimuth_deg, Unit::Degree))
        .text("depression", pen.joined(-plane.elev_deg, Unit::Degree));
    let places = sheet
        .places
        .iter()
        .map(|place| {
            let says = Message::new("pattern-place")
                .text("azimuth", pen.joined(place.azimuth_deg, Unit::Degree))
                .text("depression", pen.joined(-place.elev_deg, Unit::Degree))
                .text("erp", pen.joined(place.erp_w, Unit::Watt));
            Ok(PlaceOnPattern {
                name: place.name.clone(),
                az_deg: place.azimuth_deg,
                depression_deg: -place.elev_deg,
                says: pen.text(&says)?,
            })
        })
        .collect::<Result<_, _>>()?;
    Ok(UnrolledPattern {
        plane: pen.text(&Message::new(word))?,
        gain: pen.shown(plane.gain_dbd, Unit::Dbd),
        towards: pen.text(&towards)?,
        azimuth_step_deg: grid.azimuth_step_deg,
        from_deg: kept.first().map_or(0.0, |row| depression(*row)),
        step_deg: grid.elev_step_deg,
        rows: kept
            .iter()
            .map(|row| grid.gain_dbd[*row].iter().map(class).collect())
            .collect(),
        classes,
        places,
    })
}

/// Wires seen from beside the bays, each piece in the class of its current.
fn currents(sheet: &AntennaSheet, pen: Pen) -> Result<Option<Currents>, WordsError> {
    let most = sheet
        .wires
        .iter()
        .flat_map(|w| w.current.iter().map(|c| c.1))
        .fold(0.0, f64::max);
    let (Some(bay), true) = (sheet.bays.first(), most > 0.0) else {
        return Ok(None);
    };
    let centre_m = sheet.bays.iter().map(|b| b.height_agl_m).sum::<f64>() / sheet.bays.len() as f64;
    let mut classes = Vec::new();
    for (i, share) in std::iter::once(0.0).chain(SHARES).enumerate() {
        let message = match i {
            0 => Message::new("current-weakest").text("share", format!("{:.0}", 100.0 * SHARES[0])),
            _ => Message::new("current-over").text("share", format!("{:.0}", 100.0 * share)),
        };
        classes.push(CurrentClass {
            says: pen.text(&message)?,
            pieces: Vec::new(),
        });
    }
    for wire in &sheet.wires {
        for pair in wire.current.windows(2) {
            let strength = pair[0].1.max(pair[1].1) / most;
            let class = SHARES.iter().filter(|s| strength >= **s).count();
            let (a, b) = (
                seen(wire, pair[0].0, bay.bearing_deg),
                seen(wire, pair[1].0, bay.bearing_deg),
            );
            classes[class]
                .pieces
                .push([a.0, a.1 + centre_m, b.0, b.1 + centre_m]);
        }
    }
    let says = match sheet.power_w {
        Some(w) => Message::new("current-most-at")
            .text("amps", pen.joined(most, Unit::Ampere))
            .text("power", pen.joined(w, Unit::Watt)),
        None => Message::new("current-most-at")
            .text("amps", pen.joined(most, Unit::Ampere))
            .text("power", pen.joined(1.0, Unit::Watt)),
    };
    Ok(Some(Currents {
        says: pen.text(&says)?,
        classes,
    }))
}

/// A place along a wire: out from the mast on the bays' bearing, and up.
fn seen(wire: &WireSheet, along_m: f64, bearing_deg: f64) -> (f64, f64) {
    let [from, to] = wire.ends_m;
    let length = (0..3).map(|i| (to[i] - from[i]).powi(2)).sum::<f64>().sqrt();
    let part = if length > 0.0 { along_m / length } else { 0.0 };
    let at = |i: usize| from[i] + part * (to[i] - from[i]);
    let (sin, cos) = bearing_deg.to_radians().sin_cos();
    let (out, across) = (at(0) * sin + at(1) * cos, at(0) * cos - at(1) * sin);
    (out + ASLANT * across, at(2))
}

fn bay(bay: &BaySheet, pen: Pen) -> AntennaBay {
    AntennaBay {
        number: bay.number,
        inverted: bay.inverted,
        height: pen.shown(bay.height_agl_m, Unit::FineMetre),
        azimuth: pen.shown(bay.bearing_deg, Unit::Degree),
        power: bay.power_w.map(|w| pen.shown(w, Unit::Watt)),
        peak: bay.peak_v.map(|v| pen.shown(v, Unit::Volt)),
        phase: pen.signed(bay.phase_deg, Unit::Degree),
        vswr: bay.vswr.map(|v| pen.shown(v, Unit::Ratio)),
    }
}

fn way(way: &WaySheet, pen: Pen) -> Result<HarnessWay, WordsError> {
    Ok(HarnessWay {
        way: way.way,
        bay: way.bay,
        cut: pen.shown(way.cut_m, Unit::FineMetre),
        longer: pen.text(&Message::new("harness-longer").text("more", format!("{:.0}", way.longer_mm)))?,
        electrical: pen.shown(way.electrical_deg, Unit::Degree),
        phase: pen.signed(way.phase_deg, Unit::Degree),
        share: pen.shown(100.0 * way.share, Unit::Percent),
    })
}

fn line(row: &AnnexRow, pen: Pen) -> AnnexLine {
    let watts = |w: Option<f64>| w.map(|w| pen.shown(w, Unit::Watt));
    AnnexLine {
        azimuth: format!("{:.0}°", row.azimuth_deg),
        vertical: watts(row.vertical_w),
        horizontal: watts(row.horizontal_w),
        counted: watts(row.counted_w),
        allowed: watts(row.allowed_w),
        in_hand: row.margin_db.map(|db| pen.signed(db, Unit::SmallDecibel)),
        short: row.margin_db.is_some_and(|db| db < -0.005),
        height: row.effective_height_m.map(|m| pen.shown(m, Unit::Metre)),
    }
}
