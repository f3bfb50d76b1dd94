//! BR 01: The brief names no place that must be served: nobody can say whether the station does its job.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// BR 01.
pub static RULE: Rule = Rule {
    code: "BR 01",
    severity: Severity::Warning,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if !look.case.station.brief.wanted.is_empty() {
        return Vec::new();
    }
    vec![rule.finding(Stage::Brief, "", Message::new("br-01"))]
}
