//! SA 03: How far the public must stay from the bays while on the air. A caution: never dismissed.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// SA 03.
pub static RULE: Rule = Rule {
    code: "SA 03",
    severity: Severity::Caution,
    clause: "clause-screening",
    mark: Mark::Memory,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .exposure
        .emissions
        .iter()
        .map(|d| {
            let says = Message::new("sa-03")
                .text("tag", d.tag.as_str())
                .quantity("public", Length::from_m(d.public_printed_m()))
                .quantity("workers", Length::from_m(d.workers_printed_m()));
            rule.finding(Stage::Sites, d.tag.as_str(), says)
                .rests_on(format!("exposure.{}.public", d.tag))
        })
        .collect()
}
