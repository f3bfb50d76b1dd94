//! BR 02: No budget is known.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// BR 02.
pub static RULE: Rule = Rule {
    code: "BR 02",
    severity: Severity::Note,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.case.station.brief.budget.value().is_some() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Money, "", Message::new("br-02"))]
}
