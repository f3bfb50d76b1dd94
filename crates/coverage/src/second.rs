//! A place by the other method: the same path, another loss.

use crate::control::Control;
use crate::error::CoverageError;
use crate::place::AtPlace;
use crate::study::Study;
use crate::walk;

/// Loss to a place by the Irregular Terrain Model over the path of an answer, at its height of prediction; `None` where the
/// method refuses the distance.
///
/// # Units
/// - `climate`: one of the method's seven, 1 to 7
/// - returns: dB
///
/// # Errors
/// [`CoverageError`]: conditions the method refuses.
pub fn itm_loss_db(study: &Study, at: &AtPlace, climate: u8) -> Result<Option<f64>, CoverageError> {
    let constants = walk::itm_constants(study, climate)?;
    let points = at.profile.len();
    let heights_m = vec![at.prediction_agl_m; points];
    let mut loss = None;
    walk::walk_itm(
        &at.profile,
        &constants,
        study.tx_agl_m,
        &heights_m,
        points - 1..points,
        &Control::quiet(),
        |_, loss_db| loss = Some(loss_db),
    )?;
    Ok(loss)
}
