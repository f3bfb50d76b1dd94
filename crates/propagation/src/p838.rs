//! Rain: specific attenuation. Rec. ITU-R P.838-3.
//!
//! The coefficients of the Recommendation's curve fits are from memory [M]; what they give is checked against values from an
//! independent library at nine frequencies (tests/link_rain.rs).

use crate::out_of_range::{OutOfRange, Range};
pub use crate::p1812::Polarisation;

/// The two coefficients of `γ = k·R^α`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RainCoefficients {
    /// Factor k, dB/km at 1 mm/h.
    pub k: f64,
    /// Exponent α.
    pub alpha: f64,
}

impl RainCoefficients {
    /// Specific attenuation, dB/km, in rain of the given rate in mm/h.
    pub fn specific_attenuation_db_per_km(&self, rain_mm_per_h: f64) -> f64 {
        self.k * rain_mm_per_h.powf(self.alpha)
    }
}

/// One curve: bells in log f, plus a straight line.
struct Curve {
    /// a, b, c of each bell.
    bells: &'static [[f64; 3]],
    slope: f64,
    offset: f64,
}

impl Curve {
    fn at(&self, log_f: f64) -> f64 {
        let bell = |[a, b, c]: &[f64; 3]| a * (-((log_f - b) / c).powi(2)).exp();
        self.bells.iter().map(bell).sum::<f64>() + self.slope * log_f + self.offset
    }
}

// Rec. ITU-R P.838-3, Tables 1 to 4 [M].
const K_H: Curve = Curve {
    bells: &[
        [-5.33980, -0.10008, 1.13098],
        [-0.35351, 1.26970, 0.45400],
        [-0.23789, 0.86036, 0.15354],
        [-0.94158, 0.64552, 0.16817],
    ],
    slope: -0.18961,
    offset: 0.71147,
};
const K_V: Curve = Curve {
    bells: &[
        [-3.80595, 0.56934, 0.81061],
        [-3.44965, -0.22911, 0.51059],
        [-0.39902, 0.73042, 0.11899],
        [0.50167, 1.07319, 0.27195],
    ],
    slope: -0.16398,
    offset: 0.63297,
};
const ALPHA_H: Curve = Curve {
    bells: &[
        [-0.14318, 1.82442, -0.55187],
        [0.29591, 0.77564, 0.19822],
        [0.32177, 0.63773, 0.13164],
        [-5.37610, -0.96230, 1.47828],
        [16.1721, -3.29980, 3.43990],
    ],
    slope: 0.67849,
    offset: -1.95537,
};
const ALPHA_V: Curve = Curve {
    bells: &[
        [-0.07771, 2.33840, -0.76284],
        [0.56727, 0.95545, 0.54039],
        [-0.20238, 1.14520, 0.26809],
        [-48.2991, 0.791669, 0.116226],
        [48.5833, 0.791459, 0.116479],
    ],
    slope: -0.053739,
    offset: 0.83433,
};

const FREQ: Range = Range {
    quantity: "freq_ghz",
    low: 1.0,
    high: 1000.0,
    unit: "GHz",
    method: "Rec. ITU-R P.838-3 § 1",
};

/// Coefficients of rain attenuation on a level path.
///
/// # Units
/// - `freq_ghz`: GHz, 1 to 1000
///
/// # Errors
/// [`OutOfRange`] outside 1 to 1000 GHz.
///
/// # Source
/// Rec. ITU-R P.838-3, eqs. (2), (3) and Tables 1 to 4 [coefficients M, results C].
pub fn rain_coefficients(freq_ghz: f64, polarisation: Polarisation) -> Result<RainCoefficients, OutOfRange> {
    FREQ.check(freq_ghz)?;
    let (k, alpha) = match polarisation {
        Polarisation::Horizontal => (&K_H, &ALPHA_H),
        Polarisation::Vertical => (&K_V, &ALPHA_V),
    };
    let log_f = freq_ghz.log10();
    Ok(RainCoefficients {
        k: 10f64.powf(k.at(log_f)),
        alpha: alpha.at(log_f),
    })
}
