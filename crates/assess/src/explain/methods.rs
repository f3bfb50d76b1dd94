//! The methods behind the figures, each with its mark. Formula, clause, validity and witness are words: `methods.ftl`.

use crate::method::Method;
use station::Mark;

macro_rules! methods {
    ($($name:ident $mark:ident)*) => {
        $(
            #[doc = concat!("How figures are found by `", stringify!($name), "`.")]
            pub static $name: Method = Method {
                id: stringify!($name),
                mark: Mark::$mark,
            };
        )*
        /// Every method, for the papers' list of sources.
        pub static ALL: &[&Method] = &[$(&$name),*];
    };
}

methods! {
    LINE_LOSS Computed
    INLINE_LOSS Practice
    JOINT_LOSS Practice
    MISMATCH Computed
    ARRAY_GAIN Computed
    WIRES_GAIN Computed
    ERP_CHAIN Computed
    POWER_FROM_LICENCE Computed
    LICENCE_MARGIN Computed
    LINE_RATING Practice
    CONNECTOR_RATING Memory
    FIELD Computed
    WANTED_FIELD Memory
    PEOPLE Computed
    FREE_SPACE_DIFFRACTION Computed
    CLEARANCE Practice
    AVAILABILITY Memory
    LEASED Practice
    COUNT_RULE Practice
    MPX_POWER LookedUp
    MICROPHONE_LEVEL Computed
    MAINS_LOAD Computed
    RESERVE_TIME Memory
    ROOM_HEAT Computed
    ENERGY_YEAR Computed
    SCREENING Memory
    EXPOSURE_POINT Computed
    BILL Computed
    RUNNING Computed
    PRESENT_VALUE Computed
}

#[cfg(test)]
mod tests {
    use super::ALL;
    use words::{Language, say};

    #[test]
    fn every_method_is_told_in_every_language() {
        assert!(ALL.len() > 25, "{} methods", ALL.len());
        for method in ALL {
            for part in [
                method.formula(),
                method.clause(),
                method.validity(),
                method.witness(),
            ] {
                for language in Language::ALL {
                    assert!(
                        say(&part, *language).is_ok(),
                        "{} in {}",
                        part.code,
                        language.tag()
                    );
                }
            }
        }
    }
}
