//! The licence: radiated power in every plane and sector, heights, positions, conditions.

use crate::case::Case;
use crate::proofs::transmission::{self, EmissionPath, wave_plane};
use station::design::Emission;
use station::licence::{Licence, Plane};
use station::value::Counted;

/// Azimuths at which the licence is checked, degrees apart: rows of a mask stand 10° apart, so nothing falls between.
const STEP_DEG: usize = 1;

/// What the licence says to what is built.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// One for each emission, in the order of the file.
    pub emissions: Vec<LicenceCheck>,
}

/// One emission against its licence.
#[derive(Debug, Clone, PartialEq)]
pub struct LicenceCheck {
    /// Tag of the emission.
    pub tag: String,
    /// Licensed ERP, W.
    pub erp_w: Option<f64>,
    /// The direction with the least room.
    pub tightest: Option<Direction>,
    /// Every azimuth, 360 of them from north clockwise: allowed and radiated, W, by the licence's way of counting.
    pub round: Vec<Direction>,
    /// Conditions on the field, in the order of the file.
    pub conditions: Vec<ConditionCheck>,
    /// Distance of the antenna from its licensed position, m.
    pub off_position_m: Option<f64>,
    /// Antenna height over the licensed, m; negative is below.
    pub over_height_m: Option<f64>,
}

/// One azimuth against the mask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direction {
    /// Degrees from true north.
    pub azimuth_deg: f64,
    /// The plane with the least room; `None` when the sum of both counts.
    pub plane: Option<Plane>,
    /// Allowed ERP, W.
    pub allowed_w: f64,
    /// Radiated ERP, the strongest of all elevations, W.
    pub radiated_w: f64,
    /// Radiated towards the horizon, W.
    pub horizon_w: f64,
}

impl Direction {
    /// Room in hand, dB.
    pub fn margin_db(&self) -> f64 {
        10.0 * (self.allowed_w / self.radiated_w).log10()
    }
}

/// A condition such as "below 66 dBµV/m at 5 km".
#[derive(Debug, Clone, PartialEq)]
pub struct ConditionCheck {
    /// The limit.
    pub below_dbuv_m: f64,
    /// The strongest field there; `None` when it could not be computed.
    pub field_dbuv_m: Option<f64>,
    /// Towards, degrees.
    pub azimuth_deg: Option<f64>,
    /// Distance, km.
    pub distance_km: Option<f64>,
}

impl LicenceCheck {
    /// How much more may be radiated, dB: under the licensed ERP in every direction, and under the field that each condition
    /// allows, where it could be computed. `None` where the licence counts nothing.
    pub fn room_db(&self) -> Option<f64> {
        let under = |c: &ConditionCheck| Some(c.below_dbuv_m - c.field_dbuv_m?);
        let tight = self.tightest?.margin_db();
        Some(self.conditions.iter().filter_map(under).fold(tight, f64::min))
    }
}

/// Gains and limits at one azimuth, by the licence's way of counting: for each row the plane, the ratio of radiated to
/// transmitter power and the allowed ERP.
fn rows(licence: &Licence, path: &EmissionPath, azimuth_deg: f64) -> Vec<(Option<Plane>, f64, f64)> {
    let (Ok(radiating), Some(limit)) = (&path.radiating, licence.erp.value()) else {
        return Vec::new();
    };
    let limit_w = limit.erp().w();
    let loss = 10f64.powf(-path.loss_db() / 10.0);
    let of = |plane: Plane| {
        let gain_db = radiating.pattern.strongest_dbd(wave_plane(plane), azimuth_deg);
        let allowed = limit_w * 10f64.powf(-licence.attenuation_db(plane, azimuth_deg) / 10.0);
        (plane, loss * 10f64.powf(gain_db / 10.0), allowed)
    };
    let planes = radiating.polarisation.planes();
    match limit.counted {
        Counted::PerPlane => planes
            .iter()
            .map(|p| of(*p))
            .map(|(plane, ratio, allowed)| (Some(plane), ratio, allowed))
            .collect(),
        Counted::Total => {
            let all: Vec<_> = planes.iter().map(|p| of(*p)).collect();
            let ratio = all.iter().map(|r| r.1).sum();
            let allowed = all.iter().map(|r| r.2).fold(f64::INFINITY, f64::min);
            vec![(None, ratio, allowed)]
        }
    }
}

fn azimuths() -> impl Iterator<Item = f64> {
    (0..360).step_by(STEP_DEG).map(|a| a as f64)
}

/// Transmitter power that just meets the licence in its strictest direction, W.
pub fn allowed_power_w(emission: &Emission, path: &EmissionPath) -> Option<f64> {
    azimuths()
        .flat_map(|az| rows(&emission.licence, path, az))
        .map(|(_, ratio, allowed)| allowed / ratio)
        .reduce(f64::min)
}

/// Strongest ERP as the licence counts it, W: per plane the strongest plane, in total the planes' sum.
pub fn counted_erp_w(emission: &Emission, path: &EmissionPath) -> Option<f64> {
    let power_w = path.power_w?;
    let per_plane = emission
        .licence
        .erp
        .value()
        .is_some_and(|e| e.counted == Counted::PerPlane);
    let radiating = path.radiating.as_ref().ok()?;
    let planes = radiating.polarisation.planes();
    let loss = 10f64.powf(-path.loss_db() / 10.0);
    let strongest = azimuths()
        .map(|az| {
            let each = planes
                .iter()
                .map(|p| 10f64.powf(radiating.pattern.strongest_dbd(wave_plane(*p), az) / 10.0));
            if per_plane {
                each.fold(0.0, f64::max)
            } else {
                each.sum()
            }
        })
        .fold(0.0, f64::max);
    Some(power_w * loss * strongest)
}

/// Judges every emission by its licence.
pub fn evaluate(case: &Case, transmission: &transmission::Outcome) -> Outcome {
    let emissions = case
        .station
        .emissions
        .iter()
        .zip(&transmission.emissions)
        .map(|(emission, path)| check(case, emission, path))
        .collect();
    Outcome { emissions }
}

fn check(case: &Case, emission: &Emission, path: &EmissionPath) -> LicenceCheck {
    let licence = &emission.licence;
    let round: Vec<Direction> = match path.power_w {
        Some(power_w) => azimuths()
            .filter_map(|azimuth_deg| {
                rows(licence, path, azimuth_deg)
                    .into_iter()
                    .map(|(plane, ratio, allowed_w)| Direction {
                        azimuth_deg,
                        plane,
                        allowed_w,
                        radiated_w: power_w * ratio,
                        horizon_w: horizon_w(path, plane, azimuth_deg),
                    })
                    .min_by(|a, b| a.margin_db().total_cmp(&b.margin_db()))
            })
            .collect(),
        None => Vec::new(),
    };
    let tightest = round
        .iter()
        .copied()
        .min_by(|a, b| a.margin_db().total_cmp(&b.margin_db()));
    LicenceCheck {
        tag: emission.tag.clone(),
        erp_w: licence.erp.value().map(|e| e.erp().w()),
        tightest,
        round,
        conditions: licence
            .conditions
            .iter()
            .map(|c| condition(case, path, c))
            .collect(),
        off_position_m: off_position_m(case, emission),
        over_height_m: over_height_m(case, licence, path),
    }
}

fn horizon_w(path: &EmissionPath, plane: Option<Plane>, azimuth_deg: f64) -> f64 {
    let Ok(radiating) = &path.radiating else {
        return 0.0;
    };
    radiating
        .polarisation
        .planes()
        .iter()
        .filter(|p| plane.is_none_or(|only| only == **p))
        .filter_map(|p| path.erp_w(*p, azimuth_deg, 0.0))
        .sum()
}

fn off_position_m(case: &Case, emission: &Emission) -> Option<f64> {
    let licensed = emission.licence.position?;
    let antenna = case.station.antenna(emission.antenna.as_deref()?)?;
    let site = case.station.site(&antenna.site)?;
    let position = |p: quantity::Position| terrain::Position::new(p.lat_deg(), p.lon_deg()).ok();
    Some(terrain::geodesic::span(position(licensed)?, position(site.position)?).length_m)
}

fn over_height_m(case: &Case, licence: &Licence, path: &EmissionPath) -> Option<f64> {
    let radiating = path.radiating.as_ref().ok()?;
    let site = case.station.site(&radiating.site)?;
    match licence.height? {
        quantity::Height::AboveGround(h) => Some(radiating.centre_agl_m - h.m()),
        quantity::Height::AboveSea(h) => Some(radiating.ground_amsl_m + radiating.centre_agl_m - h.m()),
        quantity::Height::Effective(h) => {
            let over = transmission::effective_ground_amsl_m(case, site)? + h.m();
            Some(radiating.ground_amsl_m + radiating.centre_agl_m - over)
        }
    }
}

fn condition(case: &Case, path: &EmissionPath, condition: &station::brief::FieldCondition) -> ConditionCheck {
    let mut out = ConditionCheck {
        below_dbuv_m: condition.below.dbuv_m(),
        field_dbuv_m: None,
        azimuth_deg: None,
        distance_km: condition.at.map(|d| d.km()),
    };
    let Some(points) = crate::proofs::coverage::condition_points(case, path, condition) else {
        return out;
    };
    let strongest = points.into_iter().max_by(|a, b| a.2.total_cmp(&b.2));
    if let Some((azimuth_deg, distance_km, field)) = strongest {
        out.field_dbuv_m = Some(field);
        out.azimuth_deg = Some(azimuth_deg);
        out.distance_km = Some(distance_km);
    }
    out
}
