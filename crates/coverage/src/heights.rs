//! The antenna's height over the ground around: effective height and height above average terrain.

use terrain::{Position, Profile};

use crate::error::CoverageError;
use crate::world::World;

/// Height over the mean ground towards one azimuth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightTowards {
    /// Degrees clockwise from true north.
    pub azimuth_deg: f64,
    /// Mean ground in the stretch, m above sea.
    pub mean_ground_m: f64,
    /// Radiation centre less mean ground, m; negative where the ground is higher.
    pub height_m: f64,
    /// Share of samples filled or assumed: void or sea by choice, 0…1.
    pub unsure: f64,
}

/// Height above average terrain: eight radials and their mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Haat {
    /// The eight radials, every 45° from true north.
    pub radials: [HeightTowards; 8],
    /// Mean of the eight, m.
    pub height_m: f64,
}

/// Spacing of samples for mean ground, m: 130 points and more in 3 to 16 km, where the rule asks for at least 50.
pub const STEP_M: f64 = 100.0;

/// Stretch for the effective height, km. Rec. ITU-R P.1546-6 (mark V).
pub const EFFECTIVE_KM: (f64, f64) = (3.0, 15.0);

/// Stretch for the height above average terrain, km. 47 CFR 73.313(d) (mark V).
pub const HAAT_KM: (f64, f64) = (3.0, 16.0);

/// Effective heights at 36 azimuths, every 10° from true north.
///
/// # Units
/// - `centre_amsl_m`: radiation centre above sea, m
///
/// # Errors
/// [`CoverageError`]: damaged tiles, or ground missing within 15 km.
///
/// # Source
/// Rec. ITU-R P.1546-6, effective height of the transmitting antenna: mean ground from 3 to 15 km.
pub fn effective_heights(
    world: &dyn World,
    site: Position,
    centre_amsl_m: f64,
) -> Result<[HeightTowards; 36], CoverageError> {
    let mut out = [EMPTY; 36];
    for (k, slot) in out.iter_mut().enumerate() {
        *slot = height_towards(world, site, centre_amsl_m, 10.0 * k as f64, EFFECTIVE_KM)?;
    }
    Ok(out)
}

/// Effective height towards a place: mean ground from 3 to 15 km, on shorter paths from 0.2 of the way to its end.
///
/// # Units
/// - `centre_amsl_m`: radiation centre above sea, m; `path_km`: distance of the place, km
///
/// # Errors
/// As [`effective_heights`], and [`CoverageError::Study`] for a path that is no length.
///
/// # Source
/// Rec. ITU-R P.1546-6.
pub fn effective_height_to(
    world: &dyn World,
    site: Position,
    centre_amsl_m: f64,
    azimuth_deg: f64,
    path_km: f64,
) -> Result<HeightTowards, CoverageError> {
    let stretch_km = if path_km < EFFECTIVE_KM.1 {
        (0.2 * path_km, path_km)
    } else {
        EFFECTIVE_KM
    };
    height_towards(world, site, centre_amsl_m, azimuth_deg, stretch_km)
}

/// Height above average terrain.
///
/// # Units
/// - `centre_amsl_m`: radiation centre above sea, m
///
/// # Errors
/// As [`effective_heights`], to 16 km.
///
/// # Source
/// 47 CFR 73.313(d): mean ground from 3 to 16 km on eight radials every 45°, at least 50 equally spaced points each, then the mean
/// of the eight.
pub fn haat(world: &dyn World, site: Position, centre_amsl_m: f64) -> Result<Haat, CoverageError> {
    let mut radials = [EMPTY; 8];
    for (k, slot) in radials.iter_mut().enumerate() {
        *slot = height_towards(world, site, centre_amsl_m, 45.0 * k as f64, HAAT_KM)?;
    }
    let height_m = radials.iter().map(|r| r.height_m).sum::<f64>() / 8.0;
    Ok(Haat { radials, height_m })
}

const EMPTY: HeightTowards = HeightTowards {
    azimuth_deg: 0.0,
    mean_ground_m: 0.0,
    height_m: 0.0,
    unsure: 0.0,
};

fn height_towards(
    world: &dyn World,
    site: Position,
    centre_amsl_m: f64,
    azimuth_deg: f64,
    (from_km, to_km): (f64, f64),
) -> Result<HeightTowards, CoverageError> {
    if !(0.01..=3000.0).contains(&to_km) {
        return Err(CoverageError::Study {
            what: "path-length",
            value: to_km,
        });
    }
    // At least 50 points in the stretch, whatever its length, and both its ends among the samples.
    let count = ((to_km - from_km) * 1000.0 / STEP_M).ceil().max(50.0);
    let step_km = (to_km - from_km) / count;
    let lead = (from_km / step_km).round();
    let step_km = if lead > 0.0 { from_km / lead } else { step_km };
    let mut profile = Profile::default();
    world.radial_into(
        site,
        azimuth_deg,
        to_km + 0.5 * step_km,
        step_km * 1000.0,
        &mut profile,
    )?;
    let first = profile.distances_km.partition_point(|&d| d < from_km - 1e-6);
    let end = profile.distances_km.partition_point(|&d| d <= to_km + 1e-6);
    if profile.usable_len() < end {
        return Err(CoverageError::MissingGround {
            from_km: profile.distances_km[profile.usable_len()],
        });
    }
    let mean_ground_m = trapezium_mean(&profile.heights_m[first..end]);
    let filled = |q: &terrain::Quality| *q != terrain::Quality::Measured;
    let unsure = profile.quality[first..end].iter().filter(|q| filled(q)).count();
    Ok(HeightTowards {
        azimuth_deg,
        mean_ground_m,
        height_m: centre_amsl_m - mean_ground_m,
        unsure: unsure as f64 / (end - first).max(1) as f64,
    })
}

/// Mean of equally spaced values by the trapezium rule.
fn trapezium_mean(values: &[f64]) -> f64 {
    match values {
        [] => 0.0,
        [one] => *one,
        [first, .., last] => (values.iter().sum::<f64>() - 0.5 * (first + last)) / (values.len() - 1) as f64,
    }
}
