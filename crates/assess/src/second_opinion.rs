//! The same station by the Irregular Terrain Model: a second opinion on its losses, and on who is served.

use crate::case::{Case, Fields};
use crate::outcome::Outcome;
use crate::proofs::coverage::{erp_table, wanted_field};
use coverage::study::Walker;
use coverage::{AtPlace, Control, CoverageError, ErpTable, LossField, Study, itm_loss_db};
use station::brief::{Service, Situation};
use std::sync::Arc;

/// Services and situations that people are counted for.
const COUNTED: [(Service, Situation); 3] = [
    (Service::Stereo, Situation::Roof),
    (Service::Mono, Situation::Roof),
    (Service::Mono, Situation::Car),
];

/// The climate that the second method is asked with where nobody names one: 5, continental temperate.
pub const CLIMATE: u8 = 5;

/// The field at a place by the second method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldAtPlace {
    /// Median field at the listener, dB(µV/m).
    pub field_dbuv_m: f64,
    /// More than by the first, dB.
    pub more_db: f64,
}

/// The field at a place by the second method, over the same path and with the same losses round the listener; `None` where the
/// method refuses.
pub fn at_place(study: &Study, at: &AtPlace) -> Option<FieldAtPlace> {
    let loss_db = itm_loss_db(study, at, CLIMATE).ok()??;
    let more_db = at.prediction.loss_db - loss_db;
    Some(FieldAtPlace {
        field_dbuv_m: at.field_dbuv_m + more_db,
        more_db,
    })
}

/// One emission by both methods.
#[derive(Debug, Clone)]
pub struct SecondOpinion {
    /// Its tag.
    pub emission: String,
    /// What it radiates.
    pub erp: ErpTable,
    /// Losses by Rec. ITU-R P.1812.
    pub first: Arc<LossField>,
    /// Losses by the Irregular Terrain Model.
    pub second: Arc<LossField>,
    /// People served by either.
    pub people: Vec<ServedByBoth>,
}

/// People served by either method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ServedByBoth {
    /// Mono or stereo.
    pub service: Service,
    /// How it is heard.
    pub situation: Situation,
    /// People by the first method.
    pub first: f64,
    /// People by the second.
    pub second: f64,
}

/// The first emission that radiates, by both methods; `None` when none does.
///
/// # Units
/// - `climate`: one of the method's seven, 1 to 7
///
/// # Errors
/// [`CoverageError`]: what the second method refuses; cancelled included.
pub fn second_opinion(
    case: &Case,
    fields: &Fields,
    outcome: &Outcome,
    climate: u8,
    control: &Control<'_>,
) -> Result<Option<SecondOpinion>, CoverageError> {
    let radiating = outcome.transmission.emissions.iter().find_map(|path| {
        let first = fields.by_emission.get(&path.tag)?.as_ref().ok()?;
        Some((path, first.clone(), erp_table(path)?))
    });
    let Some((path, first, erp)) = radiating else {
        return Ok(None);
    };
    let study = Study {
        walker: Walker::Itm(climate),
        ..*first.study()
    };
    let second = Arc::new(LossField::compute(case.world, &study, control)?);
    let people = COUNTED
        .into_iter()
        .map(|(service, situation)| {
            let wanted = wanted_field(case, service, situation, None);
            Ok(ServedByBoth {
                service,
                situation,
                first: first.served(&erp, &wanted)?.people,
                second: second.served(&erp, &wanted)?.people,
            })
        })
        .collect::<Result<_, CoverageError>>()?;
    Ok(Some(SecondOpinion {
        emission: path.tag.clone(),
        erp,
        first,
        second,
        people,
    }))
}
