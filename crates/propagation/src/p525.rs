//! Free space: Rec. ITU-R P.525, with the conversions between radiated power, field and received power.
//!
//! Field of a radiated power: `E = √(30·P·G)/d` in V/m. Effective radiated power refers to a half-wave dipole, 2.15 dB above
//! isotropic.

use std::f64::consts::PI;

/// Speed of light in vacuum, m/s (exact, SI).
pub const SPEED_OF_LIGHT_M_PER_S: f64 = 299_792_458.0;

/// Gain of a half-wave dipole over an isotropic radiator, dB (×1.64; Rec. ITU-R BS.412 and 47 CFR 73 use 2.15).
pub const DIPOLE_GAIN_DBI: f64 = 2.15;

/// Impedance of free space, Ω.
pub const FREE_SPACE_IMPEDANCE_OHM: f64 = 376.730_313_668;

/// Wavelength in m of a frequency in MHz.
pub fn wavelength_m(freq_mhz: f64) -> f64 {
    SPEED_OF_LIGHT_M_PER_S / (freq_mhz * 1e6)
}

/// Basic transmission loss in free space between isotropic aerials, dB.
///
/// # Units
/// - `freq_ghz`: GHz, above 0
/// - `path_km`: km, above 0
///
/// # Source
/// Rec. ITU-R P.525, `92.45 + 20 log f + 20 log d` [M; the formula is the standard's].
///
/// # Example
/// ```
/// assert!((propagation::p525::free_space_loss_db(7.5, 30.0) - 139.49).abs() < 0.01);
/// ```
pub fn free_space_loss_db(freq_ghz: f64, path_km: f64) -> f64 {
    92.45 + 20.0 * freq_ghz.log10() + 20.0 * path_km.log10()
}

/// Field strength in free space, dB(µV/m), from the power radiated towards the point relative to an isotropic aerial.
///
/// # Units
/// - `eirp_dbw`: dB above 1 W EIRP; `path_km`: km
///
/// # Source
/// Rec. ITU-R P.525, `E = √(30·EIRP)/d`.
pub fn field_from_eirp_dbuv_m(eirp_dbw: f64, path_km: f64) -> f64 {
    10.0 * 30f64.log10() + 60.0 + eirp_dbw - 20.0 * path_km.log10()
}

/// Field strength in free space, dB(µV/m), from the effective radiated power (half-wave dipole) towards the point.
///
/// # Units
/// - `erp_dbw`: dB above 1 W ERP; `path_km`: km
///
/// # Source
/// Rec. ITU-R P.525; 106.9 dB(µV/m) for 1 kW at 1 km.
pub fn field_from_erp_dbuv_m(erp_dbw: f64, path_km: f64) -> f64 {
    field_from_eirp_dbuv_m(erp_dbw + DIPOLE_GAIN_DBI, path_km)
}

/// Power density of a plane wave, dB(W/m²), from its field strength in dB(µV/m): `E²/Z0`.
pub fn power_density_dbw_m2(field_dbuv_m: f64) -> f64 {
    field_dbuv_m - 120.0 - 10.0 * FREE_SPACE_IMPEDANCE_OHM.log10()
}

/// Power that a matched aerial takes from a field, dBm: density times effective area `G·λ²/4π`.
///
/// # Units
/// - `field_dbuv_m`: dB(µV/m) in the aerial's polarisation; `gain_dbi`: dB over isotropic; `freq_mhz`: MHz
pub fn received_power_dbm(field_dbuv_m: f64, gain_dbi: f64, freq_mhz: f64) -> f64 {
    let area_m2 = wavelength_m(freq_mhz).powi(2) / (4.0 * PI);
    power_density_dbw_m2(field_dbuv_m) + 30.0 + gain_dbi + 10.0 * area_m2.log10()
}

/// Antenna factor at 50 Ω, dB(1/m): field in dB(µV/m) minus the voltage in dBµV at a matched 50 Ω input.
///
/// # Source
/// `9.73/(λ√G)`, from the effective area.
pub fn antenna_factor_50_ohm_db_per_m(gain_dbi: f64, freq_mhz: f64) -> f64 {
    let area_m2 = wavelength_m(freq_mhz).powi(2) / (4.0 * PI);
    10.0 * (FREE_SPACE_IMPEDANCE_OHM / (50.0 * area_m2)).log10() - gain_dbi
}
