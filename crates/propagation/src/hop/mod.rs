//! One radio hop from end to end: clearance, diffraction, levels, fading, availability. The proof behind a studio link.

mod availability;
mod clearance;
mod error;
mod levels;
mod reflector;

pub use availability::{
    Availability, FadingInput, MINUTES_PER_YEAR, MultipathOutage, RainShare, parallel, series,
};
pub use clearance::{ClearanceAtK, PointClearance, ProfileInput, clearance_at_k};
pub use error::HopError;
pub use levels::{Levels, RadioInput, dish_beamwidth_deg, dish_gain_dbi, noise_dbm, receiver_threshold_dbm};
pub use reflector::{FlatReflector, ReflectorGain, flat_reflector};

use crate::p526::{DeltaBullington, PathEnds, delta_bullington};
use crate::p530::{ClearanceRule, HopGeometry, required_clearance};
use crate::p1812::Polarisation;
use crate::refractivity::K_MEDIAN;

/// Everything that describes a hop.
#[derive(Debug, Clone, Copy)]
pub struct HopInput<'a> {
    /// Ground between the ends, obstacles included, and the two aerials.
    pub profile: ProfileInput<'a>,
    /// Radio equipment.
    pub radio: RadioInput,
    /// What the fading formulas need.
    pub fading: FadingInput,
    /// Rain rate exceeded 0.01 % of an average year, mm/h; `None` leaves rain out, which is allowed below 5 GHz only.
    pub rain_mm_per_h: Option<f64>,
    /// Plane of the electric field.
    pub polarisation: Polarisation,
    /// Which clearance is asked for.
    pub rule: ClearanceRule,
}

/// A hop at one value of k.
#[derive(Debug, Clone, PartialEq)]
pub struct HopAtK {
    /// Clearances along the profile.
    pub clearance: ClearanceAtK,
    /// Diffraction over the whole profile.
    pub diffraction: DeltaBullington,
    /// Received level and margin with that diffraction.
    pub levels: Levels,
    /// Share of F1 that the rule asks for at this k.
    pub required_ratio: f64,
    /// Metres by which the worst point falls short of the rule; 0 when it is met.
    pub shortfall_m: f64,
}

/// Proof of a hop: what a link sheet prints.
#[derive(Debug, Clone, PartialEq)]
pub struct HopSummary {
    /// Path length, km.
    pub path_km: f64,
    /// At the median k, 4/3.
    pub median: HopAtK,
    /// At the low k of the rule.
    pub low: HopAtK,
    /// Path rule met at both k.
    pub clearance_met: bool,
    /// Outage and availability over a year at the median k's margin.
    pub availability: Availability,
}

/// Proves one hop.
///
/// Fading starts from the margin at the median k. When the ray is obstructed at the low k the loss there stands in `low`; it is not
/// added to the outage, since the method has no share of time for it.
///
/// # Errors
/// [`HopError`]: a profile that does not rise strictly from 0 km, fewer than three points, a value that is not finite, an aerial
/// under ground, a value outside a method.
///
/// # Source
/// Rec. ITU-R P.525, P.526, P.530, P.676, P.838, each as its module states.
pub fn hop(input: &HopInput<'_>) -> Result<HopSummary, HopError> {
    input.profile.check()?;
    let path_km = input.profile.path_km();
    let required = required_clearance(input.rule, path_km);
    let median = at_k(input, K_MEDIAN, required.at_median_ratio)?;
    let low = at_k(input, required.low_k, required.at_low_ratio)?;
    let geometry = HopGeometry {
        path_km,
        freq_ghz: input.profile.freq_ghz,
        tx_amsl_m: input.profile.tx_amsl_m(),
        rx_amsl_m: input.profile.rx_amsl_m(),
    };
    let availability = availability::availability(
        &geometry,
        &input.fading,
        (input.rain_mm_per_h, input.polarisation),
        median.levels.fade_margin_db,
    )?;
    let clearance_met = median.shortfall_m == 0.0 && low.shortfall_m == 0.0;
    Ok(HopSummary {
        path_km,
        median,
        low,
        clearance_met,
        availability,
    })
}

fn at_k(input: &HopInput<'_>, k: f64, required_ratio: f64) -> Result<HopAtK, HopError> {
    let profile = &input.profile;
    let clearance = clearance_at_k(profile, k)?;
    let ends = PathEnds {
        tx_amsl_m: profile.tx_amsl_m(),
        rx_amsl_m: profile.rx_amsl_m(),
        freq_ghz: profile.freq_ghz,
        k,
    };
    let diffraction = delta_bullington(
        profile.distance_km,
        profile.height_amsl_m,
        &ends,
        input.polarisation,
    )
    .ok_or(HopError::TooFewPoints)?;
    let levels = levels::levels(
        &input.radio,
        profile.freq_ghz,
        profile.path_km(),
        diffraction.loss_db,
    )?;
    let shortfall_m = clearance.shortfall_m(required_ratio);
    Ok(HopAtK {
        clearance,
        diffraction,
        levels,
        required_ratio,
        shortfall_m,
    })
}
