//! The conditions of a prediction: frequency, percentages, climate; and what follows from them alone.

use super::spherical_earth::Polarisation;
use super::variability::location_loss_db;
use super::{diffraction, ducting, effective_earth, free_space, spherical_earth, troposcatter};
use thiserror::Error;

/// Frequency, percentages and climate of a prediction: all that is not the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Frequency, MHz, 30 to 6000.
    pub freq_mhz: f64,
    /// Polarisation.
    pub polarisation: Polarisation,
    /// Percentage of time for which the loss is not exceeded, 1 to 50.
    pub time_pct: f64,
    /// Percentage of locations, above 0 and below 100.
    pub location_pct: f64,
    /// Standard deviation over locations, dB, `σL`.
    pub location_spread_db: f64,
    /// Lapse rate of refractivity in the lowest kilometre, N-units/km, positive, `ΔN`.
    pub dn_per_km: f64,
    /// Sea-level surface refractivity, N-units, `N0`.
    pub n0: f64,
}

impl Conditions {
    /// Half of the time, half of the places, a temperate climate: ΔN 45, N0 325.
    pub fn median(freq_mhz: f64, polarisation: Polarisation) -> Conditions {
        Conditions {
            freq_mhz,
            polarisation,
            time_pct: 50.0,
            location_pct: 50.0,
            location_spread_db: 0.0,
            dn_per_km: 45.0,
            n0: 325.0,
        }
    }
}

/// Why a prediction cannot be made under the conditions given.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum InputError {
    /// An input lies outside the method's range.
    Range {
        /// Tag of the input.
        what: &'static str,
        /// The value given.
        value: f64,
        /// Its unit; empty for a pure number.
        unit: &'static str,
        /// Least value allowed.
        least: f64,
        /// Greatest value allowed.
        most: f64,
    },
    /// A shared walk wants setups that differ in conditions only.
    Setups {
        /// Number of setups given.
        setups: usize,
        /// Number of lists given.
        lists: usize,
    },
    /// There must be one receiver height for every point of a radial.
    ReceiverHeights {
        /// Number of heights given.
        given: usize,
        /// Points of the radial.
        points: usize,
    },
}

pub(crate) fn within(
    what: &'static str,
    value: f64,
    unit: &'static str,
    least: f64,
    most: f64,
) -> Result<(), InputError> {
    if (least..=most).contains(&value) {
        return Ok(());
    }
    Err(InputError::Range {
        what,
        value,
        unit,
        least,
        most,
    })
}

/// All that follows from [`Conditions`] alone, worked out once for any number of paths.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    /// The conditions.
    pub conditions: Conditions,
    /// Frequency, GHz, the standard's `f`.
    pub freq_ghz: f64,
    /// Wavelength, m, `λ`.
    pub lambda_m: f64,
    /// Median effective radius, km, `ae`.
    pub ae_km: f64,
    /// Loss added on land for the location percentage, dB, `Lloc`.
    pub location_db: f64,
    /// Line of sight.
    pub free_space: free_space::Constants,
    /// Spherical Earth.
    pub spherical_earth: spherical_earth::Constants,
    /// Diffraction for p %.
    pub diffraction: diffraction::Constants,
    /// Troposcatter.
    pub troposcatter: troposcatter::Constants,
    /// Ducting.
    pub ducting: ducting::Constants,
}

impl Constants {
    /// Checks the conditions and works out what follows from them.
    ///
    /// # Errors
    /// [`InputError::Range`] names the first condition outside the method's range.
    pub fn new(conditions: &Conditions) -> Result<Constants, InputError> {
        let c = *conditions;
        within("frequency", c.freq_mhz, "MHz", 30.0, 6000.0)?;
        within("time", c.time_pct, "%", 1.0, 50.0)?;
        within("locations", c.location_pct, "%", 1e-4, 100.0 - 1e-4)?;
        within("spread", c.location_spread_db, "dB", 0.0, 30.0)?;
        within("lapse-rate", c.dn_per_km, "N-units/km", 1.0, 150.0)?;
        within("refractivity", c.n0, "N-units", 200.0, 500.0)?;
        let freq_ghz = c.freq_mhz / 1000.0;
        let ae_km = effective_earth::median_radius_km(c.dn_per_km);
        Ok(Constants {
            conditions: c,
            freq_ghz,
            lambda_m: free_space::wavelength_m(freq_ghz),
            ae_km,
            location_db: location_loss_db(c.location_pct, c.location_spread_db),
            free_space: free_space::Constants::new(freq_ghz, c.time_pct),
            spherical_earth: spherical_earth::Constants::new(freq_ghz, c.polarisation),
            diffraction: diffraction::Constants::new(c.time_pct),
            troposcatter: troposcatter::Constants::new(freq_ghz, c.n0, c.time_pct),
            ducting: ducting::Constants::new(freq_ghz, c.time_pct, ae_km),
        })
    }
}
