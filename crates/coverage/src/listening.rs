//! An index as the audience that an antenna is shaped for.

use antenna::direction::{Direction, Plane};
use antenna::mount::shape::{Audience, Heard};

use crate::erp::ReceiverPlane;
use crate::index::CoverageIndex;

/// dBW in a dBkW.
const KILO_DB: f32 = 30.0;

/// The people of an index, who take one plane or the stronger.
#[derive(Debug, Clone)]
pub struct Listening<'a> {
    index: &'a CoverageIndex,
    directions: Vec<Direction>,
    heard: Heard,
}

impl<'a> Listening<'a> {
    /// The people of an index, with the plane their receivers take.
    pub fn new(index: &'a CoverageIndex, plane: ReceiverPlane) -> Self {
        Self {
            index,
            directions: index
                .directions_deg()
                .map(|(azimuth, elev)| Direction::new(azimuth, elev))
                .collect(),
            heard: match plane {
                ReceiverPlane::Vertical => Heard::In(Plane::Vertical),
                ReceiverPlane::Horizontal => Heard::In(Plane::Horizontal),
                ReceiverPlane::Stronger => Heard::Stronger,
            },
        }
    }
}

impl Audience for Listening<'_> {
    fn directions(&self) -> &[Direction] {
        &self.directions
    }

    fn heard(&self) -> Heard {
        self.heard
    }

    fn people(&self, erp_dbw: &[f32]) -> f64 {
        let erp_dbkw: Vec<f32> = erp_dbw.iter().map(|w| w - KILO_DB).collect();
        self.index.people_towards(&erp_dbkw)
    }

    fn people_behind(&self, direction: usize, erp_dbw: f32) -> f64 {
        self.index.people_behind(direction, erp_dbw - KILO_DB)
    }
}
