//! LI 04: The antenna stands farther from the licensed position than the tolerance.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// LI 04.
pub static RULE: Rule = Rule {
    code: "LI 04",
    severity: Severity::Error,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (emission, check) in look
        .case
        .station
        .emissions
        .iter()
        .zip(&look.outcome.licence.emissions)
    {
        let Some(off) = check.off_position_m else { continue };
        // Where no tolerance is given, 100 m is taken: three digits of a minute of arc.
        let tolerance = emission.licence.position_tolerance.map_or(100.0, |t| t.m());
        if off > tolerance {
            let says = Message::new("li-04")
                .text("tag", check.tag.as_str())
                .quantity("off", Length::from_m(off))
                .quantity("tolerance", Length::from_m(tolerance));
            found.push(rule.finding(Stage::Antenna, check.tag.as_str(), says));
        }
    }
    found
}
