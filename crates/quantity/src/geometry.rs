//! Lengths, heights, areas, angles.

use crate::define::quantity;
use crate::locale::Digits;
use crate::unit::{Law, Range, Suffix};

const FOOT: Law = Law::Times(0.3048);
const INCH: Law = Law::Times(0.0254);

quantity! {
    /// A length or distance, zero and above; base unit m.
    Length {
        name: "length",
        expected: "a length such as `60 m`, `2.5 km` or `19 mm`",
        examples: ["60 m", "2.5 km", "19 mm"],
        units: {
            "m" = Law::Tens(0) => m, from_m;
            "km" = Law::Tens(3) => km, from_km;
            "mm" = Law::Tens(-3) => mm, from_mm;
        }
        read_only: {
            "cm" = Law::Tens(-2) => cm, from_cm;
            "in" ["inch", "inches", "\""] = INCH => inches, from_inches;
            "ft" ["foot", "feet"] = FOOT => feet, from_feet;
            "mi" ["mile", "miles"] = Law::Times(1609.344);
        }
        shown: ["mm", "m", "km"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A height above the ground at its place; base unit m. Negative is below ground: a finding's business.
    HeightAgl {
        name: "height-above-ground",
        expected: "a height such as `30 m above ground`",
        examples: ["30 m above ground"],
        units: { "m" = Law::Tens(0) => m, from_m; }
        read_only: { "ft" ["feet"] = FOOT; }
        shown: ["m"], digits: Digits::AtMost(1),
        range: Range { low: -1000.0, high: 10_000.0 },
        suffix: Suffix { name: "above ground", also: &["AGL", "agl"], required: true, written: true }
    }
}

quantity! {
    /// A height above mean sea level; base unit m.
    HeightAmsl {
        name: "height-above-sea",
        expected: "a height such as `120 m above sea`",
        examples: ["120 m above sea"],
        units: { "m" = Law::Tens(0) => m, from_m; }
        read_only: { "ft" ["feet"] = FOOT; }
        shown: ["m"], digits: Digits::AtMost(1),
        range: Range { low: -1000.0, high: 20_000.0 },
        suffix: Suffix { name: "above sea", also: &["above sea level", "AMSL", "amsl"], required: true, written: true }
    }
}

quantity! {
    /// An effective height, over the mean ground of the land around; base unit m. It may be negative.
    EffectiveHeight {
        name: "effective-height",
        expected: "an effective height such as `120 m effective`",
        examples: ["120 m effective"],
        units: { "m" = Law::Tens(0) => m, from_m; }
        read_only: { "ft" ["feet"] = FOOT; }
        shown: ["m"], digits: Digits::AtMost(1),
        range: Range { low: -10_000.0, high: 20_000.0 },
        suffix: Suffix { name: "effective", also: &["HAAT", "above the land around"], required: true, written: true }
    }
}

quantity! {
    /// An area, zero and above; base unit m².
    Area {
        name: "area",
        expected: "an area such as `12 m²` or `35 km²`",
        examples: ["12 m²", "35 km²"],
        units: {
            "m²" ["m2"] = Law::Tens(0) => m2, from_m2;
            "km²" ["km2"] = Law::Tens(6) => km2, from_km2;
        }
        read_only: { "ha" = Law::Tens(4); "ft²" ["ft2"] = Law::Times(0.3048 * 0.3048); }
        shown: ["m²", "km²"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// A volume, zero and above; base unit m³.
    Volume {
        name: "volume",
        expected: "a volume such as `55 m³`",
        examples: ["55 m³", "20 l"],
        units: {
            "m³" ["m3"] = Law::Tens(0) => m3, from_m3;
            "l" ["L"] = Law::Tens(-3) => litres, from_litres;
        }
        read_only: {}
        shown: ["l", "m³"], digits: Digits::Significant(3),
        range: Range::NOT_NEGATIVE
    }
}

quantity! {
    /// An angle of any sense; base unit degree.
    Angle {
        name: "angle",
        expected: "an angle such as `30°`",
        examples: ["30°", "30 deg"],
        units: { "°" ["deg", "degrees"] = Law::Tens(0) => deg, from_deg; }
        read_only: {}
        shown: ["°"], digits: Digits::AtMost(1),
        range: Range::ANY
    }
}

quantity! {
    /// A direction clockwise from true north, 0° to 360°; base unit degree.
    Azimuth {
        name: "azimuth",
        expected: "a direction from true north such as `120°`, between 0° and 360°",
        examples: ["120°", "120 deg"],
        units: { "°" ["deg", "degrees"] = Law::Tens(0) => deg, from_deg; }
        read_only: {}
        shown: ["°"], digits: Digits::AtMost(1),
        range: Range { low: 0.0, high: 360.0 }
    }
}

quantity! {
    /// An angle above the horizontal, −90° to 90°; base unit degree.
    Elevation {
        name: "elevation",
        expected: "an angle above the horizon such as `-3°`",
        examples: ["-3°", "0.5 deg"],
        units: { "°" ["deg", "degrees"] = Law::Tens(0) => deg, from_deg; }
        read_only: {}
        shown: ["°"], digits: Digits::AtMost(1),
        range: Range { low: -90.0, high: 90.0 }
    }
}

quantity! {
    /// A beam tilt, positive downwards, −90° to 90°; base unit degree.
    Tilt {
        name: "tilt",
        expected: "a beam tilt such as `1.5°`, downwards positive",
        examples: ["1.5°", "0 deg"],
        units: { "°" ["deg", "degrees"] = Law::Tens(0) => deg, from_deg; }
        read_only: {}
        shown: ["°"], digits: Digits::AtMost(1),
        range: Range { low: -90.0, high: 90.0 }
    }
}
