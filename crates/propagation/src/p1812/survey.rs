//! Everything the method reads off a profile, free of frequency, polarisation and percentages.

use super::bullington::{self, Edge};
use super::effective_earth::RADIUS_BETA0_KM;
use super::horizon::{self, Horizon};
use super::profile::{Path, Zone};
use super::smooth_earth::{self, Fit, Obstruction, Surface};
use super::zones::{self, SeaAndLand, ToCoast};

/// Antennas over a path, m above ground at its two ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Antennas {
    /// Transmitting antenna, `htg`.
    pub tx_agl_m: f64,
    /// Receiving antenna, `hrg`.
    pub rx_agl_m: f64,
}

/// The equivalent edges for one radius of the Earth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edges {
    /// Over ground and clutter.
    pub actual: Edge,
    /// Over the smooth surface.
    pub smooth: Edge,
}

/// What the method reads off one path; the profile is not needed after it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Survey {
    /// Length, km, `D`.
    pub path_km: f64,
    /// Transmitting antenna above sea level, m, `hts`.
    pub hts_m: f64,
    /// Receiving antenna above sea level, m, `hrs`.
    pub hrs_m: f64,
    /// Sea share and longest land stretches.
    pub zones: SeaAndLand,
    /// Distances to the coast.
    pub coast: ToCoast,
    /// Whether the receiver's point is sea.
    pub rx_at_sea: bool,
    /// Least-squares smooth Earth.
    pub fit: Fit,
    /// Highest obstructions.
    pub obstruction: Obstruction,
    /// Smooth surface for diffraction, `hstd`, `hsrd`.
    pub diffraction_surface: Surface,
    /// Smooth surface for ducting, `hst`, `hsr`.
    pub ducting_surface: Surface,
    /// Horizons and path type.
    pub horizon: Horizon,
    /// Angle between the horizon rays, mrad, `θ`.
    pub theta_mrad: f64,
    /// Terrain roughness, m, `hm`.
    pub roughness_m: f64,
    /// Edges for the median radius.
    pub median: Edges,
    /// Edges for the radius exceeded for β0 % of the time.
    pub beta0: Edges,
}

/// Surveys a path by reading it from end to end, step after step of the standard.
///
/// # Units
/// - `ae_km`: median effective radius of the Earth
/// - `coast`: distances to the coast where they are known; else they are measured along the path
pub fn survey(path: &Path<'_>, antennas: &Antennas, ae_km: f64, coast: Option<ToCoast>) -> Survey {
    let last = path.last();
    let ends_m = (path.h_m[0], path.h_m[last]);
    let heights = (ends_m.0 + antennas.tx_agl_m, ends_m.1 + antennas.rx_agl_m);
    let fit = smooth_earth::fit(path);
    let obstruction = smooth_earth::obstruction(path, heights.0, heights.1);
    let diffraction_surface = smooth_earth::surface_for_diffraction(&fit, &obstruction, ends_m);
    let ducting_surface = smooth_earth::surface_for_ducting(&fit, ends_m);
    let horizon = horizon::horizons(path, heights.0, heights.1, ae_km);
    let above_smooth = (
        heights.0 - diffraction_surface.tx_m,
        heights.1 - diffraction_surface.rx_m,
    );
    let edges = |ap_km| Edges {
        actual: bullington::edge(path, heights, ap_km),
        smooth: bullington::smooth_edge(path, above_smooth, ap_km),
    };
    Survey {
        path_km: path.length_km(),
        hts_m: heights.0,
        hrs_m: heights.1,
        zones: zones::sea_and_land(path),
        coast: at_sea(path, coast.unwrap_or_else(|| zones::to_coast(path))),
        rx_at_sea: path.zone[last] == Zone::Sea,
        fit,
        obstruction,
        diffraction_surface,
        ducting_surface,
        horizon,
        theta_mrad: horizon::angular_distance_mrad(
            path.length_km(),
            ae_km,
            horizon.theta_t_mrad,
            horizon.theta_r_mrad,
        ),
        roughness_m: smooth_earth::roughness_m(path, &ducting_surface, (horizon.tx_index, horizon.rx_index)),
        median: edges(ae_km),
        beta0: edges(RADIUS_BETA0_KM),
    }
}

/// A terminal at sea is at no distance from the coast, whatever was stated.
fn at_sea(path: &Path<'_>, coast: ToCoast) -> ToCoast {
    let over = |index: usize, km: f64| if path.zone[index] == Zone::Sea { 0.0 } else { km };
    ToCoast {
        tx_km: over(0, coast.tx_km),
        rx_km: over(path.last(), coast.rx_km),
    }
}
