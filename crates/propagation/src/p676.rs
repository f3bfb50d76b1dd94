//! Gases of the air at sea level, by interpolation. Rec. ITU-R P.676.

use crate::out_of_range::{OutOfRange, Range};

/// GHz and dB/km: 1013.25 hPa dry part, 15 °C, 7.5 g/m³ of water; computed with a general library [C].
const GAS_DB_PER_KM: [(f64, f64); 8] = [
    (0.95, 0.0053),
    (1.5, 0.0064),
    (5.8, 0.0093),
    (7.5, 0.0109),
    (8.4, 0.0119),
    (11.2, 0.0164),
    (18.0, 0.0575),
    (23.0, 0.194),
];

const FREQ: Range = Range {
    quantity: "freq_ghz",
    low: 0.0,
    high: 23.0,
    unit: "GHz",
    method: "the table computed from Rec. ITU-R P.676",
};

/// Attenuation by oxygen and water vapour near the ground, dB/km.
///
/// Straight between the rows; under 0.95 GHz the first row is used, which is more than the gases take there.
///
/// # Errors
/// [`OutOfRange`] above 23 GHz, where the table ends.
///
/// # Source
/// Rec. ITU-R P.676, rows [C]; straight interpolation is ours.
pub fn gas_db_per_km(freq_ghz: f64) -> Result<f64, OutOfRange> {
    FREQ.check(freq_ghz)?;
    let mut below = GAS_DB_PER_KM[0];
    for row in GAS_DB_PER_KM {
        if freq_ghz <= row.0 {
            let share = if row.0 > below.0 {
                (freq_ghz - below.0) / (row.0 - below.0)
            } else {
                0.0
            };
            return Ok(below.1 + share * (row.1 - below.1));
        }
        below = row;
    }
    Ok(below.1)
}
