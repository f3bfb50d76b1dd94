//! Every antenna as it is rigged: the mast, the bays with their heights, the cables with their ends.

use crate::case::Case;
use crate::outcome::Outcome;
use crate::pen::Pen;
use crate::proofs::transmission::{EmissionPath, Radiating, StepKind};
use crate::said::Shown;
use crate::unit::Unit;
use serde::Serialize;
use station::design::Cable;
use station::licence::Polarisation;
use station::place::MastKind;
use words::{Message, WordsError};

/// An antenna on its mast.
#[derive(Debug, Clone, PartialEq, Serialize, utoipa::ToSchema)]
pub struct Rigging {
    /// The antenna's tag.
    pub antenna: String,
    /// The site's name.
    pub site: String,
    /// The mast in words.
    pub mast: String,
    /// It is a lattice.
    pub lattice: bool,
    /// It is held by guys.
    pub guyed: bool,
    /// Its top above ground, m; absent when the file does not say.
    pub top_m: Option<f64>,
    /// The same, finished.
    pub top: Option<Shown>,
    /// The roof it stands on, above ground, m; 0 on the ground.
    pub foot_m: f64,
    /// Width of a face or diameter, m.
    pub width_m: Option<f64>,
    /// The same, finished.
    pub width: Option<Shown>,
    /// The bays, the topmost first.
    pub bays: Vec<RiggingBay>,
    /// Centre of the stack above ground, m.
    pub centre_m: f64,
    /// The same, finished.
    pub centre: Shown,
    /// From bay to bay.
    pub spacing: Option<Shown>,
    /// From the mast's axis to the bays, m.
    pub stand_off_m: f64,
    /// From the mast's face to the bays, finished.
    pub stand_off: Option<Shown>,
    /// Direction the bays face.
    pub azimuth: Option<Shown>,
    /// What a bay is.
    pub element: String,
    /// Length of a dipole, m.
    pub element_m: f64,
    /// Its dipoles stand upright, or one of each crossed pair does.
    pub upright: bool,
    /// Polarisation in words.
    pub polarisation: String,
    /// The splitter, with its tag.
    pub splitter: Option<String>,
    /// Lines and tails, from the transmitter up.
    pub harness: Vec<Harness>,
    /// What the bays weigh together.
    pub mass: Option<Shown>,
    /// Wind area of the bays together, without brackets and lines.
    pub wind_area: Option<Shown>,
    /// The public stays outside.
    pub public: Option<Shown>,
    /// The same, m.
    pub public_m: Option<f64>,
    /// Workers stay outside while it is on the air.
    pub workers: Option<Shown>,
}

/// One bay.
#[derive(Debug, Clone, PartialEq, Serialize, utoipa::ToSchema)]
pub struct RiggingBay {
    /// Number from the top.
    pub number: usize,
    /// Height above ground, m.
    pub height_m: f64,
    /// The same, finished.
    pub height: Shown,
    /// It was found upside down.
    pub inverted: bool,
}

/// One cable of the feed.
#[derive(Debug, Clone, PartialEq, Serialize, utoipa::ToSchema)]
pub struct Harness {
    /// Label at both ends, such as `F1` or `TAILS 3`.
    pub label: String,
    /// What it is.
    pub name: String,
    /// From.
    pub from: String,
    /// To.
    pub to: String,
    /// Length.
    pub length: Shown,
    /// Tightest bend, where the shelf says so.
    pub bend: Option<Shown>,
}

pub(super) fn rigging(case: &Case, outcome: &Outcome, pen: Pen) -> Result<Vec<Rigging>, WordsError> {
    let mut out: Vec<Rigging> = Vec::new();
    for path in &outcome.transmission.emissions {
        let Ok(radiating) = &path.radiating else { continue };
        if out.iter().any(|r| r.antenna == radiating.tag) {
            continue;
        }
        out.extend(rigged(case, outcome, path, radiating, pen)?);
    }
    Ok(out)
}

fn rigged(
    case: &Case,
    outcome: &Outcome,
    path: &EmissionPath,
    radiating: &Radiating,
    pen: Pen,
) -> Result<Option<Rigging>, WordsError> {
    let (Some(site), Some(antenna)) = (
        case.station.site(&radiating.site),
        case.station.antenna(&radiating.tag),
    ) else {
        return Ok(None);
    };
    let bay = antenna.element.as_deref().and_then(|id| case.shelf.get(id));
    let ratings = bay.and_then(|b| b.bay.as_ref());
    let distances = outcome.exposure.emissions.iter().find(|d| d.tag == path.tag);
    let kind = site.mast.kind.value().copied();
    let metres = |m: f64| pen.shown(m, Unit::FineMetre);
    let (top_m, width_m) = (
        site.mast.height.value().map(|h| h.m()),
        site.mast.width.value().map(|w| w.m()),
    );
    let stand_off = antenna.stand_off.value().map(|s| s.m());
    let count = f64::from(radiating.bays);
    let splitter = antenna.splitter.as_deref();
    Ok(Some(Rigging {
        antenna: radiating.tag.clone(),
        site: site.name.clone(),
        mast: match kind {
            Some(kind) => crate::naming::value("sites.mast.kind", &kind.word().into(), pen.language())?,
            None => pen.word("not-known")?,
        },
        lattice: !matches!(kind, Some(MastKind::Pole)),
        guyed: kind == Some(MastKind::GuyedLattice),
        top_m,
        top: top_m.map(metres),
        foot_m: site.mast.roof.map_or(0.0, |r| r.m()),
        width_m,
        width: width_m.map(metres),
        bays: bays(radiating, &antenna.inverted_bays, pen),
        centre_m: radiating.centre_agl_m,
        centre: metres(radiating.centre_agl_m),
        spacing: (radiating.bays > 1).then(|| metres(radiating.spacing_m)),
        stand_off_m: stand_off.unwrap_or(0.0) + width_m.unwrap_or(0.0) / 2.0,
        stand_off: stand_off.map(metres),
        azimuth: antenna.azimuth.value().map(|a| pen.shown(a.deg(), Unit::Degree)),
        element: bay.map_or_else(|| antenna.element.clone().unwrap_or_default(), |b| b.name.clone()),
        element_m: path
            .frequency_mhz
            .map_or(0.0, |f| antenna::line::wavelength_m(f) / 2.0),
        upright: radiating.polarisation != Polarisation::Horizontal,
        polarisation: crate::naming::value(
            "emissions.licence.polarisation",
            &radiating.polarisation.word().into(),
            pen.language(),
        )?,
        splitter: splitter.map(|tag| named(case, tag)),
        harness: harness(case, path, radiating, pen)?,
        mass: bay
            .and_then(|b| b.mass)
            .map(|m| pen.shown(m.kg() * count, Unit::Kilogram)),
        wind_area: ratings
            .and_then(|r| r.wind_area)
            .map(|a| pen.shown(a.m2() * count, Unit::SquareMetre)),
        public: distances.map(|d| metres(d.public_printed_m())),
        public_m: distances.map(|d| d.public_printed_m()),
        workers: distances.map(|d| metres(d.workers_printed_m())),
    }))
}

fn bays(radiating: &Radiating, inverted: &[u32], pen: Pen) -> Vec<RiggingBay> {
    let middle = (f64::from(radiating.bays) - 1.0) / 2.0;
    (0..radiating.bays)
        .map(|i| {
            let height_m = radiating.centre_agl_m + (middle - f64::from(i)) * radiating.spacing_m;
            RiggingBay {
                number: i as usize + 1,
                height_m,
                height: pen.shown(height_m, Unit::FineMetre),
                inverted: inverted.contains(&(i + 1)),
            }
        })
        .collect()
}

/// An item by tag and name.
fn named(case: &Case, tag: &str) -> String {
    let item = case.station.item(tag).and_then(|i| case.shelf.get(&i.shelf));
    item.map_or_else(|| tag.to_owned(), |i| format!("{tag}, {}", i.name))
}

/// The cables of the way up, tails one by one.
fn harness(
    case: &Case,
    path: &EmissionPath,
    radiating: &Radiating,
    pen: Pen,
) -> Result<Vec<Harness>, WordsError> {
    let mut out = Vec::new();
    for step in path.steps.as_deref().unwrap_or(&[]) {
        let (length_m, count) = match step.kind {
            StepKind::Line { length_m } => (length_m, 1),
            StepKind::Tails { length_m, count } => (length_m, count),
            StepKind::Inline | StepKind::Splitter => continue,
        };
        let Some(cable) = case.station.cables.iter().find(|c| c.tag == step.tag) else {
            continue;
        };
        let shelf = case.shelf.get(&step.shelf);
        let bend = shelf
            .and_then(|s| s.line.as_ref()?.bend)
            .map(|b| pen.shown(b.m(), Unit::FineMetre));
        for number in 1..=count {
            out.push(Harness {
                label: if count == 1 {
                    step.tag.clone()
                } else {
                    format!("{} {number}", step.tag)
                },
                name: shelf.map_or_else(|| step.shelf.clone(), |s| s.name.clone()),
                from: end(&cable.from, count, number, None, pen)?,
                to: end(&cable.to, count, number, bay_of(cable, radiating), pen)?,
                length: pen.shown(length_m, Unit::FineMetre),
                bend: bend.clone(),
            });
        }
    }
    Ok(out)
}

/// Whether a cable ends at the bays.
fn bay_of<'a>(cable: &Cable, radiating: &'a Radiating) -> Option<&'a str> {
    (station::chain::end_tag(&cable.to) == radiating.tag).then_some(radiating.tag.as_str())
}

/// One end of a cable; of several alike, with its port or its bay.
fn end(at: &str, count: u32, number: u32, bay: Option<&str>, pen: Pen) -> Result<String, WordsError> {
    let tag = station::chain::end_tag(at);
    match (bay, count) {
        (Some(antenna), 1) => Ok(antenna.to_owned()),
        (Some(antenna), _) => pen.text(
            &Message::new("harness-bay")
                .text("antenna", antenna)
                .text("number", number.to_string()),
        ),
        (None, 1) => Ok(tag.to_owned()),
        (None, _) => pen.text(
            &Message::new("harness-port")
                .text("item", tag)
                .text("number", number.to_string()),
        ),
    }
}
