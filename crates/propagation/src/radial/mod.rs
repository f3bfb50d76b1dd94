//! Losses to the points of a radial, outwards from the transmitter.
//!
//! [`plain`] reads the profile anew for every receiver: small, slow, and the oracle of the fast one. [`engine`] walks outwards
//! once and gives the same losses; tests hold the two together.

pub mod block;
mod clearance;
pub mod engine;
mod found;
mod ground;
mod hull;
mod outward;
mod peak;
pub mod plain;
mod smooth;
mod waiting;

use crate::p1812::conditions::within;
use crate::p1812::{Bearing, Conditions, Constants, InputError, Profile};
use std::ops::Range;

/// The ground along one direction from a transmitter, and the direction itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Radial {
    /// Distances, heights, clutter and zones, transmitter first.
    pub profile: Profile,
    /// Direction on the sphere, for the latitude half way to each receiver.
    pub bearing: Bearing,
}

impl Radial {
    /// A radial that leaves latitude `lat_deg` at `azimuth_deg` clockwise from true north.
    pub fn new(profile: Profile, lat_deg: f64, azimuth_deg: f64) -> Radial {
        Radial {
            profile,
            bearing: Bearing::new(lat_deg, azimuth_deg),
        }
    }
}

/// What is the same for every radial of a study.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadialSetup {
    /// What follows from frequency, percentages and climate.
    pub constants: Constants,
    /// Transmitting antenna above the ground at the first point, m.
    pub tx_agl_m: f64,
}

impl RadialSetup {
    /// Checks conditions and antenna height.
    ///
    /// # Errors
    /// [`InputError::Range`] names the first input outside the method's range.
    pub fn new(conditions: &Conditions, tx_agl_m: f64) -> Result<RadialSetup, InputError> {
        within("tx-height", tx_agl_m, "m", 1.0, 3000.0)?;
        Ok(RadialSetup {
            constants: Constants::new(conditions)?,
            tx_agl_m,
        })
    }
}

/// Checks receiver heights: one for each point, plausible wherever a receiver stands.
pub(crate) fn check_receivers(
    radial: &Radial,
    rx_agl_m: &[f64],
    receivers: &Range<usize>,
) -> Result<(), InputError> {
    let points = radial.profile.len();
    if rx_agl_m.len() != points {
        return Err(InputError::ReceiverHeights {
            given: rx_agl_m.len(),
            points,
        });
    }
    if receivers.start < 1 || receivers.end > points {
        let value = if receivers.start < 1 {
            receivers.start
        } else {
            receivers.end - 1
        } as f64;
        let most = (points - 1) as f64;
        return Err(InputError::Range {
            what: "point",
            value,
            unit: "",
            least: 1.0,
            most,
        });
    }
    for &height_m in &rx_agl_m[receivers.clone()] {
        within("rx-height", height_m, "m", 1.0, 3000.0)?;
    }
    Ok(())
}
