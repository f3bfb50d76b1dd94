//! Reference attenuation: line of sight, diffraction or troposcatter.

use super::conditions::Constants;
use super::diffraction::{DiffractionLine, diffraction_line};
use super::geometry::Geometry;
use super::line_of_sight::two_ray_db;
use super::preparation::Preparation;
use super::troposcatter::{FIRST_CALL, ScatterAt, scatter};

/// Which part of the method sets the loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// Nearer than the smooth-Earth horizons of the effective heights; an obstructed short path lands here too.
    LineOfSight,
    /// Diffraction.
    Diffraction,
    /// Troposcatter.
    Troposcatter,
}

/// A path in the terms of the closed form.
pub(super) struct Terms<'a> {
    pub distance_m: f64,
    pub heights_m: [f64; 2],
    pub constants: &'a Constants,
    pub preparation: &'a Preparation,
    pub geometry: &'a Geometry,
}

/// A path with what several steps need of it.
pub(super) struct PathTerms<'a> {
    pub heights_m: [f64; 2],
    pub constants: &'a Constants,
    pub preparation: &'a Preparation,
    pub geometry: &'a Geometry,
    pub distance_m: f64,
    /// `θlos`.
    pub theta_los_rad: f64,
    d_sml_m: f64,
    d_ml_m: f64,
    x0_m: f64,
}

impl<'a> PathTerms<'a> {
    pub fn new(terms: Terms<'a>) -> Self {
        let Terms {
            distance_m,
            heights_m,
            constants,
            preparation,
            geometry,
        } = terms;
        let a_e_m = preparation.a_e_m;
        let d_ml_m = geometry.horizon_m[0] + geometry.horizon_m[1];
        Self {
            heights_m,
            constants,
            preparation,
            geometry,
            distance_m,
            theta_los_rad: -(geometry.theta_rad[0] + geometry.theta_rad[1]).max(-d_ml_m / a_e_m),
            d_sml_m: geometry.smooth_horizon_m[0] + geometry.smooth_horizon_m[1],
            d_ml_m,
            x0_m: ((2.0 * a_e_m.ln() - constants.ln_freq) / 3.0).exp(),
        }
    }

    /// `dsML`: sum of the smooth-Earth horizons, m.
    pub fn d_sml_m(&self) -> f64 {
        self.d_sml_m
    }

    /// `dML`: sum of the horizons, m.
    pub fn d_ml_m(&self) -> f64 {
        self.d_ml_m
    }

    /// `X0 = (ae²/f)^(1/3)`, m.
    pub fn x0_m(&self) -> f64 {
        self.x0_m
    }
}

/// The line-of-sight curve `A_o + k1·d + k2·ln d` and the points that fixed it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineOfSightCurve {
    /// Attenuation at the smooth-Earth horizon, dB, `AsML`.
    pub at_horizon_db: f64,
    /// First distance, m; `None` when it lies at or beyond the second.
    pub d0_m: Option<f64>,
    /// Second distance, m.
    pub d1_m: f64,
    /// Attenuation at the first, dB.
    pub a0_db: Option<f64>,
    /// Attenuation at the second, dB.
    pub a1_db: f64,
    /// Slope, dB/m.
    pub k1_db_per_m: f64,
    /// Coefficient of the logarithm, dB.
    pub k2_db: f64,
}

/// Where diffraction gives way to scatter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScatterLine {
    /// At dML + 200 km.
    pub near: ScatterAt,
    /// At dML + 400 km.
    pub far: ScatterAt,
    /// Slope, dB/m, `Ms`.
    pub slope_db_per_m: f64,
    /// Loss at no distance, dB, `As0`.
    pub intercept_db: f64,
    /// Distance of the change, m, `dx`.
    pub change_m: f64,
}

/// Which of the two curves the distance called for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Curve {
    /// Nearer than the smooth-Earth horizons.
    LineOfSight(LineOfSightCurve),
    /// Beyond.
    Beyond(ScatterLine),
}

/// Reference attenuation over free space, with its parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reference {
    /// Sum of the smooth-Earth horizons, m, `dsML`.
    pub d_sml_m: f64,
    /// Sum of the horizons, m, `dML`.
    pub d_ml_m: f64,
    /// `θlos`, rad.
    pub theta_los_rad: f64,
    /// Diffraction line.
    pub diffraction: DiffractionLine,
    /// Curve used.
    pub curve: Curve,
    /// What set the loss.
    pub mode: Mode,
    /// Reference attenuation, dB, never negative, `Aref`.
    pub a_ref_db: f64,
}

/// Reference attenuation of a path.
pub(super) fn reference(terms: Terms<'_>) -> Reference {
    let path = PathTerms::new(terms);
    let line = diffraction_line(&path);
    let d = path.distance_m;
    let (curve, mode, loss_db) = if d < path.d_sml_m {
        let curve = line_of_sight(&path, &line);
        let past_m = d - path.d_sml_m;
        let loss_db = curve.at_horizon_db
            + curve.k1_db_per_m * past_m
            + if curve.k2_db == 0.0 {
                0.0
            } else {
                curve.k2_db * (d / path.d_sml_m).ln()
            };
        (Curve::LineOfSight(curve), Mode::LineOfSight, loss_db)
    } else {
        let scatter = scatter_line(&path, &line);
        let (mode, loss_db) = if d > scatter.change_m {
            (
                Mode::Troposcatter,
                scatter.slope_db_per_m * d + scatter.intercept_db,
            )
        } else {
            (Mode::Diffraction, line.slope_db_per_m * d + line.intercept_db)
        };
        (Curve::Beyond(scatter), mode, loss_db)
    };
    Reference {
        d_sml_m: path.d_sml_m,
        d_ml_m: path.d_ml_m,
        theta_los_rad: path.theta_los_rad,
        diffraction: line,
        curve,
        mode,
        a_ref_db: loss_db.max(0.0),
    }
}

/// Fits the line-of-sight curve through two two-ray values and the diffraction line at the horizon.
fn line_of_sight(path: &PathTerms<'_>, line: &DiffractionLine) -> LineOfSightCurve {
    let (slope, intercept) = (line.slope_db_per_m, line.intercept_db);
    let d_sml = path.d_sml_m;
    let at_horizon_db = intercept + slope * d_sml;
    let [he1, he2] = path.geometry.effective_m;
    let mut x0 = 0.04 * path.constants.freq_mhz * he1 * he2;
    let x1 = if intercept >= 0.0 {
        x0 = x0.min(0.5 * path.d_ml_m);
        x0 + 0.25 * (path.d_ml_m - x0)
    } else {
        (-intercept / slope).max(0.25 * path.d_ml_m)
    };
    let a1_db = two_ray_db(path, line, x1);
    let mut curve = LineOfSightCurve {
        at_horizon_db,
        d0_m: None,
        d1_m: x1,
        a0_db: None,
        a1_db,
        k1_db_per_m: 0.0,
        k2_db: 0.0,
    };
    if x0 < x1 {
        let a0_db = two_ray_db(path, line, x0);
        curve.d0_m = Some(x0);
        curve.a0_db = Some(a0_db);
        let q = (d_sml / x0).ln();
        let k2 = (((d_sml - x0) * (a1_db - a0_db) - (x1 - x0) * (at_horizon_db - a0_db))
            / ((d_sml - x0) * (x1 / x0).ln() - (x1 - x0) * q))
            .max(0.0);
        if intercept > 0.0 || k2 > 0.0 {
            curve.k2_db = k2;
            curve.k1_db_per_m = (at_horizon_db - a0_db - k2 * q) / (d_sml - x0);
            if curve.k1_db_per_m < 0.0 {
                curve.k1_db_per_m = 0.0;
                curve.k2_db = (at_horizon_db - a0_db).max(0.0) / q;
                if curve.k2_db == 0.0 {
                    curve.k1_db_per_m = slope;
                }
            }
            return curve;
        }
    }
    curve.k1_db_per_m = (at_horizon_db - a1_db).max(0.0) / (d_sml - x1);
    if curve.k1_db_per_m == 0.0 {
        curve.k1_db_per_m = slope;
    }
    curve
}

/// The scatter line, and where it takes over from diffraction. The farther distance is worked out first: its frequency gain is handed
/// to the nearer one.
fn scatter_line(path: &PathTerms<'_>, line: &DiffractionLine) -> ScatterLine {
    let (slope, intercept) = (line.slope_db_per_m, line.intercept_db);
    let (x5, x6) = (path.d_ml_m + 200e3, path.d_ml_m + 400e3);
    let far = scatter(path, x6, FIRST_CALL);
    let near = scatter(path, x5, far.h0_db);
    if near.loss_db >= 1000.0 {
        return ScatterLine {
            near,
            far,
            slope_db_per_m: slope,
            intercept_db: intercept,
            change_m: 1e7,
        };
    }
    let scatter_slope = (far.loss_db - near.loss_db) / 200e3;
    let change_m = path
        .d_sml_m
        .max(path.d_ml_m + 1.088 * path.x0_m * path.constants.ln_freq)
        .max((near.loss_db - intercept - scatter_slope * x5) / (slope - scatter_slope));
    ScatterLine {
        near,
        far,
        slope_db_per_m: scatter_slope,
        intercept_db: (slope - scatter_slope) * change_m + intercept,
        change_m,
    }
}
