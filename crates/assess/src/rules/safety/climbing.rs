//! SA 04: Nobody climbs past a radiating antenna. A caution: never dismissed.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// SA 04.
pub static RULE: Rule = Rule {
    code: "SA 04",
    severity: Severity::Caution,
    clause: "clause-practice-local",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.case.station.antennas.is_empty() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Antenna, "", Message::new("sa-04"))]
}
