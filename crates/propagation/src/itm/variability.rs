//! Spread of the loss in time, place and situation.

use super::conditions::{Base, Conditions, Constants};
use super::geometry::Geometry;
use super::roughness::share_at;

/// Variability of a path, with its parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Variability {
    /// Deviate of the share of time, places, situations.
    pub z: [f64; 3],
    /// `dex`, m.
    pub d_ex_m: f64,
    /// Effective distance, m, `de`.
    pub d_e_m: f64,
    /// Spread by situation, dB, `σS`.
    pub sigma_s_db: f64,
    /// Median against the reference, dB, `V`.
    pub v_med_db: f64,
    /// Spread by place, dB, `σL`.
    pub sigma_l_db: f64,
    /// Spread by time, dB, `σT`.
    pub sigma_t_db: f64,
    /// `YT`, dB.
    pub y_t_db: f64,
    /// `YL`, dB.
    pub y_l_db: f64,
    /// `YR`, dB.
    pub y_r_db: f64,
    /// `YS`, dB.
    pub y_s_db: f64,
    /// Attenuation before the compression of negative values, dB.
    pub uncompressed_db: f64,
    /// Attenuation over free space, dB.
    pub attenuation_db: f64,
}

/// One curve over effective distance: c1, c2 in dB, x1, x2, x3 in km.
type Row = [f64; 5];

/// The curves of one climate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClimateCurves {
    median: Row,
    minus: Row,
    plus: Row,
    /// `CD` and `zD`.
    tail: [f64; 2],
    /// b1, b2, b3 of `g−` and of `g+`.
    gain_minus: [f64; 3],
    gain_plus: [f64; 3],
}

const FLAT: [f64; 3] = [1.0, 0.0, 0.0];

/// The published table, one climate a row, 1 to 7 [V].
const CLIMATES: [ClimateCurves; 7] = [
    ClimateCurves {
        median: [-9.67, 12.7, 144.9, 190.3, 133.8],
        minus: [2.13, 159.5, 762.2, 123.6, 94.5],
        plus: [2.11, 102.3, 636.9, 134.8, 95.6],
        tail: [1.224, 1.282],
        gain_minus: FLAT,
        gain_plus: FLAT,
    },
    ClimateCurves {
        median: [-0.62, 9.19, 228.9, 205.2, 143.6],
        minus: [2.66, 7.67, 100.4, 172.5, 136.4],
        plus: [6.87, 15.53, 138.7, 143.7, 98.6],
        tail: [0.801, 2.161],
        gain_minus: FLAT,
        gain_plus: [0.93, 0.31, 2.00],
    },
    ClimateCurves {
        median: [1.26, 15.5, 262.6, 185.2, 99.8],
        minus: [6.11, 6.65, 138.2, 242.2, 178.6],
        plus: [10.08, 9.60, 165.3, 225.7, 129.7],
        tail: [1.380, 1.282],
        gain_minus: FLAT,
        gain_plus: FLAT,
    },
    ClimateCurves {
        median: [-9.21, 9.05, 84.1, 101.1, 98.6],
        minus: [1.98, 13.11, 139.1, 132.7, 193.5],
        plus: [3.68, 159.3, 464.4, 93.1, 94.2],
        tail: [1.000, 20.0],
        gain_minus: FLAT,
        gain_plus: [0.93, 0.19, 1.79],
    },
    ClimateCurves {
        median: [-0.62, 9.19, 228.9, 205.2, 143.6],
        minus: [2.68, 7.16, 93.7, 186.8, 133.5],
        plus: [4.75, 8.12, 93.2, 135.9, 113.4],
        tail: [1.224, 1.282],
        gain_minus: [0.92, 0.25, 1.77],
        gain_plus: [0.93, 0.31, 2.00],
    },
    ClimateCurves {
        median: [-0.39, 2.86, 141.7, 315.9, 167.4],
        minus: [6.86, 10.38, 187.8, 169.6, 108.9],
        plus: [8.58, 13.97, 216.0, 152.0, 122.7],
        tail: [1.518, 1.282],
        gain_minus: FLAT,
        gain_plus: FLAT,
    },
    ClimateCurves {
        median: [3.15, 857.9, 2222.0, 164.8, 116.3],
        minus: [8.51, 169.8, 609.8, 119.9, 106.6],
        plus: [8.43, 8.19, 136.2, 188.5, 122.9],
        tail: [1.518, 1.282],
        gain_minus: FLAT,
        gain_plus: FLAT,
    },
];

/// The curves of a climate code, 1 to 7.
pub(super) fn climate_curves(code: u8) -> Option<&'static ClimateCurves> {
    CLIMATES.get(usize::from(code).checked_sub(1)?)
}

impl ClimateCurves {
    /// `g−` and `g+` at a wave number.
    pub(super) fn frequency_gain(&self, wave_number: f64) -> [f64; 2] {
        let q = (0.133 * wave_number).ln();
        [self.gain_minus, self.gain_plus].map(|[b1, b2, b3]| b1 + b2 / ((b3 * q).powi(2) + 1.0))
    }
}

/// One curve at an effective distance, dB.
#[inline(always)]
fn curve([c1, c2, x1, x2, x3]: &Row, d_e_km: f64) -> f64 {
    let near = (d_e_km / x1).powi(2);
    (c1 + c2 / (1.0 + ((d_e_km - x2) / x3).powi(2))) * near / (1.0 + near)
}

/// Deviates of the three shares, as the mode of variability ties them together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deviates {
    pub(super) time: f64,
    pub(super) location: f64,
    pub(super) situation: f64,
}

/// A deviate beyond this is warned of.
const EXTREME: f64 = 3.10;

impl Deviates {
    pub(super) fn of(c: &Conditions, base: Base) -> (Self, bool) {
        let [time, location, situation] = [c.time_pct, c.location_pct, c.situation_pct]
            .map(|pct| inverse_complementary_normal(pct / 100.0));
        let tied = match base {
            Base::SingleMessage => Self {
                time: situation,
                location: situation,
                situation,
            },
            Base::Accidental => Self {
                time,
                location: situation,
                situation,
            },
            Base::Mobile => Self {
                time,
                location: time,
                situation,
            },
            Base::Broadcast => Self {
                time,
                location,
                situation,
            },
        };
        let extreme = [tied.time, tied.location, tied.situation]
            .iter()
            .any(|z| z.abs() > EXTREME);
        (tied, extreme)
    }
}

/// Inverse of the complementary normal distribution by the method's own fit; positive below one half.
pub fn inverse_complementary_normal(q: f64) -> f64 {
    let t = (-2.0 * q.min(1.0 - q).ln()).sqrt();
    let z = t
        - ((0.010328 * t + 0.802853) * t + 2.515516) / (((0.001308 * t + 0.189269) * t + 1.432788) * t + 1.0);
    if q > 0.5 { -z } else { z }
}

/// Attenuation with its spread.
pub(super) fn variability(
    constants: &Constants,
    geometry: &Geometry,
    distance_m: f64,
    a_ref_db: f64,
) -> Variability {
    let Deviates {
        time: z_t,
        location: z_l,
        situation: z_s,
    } = constants.deviates;
    let [he1, he2] = geometry.effective_m;
    let d_ex_m = (18e6 * he1).sqrt() + (18e6 * he2).sqrt() + constants.wave_distance_m;
    let d_e_m = if distance_m < d_ex_m {
        130e3 * distance_m / d_ex_m
    } else {
        130e3 + distance_m - d_ex_m
    };
    let d_e_km = d_e_m / 1e3;

    let sigma_s_db = if constants.situation_spread {
        5.0 + 3.0 * (-d_e_m / 100e3).exp()
    } else {
        0.0
    };
    let sigma_l_db = if constants.location_spread {
        let rough = constants.wave_number * geometry.delta_h_m * share_at(distance_m);
        10.0 * rough / (rough + 13.0)
    } else {
        0.0
    };
    let v_med_db = curve(&constants.curves.median, d_e_km);
    let sigma_t_db = time_spread_db(constants, z_t, d_e_km);
    let y_t_db = sigma_t_db * z_t;
    let y_l_db = sigma_l_db * z_l;
    let rest =
        sigma_s_db * sigma_s_db + y_t_db * y_t_db / (7.8 + z_s * z_s) + y_l_db * y_l_db / (24.0 + z_s * z_s);
    let (time2, place2) = (sigma_t_db * sigma_t_db, sigma_l_db * sigma_l_db);
    let (y_r_db, variance) = match constants.base {
        Base::SingleMessage => (0.0, time2 + place2 + rest),
        Base::Accidental => (y_t_db, place2 + rest),
        Base::Mobile => ((time2 + place2).sqrt() * z_t, rest),
        Base::Broadcast => (y_t_db + y_l_db, rest),
    };
    let y_s_db = variance.sqrt() * z_s;
    let uncompressed_db = a_ref_db - v_med_db - y_r_db - y_s_db;
    let attenuation_db = if uncompressed_db < 0.0 {
        uncompressed_db * (29.0 - uncompressed_db) / (29.0 - 10.0 * uncompressed_db)
    } else {
        uncompressed_db
    };
    Variability {
        z: [z_t, z_l, z_s],
        d_ex_m,
        d_e_m,
        sigma_s_db,
        v_med_db,
        sigma_l_db,
        sigma_t_db,
        y_t_db,
        y_l_db,
        y_r_db,
        y_s_db,
        uncompressed_db,
        attenuation_db,
    }
}

fn time_spread_db(constants: &Constants, z_t: f64, d_e_km: f64) -> f64 {
    let ClimateCurves {
        minus,
        plus,
        tail: [c_d, z_d],
        ..
    } = &constants.curves;
    let [g_minus, g_plus] = constants.frequency_gain;
    if z_t < 0.0 {
        return curve(minus, d_e_km) * g_minus;
    }
    let upper = curve(plus, d_e_km) * g_plus;
    if z_t <= *z_d {
        return upper;
    }
    c_d * upper + (upper - c_d * upper) * z_d / z_t
}
