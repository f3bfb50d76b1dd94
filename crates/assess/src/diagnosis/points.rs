//! Points of a field test, each with what a healthy station is predicted to give there.

use super::says::NoDiagnosis;
use crate::case::Case;
use crate::proofs::coverage::wanted_field;
use crate::proofs::transmission::{Radiating, wave_plane};
use antenna::direction::{Direction, Plane};
use antenna::fault::FieldPoint;
use coverage::{AtPlace, CoverageError, ErpTable, Study, at_place};
use serde::Serialize;
use station::brief::{Service, Situation};
use station::licence::Polarisation;
use station::readings::{FieldTest, PointReading};
use terrain::{CoverCategory, Position, Surroundings, geodesic};

/// Distances of the ring's points, m.
const DISTANCES_M: [f64; 10] = [
    150.0, 250.0, 400.0, 600.0, 900.0, 1400.0, 2200.0, 3500.0, 6000.0, 10_000.0,
];
/// Bearings of the ring.
const BEARINGS: usize = 8;

/// One point.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TestPoint {
    /// Name of the place, where it is one.
    pub name: Option<String>,
    /// Latitude, degrees.
    pub lat_deg: f64,
    /// Longitude, degrees.
    pub lon_deg: f64,
    /// From the antenna, degrees from true north.
    pub azimuth_deg: f64,
    /// From the antenna, km.
    pub distance_km: f64,
    /// Elevation at which the ray leaves the antenna, degrees; a depression is negative.
    pub elev_deg: f64,
    /// Plane of the measuring antenna.
    pub plane: Plane,
    /// Height of the prediction above ground, m.
    pub height_agl_m: f64,
    /// Field of a healthy station, dBµV/m.
    pub field_dbuv_m: f64,
    /// Spread of that prediction, dB: standard deviation.
    pub spread_db: f64,
}

impl TestPoint {
    pub(super) fn field_point(&self) -> FieldPoint {
        FieldPoint {
            towards: Direction::new(self.azimuth_deg, self.elev_deg),
            plane: self.plane,
        }
    }
}

/// Where to look, and with which power.
pub(super) struct Ring<'a> {
    pub case: &'a Case<'a>,
    pub study: Study,
    pub table: ErpTable,
    pub radiating: &'a Radiating,
    /// Power set against that of the design, dB.
    pub level_db: f64,
}

impl Ring<'_> {
    /// The points read, in the order of the readings, then the station's places, then the ring; and where each reading stands.
    pub fn points(&self, test: Option<&FieldTest>) -> Result<(Vec<TestPoint>, Vec<usize>), NoDiagnosis> {
        let mut points = Vec::new();
        let mut read = Vec::new();
        for reading in test.map_or(&[][..], |t| &t.points) {
            let (name, position) = self.whereabouts(reading)?;
            let point = self
                .at(name.clone(), position)
                .map_err(|why| NoDiagnosis::Point {
                    name: name.unwrap_or_else(|| crate::masts::text_of(position)),
                    why,
                })?;
            read.push(points.len());
            points.push(point);
        }
        for place in &self.case.station.places {
            let Ok(position) = Position::new(place.position.lat_deg(), place.position.lon_deg()) else {
                continue;
            };
            if points.iter().any(|p| p.name.as_ref() == Some(&place.name)) {
                continue;
            }
            // A place out of the study's reach is none of this test.
            points.extend(
                self.at(Some(place.name.clone()), position)
                    .ok()
                    .filter(|p| p.distance_km <= self.study.radius_km),
            );
        }
        points.extend(self.ring(&points));
        Ok((points, read))
    }

    /// Points in sight on dry land round the mast, beyond the near field of the stack.
    fn ring(&self, known: &[TestPoint]) -> Vec<TestPoint> {
        let first_deg = self
            .radiating
            .pattern
            .peak(wave_plane(self.radiating.polarisation.planes()[0]))
            .bearing_deg;
        let nearest_m = self.radiating.stack.far_field_m();
        let mut out = Vec::new();
        for step in 0..BEARINGS {
            let bearing_deg = (first_deg + 360.0 * step as f64 / BEARINGS as f64).rem_euclid(360.0);
            for distance_m in DISTANCES_M {
                if distance_m < nearest_m || distance_m > 1000.0 * self.study.radius_km {
                    continue;
                }
                let to = geodesic::destination(self.study.site, bearing_deg, distance_m);
                let Ok(at) = self.predicted(to) else { continue };
                let dry = at.row.category != CoverCategory::Water
                    && !self.case.world.spot(to).is_ok_and(|s| s.water);
                let fresh = |p: &TestPoint| {
                    (p.distance_km - at.distance_km).abs() > 0.05
                        || (p.azimuth_deg - at.azimuth_deg).abs() > 2.0
                };
                if dry && at.obstacle.is_none() && known.iter().all(fresh) {
                    out.push(self.point(None, to, &at));
                }
            }
        }
        out
    }

    fn whereabouts(&self, reading: &PointReading) -> Result<(Option<String>, Position), NoDiagnosis> {
        if let (Some(azimuth), Some(distance)) = (reading.azimuth, reading.distance) {
            return Ok((
                None,
                geodesic::destination(self.study.site, azimuth.deg(), distance.m()),
            ));
        }
        let asked = reading.place.as_deref().unwrap_or_default();
        let of_file = &self.case.station.places;
        let named = of_file
            .iter()
            .find(|p| p.tag == asked || p.name.eq_ignore_ascii_case(asked))
            .and_then(|p| {
                Some((
                    p.name.clone(),
                    Position::new(p.position.lat_deg(), p.position.lon_deg()).ok()?,
                ))
            });
        let of_world = || {
            let place = self
                .case
                .world
                .places()
                .iter()
                .find(|p| p.name.eq_ignore_ascii_case(asked))?;
            Some((place.name.clone(), place.position))
        };
        let (name, position) = named.or_else(of_world).ok_or_else(|| NoDiagnosis::UnknownPlace {
            asked: asked.to_owned(),
            known: of_file.iter().map(|p| p.name.clone()).collect(),
        })?;
        Ok((Some(name), position))
    }

    fn at(&self, name: Option<String>, to: Position) -> Result<TestPoint, CoverageError> {
        let at = self.predicted(to)?;
        Ok(self.point(name, to, &at))
    }

    fn predicted(&self, to: Position) -> Result<AtPlace, CoverageError> {
        let wanted = wanted_field(self.case, Service::Stereo, Situation::Roof, None);
        at_place(
            self.case.world,
            &self.study,
            to,
            &self.table,
            &wanted,
            Some(Surroundings::Rural),
        )
    }

    fn point(&self, name: Option<String>, to: Position, at: &AtPlace) -> TestPoint {
        let gain = |plane| {
            self.radiating
                .pattern
                .gain_dbd(plane, at.azimuth_deg, at.elev_deg)
        };
        TestPoint {
            name,
            lat_deg: to.lat_deg(),
            lon_deg: to.lon_deg(),
            azimuth_deg: at.azimuth_deg,
            distance_km: at.distance_km,
            elev_deg: at.elev_deg,
            plane: match self.radiating.polarisation {
                Polarisation::Vertical => Plane::Vertical,
                Polarisation::Horizontal => Plane::Horizontal,
                Polarisation::Mixed if gain(Plane::Horizontal) > gain(Plane::Vertical) => Plane::Horizontal,
                Polarisation::Mixed => Plane::Vertical,
            },
            height_agl_m: at.prediction_agl_m,
            field_dbuv_m: at.field_at_prediction_dbuv_m + self.level_db,
            spread_db: at.threshold.spread_db,
        }
    }
}
