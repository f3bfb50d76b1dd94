//! Rain along a hop. Rec. ITU-R P.530 § 2.4.

use crate::out_of_range::{OutOfRange, Range};
use crate::p838::{Polarisation, RainCoefficients, rain_coefficients};

/// Rain and the hop it falls on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rain {
    /// Path length, km, up to 60.
    pub path_km: f64,
    /// Frequency, GHz; below 5 GHz rain is neglected by the caller.
    pub freq_ghz: f64,
    /// Plane of the electric field.
    pub polarisation: Polarisation,
    /// Rain rate exceeded 0.01 % of an average year, one-minute integration, mm/h (temperate 22 to 42, tropical 95 and more).
    pub rate_mm_per_h: f64,
}

/// A rain path was refused.
pub type RainError = OutOfRange;

/// Attenuation by rain on a hop, with its intermediates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RainPath {
    /// Coefficients of the specific attenuation.
    pub coefficients: RainCoefficients,
    /// Specific attenuation, dB/km.
    pub specific_db_per_km: f64,
    /// Distance factor r: effective length over length, at most 2.5.
    pub distance_ratio: f64,
    /// Attenuation exceeded 0.01 % of an average year, dB.
    pub exceeded_001_pct_db: f64,
    c1: f64,
    c2: f64,
    c3: f64,
}

/// Share of an average year in which rain takes more than a margin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RainOutage {
    /// Within the method's 0.001 to 1 %.
    Exact {
        /// Share of the year, %.
        pct: f64,
    },
    /// Rarer than the method's least, 0.001 %.
    AtMost {
        /// Upper bound, %.
        pct: f64,
    },
    /// More often than the method's greatest, 1 %.
    AtLeast {
        /// Lower bound, %.
        pct: f64,
    },
}

impl RainOutage {
    /// The number to add to other outages: the value, or the bound that stands for it.
    pub fn pct(&self) -> f64 {
        match *self {
            Self::Exact { pct } | Self::AtMost { pct } | Self::AtLeast { pct } => pct,
        }
    }
}

/// Least and greatest share of the year of the formula, %.
const LEAST_PCT: f64 = 0.001;
const GREATEST_PCT: f64 = 1.0;
const GREATEST_DISTANCE_RATIO: f64 = 2.5;

const METHOD: &str = "Rec. ITU-R P.530 § 2.4";
const PATH: Range = Range {
    quantity: "path_km",
    low: 0.0,
    high: 60.0,
    unit: "km",
    method: METHOD,
};
const RATE: Range = Range {
    quantity: "rate_mm_per_h",
    low: 0.1,
    high: 250.0,
    unit: "mm/h",
    method: METHOD,
};
const SHARE: Range = Range {
    quantity: "share_pct",
    low: LEAST_PCT,
    high: GREATEST_PCT,
    unit: "%",
    method: METHOD,
};

/// Attenuation by rain on a hop.
///
/// # Errors
/// [`OutOfRange`]: longer than 60 km, outside 1 to 1000 GHz, a rain rate outside 0.1 to 250 mm/h.
///
/// # Source
/// Rec. ITU-R P.530-18 § 2.4.1 [V three codes; the exponent 0.8 of C0 stands on f/10] and P.838-3.
pub fn rain_path(rain: &Rain) -> Result<RainPath, RainError> {
    PATH.check(rain.path_km)?;
    RATE.check(rain.rate_mm_per_h)?;
    let Rain {
        path_km: d,
        freq_ghz: f,
        rate_mm_per_h: rate,
        ..
    } = *rain;
    let coefficients = rain_coefficients(f, rain.polarisation)?;
    let specific_db_per_km = coefficients.specific_attenuation_db_per_km(rate);
    let denominator = 0.477 * d.powf(0.633) * rate.powf(0.073 * coefficients.alpha) * f.powf(0.123)
        - 10.579 * (1.0 - (-0.024 * d).exp());
    let distance_ratio = if denominator * GREATEST_DISTANCE_RATIO <= 1.0 {
        GREATEST_DISTANCE_RATIO
    } else {
        1.0 / denominator
    };
    let c0 = 0.12
        + if f >= 10.0 {
            0.4 * (f / 10.0).powf(0.8).log10()
        } else {
            0.0
        };
    Ok(RainPath {
        coefficients,
        specific_db_per_km,
        distance_ratio,
        exceeded_001_pct_db: specific_db_per_km * d * distance_ratio,
        c1: 0.07f64.powf(c0) * 0.12f64.powf(1.0 - c0),
        c2: 0.855 * c0 + 0.546 * (1.0 - c0),
        c3: 0.139 * c0 + 0.043 * (1.0 - c0),
    })
}

impl RainPath {
    /// Attenuation exceeded in a share of an average year, dB.
    ///
    /// # Errors
    /// [`OutOfRange`] outside 0.001 to 1 %.
    pub fn exceeded_db(&self, share_pct: f64) -> Result<f64, RainError> {
        SHARE.check(share_pct)?;
        Ok(self.at(share_pct.log10()))
    }

    fn at(&self, log_p: f64) -> f64 {
        self.exceeded_001_pct_db * self.c1 * 10f64.powf(-(self.c2 + self.c3 * log_p) * log_p)
    }

    /// Share of an average year in which rain takes more than `margin_db`: the formula above, solved for p.
    pub fn outage(&self, margin_db: f64) -> RainOutage {
        let (mut low, mut high) = (LEAST_PCT.log10(), GREATEST_PCT.log10());
        if margin_db >= self.at(low) {
            return RainOutage::AtMost { pct: LEAST_PCT };
        }
        if margin_db <= self.at(high) {
            return RainOutage::AtLeast { pct: GREATEST_PCT };
        }
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.at(middle) > margin_db {
                low = middle
            } else {
                high = middle
            }
        }
        RainOutage::Exact {
            pct: 10f64.powf(0.5 * (low + high)),
        }
    }
}
