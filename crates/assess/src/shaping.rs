//! An antenna shaped for the people it serves: bearings, stand-off, phases and powers of its bays under the licence, as edits.
//!
//! The search is [`antenna::mount::shape`]; here it gets the station's own mast, harness, licence, ratings and people, and its answer
//! becomes edits that are judged like any other.

use crate::case::{Case, Fields};
use crate::outcome::{Outcome, evaluate};
use crate::proofs::coverage as heard;
use crate::proofs::transmission::{EmissionPath, Radiating, wave_plane};
use crate::weigh::edited;
use antenna::mount::shape::{Bounds, Goal, Harnessing, Mask, Shaped, best_equal, shaped};
use antenna::mount::{Mast, MountError};
use coverage::{CoverageError, CoverageIndex, Listening, ReceiverPlane};
use serde::Serialize;
use serde_json::json;
use station::Edit;
use station::brief::{Service, Situation};
use station::licence::{Licence, Polarisation};
use station::value::Counted;

/// How far bays may stand off the mast's face, m: nearer they touch the mast, further a bracket sags (common practice, no source).
const FACE_OFF_M: (f64, f64) = (0.4, 1.4);
/// Largest difference of two bays' shares, dB: what unequal splitters are made for (common practice, no source).
const SHARE_SPREAD_DB: f64 = 10.0;

/// A stack shaped for people, against the station as it is and the best equal-phase stack.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShapedAntenna {
    /// Emission.
    pub emission: String,
    /// Antenna.
    pub antenna: String,
    /// The bays chosen, from the top.
    pub bays: Vec<ShapedBay>,
    /// Stand-off as the file states it, m.
    pub stand_off_m: f64,
    /// The station as it is.
    pub now: Given,
    /// The best stack of as many bays on one side, alike in phase and power.
    pub equal: Given,
    /// The shaped stack, by the search.
    pub shaped: Given,
    /// The station with the edits, assessed in full; `None` where they do not make a station that radiates.
    pub assessed: Option<Given>,
    /// Least power at the splitter with which a shaped stack reaches as many as the equal one, W; none where that was not asked.
    pub as_many_w: Option<f64>,
    /// Places of the bays solved, and excitations looked at.
    pub solved: usize,
    /// Excitations looked at.
    pub looked_at: usize,
    /// What makes it so.
    pub edits: Vec<Edit>,
}

/// One bay as chosen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ShapedBay {
    /// From the top, 1 first.
    pub number: usize,
    /// Bearing from the mast, degrees from true north.
    pub azimuth_deg: f64,
    /// Phase against the topmost, degrees; positive leads.
    pub phase_deg: f64,
    /// Share of the power, 0 to 1.
    pub share: f64,
    /// Length of its branch cable, between the connectors' reference planes, m.
    pub cut_m: f64,
}

/// People and power.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Given {
    /// People with stereo on the roof.
    pub people: f64,
    /// Power at the splitter, W.
    pub power_w: f64,
    /// Room to the licence in its tightest direction, dB.
    pub mask_margin_db: f64,
}

/// Why nothing can be shaped.
#[derive(Debug, Clone, PartialEq)]
pub enum NoShape {
    /// No such emission, or nothing radiates there yet.
    NothingRadiates,
    /// There is no loss field of the emission.
    NoField,
    /// The field refuses what is wanted.
    Coverage(CoverageError),
    /// The search refuses.
    Mount(MountError),
}

/// Shapes the antenna of an emission for people with stereo on the roof; with `least_power` the power for as many as the equal
/// stack reaches is sought, too.
///
/// # Errors
/// [`NoShape`]: what is missing.
pub fn shape_for_people(
    case: &Case,
    fields: &Fields,
    outcome: &Outcome,
    emission: &str,
    least_power: bool,
) -> Result<ShapedAntenna, NoShape> {
    let path = outcome
        .transmission
        .emissions
        .iter()
        .find(|p| p.tag == emission)
        .ok_or(NoShape::NothingRadiates)?;
    let radiating = path.radiating.as_ref().map_err(|_| NoShape::NothingRadiates)?;
    let Some(Ok(field)) = fields.by_emission.get(emission) else {
        return Err(NoShape::NoField);
    };
    let wanted = heard::wanted_field(case, Service::Stereo, Situation::Roof, None);
    let index = CoverageIndex::new(field, &wanted).map_err(NoShape::Coverage)?;
    let plane = match radiating.polarisation {
        Polarisation::Vertical => ReceiverPlane::Vertical,
        Polarisation::Horizontal => ReceiverPlane::Horizontal,
        Polarisation::Mixed => ReceiverPlane::Stronger,
    };
    let audience = Listening::new(&index, plane);
    let model = case.station.emission(emission).ok_or(NoShape::NothingRadiates)?;
    let bounds = bounds(&model.licence, path, radiating).ok_or(NoShape::NothingRadiates)?;
    let harness = harness(radiating);
    let mount = &radiating.mount;
    let equal = best_equal(mount, &harness, &audience, &bounds, Goal::MostPeople).map_err(NoShape::Mount)?;
    let best = |goal| shaped(mount, &harness, &audience, &bounds, goal, Some(&equal)).map_err(NoShape::Mount);
    let found = best(Goal::MostPeople)?;
    let as_many_w = least_power
        .then(|| best(Goal::LeastPower { people: equal.people }))
        .transpose()?
        .map(|frugal| frugal.power_w);
    let edits = edits(case, radiating, &found);
    let given = |s: &Shaped| Given {
        people: s.people,
        power_w: s.power_w,
        mask_margin_db: 10.0 * (s.mask_w / s.power_w).log10(),
    };
    Ok(ShapedAntenna {
        emission: emission.to_owned(),
        antenna: radiating.tag.clone(),
        bays: bays(&harness, &found)?,
        stand_off_m: stand_off_m(radiating, &found),
        now: now(outcome, emission).ok_or(NoShape::NothingRadiates)?,
        equal: given(&equal),
        shaped: given(&found),
        assessed: assessed(case, fields, emission, &edits),
        as_many_w,
        solved: found.solved,
        looked_at: found.looked_at,
        edits,
    })
}

/// Every degree of the licence, what the transmitter and the bays bear, and where brackets reach.
fn bounds(licence: &Licence, path: &EmissionPath, radiating: &Radiating) -> Option<Bounds> {
    let before = 10f64.powf(-path.line_loss_db / 10.0);
    let stated = path.power_stated.then_some(path.power_w).flatten();
    let most_w = stated.or(path.rated_w).or(path.power_w)? * before;
    let masks = licence.erp.value().map_or_else(Vec::new, |limit| {
        let limit_dbw = 10.0 * limit.erp().w().log10();
        let rows = |planes: &[station::licence::Plane]| -> Vec<f64> {
            (0..360)
                .map(f64::from)
                .map(|az| {
                    let strictest = planes
                        .iter()
                        .map(|p| licence.attenuation_db(*p, az))
                        .fold(f64::NEG_INFINITY, f64::max);
                    limit_dbw - strictest
                })
                .collect()
        };
        let planes = radiating.polarisation.planes();
        match limit.counted {
            Counted::PerPlane => planes
                .iter()
                .map(|p| Mask {
                    plane: Some(wave_plane(*p)),
                    dbw: rows(&[*p]),
                })
                .collect(),
            // A plane the bays are not made for is not counted, as in the licence's own check.
            Counted::Total if planes.len() == 1 => vec![Mask {
                plane: Some(wave_plane(planes[0])),
                dbw: rows(planes),
            }],
            Counted::Total => vec![Mask {
                plane: None,
                dbw: rows(planes),
            }],
        }
    });
    let reach = radiating.mount.mast.reach_m();
    let off = match radiating.mount.mast {
        Mast::None => radiating
            .mount
            .bays
            .first()
            .map_or((0.0, 0.0), |b| (b.stand_off_m, b.stand_off_m)),
        _ => (reach + FACE_OFF_M.0, reach + FACE_OFF_M.1),
    };
    Some(Bounds {
        masks,
        power_w: most_w,
        bay_w: radiating.bay_rated_w,
        stand_off_m: off,
        share_spread_db: SHARE_SPREAD_DB,
    })
}

fn harness(radiating: &Radiating) -> Harnessing {
    let feed = &radiating.feed;
    let shortest = feed
        .branches
        .iter()
        .min_by(|a, b| a.cable.length_m.total_cmp(&b.cable.length_m))
        .expect("a stack has bays");
    Harnessing {
        splitter: feed.splitter.clone(),
        line: shortest.cable.line,
        shortest_m: shortest.cable.length_m,
        conductor_c: feed.conductor_c,
    }
}

fn bays(harness: &Harnessing, found: &Shaped) -> Result<Vec<ShapedBay>, NoShape> {
    let feed = harness
        .feed(&found.excitation, found.plan.frequency_mhz)
        .map_err(NoShape::Mount)?;
    let count = found.plan.bays.len();
    let top = found.excitation.last().map_or(0.0, |e| e.phase_deg);
    let total: f64 = found.excitation.iter().map(|e| e.share).sum();
    Ok((0..count)
        .rev()
        .map(|i| ShapedBay {
            number: count - i,
            azimuth_deg: found.plan.bays[i].bearing_deg,
            phase_deg: turned(found.excitation[i].phase_deg - top),
            share: found.excitation[i].share / total,
            cut_m: feed.branches[i].cable.length_m,
        })
        .collect())
}

/// Degrees from −180 to 180.
fn turned(deg: f64) -> f64 {
    (deg + 180.0).rem_euclid(360.0) - 180.0
}

/// The stand-off as the file counts it: the search counts from the mast's axis.
fn stand_off_m(radiating: &Radiating, found: &Shaped) -> f64 {
    let chosen = found.plan.bays.first().map_or(0.0, |b| b.stand_off_m);
    ((chosen - radiating.axis_offset_m) * 1000.0).round() / 1000.0
}

fn edits(case: &Case, radiating: &Radiating, found: &Shaped) -> Vec<Edit> {
    let path = |key: &str| format!("antennas.{}.{key}", radiating.tag);
    let top = found.excitation.last().map_or(0.0, |e| e.phase_deg);
    let total: f64 = found.excitation.iter().map(|e| e.share).sum();
    let from_top = |text: &dyn Fn(usize) -> String| -> serde_json::Value {
        json!((0..found.plan.bays.len()).rev().map(text).collect::<Vec<_>>())
    };
    let mut out = vec![
        case.set(
            path("bay_azimuths"),
            from_top(&|i| format!("{}°", found.plan.bays[i].bearing_deg)),
        ),
        case.set(
            path("bay_shares"),
            from_top(&|i| {
                format!(
                    "{} %",
                    (1000.0 * found.excitation[i].share / total).round() / 10.0
                )
            }),
        ),
        case.set(
            path("bay_phases"),
            from_top(&|i| format!("{}°", turned(found.excitation[i].phase_deg - top))),
        ),
    ];
    if radiating.mount.mast != Mast::None {
        out.push(case.set(path("stand_off"), format!("{} m", stand_off_m(radiating, found))));
    }
    out
}

fn now(outcome: &Outcome, emission: &str) -> Option<Given> {
    let path = outcome
        .transmission
        .emissions
        .iter()
        .find(|p| p.tag == emission)?;
    let covered = outcome.coverage.emissions.iter().find(|c| c.tag == emission)?;
    let check = outcome.licence.emissions.iter().find(|c| c.tag == emission)?;
    Some(Given {
        people: covered.served.first()?.people,
        power_w: path.power_w? * 10f64.powf(-path.line_loss_db / 10.0),
        mask_margin_db: check.tightest.map_or(f64::INFINITY, |d| d.margin_db()),
    })
}

/// The station with the edits, evaluated: the same field, since neither place nor height is moved.
fn assessed(case: &Case, fields: &Fields, emission: &str, edits: &[Edit]) -> Option<Given> {
    let (file, document, station) = edited(case, edits)?;
    let other = Case {
        file: &file,
        document: &document,
        station: &station,
        ..*case
    };
    now(&evaluate(&other, fields), emission)
}
