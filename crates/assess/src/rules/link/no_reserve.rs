//! LK 08: The brief asks for a second way to the transmitter and there is none.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// LK 08.
pub static RULE: Rule = Rule {
    code: "LK 08",
    severity: Severity::Warning,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let wanted = look.case.station.brief.continuity.reserve_link == Some(true);
    if !wanted || look.outcome.link.hops.iter().any(|h| h.reserve) {
        return Vec::new();
    }
    let finding = rule.finding(Stage::Link, "", Message::new("lk-08"));
    vec![finding.remedy_if(super::second_way(look))]
}
