//! The rules: one finding, one file.

pub mod antenna;
pub mod brief;
pub mod coverage;
pub mod energy;
pub mod feeder;
pub mod licence;
pub mod link;
pub mod money;
pub mod safety;
pub mod shelf_moves;
pub mod studio;
pub mod transmitter;

use crate::case::Case;
use crate::finding::{Finding, Rule};
use crate::outcome::Outcome;

/// Computed powers meet the mask to rounding; this much over is not a breach, dB.
pub const LICENCE_TOLERANCE_DB: f64 = 0.005;

/// What a rule looks at.
#[derive(Clone, Copy)]
pub struct Look<'a> {
    /// The station and the world it stands in.
    pub case: &'a Case<'a>,
    /// The numbers.
    pub outcome: &'a Outcome,
}

/// Every rule, in the order of the air chain.
pub fn all() -> impl Iterator<Item = &'static Rule> {
    [
        brief::RULES,
        studio::RULES,
        link::RULES,
        transmitter::RULES,
        feeder::RULES,
        antenna::RULES,
        licence::RULES,
        coverage::RULES,
        safety::RULES,
        energy::RULES,
        money::RULES,
    ]
    .into_iter()
    .flatten()
    .copied()
}

/// Runs every rule; findings come worst first, then by people touched.
pub fn run(look: &Look) -> Vec<Finding> {
    let mut found: Vec<Finding> = all().flat_map(|rule| (rule.check)(look, rule)).collect();
    found.sort_by(|a, b| {
        a.severity
            .cmp(&b.severity)
            .then(b.people.total_cmp(&a.people))
            .then(a.code.cmp(b.code))
            .then(a.tag.cmp(&b.tag))
    });
    found
}
