//! Fading by multipath in the average worst month, and its share of a year. Rec. ITU-R P.530 § 2.3.

use crate::out_of_range::{OutOfRange, Range};

/// The two ends of a hop, as the fading formulas want them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HopGeometry {
    /// Path length, km.
    pub path_km: f64,
    /// Frequency, GHz.
    pub freq_ghz: f64,
    /// Transmitting aerial above sea level, m.
    pub tx_amsl_m: f64,
    /// Receiving aerial above sea level, m.
    pub rx_amsl_m: f64,
}

impl HopGeometry {
    /// Inclination of the path, mrad.
    pub fn inclination_mrad(&self) -> f64 {
        (self.rx_amsl_m - self.tx_amsl_m).abs() / self.path_km
    }
}

/// Which edition's formula estimates the fading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MultipathForm {
    /// P.530-17 § 2.3.1, quick planning [M].
    Quick17 {
        /// Refractivity gradient in the lowest 65 m not exceeded 1 % of the year, N/km (P.453 map; about −50 to −700).
        dn1_per_km: f64,
    },
    /// P.530-17 § 2.3.1, with terrain roughness [V].
    Detailed17 {
        /// As in the quick form.
        dn1_per_km: f64,
        /// Terrain roughness over 110 km × 110 km, m; at least 1.
        roughness_m: f64,
    },
    /// P.530-18 § 2.3.1, with its two maps [V].
    Maps18 {
        /// Logarithm of the geoclimatic factor, from the map.
        log_k: f64,
        /// Map value dN75.
        dn75: f64,
        /// Mean terrain height along the path above sea level, m.
        mean_ground_amsl_m: f64,
    },
}

/// Fading could not be estimated.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum MultipathError {
    /// A value outside the method.
    OutOfRange(#[from] OutOfRange),
    /// Frequency below `15/d` GHz: the method does not cover it; 0.6 of F1 and 20 dB of margin are customary [P].
    FrequencyTooLow {
        /// Frequency given, GHz.
        freq_ghz: f64,
        /// 15/d, GHz.
        least_ghz: f64,
    },
    /// The multipath occurrence factor is above 2000 %: beyond the method.
    OccurrenceTooHigh {
        /// Occurrence factor, %.
        p0_pct: f64,
    },
}

/// Multipath fading of one hop in the average worst month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Multipath {
    /// Geoclimatic factor K (for P.530-18 from the map).
    pub geoclimatic_factor: f64,
    /// Path inclination, mrad.
    pub inclination_mrad: f64,
    /// Path clearance term h_c of P.530-18, m; not a part of the older forms.
    pub h_c_m: Option<f64>,
    /// Multipath occurrence factor p0, %: the tail formula at a fade of 0 dB.
    pub p0_pct: f64,
}

const PATH: Range = Range {
    quantity: "path_km",
    low: 0.1,
    high: 300.0,
    unit: "km",
    method: "Rec. ITU-R P.530 § 2.3",
};
const FREQ: Range = Range {
    quantity: "freq_ghz",
    low: 0.05,
    high: 45.0,
    unit: "GHz",
    method: "Rec. ITU-R P.530 § 2.3",
};
const ROUGHNESS: Range = Range {
    quantity: "roughness_m",
    low: 1.0,
    high: 3000.0,
    unit: "m",
    method: "Rec. ITU-R P.530-17 § 2.3.1",
};
/// Greatest occurrence factor of § 2.3.2 [M].
const GREATEST_P0_PCT: f64 = 2000.0;

/// Multipath fading in the average worst month.
///
/// # Errors
/// [`MultipathError`]: frequency outside `15/d … 45` GHz, length outside the method, or fading beyond it.
///
/// # Source
/// Rec. ITU-R P.530-17 or -18 § 2.3.1, by `form`.
pub fn multipath(hop: &HopGeometry, form: MultipathForm) -> Result<Multipath, MultipathError> {
    PATH.check(hop.path_km)?;
    FREQ.check(hop.freq_ghz)?;
    let least_ghz = 15.0 / hop.path_km;
    if hop.freq_ghz < least_ghz {
        return Err(MultipathError::FrequencyTooLow {
            freq_ghz: hop.freq_ghz,
            least_ghz,
        });
    }
    let fading = match form {
        MultipathForm::Quick17 { dn1_per_km } => quick_17(hop, dn1_per_km),
        MultipathForm::Detailed17 {
            dn1_per_km,
            roughness_m,
        } => {
            ROUGHNESS.check(roughness_m)?;
            detailed_17(hop, dn1_per_km, roughness_m)
        }
        MultipathForm::Maps18 {
            log_k,
            dn75,
            mean_ground_amsl_m,
        } => maps_18(hop, log_k, dn75, mean_ground_amsl_m),
    };
    if fading.p0_pct > GREATEST_P0_PCT || fading.p0_pct.is_nan() {
        return Err(MultipathError::OccurrenceTooHigh {
            p0_pct: fading.p0_pct,
        });
    }
    Ok(fading)
}

fn quick_17(hop: &HopGeometry, dn1_per_km: f64) -> Multipath {
    let geoclimatic_factor = 10f64.powf(-4.6 - 0.0027 * dn1_per_km);
    let inclination_mrad = hop.inclination_mrad();
    let p0_pct = geoclimatic_factor
        * hop.path_km.powf(3.1)
        * (1.0 + inclination_mrad).powf(-1.29)
        * hop.freq_ghz.powf(0.8)
        * 10f64.powf(-0.00089 * hop.tx_amsl_m.min(hop.rx_amsl_m));
    Multipath {
        geoclimatic_factor,
        inclination_mrad,
        h_c_m: None,
        p0_pct,
    }
}

fn detailed_17(hop: &HopGeometry, dn1_per_km: f64, roughness_m: f64) -> Multipath {
    let geoclimatic_factor = 10f64.powf(-4.4 - 0.0027 * dn1_per_km) * (10.0 + roughness_m).powf(-0.46);
    let inclination_mrad = hop.inclination_mrad();
    let p0_pct = geoclimatic_factor
        * hop.path_km.powf(3.4)
        * (1.0 + inclination_mrad).powf(-1.03)
        * hop.freq_ghz.powf(0.8)
        * 10f64.powf(-0.00076 * hop.tx_amsl_m.min(hop.rx_amsl_m));
    Multipath {
        geoclimatic_factor,
        inclination_mrad,
        h_c_m: None,
        p0_pct,
    }
}

fn maps_18(hop: &HopGeometry, log_k: f64, dn75: f64, mean_ground_amsl_m: f64) -> Multipath {
    let HopGeometry {
        path_km: d,
        freq_ghz: f,
        tx_amsl_m,
        rx_amsl_m,
    } = *hop;
    let inclination_mrad = hop.inclination_mrad();
    let h_c = (tx_amsl_m + rx_amsl_m) / 2.0 - d * d / 102.0 - mean_ground_amsl_m;
    let v_lim = dn75 * d.powf(1.5) * f.sqrt() / 24730.0;
    let v = ((dn75 / 50.0).powf(1.8) * (-h_c / (2.5 * d.sqrt())).exp()).min(v_lim);
    let exponent = -0.376 * ((h_c - 147.0) / 125.0).tanh()
        - 0.334 * inclination_mrad.powf(0.39)
        - 0.00027 * tx_amsl_m.min(rx_amsl_m)
        + 17.85 * v;
    let p0_pct = 10f64.powf(log_k) * d.powf(3.51) * (f * f + 13.0).powf(0.447) * 10f64.powf(exponent);
    Multipath {
        geoclimatic_factor: 10f64.powf(log_k),
        inclination_mrad,
        h_c_m: Some(h_c),
        p0_pct,
    }
}

impl Multipath {
    /// Share of the average worst month in which a deep fade is exceeded, %; for depths beyond about 15 dB.
    ///
    /// # Source
    /// Rec. ITU-R P.530 § 2.3.1: falls by ten for every 10 dB.
    pub fn tail_pct(&self, fade_db: f64) -> f64 {
        self.p0_pct * 10f64.powf(-fade_db / 10.0)
    }

    /// Share of the average worst month in which a fade of any depth is exceeded, %.
    ///
    /// # Units
    /// - `fade_db`: dB; a fade of 0 dB or less (no margin at all) is taken as exceeded all the time, 100 %
    ///
    /// # Source
    /// Rec. ITU-R P.530 § 2.3.2, the joint of small and deep fading, with `10^(−A/20)` and `A/800` as a sum.
    pub fn worst_month_pct(&self, fade_db: f64) -> f64 {
        if fade_db <= 0.0 {
            return 100.0;
        }
        let joint_db = 25.0 + 1.2 * self.p0_pct.log10();
        if fade_db >= joint_db {
            return self.tail_pct(fade_db).min(100.0);
        }
        let p_t = self.tail_pct(joint_db);
        let q_a_joint = -20.0 * (-(1.0 - p_t / 100.0).ln()).log10() / joint_db;
        let slope = |a: f64| (1.0 + 0.3 * 10f64.powf(-a / 20.0)) * 10f64.powf(-0.016 * a);
        let small = |a: f64| 4.3 * (10f64.powf(-a / 20.0) + a / 800.0);
        let q_t = (q_a_joint - 2.0) / slope(joint_db) - small(joint_db);
        let q_a = 2.0 + slope(fade_db) * (q_t + small(fade_db));
        100.0 * (1.0 - (-10f64.powf(-q_a * fade_db / 20.0)).exp())
    }
}

/// Worst month to average year, dB: divide the worst month's share by `10^(ΔG/10)`.
///
/// # Units
/// - `latitude_deg`: of the path, degrees; `path_km`: km; `inclination_mrad`: mrad
///
/// # Source
/// Rec. ITU-R P.530 § 2.3.4; the Recommendation's `ΔG ≤ 10.8 dB` is a ceiling [M]. Two public codes take it as a floor, which would
/// give every hop at least 10.8 dB; the ceiling is the careful side.
pub fn annual_conversion_db(latitude_deg: f64, path_km: f64, inclination_mrad: f64) -> f64 {
    let swing = (2.0 * latitude_deg.to_radians()).cos().abs().powf(0.7);
    let season = if latitude_deg.abs() <= 45.0 {
        1.1 + swing
    } else {
        1.1 - swing
    };
    let gain_db =
        10.5 - 5.6 * season.log10() - 2.7 * path_km.log10() + 1.7 * (1.0 + inclination_mrad).log10();
    gain_db.min(10.8)
}
