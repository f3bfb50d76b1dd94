//! Time, mass, temperature, speed, rates, shares.

use crate::define::quantity;
use crate::locale::Digits;
use crate::unit::{Law, Range};

quantity! {
    /// A stretch of time; base unit s. A year is 365.25 days.
    Duration {
        name: "duration",
        expected: "a duration such as `12 s`, `8 h` or `10 years`",
        examples: ["12 s", "8 h", "30 days", "10 years"],
        units: {
            "s" = Law::Tens(0) => s, from_s;
            "ms" = Law::Tens(-3) => ms, from_ms;
            "min" = Law::Times(60.0) => minutes, from_minutes;
            "h" = Law::Times(3600.0) => hours, from_hours;
            "days" ["day", "d"] = Law::Times(86_400.0) => days, from_days;
            "years" ["year", "y"] = Law::Times(31_557_600.0) => years, from_years;
        }
        read_only: { "weeks" ["week"] = Law::Times(604_800.0); }
        shown: ["ms", "s", "min", "h"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A time constant, as of pre-emphasis; base unit µs.
    TimeConstant {
        name: "time-constant",
        expected: "a time constant such as `50 µs`",
        examples: ["50 µs", "75 us"],
        units: { "µs" ["us"] = Law::Tens(0) => us, from_us; }
        read_only: {}
        shown: ["µs"], digits: Digits::AtMost(1),
        range: Range { low: 0.0, high: 1e9 }
    }
}

quantity! {
    /// A mass, zero and above; base unit kg.
    Mass {
        name: "mass",
        expected: "a mass such as `25 kg`",
        examples: ["25 kg", "350 g"],
        units: {
            "kg" = Law::Tens(0) => kg, from_kg;
            "g" = Law::Tens(-3) => g, from_g;
            "t" = Law::Tens(3) => t, from_t;
        }
        read_only: { "lb" = Law::Times(0.453_592_37); }
        shown: ["g", "kg", "t"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A force; base unit N.
    Force {
        name: "force",
        expected: "a force such as `800 N`",
        examples: ["800 N", "1.2 kN"],
        units: { "N" = Law::Tens(0) => n, from_n; "kN" = Law::Tens(3) => kn, from_kn; }
        read_only: {}
        shown: ["N", "kN"], digits: Digits::Significant(3),
        range: Range::ANY
    }
}

quantity! {
    /// A speed, as of wind; base unit m/s.
    Speed {
        name: "speed",
        expected: "a speed such as `45 m/s` or `160 km/h`",
        examples: ["45 m/s", "160 km/h"],
        units: { "m/s" = Law::Tens(0) => m_s, from_m_s; "km/h" = Law::Times(1.0 / 3.6) => km_h, from_km_h; }
        read_only: { "kn" ["knots"] = Law::Times(1852.0 / 3600.0); "mph" = Law::Times(0.447_04); }
        shown: ["m/s"], digits: Digits::AtMost(1),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A temperature; base unit °C.
    Temperature {
        name: "temperature",
        expected: "a temperature such as `45 °C`",
        examples: ["45 °C", "-20 °C"],
        units: { "°C" ["degC", "C"] = Law::Tens(0) => celsius, from_celsius; }
        read_only: {
            "K" = Law::Shifted { shift: -273.15, factor: 1.0 } => kelvin, from_kelvin;
            "°F" ["degF", "F"] = Law::Shifted { shift: -32.0, factor: 5.0 / 9.0 };
        }
        shown: ["°C"], digits: Digits::AtMost(1),
        range: Range { low: -273.15, high: 1e6 }
    }
}

quantity! {
    /// A rate of bits; base unit bit/s.
    Bitrate {
        name: "bitrate",
        expected: "a bit rate such as `256 kbit/s`",
        examples: ["256 kbit/s", "1.2 Mbit/s"],
        units: {
            "bit/s" = Law::Tens(0) => bit_s, from_bit_s;
            "kbit/s" ["kb/s", "kbps"] = Law::Tens(3) => kbit_s, from_kbit_s;
            "Mbit/s" ["Mb/s", "Mbps"] = Law::Tens(6) => mbit_s, from_mbit_s;
            "Gbit/s" ["Gb/s", "Gbps"] = Law::Tens(9);
        }
        read_only: {}
        shown: ["bit/s", "kbit/s", "Mbit/s", "Gbit/s"], digits: Digits::AtMost(1),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A share of a whole, in percent.
    Percent {
        name: "percentage",
        expected: "a percentage such as `50 %`",
        examples: ["50 %", "99.9 %"],
        units: { "%" ["percent"] = Law::Tens(0) => pct, from_pct; }
        read_only: {}
        shown: ["%"], digits: Digits::AtMost(1),
        range: Range::ANY
    }
}

impl Percent {
    /// As a part of one: 50 % is 0.5.
    pub fn fraction(self) -> f64 {
        self.pct() / 100.0
    }
}
