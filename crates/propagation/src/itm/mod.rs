//! The Irregular Terrain Model (Longley–Rice), point to point: median loss over a terrain profile and its spread in time, place and
//! situation. 20 MHz to 20 GHz, 1 to 2000 km.
//!
//! The files are the steps of the method, in its order: [`conditions`] (what is stated, and refused), [`preparation`], [`horizons`],
//! [`line_fit`] and [`roughness`], [`geometry`], [`diffraction`], [`line_of_sight`], [`troposcatter`], [`attenuation`],
//! [`variability`]. Lengths are in metres, angles in radians, as in the method.
//!
//! Source: the method as published by NTIA/ITS (a work of the United States government, in the public domain there; acknowledged),
//! from its equations. Every published example agrees to the decimals printed, and 34 computed cases to 10⁻⁸ dB
//! (`tests/itm_validation.rs`).

pub mod attenuation;
pub mod conditions;
pub mod diffraction;
pub mod geometry;
pub mod horizons;
pub mod line_fit;
pub mod line_of_sight;
pub mod preparation;
pub mod profile;
pub mod radial;
pub mod roughness;
pub mod troposcatter;
pub mod variability;
pub mod warnings;

pub use attenuation::{Mode, Reference};
pub use conditions::{Conditions, Constants, Ground, Refusal, Refused};
pub use geometry::Geometry;
pub use preparation::Preparation;
pub use profile::{Profile, ProfileError};
pub use variability::Variability;
pub use warnings::{Warning, Warnings};

/// The two aerials, metres above ground, transmitter first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Antennas {
    /// Transmitting aerial above ground, m: 0.5 to 3000.
    pub tx_agl_m: f64,
    /// Receiving aerial above ground, m: 0.5 to 3000.
    pub rx_agl_m: f64,
}

/// Intermediates of a prediction, step by step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// Mean height, refractivity, effective Earth.
    pub preparation: Preparation,
    /// Horizons, roughness, effective heights.
    pub geometry: Geometry,
    /// Reference attenuation and its parts.
    pub reference: Reference,
    /// Variability.
    pub variability: Variability,
    /// Free-space loss, dB.
    pub free_space_db: f64,
}

/// Basic transmission loss by the Irregular Terrain Model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// Basic transmission loss, dB, `A`.
    pub loss_db: f64,
    /// Which part of the method set it.
    pub mode: Mode,
    /// What the method warns of; empty when nothing.
    pub warnings: Warnings,
    /// Intermediates.
    pub steps: Steps,
}

impl Prediction {
    /// Field strength of an ERP (half-wave dipole) towards the receiver, dB(µV/m).
    ///
    /// # Units
    /// - `freq_mhz`: MHz; `erp_kw`: kW
    ///
    /// # Source
    /// `E = 139.36 + 20 log f − A` for 1 kW, the relation of P.1812-7 § 4.10.
    pub fn field_dbuv_m(&self, freq_mhz: f64, erp_kw: f64) -> f64 {
        crate::p1812::field_1kw_dbuv_m(self.loss_db, freq_mhz / 1e3) + 10.0 * erp_kw.log10()
    }
}

/// Loss between the two ends of a profile.
///
/// # Errors
/// [`Refused`] with the method's code, and the warnings met until then.
///
/// # Source
/// NTIA/ITS Irregular Terrain Model, point-to-point mode.
///
/// # Example
/// ```
/// use propagation::itm::{Antennas, Conditions, Profile, predict};
/// let heights_m: Vec<f64> = (0..=200).map(|i| 200.0 + 60.0 * (i as f64 * 0.2).sin()).collect();
/// let profile = Profile::new(100.0, &heights_m)?;
/// let antennas = Antennas { tx_agl_m: 60.0, rx_agl_m: 10.0 };
/// let answer = predict(&profile, &antennas, &Conditions::broadcast_median(98.0))?;
/// assert!(answer.loss_db > answer.steps.free_space_db - 3.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn predict(
    profile: &Profile<'_>,
    antennas: &Antennas,
    conditions: &Conditions,
) -> Result<Prediction, Refused> {
    let height_warnings = conditions::check_antennas(antennas)?;
    let constants = Constants::after(conditions, height_warnings)?;
    predict_checked(profile, antennas, &constants, constants.warnings)
}

/// [`predict`] with the constants of a study worked out before, for many paths under the same conditions.
///
/// # Errors
/// [`Refused`], as [`predict`].
pub fn predict_with(
    profile: &Profile<'_>,
    antennas: &Antennas,
    constants: &Constants,
) -> Result<Prediction, Refused> {
    let warnings = conditions::check_antennas(antennas)? | constants.warnings;
    predict_checked(profile, antennas, constants, warnings)
}

fn predict_checked(
    profile: &Profile<'_>,
    antennas: &Antennas,
    constants: &Constants,
    warnings: Warnings,
) -> Result<Prediction, Refused> {
    let heights_m = [antennas.tx_agl_m, antennas.rx_agl_m];
    let (preparation, geometry) = survey(*profile, heights_m, constants);
    closed_form(
        profile.distance_m(),
        heights_m,
        constants,
        preparation,
        geometry,
        warnings,
    )
}

/// Everything the method reads off the profile. The wider registers change the time only: the order of each sum is fixed.
#[multiversion::multiversion(targets("x86_64+avx2", "aarch64+neon"))]
fn survey(profile: Profile<'_>, heights_m: [f64; 2], constants: &Constants) -> (Preparation, Geometry) {
    let preparation = preparation::prepare(profile.mean_height_m(), constants);
    let geometry = geometry::geometry(&profile, heights_m, preparation.a_e_m);
    (preparation, geometry)
}

/// Everything after the profile has been read.
fn closed_form(
    distance_m: f64,
    heights_m: [f64; 2],
    constants: &Constants,
    preparation: Preparation,
    geometry: Geometry,
    warnings: Warnings,
) -> Result<Prediction, Refused> {
    let warnings = warnings | warnings::of_path(distance_m, &geometry, preparation.n_s);
    preparation.check(warnings)?;
    let terms = attenuation::Terms {
        distance_m,
        heights_m,
        constants,
        preparation: &preparation,
        geometry: &geometry,
    };
    let reference = attenuation::reference(terms);
    let variability = variability::variability(constants, &geometry, distance_m, reference.a_ref_db);
    let free_space_db = constants.free_space_km_db + 20.0 * (distance_m / 1000.0).log10();
    Ok(Prediction {
        loss_db: variability.attenuation_db + free_space_db,
        mode: reference.mode,
        warnings,
        steps: Steps {
            preparation,
            geometry,
            reference,
            variability,
            free_space_db,
        },
    })
}
