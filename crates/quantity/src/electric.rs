//! Mains, batteries and loads.

use crate::define::quantity;
use crate::locale::Digits;
use crate::unit::{Law, Range};

quantity! {
    /// A voltage; base unit V.
    Voltage {
        name: "voltage",
        expected: "a voltage such as `230 V`",
        examples: ["230 V", "48 V", "1.5 kV"],
        units: {
            "V" = Law::Tens(0) => v, from_v;
            "mV" = Law::Tens(-3) => mv, from_mv;
            "µV" ["uV"] = Law::Tens(-6) => uv, from_uv;
            "kV" = Law::Tens(3) => kv, from_kv;
        }
        read_only: {}
        shown: ["µV", "mV", "V", "kV"], digits: Digits::Significant(3),
        range: Range::ANY
    }
}

quantity! {
    /// A current; base unit A.
    Current {
        name: "current",
        expected: "a current such as `16 A`",
        examples: ["16 A", "20 mA"],
        units: { "A" = Law::Tens(0) => a, from_a; "mA" = Law::Tens(-3) => ma, from_ma; "kA" = Law::Tens(3) => ka, from_ka; }
        read_only: {}
        shown: ["mA", "A", "kA"], digits: Digits::Significant(3),
        range: Range::ANY
    }
}

quantity! {
    /// A resistance or the size of an impedance; base unit Ω.
    Resistance {
        name: "resistance",
        expected: "a resistance such as `50 Ω`",
        examples: ["50 Ω", "50 ohm", "10 kΩ"],
        units: {
            "Ω" ["ohm", "ohms"] = Law::Tens(0) => ohm, from_ohm;
            "kΩ" ["kohm"] = Law::Tens(3) => kohm, from_kohm;
            "MΩ" ["Mohm"] = Law::Tens(6);
            "mΩ" ["mohm"] = Law::Tens(-3);
        }
        read_only: {}
        shown: ["mΩ", "Ω", "kΩ", "MΩ"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// An apparent power; base unit VA.
    ApparentPower {
        name: "apparent-power",
        expected: "an apparent power such as `5 kVA`",
        examples: ["5 kVA", "750 VA"],
        units: { "VA" = Law::Tens(0) => va, from_va; "kVA" = Law::Tens(3) => kva, from_kva; }
        read_only: {}
        shown: ["VA", "kVA"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// An amount of energy; base unit kWh.
    Energy {
        name: "energy",
        expected: "an energy such as `12 kWh`",
        examples: ["12 kWh", "1.5 MWh"],
        units: {
            "kWh" = Law::Tens(0) => kwh, from_kwh;
            "Wh" = Law::Tens(-3) => wh, from_wh;
            "MWh" = Law::Tens(3) => mwh, from_mwh;
        }
        read_only: {}
        shown: ["Wh", "kWh", "MWh"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A battery's charge; base unit Ah.
    Charge {
        name: "charge",
        expected: "a charge such as `100 Ah`",
        examples: ["100 Ah"],
        units: { "Ah" = Law::Tens(0) => ah, from_ah; "mAh" = Law::Tens(-3); }
        read_only: {}
        shown: ["mAh", "Ah"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}
