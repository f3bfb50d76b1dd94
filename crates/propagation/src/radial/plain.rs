//! The plain walker: every receiver predicted on its own, by P.1812 on the path that ends there.

use super::{Radial, RadialSetup, check_receivers};
use crate::p1812::{self, Antennas, InputError, Prediction};
use std::ops::Range;

/// Basic transmission loss in dB to each receiver of a radial.
///
/// # Shape
/// - `rx_agl_m`: receiver height above ground, one for each point of the radial, the first unused
/// - `receivers`: indices of the points where receivers stand; 1 is the first behind the transmitter
/// - returns: one loss for each index of `receivers`, in their order
///
/// # Errors
/// [`InputError`] when heights are missing or outside 1 to 3000 m, or a receiver is not on the radial.
pub fn walk(
    radial: &Radial,
    setup: &RadialSetup,
    rx_agl_m: &[f64],
    receivers: Range<usize>,
) -> Result<Vec<f64>, InputError> {
    check_receivers(radial, rx_agl_m, &receivers)?;
    Ok(receivers
        .map(|point| predict(radial, setup, rx_agl_m[point], point).loss_db)
        .collect())
}

/// Full prediction with intermediates for the receiver over one point of a radial.
///
/// # Errors
/// [`InputError::Range`] when the height is outside 1 to 3000 m above ground, or the point is not on the radial.
pub fn at(
    radial: &Radial,
    setup: &RadialSetup,
    rx_agl_m: f64,
    point: usize,
) -> Result<Prediction, InputError> {
    let last = radial.profile.len() - 1;
    p1812::conditions::within("point", point as f64, "", 1.0, last as f64)?;
    p1812::conditions::within("rx-height", rx_agl_m, "m", 1.0, 3000.0)?;
    Ok(predict(radial, setup, rx_agl_m, point))
}

fn predict(radial: &Radial, setup: &RadialSetup, rx_agl_m: f64, point: usize) -> Prediction {
    let antennas = Antennas {
        tx_agl_m: setup.tx_agl_m,
        rx_agl_m,
    };
    p1812::predict_path(
        &radial.profile.path_to(point),
        &setup.constants,
        &antennas,
        &radial.bearing,
        None,
    )
}
