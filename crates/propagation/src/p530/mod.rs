//! Line-of-sight hops: Rec. ITU-R P.530. Clearance, multipath fading, rain on a path, diversity.

mod clearance;
mod diversity;
mod multipath;
mod rain_path;

pub use clearance::{ClearanceRule, Climate, ObstacleShape, RequiredClearance, low_k, required_clearance};
pub use diversity::{DiversityAerial, GREATEST_IMPROVEMENT, space_diversity_improvement};
pub use multipath::{HopGeometry, Multipath, MultipathError, MultipathForm, annual_conversion_db, multipath};
pub use rain_path::{Rain, RainError, RainOutage, RainPath, rain_path};
