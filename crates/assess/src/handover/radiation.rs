//! Every antenna as it radiates, for the licence annex: cuts, the pattern unrolled, currents, the cutting list, the table of rows.

use crate::antenna_sheet::{AntennaSheet, PlaneSheet, Unrolled, WireSheet, antenna_sheets};
use crate::case::Case;
use crate::outcome::Outcome;
use crate::pen::Pen;
use crate::said::Shown;
use crate::unit::Unit;
use serde::Serialize;
use words::{Message, WordsError};

/// Rings of the polar plot, share of the greatest power: half the power is 3 dB less.
const RINGS: [f64; 4] = [1.0, 0.5, 0.25, 0.1];
/// Marks of levels under the peak, dB.
const LEVELS_DB: [f64; 5] = [0.0, -3.0, -6.0, -10.0, -20.0];
/// Marks of elevations, degrees.
const ELEVATIONS_DEG: [f64; 5] = [-30.0, -20.0, -10.0, 0.0, 10.0];

/// An antenna as it radiates.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Radiation {
    /// The emission's tag.
    pub emission: String,
    /// The antenna's tag.
    pub antenna: String,
    /// The carrier.
    pub carrier: Shown,
    /// What it was computed as, in words: wires on the mast, or a draft.
    pub computed: String,
    /// It is a draft by the array model, no proof.
    pub draft: bool,
    /// VSWR at the splitter's input.
    pub vswr: Option<Shown>,
    /// One for each plane it is made for.
    pub planes: Vec<Cuts>,
    /// The served places as the antenna sees them.
    pub places: Vec<Seen>,
    /// Every degree: azimuth, allowed and radiated ERP by the licence's way of counting, W.
    pub round: Vec<(f64, f64, f64)>,
    /// Rings of the polar plot: ERP in W, finished.
    pub rings: Vec<(f64, String)>,
    /// Marks of levels under the peak: dB, finished.
    pub levels: Vec<(f64, String)>,
    /// Marks of elevations: degrees, finished.
    pub elevations: Vec<(f64, String)>,
    /// Thirty-six rows.
    pub annex: Vec<Row>,
    /// Height above average terrain.
    pub haat: Option<Shown>,
    /// Its radials: azimuth and height.
    pub haat_radials: Vec<(String, String)>,
    /// The bays as they are fed, the topmost first.
    pub bays: Vec<FedBay>,
    /// Tails as they are cut.
    pub cuts: Vec<Cut>,
    /// Wires with their currents, for the drawing.
    pub wires: Vec<WireSheet>,
    /// The strongest current along any wire.
    pub strongest: Option<String>,
}

/// Cuts in one plane.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cuts {
    /// The plane in words.
    pub name: String,
    /// Gain in its strongest direction.
    pub gain: Shown,
    /// That direction.
    pub azimuth: Shown,
    /// Its elevation.
    pub elevation: Shown,
    /// ERP there.
    pub erp: Option<Shown>,
    /// The peak's gain, dBd.
    pub peak_dbd: f64,
    /// Azimuth of the vertical cut, degrees.
    pub azimuth_deg: f64,
    /// Elevation and gain in dBd.
    pub vertical: Vec<(f64, f64)>,
    /// Azimuth and gain in dBd towards the horizon.
    pub horizontal: Vec<(f64, f64)>,
    /// The pattern unrolled.
    pub unrolled: Unrolled,
}

/// A place as the antenna sees it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Seen {
    /// Its name.
    pub name: String,
    /// Azimuth, degrees.
    pub azimuth_deg: f64,
    /// Elevation, degrees, below the horizon negative.
    pub elev_deg: f64,
    /// Azimuth, finished.
    pub azimuth: Shown,
    /// Elevation, finished.
    pub elevation: Shown,
    /// Distance.
    pub distance: Shown,
    /// ERP towards it.
    pub erp: Shown,
}

/// A row of the annex: finished texts, a dash where a plane is not made for.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// Azimuth.
    pub azimuth: String,
    /// Strongest ERP, vertical plane.
    pub vertical: String,
    /// Strongest ERP, horizontal plane.
    pub horizontal: String,
    /// ERP as the licence counts it.
    pub counted: String,
    /// ERP the licence allows.
    pub allowed: String,
    /// Room in hand.
    pub margin: String,
    /// More is radiated than allowed.
    pub short: bool,
    /// Effective height.
    pub effective_height: String,
}

/// A bay as it is fed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FedBay {
    /// Number from the top.
    pub number: usize,
    /// Height above ground.
    pub height: String,
    /// Current beside the strongest.
    pub current: String,
    /// Phase beside the top bay's.
    pub phase: String,
    /// Power into it.
    pub power: String,
    /// VSWR at its connector.
    pub vswr: String,
}

/// A tail as it is cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cut {
    /// Port of the splitter.
    pub way: usize,
    /// Bay from the top.
    pub bay: usize,
    /// Length.
    pub length: String,
    /// Longer than the shortest.
    pub longer: String,
    /// Electrical length.
    pub electrical: String,
    /// Velocity beside light's.
    pub velocity: String,
}

pub(super) fn radiation(case: &Case, outcome: &Outcome, pen: Pen) -> Result<Vec<Radiation>, WordsError> {
    antenna_sheets(case, outcome)
        .into_iter()
        .map(|sheet| said(sheet, outcome, pen))
        .collect()
}

fn said(sheet: AntennaSheet, outcome: &Outcome, pen: Pen) -> Result<Radiation, WordsError> {
    let check = outcome.licence.emissions.iter().find(|c| c.tag == sheet.emission);
    let round: Vec<(f64, f64, f64)> = check
        .map(|c| &c.round)
        .into_iter()
        .flatten()
        .map(|d| (d.azimuth_deg, d.allowed_w, d.radiated_w))
        .collect();
    let most = round.iter().map(|(_, a, r)| a.max(*r)).fold(0.0, f64::max);
    let computed = if sheet.full {
        Message::new("annex-full")
    } else {
        Message::new("annex-draft")
    };
    let strongest = sheet
        .wires
        .iter()
        .flat_map(|w| &w.current)
        .map(|(_, amps, _)| *amps)
        .reduce(f64::max);
    Ok(Radiation {
        carrier: pen.shown(sheet.frequency_mhz, Unit::Megahertz),
        computed: pen.text(&computed)?,
        draft: !sheet.full,
        vswr: sheet.vswr.map(|v| pen.shown(v, Unit::Ratio)),
        planes: sheet
            .planes
            .iter()
            .map(|p| plane(p, pen))
            .collect::<Result<_, _>>()?,
        places: sheet.places.iter().map(|p| seen(p, pen)).collect(),
        rings: RINGS
            .iter()
            .filter(|_| most > 0.0)
            .map(|share| (most * share, pen.joined(most * share, Unit::Watt)))
            .collect(),
        levels: LEVELS_DB
            .iter()
            .map(|db| (*db, pen.joined(*db, Unit::Decibel)))
            .collect(),
        elevations: ELEVATIONS_DEG
            .iter()
            .map(|deg| (*deg, format!("{}°", pen.plain(*deg, 0))))
            .collect(),
        annex: sheet.annex.iter().map(|row| annex_row(row, pen)).collect(),
        haat: sheet.haat_m.map(|m| pen.shown(m, Unit::Metre)),
        haat_radials: sheet
            .haat_radials
            .iter()
            .map(|(azimuth, m)| (format!("{}°", pen.plain(*azimuth, 0)), pen.plain(*m, 1)))
            .collect(),
        bays: sheet.bays.iter().map(|b| fed(b, pen)).collect(),
        cuts: sheet.harness.iter().map(|w| cut(w, pen)).collect(),
        strongest: strongest.map(|amps| pen.joined(amps, Unit::Ampere)),
        wires: sheet.wires,
        emission: sheet.emission,
        antenna: sheet.antenna,
        round,
    })
}

fn plane(plane: &PlaneSheet, pen: Pen) -> Result<Cuts, WordsError> {
    Ok(Cuts {
        name: pen.text(&Message::new("annex-plane").tag("plane", plane.plane.as_str()))?,
        gain: pen.shown(plane.gain_dbd, Unit::Dbd),
        azimuth: pen.shown(plane.azimuth_deg, Unit::Degree),
        elevation: pen.shown(plane.elev_deg, Unit::Degree),
        erp: plane.erp_w.map(|w| pen.shown(w, Unit::Watt)),
        peak_dbd: plane.gain_dbd,
        azimuth_deg: plane.azimuth_deg,
        vertical: plane.vertical.clone(),
        horizontal: plane.horizontal.clone(),
        unrolled: plane.unrolled.clone(),
    })
}

fn seen(place: &crate::antenna_sheet::PlaceSeen, pen: Pen) -> Seen {
    Seen {
        name: place.name.clone(),
        azimuth_deg: place.azimuth_deg,
        elev_deg: place.elev_deg,
        azimuth: pen.shown(place.azimuth_deg, Unit::Degree),
        elevation: pen.shown(place.elev_deg, Unit::Degree),
        distance: pen.shown(place.distance_km, Unit::Kilometre),
        erp: pen.shown(place.erp_w, Unit::Watt),
    }
}

fn annex_row(row: &crate::antenna_sheet::AnnexRow, pen: Pen) -> Row {
    let dash = || "–".to_owned();
    // The column's head has the unit: a row never changes to thousands.
    let watts =
        |w: Option<f64>| w.map_or_else(dash, |w| pen.locale().number(w, quantity::Digits::Significant(4)));
    Row {
        azimuth: format!("{}°", pen.plain(row.azimuth_deg, 0)),
        vertical: watts(row.vertical_w),
        horizontal: watts(row.horizontal_w),
        counted: watts(row.counted_w),
        allowed: watts(row.allowed_w),
        margin: row
            .margin_db
            .map_or_else(dash, |db| pen.locale().signed(db, quantity::Digits::Decimals(2))),
        short: row
            .margin_db
            .is_some_and(|db| db < -crate::rules::LICENCE_TOLERANCE_DB),
        effective_height: row.effective_height_m.map_or_else(dash, |m| pen.plain(m, 1)),
    }
}

fn fed(bay: &crate::antenna_sheet::BaySheet, pen: Pen) -> FedBay {
    let dash = || "–".to_owned();
    FedBay {
        number: bay.number,
        height: pen.joined(bay.height_agl_m, Unit::FineMetre),
        current: pen.plain(bay.current_ratio, 2),
        phase: pen.joined(bay.phase_deg, Unit::Degree),
        power: bay.power_w.map_or_else(dash, |w| pen.joined(w, Unit::Watt)),
        vswr: bay.vswr.map_or_else(dash, |v| pen.plain(v, 2)),
    }
}

fn cut(way: &crate::antenna_sheet::WaySheet, pen: Pen) -> Cut {
    Cut {
        way: way.way,
        bay: way.bay,
        length: pen.joined(way.cut_m, Unit::FineMetre),
        longer: format!("{}\u{a0}mm", pen.plain(way.longer_mm, 0)),
        electrical: pen.joined(way.electrical_deg, Unit::Degree),
        velocity: pen.plain(way.velocity_ratio, 2),
    }
}
