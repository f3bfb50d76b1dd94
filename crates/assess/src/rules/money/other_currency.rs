//! MO 04: Prices are in another currency than the station's, and no exchange rate is stated: they cannot be added.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use std::collections::BTreeMap;
use words::Message;

/// MO 04.
pub static RULE: Rule = Rule {
    code: "MO 04",
    severity: Severity::Error,
    clause: "clause-price-list",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut by_currency: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (id, currency) in &look.outcome.money.other_currency {
        by_currency.entry(currency.code()).or_default().push(id);
    }
    by_currency
        .into_iter()
        .map(|(from, ids)| {
            let says = Message::new("mo-04")
                .count("count", ids.len() as i64)
                .text("first", ids[0])
                .text("from", from)
                .text("currency", look.outcome.money.currency.code());
            rule.finding(Stage::Money, from, says)
        })
        .collect()
}
