//! How far the ray must pass over the ground. Rec. ITU-R P.530 § 2.2.2.

use crate::refractivity::K_MEDIAN;

/// Climate, as the clearance rule divides it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Climate {
    /// Temperate.
    Temperate,
    /// Tropical.
    Tropical,
}

/// Shape of the worst obstacle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ObstacleShape {
    /// One ridge, standing alone.
    Isolated,
    /// Ground that stays close to the ray along a stretch.
    Extended,
}

/// Which rule sets the heights of the aerials.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClearanceRule {
    /// 0.6 of the first Fresnel zone at k = 4/3 and a free line of sight at k = 2/3 [P].
    Draft,
    /// Rec. ITU-R P.530 § 2.2.2.1 without diversity [M]: the whole first zone at k = 4/3, and a share of it at the low k.
    P530 {
        /// Climate of the path.
        climate: Climate,
        /// Shape of the worst obstacle.
        shape: ObstacleShape,
    },
}

/// Clearance a rule asks for, as shares of the first Fresnel radius at two values of k.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RequiredClearance {
    /// Share of F1 at `K_MEDIAN`.
    pub at_median_ratio: f64,
    /// The median k.
    pub median_k: f64,
    /// Share of F1 at `low_k`.
    pub at_low_ratio: f64,
    /// The low k of the rule.
    pub low_k: f64,
}

/// Effective radius factor exceeded 99.9 % of the worst month.
///
/// Straight in the logarithm of distance between 0.6 at 20 km, 0.8 at 50 km and 0.9 at 100 km; the slope of the first stretch is
/// carried on to 10 km (0.45) and held below it, where the bulge is small; above 100 km 0.9 is held.
///
/// # Source
/// Rec. ITU-R P.530 figure 2, three points [M].
pub fn low_k(path_km: f64) -> f64 {
    const ROWS: [(f64, f64); 3] = [(20.0, 0.6), (50.0, 0.8), (100.0, 0.9)];
    let d = path_km.clamp(10.0, 100.0);
    let [near, middle, far] = ROWS;
    let (a, b) = if d <= middle.0 {
        (near, middle)
    } else {
        (middle, far)
    };
    a.1 + (b.1 - a.1) * (d / a.0).ln() / (b.0 / a.0).ln()
}

/// What a rule asks for on a path of this length.
pub fn required_clearance(rule: ClearanceRule, path_km: f64) -> RequiredClearance {
    let (at_median_ratio, at_low_ratio, low_k) = match rule {
        ClearanceRule::Draft => (0.6, 0.0, 2.0 / 3.0),
        ClearanceRule::P530 { climate, shape } => {
            (1.0, share_at_low_k(climate, shape, path_km), low_k(path_km))
        }
    };
    RequiredClearance {
        at_median_ratio,
        median_k: K_MEDIAN,
        at_low_ratio,
        low_k,
    }
}

fn share_at_low_k(climate: Climate, shape: ObstacleShape, path_km: f64) -> f64 {
    match (climate, shape) {
        (Climate::Tropical, _) if path_km > 30.0 => 0.6,
        (_, ObstacleShape::Isolated) => 0.0,
        (_, ObstacleShape::Extended) => 0.3,
    }
}
