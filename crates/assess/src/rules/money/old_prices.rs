//! MO 03: Prices are older than ninety days.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// MO 03.
pub static RULE: Rule = Rule {
    code: "MO 03",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let old: Vec<i64> = look
        .outcome
        .money
        .lines
        .iter()
        .filter_map(|l| l.price_age_days)
        .filter(|d| *d > 90)
        .collect();
    let Some(oldest) = old.iter().max() else {
        return Vec::new();
    };
    let says = Message::new("mo-03")
        .count("days", *oldest)
        .count("lines", old.len() as i64);
    vec![rule.finding(Stage::Money, "", says)]
}
