//! Curves that drawings show: patterns, masks, profiles.

use crate::assessment::Curve;
use crate::case::Case;
use crate::outcome::Outcome;
use crate::proofs::transmission::wave_plane;
use words::Message;

/// Lowest depression drawn, degrees below the horizon, and the highest above.
const ELEVATIONS_DEG: (f64, f64) = (-90.0, 20.0);

/// Every curve of the station.
pub fn curves(_: &Case, outcome: &Outcome) -> Vec<Curve> {
    let mut out = Vec::new();
    for check in &outcome.licence.emissions {
        if check.round.is_empty() {
            continue;
        }
        let curve =
            |what: &str, of: &'static str, value: fn(&crate::proofs::licence::Direction) -> f64| Curve {
                id: format!("licence.{}.{what}", check.tag),
                along: Message::new("along-azimuth"),
                along_unit: "°",
                of: Message::new(of),
                unit: "W",
                points: check.round.iter().map(|d| (d.azimuth_deg, value(d))).collect(),
            };
        out.push(curve("allowed", "of-allowed", |d| d.allowed_w));
        out.push(curve("radiated", "of-radiated", |d| d.radiated_w));
    }
    for path in &outcome.transmission.emissions {
        let Ok(radiating) = &path.radiating else { continue };
        for plane in &path.planes {
            let cut = |elev: f64| {
                let gain = radiating
                    .pattern
                    .gain_dbd(wave_plane(plane.plane), plane.azimuth_deg, elev);
                (elev, gain.max(-60.0))
            };
            let steps = ((ELEVATIONS_DEG.1 - ELEVATIONS_DEG.0) / 0.5) as usize;
            out.push(Curve {
                id: format!("antenna.{}.vertical_{}", radiating.tag, plane.plane.word()),
                along: Message::new("along-elevation"),
                along_unit: "°",
                of: Message::new("of-gain"),
                unit: "dBd",
                points: (0..=steps)
                    .map(|i| cut(ELEVATIONS_DEG.0 + 0.5 * i as f64))
                    .collect(),
            });
        }
    }
    for hop in &outcome.link.hops {
        let Some(Ok(radio)) = &hop.radio else { continue };
        let curve = |what: &str, of: &'static str, points: Vec<(f64, f64)>| Curve {
            id: format!("link.{}.{what}", hop.tag),
            along: Message::new("along-distance"),
            along_unit: "km",
            of: Message::new(of),
            unit: "m",
            points,
        };
        out.push(curve("ground", "of-ground", radio.profile.clone()));
        let points = &radio.summary.median.clearance.points;
        out.push(curve(
            "ray",
            "of-ray",
            points
                .iter()
                .map(|p| (p.distance_km, p.ray_amsl_m - p.bulge_m))
                .collect(),
        ));
        out.push(curve(
            "zone",
            "of-zone",
            points
                .iter()
                .map(|p| (p.distance_km, p.ray_amsl_m - p.bulge_m - 0.6 * p.first_zone_m))
                .collect(),
        ));
    }
    for check in &outcome.coverage.wanted {
        let Some(Ok(at)) = &check.place else { continue };
        out.push(Curve {
            id: format!("coverage.{}.ground", check.tag),
            along: Message::new("along-distance"),
            along_unit: "km",
            of: Message::new("of-ground"),
            unit: "m",
            points: at
                .profile
                .distances_km
                .iter()
                .copied()
                .zip(at.profile.heights_m.iter().copied())
                .collect(),
        });
    }
    out
}
