//! Levels from transmitter to receiver.

use super::error::{HopError, finite, positive};
use crate::p525::{SPEED_OF_LIGHT_M_PER_S, free_space_loss_db};
use crate::p676::gas_db_per_km;

/// Equipment of a hop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadioInput {
    /// Transmitter power, dBm.
    pub tx_power_dbm: f64,
    /// Feeder, connectors and branching at the transmitter, dB.
    pub tx_line_loss_db: f64,
    /// Transmitting aerial, dBi.
    pub tx_gain_dbi: f64,
    /// Receiving aerial, dBi.
    pub rx_gain_dbi: f64,
    /// Feeder, connectors and branching at the receiver, dB.
    pub rx_line_loss_db: f64,
    /// Level at which the receiver fails, dBm.
    pub threshold_dbm: f64,
    /// Allowance for interference, dB.
    pub interference_allowance_db: f64,
    /// Any other loss on the way (foliage that cannot be cleared, a reflector's net loss), dB.
    pub other_loss_db: f64,
}

/// Level budget of a hop at one k.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levels {
    /// Radiated power, dBm EIRP.
    pub eirp_dbm: f64,
    /// Free space, dB.
    pub free_space_db: f64,
    /// Oxygen and water vapour, dB.
    pub gas_db: f64,
    /// Diffraction, dB.
    pub diffraction_db: f64,
    /// Level at the receiver without fading, dBm.
    pub received_dbm: f64,
    /// Received level over threshold and interference allowance, dB; negative when the hop fails without any fade.
    pub fade_margin_db: f64,
}

pub(super) fn levels(
    radio: &RadioInput,
    freq_ghz: f64,
    path_km: f64,
    diffraction_db: f64,
) -> Result<Levels, HopError> {
    for (quantity, value) in [
        ("tx_power_dbm", radio.tx_power_dbm),
        ("tx_line_loss_db", radio.tx_line_loss_db),
        ("tx_gain_dbi", radio.tx_gain_dbi),
        ("rx_gain_dbi", radio.rx_gain_dbi),
        ("rx_line_loss_db", radio.rx_line_loss_db),
        ("threshold_dbm", radio.threshold_dbm),
        ("interference_allowance_db", radio.interference_allowance_db),
        ("other_loss_db", radio.other_loss_db),
    ] {
        finite(quantity, value)?;
    }
    positive("path_km", path_km)?;
    let eirp_dbm = radio.tx_power_dbm - radio.tx_line_loss_db + radio.tx_gain_dbi;
    let free_space_db = free_space_loss_db(freq_ghz, path_km);
    let gas_db = gas_db_per_km(freq_ghz)? * path_km;
    let path_loss_db = free_space_db + gas_db + diffraction_db + radio.other_loss_db;
    let received_dbm = eirp_dbm - path_loss_db + radio.rx_gain_dbi - radio.rx_line_loss_db;
    let fade_margin_db = received_dbm - radio.threshold_dbm - radio.interference_allowance_db;
    Ok(Levels {
        eirp_dbm,
        free_space_db,
        gas_db,
        diffraction_db,
        received_dbm,
        fade_margin_db,
    })
}

/// Gain of a parabolic dish, dBi: `20.4 + 20 log f + 20 log D + 10 log η`.
///
/// # Units
/// - `freq_ghz`: GHz; `diameter_m`: m; `efficiency_ratio`: of the aperture, 0.55 customary
pub fn dish_gain_dbi(freq_ghz: f64, diameter_m: f64, efficiency_ratio: f64) -> f64 {
    20.4 + 20.0 * freq_ghz.log10() + 20.0 * diameter_m.log10() + 10.0 * efficiency_ratio.log10()
}

/// Width of a dish's beam between its half-power points, degrees, about `70·λ/D` [P].
pub fn dish_beamwidth_deg(freq_ghz: f64, diameter_m: f64) -> f64 {
    70.0 * SPEED_OF_LIGHT_M_PER_S / (freq_ghz * 1e9) / diameter_m
}

/// Thermal noise at a receiver's input, dBm: `−174 + 10 log B + NF`.
///
/// # Units
/// - `bandwidth_hz`: Hz; `noise_figure_db`: dB
pub fn noise_dbm(bandwidth_hz: f64, noise_figure_db: f64) -> f64 {
    -174.0 + 10.0 * bandwidth_hz.log10() + noise_figure_db
}

/// Threshold of a receiver, dBm: noise, the carrier-to-noise ratio its modulation needs, and 2 to 3 dB for its imperfections [P].
pub fn receiver_threshold_dbm(noise_dbm: f64, required_cn_db: f64, implementation_db: f64) -> f64 {
    noise_dbm + required_cn_db + implementation_db
}
