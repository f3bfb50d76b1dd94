//! Points for a field test.

use super::FieldPoint;
use crate::direction::{Direction, Plane};

/// Depressions one can reach by road, from far out to near the mast, degrees.
const DEPRESSIONS_DEG: [f64; 20] = [
    0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5, 8.5, 9.5, 10.5, 12.0, 13.5, 15.0, 17.0, 19.0, 21.5, 24.0, 27.0,
    30.0,
];

/// Points one can drive to round a site: `bearings` directions, each at twenty depressions from 0.5° to 30°.
pub fn usual_points(plane: Plane, bearings: usize) -> Vec<FieldPoint> {
    (0..bearings)
        .flat_map(|b| {
            let bearing_deg = 360.0 * b as f64 / bearings as f64;
            DEPRESSIONS_DEG.map(|d| FieldPoint {
                towards: Direction::new(bearing_deg, -d),
                plane,
            })
        })
        .collect()
}
