//! MO 04: A price is in another currency than the station's: it cannot be added.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// MO 04.
pub static RULE: Rule = Rule {
    code: "MO 04",
    severity: Severity::Error,
    clause: "price list",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .money
        .other_currency
        .iter()
        .map(|id| {
            let says = Message::new("mo-04")
                .text("id", id.as_str())
                .text("currency", look.outcome.money.currency.code());
            rule.finding(Stage::Money, id.as_str(), says)
        })
        .collect()
}
