//! SA 06: The mast draws lightning. A caution: never dismissed.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// SA 06.
pub static RULE: Rule = Rule {
    code: "SA 06",
    severity: Severity::Caution,
    clause: "clause-lightning",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.case.station.antennas.is_empty() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Sites, "", Message::new("sa-06"))]
}
