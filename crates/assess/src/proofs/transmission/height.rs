//! Heights at a site: its ground, the antenna's centre, the mean ground round it.

use crate::case::Case;
use quantity::Height;

/// Height of a site's ground above the sea: as stated, else from the terrain.
pub fn ground_amsl_m(case: &Case, site: &station::place::Site) -> Option<f64> {
    match site.ground.value() {
        Some(height) => Some(height.m()),
        None => {
            let at = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()).ok()?;
            case.world.spot(at).ok().map(|s| s.height_m)
        }
    }
}

/// Height of the antenna's centre above the ground at the mast, whatever it was stated above.
pub fn centre_agl_m(
    case: &Case,
    site: &station::place::Site,
    ground_amsl_m: f64,
    height: Height,
) -> Option<f64> {
    match height {
        Height::AboveGround(h) => Some(h.m()),
        Height::AboveSea(h) => Some(h.m() - ground_amsl_m),
        Height::Effective(h) => {
            // Effective height is over the mean ground from 3 to 15 km, all round (Rec. ITU-R P.1546-6 § 4.3 [M]).
            let at = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()).ok()?;
            let rows = mean_ground_m(case, at)?;
            let mean = rows.iter().sum::<f64>() / rows.len() as f64;
            Some(mean + h.m() - ground_amsl_m)
        }
    }
}

/// Mean ground from 3 to 15 km above the sea at every 10°, m: what effective heights stand on (Rec. ITU-R P.1546-6 § 4.3).
pub fn mean_ground_m(case: &Case, at: terrain::Position) -> Option<Vec<f64>> {
    let step_m = 100.0;
    let mut profile = terrain::Profile::default();
    (0..36)
        .map(|i| {
            case.world
                .radial_into(at, f64::from(i) * 10.0, 15.0, step_m, &mut profile)
                .ok()?;
            let far: Vec<f64> = profile
                .distances_km
                .iter()
                .zip(&profile.heights_m)
                .filter(|(d, _)| **d >= 3.0 - 1e-9)
                .map(|(_, h)| *h)
                .collect();
            (!far.is_empty()).then(|| far.iter().sum::<f64>() / far.len() as f64)
        })
        .collect()
}
