//! PW 01: A site draws more than its connection gives.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Power;
use station::Mark;
use words::Message;

/// PW 01.
pub static RULE: Rule = Rule {
    code: "PW 01",
    severity: Severity::Error,
    clause: "clause-supply",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter_map(|s| Some((s, s.capacity_w?)))
        .filter(|(s, capacity)| s.load_w > *capacity)
        .map(|(s, capacity)| {
            let says = Message::new("pw-01")
                .text("site", s.tag.as_str())
                .quantity("load", Power::from_w(s.load_w))
                .quantity("capacity", Power::from_w(capacity));
            rule.finding(Stage::Sites, s.tag.as_str(), says)
                .rests_on(format!("energy.{}.load", s.tag))
        })
        .collect()
}
