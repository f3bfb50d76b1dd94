//! SA 05: Mains work belongs to a qualified electrician. A caution: never dismissed.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// SA 05.
pub static RULE: Rule = Rule {
    code: "SA 05",
    severity: Severity::Caution,
    clause: "clause-mains",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.outcome.energy.sites.is_empty() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Sites, "", Message::new("sa-05"))]
}
