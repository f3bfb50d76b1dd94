//! Hours a year: fading and rain at a fade margin.

use super::error::{HopError, finite};
use crate::p530::{
    DiversityAerial, GREATEST_IMPROVEMENT, HopGeometry, Multipath, MultipathError, MultipathForm, Rain,
    RainOutage, RainPath, annual_conversion_db, multipath, rain_path, space_diversity_improvement,
};
use crate::p1812::Polarisation;

/// Minutes in an average year of 365.25 days.
pub const MINUTES_PER_YEAR: f64 = 525_960.0;

/// Multipath is left out on shorter hops, km (Rec. ITU-R P.530 § 2.3 [V code comment]).
const SHORTEST_MULTIPATH_KM: f64 = 5.0;
/// Rain is neglected below this, GHz.
const LEAST_RAIN_GHZ: f64 = 5.0;

/// What the fading formulas need beyond the geometry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FadingInput {
    /// Formula and its climate values.
    pub form: MultipathForm,
    /// Latitude of the path, degrees.
    pub latitude_deg: f64,
    /// Second receiving aerial, if any.
    pub diversity: Option<DiversityAerial>,
}

/// Outage by multipath, or why there is none to tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MultipathOutage {
    /// Under 5 km: multipath need not be counted.
    NotNeeded,
    /// Frequency below `15/d` GHz: outside the method. Keep 0.6 of F1 and 20 dB of margin [P].
    OutsideMethod {
        /// Least frequency of the method at this length, GHz.
        least_ghz: f64,
    },
    /// Computed.
    Computed {
        /// Fading of the hop.
        fading: Multipath,
        /// Worst month to year, dB.
        annual_conversion_db: f64,
        /// Improvement by diversity as used, 1 without.
        improvement: f64,
        /// Share of the average worst month, %.
        worst_month_pct: f64,
        /// Share of the average year, %.
        annual_pct: f64,
    },
}

impl MultipathOutage {
    /// Share of the year, %; 0 where not counted, `None` where the method cannot tell.
    pub fn annual_pct(&self) -> Option<f64> {
        match self {
            Self::NotNeeded => Some(0.0),
            Self::OutsideMethod { .. } => None,
            Self::Computed { annual_pct, .. } => Some(*annual_pct),
        }
    }
}

/// Rain's part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RainShare {
    /// Below 5 GHz: neglected.
    Neglected,
    /// Computed.
    Computed {
        /// Attenuation and its intermediates.
        path: RainPath,
        /// Share of the year, %.
        outage: RainOutage,
    },
}

impl RainShare {
    /// Share of the year, %.
    pub fn pct(&self) -> f64 {
        match self {
            Self::Neglected => 0.0,
            Self::Computed { outage, .. } => outage.pct(),
        }
    }
}

/// Outage of a hop over an average year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Availability {
    /// The margin it was computed at, dB.
    pub fade_margin_db: f64,
    /// Multipath.
    pub multipath: MultipathOutage,
    /// Rain.
    pub rain: RainShare,
    /// Sum of the two, %, at most 100; `None` where multipath is outside the method.
    pub outage_pct: Option<f64>,
    /// 100 less the outage, %.
    pub availability_pct: Option<f64>,
    /// Outage in minutes a year.
    pub minutes_per_year: Option<f64>,
}

pub(super) fn availability(
    geometry: &HopGeometry,
    fading: &FadingInput,
    rain: (Option<f64>, Polarisation),
    fade_margin_db: f64,
) -> Result<Availability, HopError> {
    let multipath = multipath_outage(geometry, fading, fade_margin_db)?;
    let rain = rain_share(geometry, rain, fade_margin_db)?;
    // The two rarely coincide, so they are added.
    let outage_pct = if fade_margin_db <= 0.0 {
        Some(100.0)
    } else {
        multipath.annual_pct().map(|pct| (pct + rain.pct()).min(100.0))
    };
    Ok(Availability {
        fade_margin_db,
        multipath,
        rain,
        outage_pct,
        availability_pct: outage_pct.map(|pct| 100.0 - pct),
        minutes_per_year: outage_pct.map(|pct| pct / 100.0 * MINUTES_PER_YEAR),
    })
}

fn multipath_outage(
    geometry: &HopGeometry,
    input: &FadingInput,
    margin_db: f64,
) -> Result<MultipathOutage, HopError> {
    finite("latitude_deg", input.latitude_deg)?;
    if geometry.path_km < SHORTEST_MULTIPATH_KM {
        return Ok(MultipathOutage::NotNeeded);
    }
    let fading = match multipath(geometry, input.form) {
        Err(MultipathError::FrequencyTooLow { least_ghz, .. }) => {
            return Ok(MultipathOutage::OutsideMethod { least_ghz });
        }
        other => other?,
    };
    let improvement = match input.diversity {
        None => 1.0,
        Some(aerial) => space_diversity_improvement(geometry, &fading, aerial, margin_db)?
            .clamp(1.0, GREATEST_IMPROVEMENT),
    };
    let annual_conversion_db =
        annual_conversion_db(input.latitude_deg, geometry.path_km, fading.inclination_mrad);
    let worst_month_pct = fading.worst_month_pct(margin_db) / improvement;
    let annual_pct = (worst_month_pct / 10f64.powf(annual_conversion_db / 10.0)).min(100.0);
    Ok(MultipathOutage::Computed {
        fading,
        annual_conversion_db,
        improvement,
        worst_month_pct,
        annual_pct,
    })
}

fn rain_share(
    geometry: &HopGeometry,
    (rate_mm_per_h, polarisation): (Option<f64>, Polarisation),
    margin_db: f64,
) -> Result<RainShare, HopError> {
    let HopGeometry {
        path_km, freq_ghz, ..
    } = *geometry;
    if freq_ghz < LEAST_RAIN_GHZ {
        return Ok(RainShare::Neglected);
    }
    let rate_mm_per_h = rate_mm_per_h.ok_or(HopError::RainMissing { freq_ghz })?;
    let path = rain_path(&Rain {
        path_km,
        freq_ghz,
        polarisation,
        rate_mm_per_h,
    })?;
    Ok(RainShare::Computed {
        path,
        outage: path.outage(margin_db),
    })
}

/// Availability of ways that back each other up: it fails when all fail. Shares from 0 to 1, taken as independent.
pub fn parallel(availability_ratios: &[f64]) -> f64 {
    1.0 - availability_ratios.iter().map(|a| 1.0 - a).product::<f64>()
}

/// Availability of a chain: it works when every part works. Shares from 0 to 1, taken as independent.
pub fn series(availability_ratios: &[f64]) -> f64 {
    availability_ratios.iter().product()
}
