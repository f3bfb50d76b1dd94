//! MO 02: Something has no price: the sum is too low by it.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// MO 02.
pub static RULE: Rule = Rule {
    code: "MO 02",
    severity: Severity::Warning,
    clause: "clause-price-list",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .money
        .lines
        .iter()
        .filter(|l| l.line.is_none())
        .map(|l| {
            rule.finding(
                Stage::Money,
                l.id.as_str(),
                Message::new("mo-02")
                    .text("id", l.id.as_str())
                    .text("shelf", l.shelf.as_str()),
            )
        })
        .collect()
}
