//! The rules: one finding, one file.

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
pub fn all() -> Vec<&'static Rule> {
    Vec::new()
}

/// Runs every rule.
pub fn run(look: &Look) -> Vec<Finding> {
    let mut found: Vec<Finding> = all()
        .into_iter()
        .flat_map(|rule| (rule.check)(look, rule))
        .collect();
    found.sort_by(|a, b| {
        a.severity
            .cmp(&b.severity)
            .then(b.people.total_cmp(&a.people))
            .then(a.code.cmp(b.code))
    });
    found
}
