//! SA 07: Nothing here says that the mast holds. A caution: never dismissed.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// SA 07.
pub static RULE: Rule = Rule {
    code: "SA 07",
    severity: Severity::Caution,
    clause: "clause-structure",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.case.station.antennas.is_empty() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Sites, "", Message::new("sa-07"))]
}
