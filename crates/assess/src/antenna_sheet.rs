//! Everything an antenna sheet draws, as numbers: cuts, the unrolled pattern with its places, currents, the stack, the harness, the
//! licence annex.
//!
//! Made on demand from an [`Outcome`]: an evaluation that only counts people does not pay for it.

use crate::case::Case;
use crate::outcome::Outcome;
use crate::proofs::transmission::{EmissionPath, Radiating, wave_plane};
use antenna::pattern::Pattern;
use serde::Serialize;
use station::licence::Plane;
use utoipa::ToSchema;

/// Least gain drawn, dBd.
const LEAST_DBD: f64 = -40.0;
/// Steps of the unrolled pattern, degrees, and its elevations.
const UNROLLED_AZIMUTH_DEG: f64 = 5.0;
const UNROLLED_ELEV_DEG: f64 = 1.0;
const UNROLLED_FROM_DEG: f64 = -30.0;
const UNROLLED_TO_DEG: f64 = 10.0;

/// The antenna of one emission.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct AntennaSheet {
    /// Tag of the emission.
    pub emission: String,
    /// Tag of the antenna.
    pub antenna: String,
    /// Frequency, MHz.
    pub frequency_mhz: f64,
    /// Solved as wires on the mast; else a draft by the array model.
    pub full: bool,
    /// Largest difference of the draft to the full answer within 10 dB of the maximum, dB; none for a draft.
    pub draft_apart_db: Option<f64>,
    /// Power at the splitter's input, W; absent when the power is not known (ERP is absent, too, then).
    pub power_w: Option<f64>,
    /// VSWR at the splitter's input.
    pub vswr: Option<f64>,
    /// Each plane the bays are made for.
    pub planes: Vec<PlaneSheet>,
    /// Places of the brief as the antenna sees them.
    pub places: Vec<PlaceSeen>,
    /// The bays, from the top.
    pub bays: Vec<BaySheet>,
    /// Every wire, bays first, for drawing; empty for a draft.
    pub wires: Vec<WireSheet>,
    /// Harness, way by way; bays numbered from the top.
    pub harness: Vec<WaySheet>,
    /// Other emissions on the same antenna, by tag; its bays and harness are cut for the first of all.
    pub shares_with: Vec<String>,
    /// What every bay's connector bears with all emissions of the antenna together, from the top; empty with one emission.
    pub together: Vec<ConnectorTogether>,
    /// Cable of the harness: its tag, where the chain has one.
    pub harness_cable: Option<String>,
    /// The annex to the licence: 36 rows, every 10° from north.
    pub annex: Vec<AnnexRow>,
    /// Height above average terrain, mean of eight radials (47 CFR 73.313(d)), m.
    pub haat_m: Option<f64>,
    /// The eight radials: azimuth (degrees), height over the mean ground from 3 to 16 km (m).
    #[schema(value_type = Vec<Vec<f64>>)]
    pub haat_radials: Vec<(f64, f64)>,
}

/// One plane's pattern.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PlaneSheet {
    /// `vertical` or `horizontal`.
    pub plane: String,
    /// Strongest gain, dBd.
    pub gain_dbd: f64,
    /// Towards, degrees from true north.
    pub azimuth_deg: f64,
    /// Elevation of it, degrees; below the horizon negative.
    pub elev_deg: f64,
    /// Strongest ERP, W.
    pub erp_w: Option<f64>,
    /// Round the horizon, every 2°: azimuth (degrees), gain (dBd).
    #[schema(value_type = Vec<Vec<f64>>)]
    pub horizontal: Vec<(f64, f64)>,
    /// Up and down through the strongest azimuth, every ½° from −90° to 90°: elevation (degrees), gain (dBd).
    #[schema(value_type = Vec<Vec<f64>>)]
    pub vertical: Vec<(f64, f64)>,
    /// The pattern unrolled.
    pub unrolled: Unrolled,
}

/// Gain over azimuth and elevation.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Unrolled {
    /// Step of azimuth, degrees; the first column is true north.
    pub azimuth_step_deg: f64,
    /// Elevation of the first row, degrees.
    pub from_elev_deg: f64,
    /// Step of elevation, degrees; rows rise.
    pub elev_step_deg: f64,
    /// Gain, dBd, row by row: rows of one elevation each.
    pub gain_dbd: Vec<Vec<f64>>,
}

/// A place of the brief, seen from the antenna.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PlaceSeen {
    /// Tag of the wish.
    pub tag: String,
    /// Name of the place.
    pub name: String,
    /// Azimuth, degrees.
    pub azimuth_deg: f64,
    /// Elevation of the ray, degrees; below the horizon negative.
    pub elev_deg: f64,
    /// Distance, km.
    pub distance_km: f64,
    /// ERP towards it in the plane its receiver takes, W.
    pub erp_w: f64,
    /// Room in hand of its wish, dB.
    pub margin_db: f64,
}

/// One bay.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BaySheet {
    /// From the top, 1 first.
    pub number: usize,
    /// Height of its middle above ground, m.
    pub height_agl_m: f64,
    /// Bearing from the mast, degrees.
    pub bearing_deg: f64,
    /// Distance from the mast's axis, m.
    pub from_axis_m: f64,
    /// It hangs upside down.
    pub inverted: bool,
    /// Power into it, W.
    pub power_w: Option<f64>,
    /// Peak voltage at its connector, V.
    pub peak_v: Option<f64>,
    /// Current into it against the strongest bay: ratio, and phase against bay 1, degrees.
    pub current_ratio: f64,
    /// Phase of its current against the topmost bay's, degrees.
    pub phase_deg: f64,
    /// VSWR its branch sees with all bays driven.
    pub vswr: Option<f64>,
}

/// One bay's connector under several emissions at once.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct ConnectorTogether {
    /// From the top, 1 first.
    pub number: usize,
    /// Sum of the powers, W.
    pub power_w: f64,
    /// Sum of the peak voltages, V: at some moment they all meet.
    pub peak_v: f64,
}

/// One wire with its current.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WireSheet {
    /// Its name, such as `bay1`, `pole`, `leg2.3`; bays numbered from the bottom here.
    pub name: String,
    /// Radius, m.
    pub radius_m: f64,
    /// Ends: east, north, up from the mast's axis and the middle of the stack, m.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub ends_m: [[f64; 3]; 2],
    /// Along it: position (m from its first end), current (A peak at the power set, or at 1 W without one), phase (degrees).
    #[schema(value_type = Vec<Vec<f64>>)]
    pub current: Vec<(f64, f64, f64)>,
}

/// One way of the harness.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WaySheet {
    /// Way of the splitter, from 1.
    pub way: usize,
    /// Bay it feeds, from the top.
    pub bay: usize,
    /// Length to cut, between the connectors' reference planes, m.
    pub cut_m: f64,
    /// How much longer than the shortest, mm.
    pub longer_mm: f64,
    /// Velocity factor of the cable, ratio.
    pub velocity_ratio: f64,
    /// Electrical length, degrees.
    pub electrical_deg: f64,
    /// Phase it gives against bay 1, degrees; positive leads.
    pub phase_deg: f64,
    /// Share of the power this way is made for, 0 to 1.
    pub share: f64,
}

/// One row of the licence annex.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct AnnexRow {
    /// Azimuth, degrees.
    pub azimuth_deg: f64,
    /// Strongest ERP of all elevations, vertical plane, W.
    pub vertical_w: Option<f64>,
    /// The same, horizontal plane.
    pub horizontal_w: Option<f64>,
    /// ERP towards the horizon, as the licence counts it, W.
    pub horizon_w: Option<f64>,
    /// ERP as the licence counts it, W.
    pub counted_w: Option<f64>,
    /// Allowed, W.
    pub allowed_w: Option<f64>,
    /// Room in hand, dB.
    pub margin_db: Option<f64>,
    /// Effective height, mean ground from 3 to 15 km (Rec. ITU-R P.1546-6), m.
    pub effective_height_m: Option<f64>,
}

/// The sheets of every emission that radiates.
pub fn antenna_sheets(case: &Case, outcome: &Outcome) -> Vec<AntennaSheet> {
    let paths = outcome.transmission.emissions.iter();
    let mut sheets: Vec<AntennaSheet> = paths
        .filter_map(|path| Some(sheet(case, outcome, path, path.radiating.as_ref().ok()?)))
        .collect();
    let seen = sheets.clone();
    for sheet in &mut sheets {
        let all: Vec<&AntennaSheet> = seen.iter().filter(|s| s.antenna == sheet.antenna).collect();
        let others = all.iter().filter(|s| s.emission != sheet.emission);
        sheet.shares_with = others.map(|s| s.emission.clone()).collect();
        if all.len() > 1 {
            sheet.together = together(&all);
        }
    }
    sheets
}

fn together(all: &[&AntennaSheet]) -> Vec<ConnectorTogether> {
    (0..all[0].bays.len())
        .map(|i| {
            let of = |pick: fn(&BaySheet) -> Option<f64>| -> f64 {
                all.iter().filter_map(|s| pick(s.bays.get(i)?)).sum()
            };
            ConnectorTogether {
                number: i + 1,
                power_w: of(|b| b.power_w),
                peak_v: of(|b| b.peak_v),
            }
        })
        .collect()
}

fn sheet(case: &Case, outcome: &Outcome, path: &EmissionPath, radiating: &Radiating) -> AntennaSheet {
    let into_w = path.power_w.map(|w| w * 10f64.powf(-path.line_loss_db / 10.0));
    let accepted_w = path.power_w.map(|w| w * 10f64.powf(-path.loss_db() / 10.0));
    let (annex, haat) = annex(case, outcome, path, radiating);
    AntennaSheet {
        emission: path.tag.clone(),
        antenna: radiating.tag.clone(),
        frequency_mhz: radiating.pattern.frequency_mhz(),
        full: radiating.answered.is_some(),
        draft_apart_db: radiating.answered.as_ref().and_then(|full| {
            let (draft, _) = Pattern::of(&radiating.stack, &radiating.feed).ok()?;
            Some(full.pattern.largest_difference_db(&draft, 10.0))
        }),
        power_w: into_w,
        vswr: radiating.fed.input_vswr().ok().map(|v| v.ratio()),
        planes: radiating
            .polarisation
            .planes()
            .iter()
            .map(|p| plane(*p, radiating, accepted_w))
            .collect(),
        places: places(case, outcome),
        bays: bays(radiating, into_w),
        wires: wires(radiating, into_w),
        harness: harness(radiating),
        shares_with: Vec::new(),
        together: Vec::new(),
        harness_cable: radiating.tails.as_ref().map(|t| t.0.clone()),
        annex,
        haat_m: haat.as_ref().map(|h| h.height_m),
        haat_radials: haat.map_or_else(Vec::new, |h| {
            h.radials.iter().map(|r| (r.azimuth_deg, r.height_m)).collect()
        }),
    }
}

fn plane(plane: Plane, radiating: &Radiating, accepted_w: Option<f64>) -> PlaneSheet {
    let pattern = &radiating.pattern;
    let wave = wave_plane(plane);
    let peak = pattern.peak(wave);
    let gain = |azimuth: f64, elev: f64| pattern.gain_dbd(wave, azimuth, elev).max(LEAST_DBD);
    let rows = ((UNROLLED_TO_DEG - UNROLLED_FROM_DEG) / UNROLLED_ELEV_DEG) as usize;
    let columns = (360.0 / UNROLLED_AZIMUTH_DEG) as usize;
    PlaneSheet {
        plane: plane.word().to_owned(),
        gain_dbd: peak.gain_dbd,
        azimuth_deg: peak.bearing_deg,
        elev_deg: peak.elev_deg,
        erp_w: accepted_w.map(|w| w * 10f64.powf(peak.gain_dbd / 10.0)),
        horizontal: (0..180)
            .map(|i| 2.0 * f64::from(i))
            .map(|azimuth| (azimuth, gain(azimuth, 0.0)))
            .collect(),
        vertical: (-180..=180)
            .map(|i| 0.5 * f64::from(i))
            .map(|elev| (elev, gain(peak.bearing_deg, elev)))
            .collect(),
        unrolled: Unrolled {
            azimuth_step_deg: UNROLLED_AZIMUTH_DEG,
            from_elev_deg: UNROLLED_FROM_DEG,
            elev_step_deg: UNROLLED_ELEV_DEG,
            gain_dbd: (0..=rows)
                .map(|r| UNROLLED_FROM_DEG + UNROLLED_ELEV_DEG * r as f64)
                .map(|elev| {
                    (0..columns)
                        .map(|c| gain(UNROLLED_AZIMUTH_DEG * c as f64, elev))
                        .collect()
                })
                .collect(),
        },
    }
}

fn places(case: &Case, outcome: &Outcome) -> Vec<PlaceSeen> {
    let answered = outcome.coverage.wanted.iter().filter_map(|check| {
        let at = check.place.as_ref()?.as_ref().ok()?;
        let wish = case.station.brief.wanted.iter().find(|w| w.tag == check.tag)?;
        let place = wish.place.as_deref().and_then(|p| case.station.place(p));
        Some(PlaceSeen {
            tag: check.tag.clone(),
            name: place.map_or_else(|| check.tag.clone(), |p| p.name.clone()),
            azimuth_deg: at.azimuth_deg,
            elev_deg: at.elev_deg,
            distance_km: at.distance_km,
            erp_w: 1000.0 * 10f64.powf(at.erp_dbkw / 10.0),
            margin_db: at.margin_db,
        })
    });
    answered.collect()
}

fn bays(radiating: &Radiating, into_w: Option<f64>) -> Vec<BaySheet> {
    let fed = &radiating.fed;
    let count = radiating.mount.bays.len();
    let strongest = fed.currents_a.iter().map(|i| i.norm()).fold(0.0, f64::max);
    let top = fed.currents_a.last().map_or(0.0, |i| i.arg());
    (0..count)
        .rev()
        .map(|i| {
            let bay = &radiating.mount.bays[i];
            let gamma = fed.branch_reflection[i].norm();
            BaySheet {
                number: count - i,
                height_agl_m: radiating.centre_agl_m + bay.height_m,
                bearing_deg: bay.bearing_deg,
                from_axis_m: bay.stand_off_m,
                inverted: bay.inverted,
                power_w: into_w.map(|w| w * fed.bay_w[i]),
                peak_v: into_w.map(|w| w.sqrt() * fed.volts_v[i].norm()),
                current_ratio: fed.currents_a[i].norm() / strongest,
                phase_deg: turned(fed.currents_a[i].arg() - top),
                vswr: (gamma < 1.0).then(|| (1.0 + gamma) / (1.0 - gamma)),
            }
        })
        .collect()
}

/// An angle in radians as degrees from −180 to 180.
fn turned(rad: f64) -> f64 {
    (rad.to_degrees() + 180.0).rem_euclid(360.0) - 180.0
}

fn wires(radiating: &Radiating, into_w: Option<f64>) -> Vec<WireSheet> {
    let Some(answered) = &radiating.answered else {
        return Vec::new();
    };
    let scale = into_w.unwrap_or(1.0).sqrt();
    let near = |a: [f64; 3], b: [f64; 3]| (0..3).all(|i| (a[i] - b[i]).abs() < 1e-9);
    answered
        .wires
        .iter()
        .enumerate()
        .filter_map(|(index, (name, radius_m))| {
            let own: Vec<_> = answered.pieces.iter().filter(|p| p.wire == index).collect();
            let first = own.first()?;
            // The end that no other piece of the wire shares.
            let starts = own
                .iter()
                .flat_map(|p| [p.start_m, p.end_m])
                .find(|end| {
                    own.iter()
                        .flat_map(|p| [p.start_m, p.end_m])
                        .filter(|other| near(*other, *end))
                        .count()
                        == 1
                })
                .unwrap_or(first.start_m);
            let from = |p: [f64; 3]| (0..3).map(|i| (p[i] - starts[i]).powi(2)).sum::<f64>().sqrt();
            let far = own
                .iter()
                .flat_map(|p| [p.start_m, p.end_m])
                .max_by(|a, b| from(*a).total_cmp(&from(*b)))
                .unwrap_or(first.end_m);
            let mut current: Vec<(f64, f64, f64)> = own
                .iter()
                .flat_map(|p| {
                    // Along the wire, whichever way the piece was counted.
                    let sign = if from(p.end_m) >= from(p.start_m) {
                        1.0
                    } else {
                        -1.0
                    };
                    [(p.start_m, p.start_a), (p.end_m, p.end_a)].map(|(at, a)| {
                        let a = a * (sign * scale);
                        (from(at), a.norm(), a.arg().to_degrees())
                    })
                })
                .collect();
            current.sort_by(|a, b| a.0.total_cmp(&b.0));
            current.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-9);
            Some(WireSheet {
                name: name.clone(),
                radius_m: *radius_m,
                ends_m: [starts, far],
                current,
            })
        })
        .collect()
}

fn harness(radiating: &Radiating) -> Vec<WaySheet> {
    let feed = &radiating.feed;
    let freq_mhz = radiating.pattern.frequency_mhz();
    let count = feed.branches.len();
    let shortest = feed
        .branches
        .iter()
        .map(|b| b.cable.length_m)
        .fold(f64::INFINITY, f64::min);
    let total: f64 = feed.branches.iter().map(|b| b.share).sum();
    let top_deg = feed.branches.last().map_or(0.0, |b| b.cable.phase_deg(freq_mhz));
    (0..count)
        .rev()
        .map(|i| {
            let branch = &feed.branches[i];
            let electrical_deg = branch.cable.phase_deg(freq_mhz);
            WaySheet {
                way: count - i,
                bay: count - i,
                cut_m: branch.cable.length_m,
                longer_mm: 1e3 * (branch.cable.length_m - shortest),
                velocity_ratio: branch.cable.line.velocity_ratio,
                electrical_deg,
                phase_deg: turned((top_deg - electrical_deg).to_radians()),
                share: branch.share / total,
            }
        })
        .collect()
}

fn annex(
    case: &Case,
    outcome: &Outcome,
    path: &EmissionPath,
    radiating: &Radiating,
) -> (Vec<AnnexRow>, Option<coverage::Haat>) {
    let centre = radiating.ground_amsl_m + radiating.centre_agl_m;
    let at = case
        .station
        .site(&radiating.site)
        .and_then(|s| terrain::Position::new(s.position.lat_deg(), s.position.lon_deg()).ok());
    let heights = at.and_then(|at| coverage::effective_heights(case.world, at, centre).ok());
    let haat = at.and_then(|at| coverage::haat(case.world, at, centre).ok());
    let check = outcome.licence.emissions.iter().find(|c| c.tag == path.tag);
    let planes = radiating.polarisation.planes();
    let strongest = |plane: Plane, azimuth: f64| {
        planes
            .contains(&plane)
            .then(|| path.strongest_erp_w(plane, azimuth))
            .flatten()
    };
    let rows = (0..36)
        .map(|k| {
            let azimuth_deg = 10.0 * f64::from(k);
            let row = check.and_then(|c| c.round.iter().find(|d| d.azimuth_deg == azimuth_deg));
            AnnexRow {
                azimuth_deg,
                vertical_w: strongest(Plane::Vertical, azimuth_deg),
                horizontal_w: strongest(Plane::Horizontal, azimuth_deg),
                horizon_w: row.map(|r| r.horizon_w),
                counted_w: row.map(|r| r.radiated_w),
                allowed_w: row.map(|r| r.allowed_w),
                margin_db: row.map(|r| r.margin_db()),
                effective_height_m: heights.as_ref().map(|h| h[k as usize].height_m),
            }
        })
        .collect();
    (rows, haat)
}
