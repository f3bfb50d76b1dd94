//! Rec. ITU-R P.1812-7: loss and field strength of terrestrial point-to-area services, 30 MHz to 6 GHz.
//!
//! A prediction is a [`survey`] of the profile and a [closed form](tail) of what the survey found. Both return their
//! intermediates as data. Section numbers in brackets are those of the Recommendation's edition 7.

pub mod bullington;
pub mod combine;
pub mod conditions;
pub mod diffraction;
pub mod ducting;
pub mod effective_earth;
pub mod free_space;
pub mod horizon;
pub mod profile;
pub mod smooth_earth;
pub mod spherical_earth;
pub mod survey;
pub mod tail;
pub mod troposcatter;
pub mod variability;
pub mod zones;

pub use conditions::{Conditions, Constants, InputError};
pub use effective_earth::{Bearing, Place};
pub use free_space::field_1kw_dbuv_m;
pub use profile::{Path, Profile, ProfileError, Zone};
pub use spherical_earth::Polarisation;
pub use survey::{Antennas, Survey};
pub use tail::Closed;
pub use zones::ToCoast;

use conditions::within;
use spherical_earth::Surfaces;
use tail::Geometry;

/// Shortest path the method is for, km; under it a path is taken as free space.
pub const SHORTEST_KM: f64 = 0.25;

/// Fewest points the method wants of a profile.
pub const FEWEST_POINTS: usize = 5;

/// One path to be predicted: the conditions, the antennas and where on Earth it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link {
    /// Frequency, percentages and climate.
    pub conditions: Conditions,
    /// Antenna heights above ground.
    pub antennas: Antennas,
    /// Direction of the path on the sphere, for the latitude of its centre.
    pub bearing: Bearing,
    /// Over-land distances to the coast where they are known; measured along the path where `None`.
    pub coast: Option<ToCoast>,
}

/// How a prediction was come by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// The method on the profile as given.
    AsGiven,
    /// The profile had too few points and was resampled to this many over the same stretch.
    Resampled {
        /// Points used.
        points: usize,
    },
    /// The path is shorter than the method's least: free space only.
    FreeSpace,
}

/// Intermediates of a prediction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// What was read off the profile.
    pub survey: Survey,
    /// What followed in closed form.
    pub closed: Closed<f64>,
}

/// A predicted loss, the field it leaves, and how it was come by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// Basic transmission loss, dB, `Lb`.
    pub loss_db: f64,
    /// Field strength of 1 kW ERP (half-wave dipole) towards the receiver, dB(µV/m), `E`.
    pub field_1kw_dbuv_m: f64,
    /// As given, resampled, or free space.
    pub basis: Basis,
    /// Intermediates; `None` where free space was taken.
    pub steps: Option<Steps>,
}

impl Prediction {
    /// Field strength for another ERP towards the receiver, dB(µV/m).
    ///
    /// # Units
    /// - `erp_kw`: effective radiated power relative to a half-wave dipole, kW
    pub fn field_dbuv_m(&self, erp_kw: f64) -> f64 {
        self.field_1kw_dbuv_m + 10.0 * erp_kw.log10()
    }
}

/// Loss and field strength at the end of a profile.
///
/// The receiver stands at the last point. Under [`SHORTEST_KM`] the answer is free space; with fewer than
/// [`FEWEST_POINTS`] points the same stretch is resampled; both are told in [`Prediction::basis`].
///
/// # Errors
/// [`InputError::Range`] when a condition or an antenna height lies outside the method's range.
///
/// # Source
/// Rec. ITU-R P.1812-7, Annex 1. Loss within 10⁻⁶ dB and intermediates within 10⁻⁶ of all 65 published and computed
/// validation cases: `tests/p1812_validation.rs`.
///
/// # Example
/// ```
/// use propagation::p1812::*;
/// let profile = Profile::new(
///     (0..=20).map(|i| i as f64 * 0.5).collect(),
///     (0..=20).map(|i| 100.0 + 5.0 * (i % 4) as f64).collect(),
///     vec![0.0; 21],
///     vec![Zone::Inland; 21],
/// )?;
/// let link = Link {
///     conditions: Conditions::median(98.0, Polarisation::Vertical),
///     antennas: Antennas { tx_agl_m: 60.0, rx_agl_m: 10.0 },
///     bearing: Bearing::new(47.0, 90.0),
///     coast: None,
/// };
/// let answer = predict(&profile, &link)?;
/// assert!(answer.loss_db > 92.0 && answer.field_dbuv_m(0.5) < 86.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn predict(profile: &Profile, link: &Link) -> Result<Prediction, InputError> {
    let constants = Constants::new(&link.conditions)?;
    check_antennas(&link.antennas)?;
    Ok(predict_path(
        &profile.path(),
        &constants,
        &link.antennas,
        &link.bearing,
        link.coast,
    ))
}

/// Checks antenna heights against the method's range, 1 to 3000 m above ground.
///
/// # Errors
/// [`InputError::Range`] names the antenna.
pub fn check_antennas(antennas: &Antennas) -> Result<(), InputError> {
    within("tx-height", antennas.tx_agl_m, "m", 1.0, 3000.0)?;
    within("rx-height", antennas.rx_agl_m, "m", 1.0, 3000.0)
}

/// [`predict`] on a path already checked.
pub fn predict_path(
    path: &Path<'_>,
    constants: &Constants,
    antennas: &Antennas,
    bearing: &Bearing,
    coast: Option<ToCoast>,
) -> Prediction {
    if path.length_km() < SHORTEST_KM {
        return free_space_prediction(path, constants, antennas);
    }
    if path.last() + 1 < FEWEST_POINTS {
        let parts = (FEWEST_POINTS - 1).div_ceil(path.last());
        let fine = path.resampled(parts);
        let mut prediction = predict_path(&fine.path(), constants, antennas, bearing, coast);
        prediction.basis = Basis::Resampled { points: fine.len() };
        return prediction;
    }
    let survey = survey::survey(path, antennas, constants.ae_km, coast);
    let geometry = Geometry::of(&survey, constants);
    let sea = survey.zones.sea_ratio;
    let surfaces = Surfaces {
        land: sea < 1.0,
        sea: sea > 0.0,
    };
    let closed = tail::closed_form(constants, bearing, &geometry, surfaces);
    Prediction {
        loss_db: closed.loss_db,
        field_1kw_dbuv_m: field_1kw_dbuv_m(closed.loss_db, constants.freq_ghz),
        basis: Basis::AsGiven,
        steps: Some(Steps { survey, closed }),
    }
}

fn free_space_prediction(path: &Path<'_>, constants: &Constants, antennas: &Antennas) -> Prediction {
    let heights = (
        path.h_m[0] + antennas.tx_agl_m,
        path.h_m[path.last()] + antennas.rx_agl_m,
    );
    let loss_db = constants
        .free_space
        .free_space_db(path.length_km(), heights.0, heights.1);
    Prediction {
        loss_db,
        field_1kw_dbuv_m: field_1kw_dbuv_m(loss_db, constants.freq_ghz),
        basis: Basis::FreeSpace,
        steps: None,
    }
}
