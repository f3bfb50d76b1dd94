//! The ray over the ground, point by point.

use super::error::{HopError, positive};
use crate::p525::wavelength_m;
use crate::p526::{average_terrain_obstruction_db, fresnel_radius_m, knife_edge_nu};
use crate::refractivity::earth_bulge_m;

/// Ground and aerials of a hop.
#[derive(Debug, Clone, Copy)]
pub struct ProfileInput<'a> {
    /// Distances from the transmitter, km: first 0, rising strictly, the last is the receiver.
    pub distance_km: &'a [f64],
    /// Heights above sea level of what stands there (ground, and trees at full growth or roofs), m; the two end values are bare
    /// ground.
    pub height_amsl_m: &'a [f64],
    /// Transmitting aerial above ground, m.
    pub tx_agl_m: f64,
    /// Receiving aerial above ground, m.
    pub rx_agl_m: f64,
    /// Frequency, GHz.
    pub freq_ghz: f64,
}

impl ProfileInput<'_> {
    /// Path length, km; 0 for an empty profile.
    pub fn path_km(&self) -> f64 {
        self.distance_km.last().copied().unwrap_or(0.0)
    }

    /// Transmitting aerial above sea level, m.
    pub fn tx_amsl_m(&self) -> f64 {
        self.height_amsl_m.first().copied().unwrap_or(0.0) + self.tx_agl_m
    }

    /// Receiving aerial above sea level, m.
    pub fn rx_amsl_m(&self) -> f64 {
        self.height_amsl_m.last().copied().unwrap_or(0.0) + self.rx_agl_m
    }

    pub(super) fn check(&self) -> Result<(), HopError> {
        let points = self.distance_km.len();
        if points < 3 || self.height_amsl_m.len() != points {
            return Err(HopError::TooFewPoints);
        }
        if let Some(index) = self.height_amsl_m.iter().position(|h| !h.is_finite()) {
            return Err(HopError::HeightNotFinite { index });
        }
        for (index, &distance_km) in self.distance_km.iter().enumerate() {
            let rises = match index {
                0 => distance_km == 0.0,
                _ => distance_km > self.distance_km[index - 1] && distance_km.is_finite(),
            };
            if !rises {
                return Err(HopError::DistancesNotRising { index, distance_km });
            }
        }
        positive("tx_agl_m", self.tx_agl_m)?;
        positive("rx_agl_m", self.rx_agl_m)?;
        positive("freq_ghz", self.freq_ghz)
    }
}

/// The ray over one point of the profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointClearance {
    /// Position in the profile.
    pub index: usize,
    /// Distance from the transmitter, km.
    pub distance_km: f64,
    /// Straight ray above sea level, m.
    pub ray_amsl_m: f64,
    /// Rise of the Earth against the chord at this k, m.
    pub bulge_m: f64,
    /// Ray over obstacle and bulge, m; negative when obstructed.
    pub clearance_m: f64,
    /// First Fresnel radius, m.
    pub first_zone_m: f64,
    /// Clearance over first Fresnel radius.
    pub clearance_ratio: f64,
    /// Diffraction parameter of this point as a knife edge.
    pub nu: f64,
}

/// Clearance of a whole profile at one k.
#[derive(Debug, Clone, PartialEq)]
pub struct ClearanceAtK {
    /// Effective radius factor.
    pub k: f64,
    /// Every point between the ends, in order.
    pub points: Vec<PointClearance>,
    /// The point with the least share of the first zone.
    pub worst: PointClearance,
    /// Ray free of every point.
    pub line_of_sight: bool,
    /// 0.6 of the first Fresnel zone free at every point.
    pub clears_06_f1: bool,
    /// P.530's estimate for average terrain at the worst point, dB; `None` under 15 dB.
    pub average_terrain_db: Option<f64>,
}

impl ClearanceAtK {
    /// Metres by which the ray falls short of `ratio · F1` at the point that misses it most; 0 when none does.
    pub fn shortfall_m(&self, ratio: f64) -> f64 {
        self.points
            .iter()
            .map(|p| ratio * p.first_zone_m - p.clearance_m)
            .fold(0.0, f64::max)
    }
}

/// Clearance along a profile at one k.
///
/// # Errors
/// [`HopError`] for a profile that does not hold together, or a k that is not positive.
///
/// # Source
/// Rec. ITU-R P.530 § 2.2.
pub fn clearance_at_k(profile: &ProfileInput<'_>, k: f64) -> Result<ClearanceAtK, HopError> {
    profile.check()?;
    positive("k", k)?;
    let points: Vec<PointClearance> = (1..profile.distance_km.len() - 1)
        .map(|index| point(profile, k, index))
        .collect();
    let worst = points
        .iter()
        .copied()
        .reduce(|worst, p| {
            if p.clearance_ratio < worst.clearance_ratio {
                p
            } else {
                worst
            }
        })
        .ok_or(HopError::TooFewPoints)?;
    Ok(ClearanceAtK {
        k,
        worst,
        line_of_sight: worst.clearance_m > 0.0,
        clears_06_f1: worst.clearance_ratio >= 0.6,
        average_terrain_db: average_terrain_obstruction_db(worst.clearance_m, worst.first_zone_m),
        points,
    })
}

fn point(profile: &ProfileInput<'_>, k: f64, index: usize) -> PointClearance {
    let total_km = profile.path_km();
    let d1_km = profile.distance_km[index];
    let d2_km = total_km - d1_km;
    let ray_amsl_m = (profile.tx_amsl_m() * d2_km + profile.rx_amsl_m() * d1_km) / total_km;
    let bulge_m = earth_bulge_m(d1_km, d2_km, k);
    let clearance_m = ray_amsl_m - profile.height_amsl_m[index] - bulge_m;
    let first_zone_m = fresnel_radius_m(profile.freq_ghz, d1_km, d2_km);
    let nu = knife_edge_nu(
        -clearance_m,
        d1_km * 1e3,
        d2_km * 1e3,
        wavelength_m(profile.freq_ghz * 1e3),
    );
    PointClearance {
        index,
        distance_km: d1_km,
        ray_amsl_m,
        bulge_m,
        clearance_m,
        first_zone_m,
        clearance_ratio: clearance_m / first_zone_m,
        nu,
    }
}
