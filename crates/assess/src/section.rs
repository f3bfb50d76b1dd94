//! The ground under a path as it is drawn: bent by the earth, with the straight ray and the zone it wants clear.

use propagation::p526::fresnel_radius_m;
use propagation::refractivity::earth_bulge_m;

/// Effective radius factor that sections are drawn with: median refractivity of temperate land (Rec. ITU-R P.310) [M].
pub const DRAWN_K: f64 = 4.0 / 3.0;

/// Share of the first Fresnel zone that a ray wants clear (Rec. ITU-R P.530-18 § 2.2.2) [V].
pub const CLEAR_SHARE: f64 = 0.6;

/// Points along the zone's edges.
const ZONE_STEPS: usize = 80;

/// Points (km along the path, m above sea), the earth's bulge added to what stands on the ground.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Section {
    /// Ground.
    pub ground: Vec<(f64, f64)>,
    /// Ground with what stands on it; empty where it is bare.
    pub cover: Vec<(f64, f64)>,
    /// The straight ray, end to end.
    pub ray: Vec<(f64, f64)>,
    /// Over what stands in the way, end to end.
    pub string: Vec<(f64, f64)>,
    /// Upper edge of the zone the ray wants clear.
    pub zone_above: Vec<(f64, f64)>,
    /// Its lower edge.
    pub zone_below: Vec<(f64, f64)>,
    /// What stands most in the way.
    pub obstacle: Option<(f64, f64)>,
}

/// A path to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Path<'a> {
    /// Distances from the transmitter, km, rising from 0.
    pub distances_km: &'a [f64],
    /// Ground at each, m above sea.
    pub heights_m: &'a [f64],
    /// What stands on it at each, m.
    pub clutter_m: &'a [f64],
    /// Antenna above the ground at the near end, m.
    pub near_agl_m: f64,
    /// Antenna above the ground at the far end, m.
    pub far_agl_m: f64,
    /// Frequency, MHz.
    pub freq_mhz: f64,
    /// Distance and top above sea of what stands most in the way, km and m.
    pub obstacle: Option<(f64, f64)>,
}

impl Section {
    /// The section of a path, for one effective radius factor.
    ///
    /// # Errors
    /// None: a path of fewer than two points has an empty section.
    pub fn of(path: &Path, k: f64) -> Section {
        let (Some(total), Some(first), Some(last)) = (
            path.distances_km.last().copied().filter(|d| *d > 0.0),
            path.heights_m.first(),
            path.heights_m.last(),
        ) else {
            return Section::default();
        };
        let bent = |d: f64, m: f64| (d, m + earth_bulge_m(d, total - d, k));
        let along = || path.distances_km.iter().zip(path.heights_m);
        let (start, end) = (first + path.near_agl_m, last + path.far_agl_m);
        let on_ray = |d: f64| start + (end - start) * d / total;
        let zone = |side: f64| -> Vec<(f64, f64)> {
            (0..=ZONE_STEPS)
                .map(|i| total * i as f64 / ZONE_STEPS as f64)
                .map(|d| {
                    let radius = fresnel_radius_m(path.freq_mhz / 1000.0, d, total - d);
                    (d, on_ray(d) + side * CLEAR_SHARE * radius)
                })
                .collect()
        };
        let covered = path.clutter_m.iter().any(|c| *c > 0.0);
        let obstacle = path.obstacle.map(|(d, top)| bent(d, top));
        Section {
            ground: along().map(|(d, h)| bent(*d, *h)).collect(),
            cover: along()
                .zip(path.clutter_m)
                .filter(|_| covered)
                .map(|((d, h), c)| bent(*d, h + c))
                .collect(),
            ray: vec![(0.0, start), (total, end)],
            string: std::iter::once((0.0, start))
                .chain(obstacle)
                .chain([(total, end)])
                .collect(),
            zone_above: zone(1.0),
            zone_below: zone(-1.0),
            obstacle,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path<'a>(d: &'a [f64], h: &'a [f64], c: &'a [f64]) -> Path<'a> {
        Path {
            distances_km: d,
            heights_m: h,
            clutter_m: c,
            near_agl_m: 30.0,
            far_agl_m: 10.0,
            freq_mhz: 100.0,
            obstacle: Some((20.0, 80.0)),
        }
    }

    /// Rec. ITU-R P.530: d1·d2/(12.74·k), 17.3·√(d1·d2/(f·d)) by hand for the middle of 40 km at 100 MHz.
    #[test]
    fn ref_the_middle_of_forty_kilometres() {
        let (d, h, c) = ([0.0, 20.0, 40.0], [5.0, 0.0, 25.0], [0.0, 15.0, 0.0]);
        let section = Section::of(&path(&d, &h, &c), DRAWN_K);
        let bulge = 400.0 / (12.74 * 4.0 / 3.0);
        assert!((section.ground[1].1 - bulge).abs() < 1e-9, "{bulge}");
        assert!((section.cover[1].1 - bulge - 15.0).abs() < 1e-9);
        assert_eq!((section.ground[0].1, section.ground[2].1), (5.0, 25.0));
        // The ends stand at 35 m both, so the ray is level; 60 % of 173 m of the first zone.
        let radius = 17.3 * (400.0_f64 / (0.1 * 40.0)).sqrt();
        assert!((section.zone_above[40].1 - 35.0 - 0.6 * radius).abs() < 1e-9);
        assert!((section.zone_below[40].1 - 35.0 + 0.6 * radius).abs() < 1e-9);
        assert_eq!(section.string[1], section.obstacle.unwrap());
    }

    #[test]
    fn bare_ground_has_no_cover_and_no_path_no_section() {
        let (d, h) = ([0.0, 1.0], [0.0, 0.0]);
        assert!(Section::of(&path(&d, &h, &[0.0, 0.0]), DRAWN_K).cover.is_empty());
        assert_eq!(Section::of(&path(&[], &[], &[]), DRAWN_K), Section::default());
        assert_eq!(
            Section::of(&path(&[0.0], &[3.0], &[0.0]), DRAWN_K),
            Section::default()
        );
    }
}
