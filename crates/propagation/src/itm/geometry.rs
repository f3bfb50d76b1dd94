//! Effective heights, horizons and roughness: what the rest of the method knows of the terrain.

use super::horizons::{Horizons, horizons};
use super::line_fit::{Line, Stretch, fit, stretch};
use super::profile::Profile;
use super::roughness::roughness_m;

/// Which way the effective heights were found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// Horizons found on the profile, foregrounds fitted.
    Horizons,
    /// Well inside line of sight: one line fitted through the whole path, horizons estimated from the roughness.
    WellInside,
}

/// Terrain parameters of a path; pairs are transmitter first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geometry {
    /// Horizons as found on the profile.
    pub found: Horizons,
    /// Where the analysis of the ground starts, m from the transmitter.
    pub x_start_m: f64,
    /// Where it ends.
    pub x_end_m: f64,
    /// Terrain roughness, m, `Δh`.
    pub delta_h_m: f64,
    /// Way taken.
    pub basis: Basis,
    /// Fitted ground at the two ends, m above sea level.
    pub fit_m: [f64; 2],
    /// Effective heights, m, `he`.
    pub effective_m: [f64; 2],
    /// Distances to the horizons, m, `dL`.
    pub horizon_m: [f64; 2],
    /// Elevations of the horizons, rad, `θ`.
    pub theta_rad: [f64; 2],
    /// Horizons of the effective heights over a smooth Earth, m, `dLs`.
    pub smooth_horizon_m: [f64; 2],
}

/// Terrain parameters of a profile.
///
/// # Units
/// - `heights_m`: aerials above ground, m; `a_e_m`: effective Earth radius, m
#[inline(always)]
pub fn geometry(profile: &Profile<'_>, heights_m: [f64; 2], a_e_m: f64) -> Geometry {
    let y = profile.height_m();
    let ground_m = [y[0], y[profile.intervals()]];
    let tops_m = [ground_m[0] + heights_m[0], ground_m[1] + heights_m[1]];
    let found = horizons(*profile, tops_m, a_e_m);
    from_horizons(profile, found, heights_m, ground_m, a_e_m)
}

/// A profile by what the method asks of it after its horizons.
pub(super) trait Ground {
    /// Length, m.
    fn distance_m(&self) -> f64;
    /// Distance between neighbouring heights, m.
    fn spacing_m(&self) -> f64;
    /// Number of intervals.
    fn intervals(&self) -> usize;
    /// Line through a stretch, at both ends of the profile.
    fn line(&self, stretch: Stretch) -> Line;
    /// Roughness between two distances in m.
    fn roughness_m(&self, from_m: f64, to_m: f64) -> f64;
}

impl Ground for Profile<'_> {
    #[inline(always)]
    fn distance_m(&self) -> f64 {
        self.distance_m()
    }

    #[inline(always)]
    fn spacing_m(&self) -> f64 {
        self.spacing_m()
    }

    #[inline(always)]
    fn intervals(&self) -> usize {
        self.intervals()
    }

    #[inline(always)]
    fn line(&self, stretch: Stretch) -> Line {
        fit(self.height_m(), stretch)
    }

    #[inline(always)]
    fn roughness_m(&self, from_m: f64, to_m: f64) -> f64 {
        roughness_m(self.height_m(), self.spacing_m(), from_m, to_m)
    }
}

/// Line through the ground between two distances in m.
#[inline(always)]
fn line_between(ground: &impl Ground, from_m: f64, to_m: f64) -> Line {
    let spacing_m = ground.spacing_m();
    ground.line(stretch(from_m / spacing_m, to_m / spacing_m, ground.intervals()))
}

/// Terrain parameters once the horizons are known.
#[inline(always)]
pub(super) fn from_horizons(
    ground: &impl Ground,
    found: Horizons,
    heights_m: [f64; 2],
    ground_m: [f64; 2],
    a_e_m: f64,
) -> Geometry {
    let d = ground.distance_m();
    let x_start_m = (15.0 * heights_m[0]).min(0.1 * found.distance_m[0]);
    let x_end_m = d - (15.0 * heights_m[1]).min(0.1 * found.distance_m[1]);
    let delta_h_m = ground.roughness_m(x_start_m, x_end_m);
    let raised = |fit_m: [f64; 2]| [0, 1].map(|j| heights_m[j] + (ground_m[j] - fit_m[j]).max(0.0));
    let smooth = |effective_m: [f64; 2]| effective_m.map(|h| (2.0 * h * a_e_m).sqrt());
    if found.distance_m[0] + found.distance_m[1] > 1.5 * d {
        let line = line_between(ground, x_start_m, x_end_m);
        let fit_m = [line.start, line.end];
        let inside = estimated_horizons(raised(fit_m), delta_h_m, d, a_e_m);
        let smooth_horizon_m = smooth(inside.effective_m);
        let theta_rad = [0, 1].map(|j| {
            let s = smooth_horizon_m[j];
            (0.65 * delta_h_m * (s / inside.horizon_m[j] - 1.0) - 2.0 * inside.effective_m[j]) / s
        });
        return Geometry {
            found,
            x_start_m,
            x_end_m,
            delta_h_m,
            basis: Basis::WellInside,
            fit_m,
            effective_m: inside.effective_m,
            horizon_m: inside.horizon_m,
            theta_rad,
            smooth_horizon_m,
        };
    }
    let fit_m = [
        line_between(ground, x_start_m, 0.9 * found.distance_m[0]).start,
        line_between(ground, d - 0.9 * found.distance_m[1], x_end_m).end,
    ];
    let effective_m = raised(fit_m);
    Geometry {
        found,
        x_start_m,
        x_end_m,
        delta_h_m,
        basis: Basis::Horizons,
        fit_m,
        effective_m,
        horizon_m: found.distance_m,
        theta_rad: found.theta_rad,
        smooth_horizon_m: smooth(effective_m),
    }
}

struct Inside {
    effective_m: [f64; 2],
    horizon_m: [f64; 2],
}

/// Horizons well inside line of sight, from effective heights and roughness; heights are raised where the horizons would not meet.
fn estimated_horizons(effective_m: [f64; 2], delta_h_m: f64, d: f64, a_e_m: f64) -> Inside {
    let horizon = |h: f64| (2.0 * h * a_e_m).sqrt() * (-0.07 * (delta_h_m / h.max(5.0)).sqrt()).exp();
    let horizon_m = effective_m.map(horizon);
    let together = horizon_m[0] + horizon_m[1];
    if together > d {
        return Inside {
            effective_m,
            horizon_m,
        };
    }
    let q = (d / together).powi(2);
    let effective_m = effective_m.map(|h| q * h);
    Inside {
        effective_m,
        horizon_m: effective_m.map(horizon),
    }
}
