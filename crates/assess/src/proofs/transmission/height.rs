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
        Height::Effective(h) => Some(effective_ground_amsl_m(case, site)? + h.m() - ground_amsl_m),
    }
}

/// The ground that one effective height of a site stands on, above the sea: the mean from 3 to 15 km over all azimuths.
///
/// Effective height is by azimuth (Rec. ITU-R P.1546-6 § 4.3 [M]); where one figure is given for all, it is the mean of the
/// azimuths, as 47 CFR 73.313(d) takes that of its eight.
pub fn effective_ground_amsl_m(case: &Case, site: &station::place::Site) -> Option<f64> {
    let at = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()).ok()?;
    let towards = coverage::effective_heights(case.world, at, 0.0).ok()?;
    Some(towards.iter().map(|t| t.mean_ground_m).sum::<f64>() / towards.len() as f64)
}
