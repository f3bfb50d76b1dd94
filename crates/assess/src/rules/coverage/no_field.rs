//! CO 06: The field could not be computed.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// CO 06.
pub static RULE: Rule = Rule {
    code: "CO 06",
    severity: Severity::Error,
    clause: "clause-ground",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .coverage
        .emissions
        .iter()
        .filter_map(|c| Some((c, c.fault.as_ref()?)))
        .map(|(c, fault)| {
            let says = Message::new("co-06")
                .text("tag", c.tag.as_str())
                .message("why", fault);
            rule.finding(Stage::Field, c.tag.as_str(), says)
        })
        .collect()
}
