//! Frequencies, powers, gains, fields.

use crate::define::quantity;
use crate::locale::Digits;
use crate::unit::{Law, Range, Suffix};

const DBW: Law = Law::FromLevel {
    per_decade: 10.0,
    scale: 1.0,
};
const DBM: Law = Law::FromLevel {
    per_decade: 10.0,
    scale: 1e-3,
};

quantity! {
    /// A frequency; base unit Hz.
    Frequency {
        name: "frequency",
        expected: "a frequency such as `98.3 MHz` or `5.8 GHz`",
        examples: ["98.3 MHz", "57 kHz", "5.8 GHz"],
        units: {
            "Hz" = Law::Tens(0) => hz, from_hz;
            "kHz" = Law::Tens(3) => khz, from_khz;
            "MHz" = Law::Tens(6) => mhz, from_mhz;
            "GHz" = Law::Tens(9) => ghz, from_ghz;
        }
        read_only: {}
        shown: ["Hz", "kHz", "MHz", "GHz"], digits: Digits::AtMost(3),
        range: Range { low: f64::MIN_POSITIVE, high: 1e13 }
    }
}

quantity! {
    /// A frequency deviation; base unit Hz.
    Deviation {
        name: "deviation",
        expected: "a deviation such as `75 kHz`",
        examples: ["75 kHz", "6.75 kHz"],
        units: {
            "kHz" = Law::Tens(3) => khz, from_khz;
            "Hz" = Law::Tens(0) => hz, from_hz;
        }
        read_only: {}
        shown: ["Hz", "kHz"], digits: Digits::AtMost(2),
        range: Range { low: 0.0, high: 1e9 }
    }
}

quantity! {
    /// A power: of a transmitter, of heat, of a load; base unit W.
    Power {
        name: "power",
        expected: "a power such as `500 W`, `2 kW` or `27 dBW`",
        examples: ["500 W", "0.5 kW", "27 dBW"],
        units: {
            "W" = Law::Tens(0) => w, from_w;
            "kW" = Law::Tens(3) => kw, from_kw;
            "MW" = Law::Tens(6);
            "mW" = Law::Tens(-3);
            "µW" ["uW"] = Law::Tens(-6);
            "dBW" = DBW => dbw, from_dbw;
            "dBm" = DBM => dbm, from_dbm;
        }
        read_only: { "BTU/h" = Law::Times(0.293_071_07) => btu_per_h, from_btu_per_h; }
        shown: ["µW", "mW", "W", "kW", "MW"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// Effective radiated power, over a half-wave dipole; base unit W. Not to be confused with [`Eirp`].
    Erp {
        name: "radiated-power",
        expected: "a radiated power such as `500 W`, `2 kW` or `27 dBW`",
        examples: ["500 W", "0.5 kW", "27 dBW"],
        units: {
            "W" = Law::Tens(0) => w, from_w;
            "kW" = Law::Tens(3) => kw, from_kw;
            "MW" = Law::Tens(6);
            "mW" = Law::Tens(-3);
            "dBW" = DBW => dbw, from_dbw;
            "dBm" = DBM => dbm, from_dbm;
        }
        read_only: {}
        shown: ["mW", "W", "kW", "MW"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE,
        suffix: Suffix { name: "ERP", also: &[], required: false, written: false }
    }
}

quantity! {
    /// Equivalent isotropically radiated power; base unit W. Not to be confused with [`Erp`].
    Eirp {
        name: "isotropic-power",
        expected: "a radiated power over an isotrope such as `820 W EIRP` or `29.15 dBW EIRP`",
        examples: ["820 W EIRP", "29.15 dBW EIRP"],
        units: {
            "W" = Law::Tens(0) => w, from_w;
            "kW" = Law::Tens(3) => kw, from_kw;
            "MW" = Law::Tens(6);
            "mW" = Law::Tens(-3);
            "dBW" = DBW => dbw, from_dbw;
            "dBm" = DBM => dbm, from_dbm;
        }
        read_only: {}
        shown: ["mW", "W", "kW", "MW"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE,
        suffix: Suffix { name: "EIRP", also: &[], required: false, written: true }
    }
}

quantity! {
    /// An antenna's gain over a half-wave dipole, in dBd.
    GainDbd {
        name: "gain-over-dipole",
        expected: "a gain over a dipole such as `6 dBd`",
        examples: ["6 dBd", "-3.5 dBd"],
        units: { "dBd" = Law::Tens(0) => dbd, from_dbd; }
        read_only: {}
        shown: ["dBd"], digits: Digits::Decimals(1),
        range: Range { low: -200.0, high: 100.0 },
        bare: ["dB"]
    }
}

quantity! {
    /// An antenna's gain over an isotrope, in dBi.
    GainDbi {
        name: "gain-over-isotrope",
        expected: "a gain over an isotrope such as `8.15 dBi`",
        examples: ["8.15 dBi", "24 dBi"],
        units: { "dBi" = Law::Tens(0) => dbi, from_dbi; }
        read_only: {}
        shown: ["dBi"], digits: Digits::Decimals(1),
        range: Range { low: -200.0, high: 100.0 },
        bare: ["dB"]
    }
}

quantity! {
    /// A ratio of powers, in dB: a loss, a margin, a protection ratio.
    Decibels {
        name: "ratio",
        expected: "a ratio such as `3 dB`",
        examples: ["3 dB", "-0.5 dB"],
        units: { "dB" = Law::Tens(0) => db, from_db; }
        read_only: {}
        shown: ["dB"], digits: Digits::Decimals(1),
        range: Range::ANY
    }
}

quantity! {
    /// An electric field strength (RMS), held as a level; base unit dBµV/m.
    FieldStrength {
        name: "field-strength",
        expected: "a field strength such as `54 dBµV/m` or `28 V/m`",
        examples: ["54 dBµV/m", "28 V/m"],
        units: {
            "dBµV/m" ["dBuV/m", "dB(µV/m)", "dB(uV/m)"] = Law::Tens(0) => dbuv_m, from_dbuv_m;
            "V/m" = Law::ToLevel { per_decade: 20.0, scale: 1e6 } => v_m, from_v_m;
            "mV/m" = Law::ToLevel { per_decade: 20.0, scale: 1e3 } => mv_m, from_mv_m;
            "µV/m" ["uV/m"] = Law::ToLevel { per_decade: 20.0, scale: 1.0 } => uv_m, from_uv_m;
        }
        read_only: {}
        shown: ["dBµV/m"], digits: Digits::Decimals(1),
        range: Range { low: -1000.0, high: 1000.0 },
        bare: ["dB", "dBµ", "dBu"]
    }
}

quantity! {
    /// A power density of a plane wave; base unit W/m².
    PowerDensity {
        name: "power-density",
        expected: "a power density such as `2 W/m²` or `200 µW/cm²`",
        examples: ["2 W/m²", "200 µW/cm²"],
        units: {
            "W/m²" ["W/m2"] = Law::Tens(0) => w_m2, from_w_m2;
            "mW/m²" ["mW/m2"] = Law::Tens(-3);
            "mW/cm²" ["mW/cm2"] = Law::Tens(1) => mw_cm2, from_mw_cm2;
            "µW/cm²" ["uW/cm²", "uW/cm2", "µW/cm2"] = Law::Tens(-2) => uw_cm2, from_uw_cm2;
            "dBW/m²" ["dBW/m2"] = DBW => dbw_m2, from_dbw_m2;
        }
        read_only: {}
        shown: ["mW/m²", "W/m²"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// Loss by length of a feeder; base unit dB per 100 m.
    AttenuationRate {
        name: "attenuation-by-length",
        expected: "a loss by length such as `2.1 dB/100 m`",
        examples: ["2.1 dB/100 m", "0.021 dB/m"],
        units: {
            "dB/100 m" ["dB/100m"] = Law::Tens(0) => db_per_100m, from_db_per_100m;
            "dB/m" = Law::Tens(2) => db_per_m, from_db_per_m;
            "dB/km" = Law::Tens(-1) => db_per_km, from_db_per_km;
        }
        read_only: { "dB/100 ft" ["dB/100ft"] = Law::Times(1.0 / 0.3048); }
        shown: ["dB/100 m"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE,
        bare: ["dB"]
    }
}

quantity! {
    /// A voltage standing wave ratio, 1 and above.
    Vswr {
        name: "vswr",
        expected: "a standing wave ratio such as `1.5:1`",
        examples: ["1.5:1"],
        units: { ":1" [": 1"] = Law::Tens(0) => ratio, from_ratio; }
        read_only: {}
        shown: [":1"], digits: Digits::Decimals(2),
        range: Range { low: 1.0, high: f64::INFINITY }
    }
}
