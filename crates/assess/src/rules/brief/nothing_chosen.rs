//! BR 05: The file holds a brief and no design yet.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// BR 05.
pub static RULE: Rule = Rule {
    code: "BR 05",
    severity: Severity::Note,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.case.station.has_design() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Brief, "", Message::new("br-05"))]
}
