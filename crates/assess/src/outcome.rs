//! All numbers of one station.

use crate::case::{Case, Fields};
use crate::proofs::{coverage, energy, exposure, licence, link, money, studio, transmission};

/// The numbers of every proof: no words, nothing rounded.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// From transmitter to bays.
    pub transmission: transmission::Outcome,
    /// What the licence says to it.
    pub licence: licence::Outcome,
    /// Who hears it.
    pub coverage: coverage::Outcome,
    /// From studio to transmitter.
    pub link: link::Outcome,
    /// Seats and sources.
    pub studio: studio::Outcome,
    /// Power and heat.
    pub energy: energy::Outcome,
    /// People near the antennas.
    pub exposure: exposure::Outcome,
    /// What it costs.
    pub money: money::Outcome,
}

/// Computes every number of a station. The slow part, the loss fields, is given.
pub fn evaluate(case: &Case, fields: &Fields) -> Outcome {
    let transmission = transmission::evaluate(case);
    let energy = energy::evaluate(case, &transmission);
    Outcome {
        licence: licence::evaluate(case, &transmission),
        coverage: coverage::evaluate(case, fields, &transmission),
        link: link::evaluate(case),
        studio: studio::evaluate(case),
        exposure: exposure::evaluate(case, &transmission),
        money: money::evaluate(case, &transmission, &energy),
        energy,
        transmission,
    }
}
