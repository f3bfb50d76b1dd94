//! TX 07: The transmitter is not rated for continuous duty, and a broadcast transmitter runs all day.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use station::shelf::Duty;
use station::shelf::ItemKind;
use words::Message;

/// TX 07.
pub static RULE: Rule = Rule {
    code: "TX 07",
    severity: Severity::Error,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.case
        .station
        .items
        .iter()
        .filter_map(|item| Some((item, look.case.shelf.get(&item.shelf)?)))
        .filter(|(_, shelf)| shelf.kind == ItemKind::Transmitter && shelf.duty != Some(Duty::Continuous))
        .map(|(item, shelf)| {
            let says = Message::new("tx-07")
                .text("tag", item.tag.as_str())
                .text("name", shelf.name.as_str());
            rule.finding(Stage::Transmitter, item.tag.as_str(), says)
        })
        .collect()
}
