//! MO 01: The station costs more than the budget.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::budget_gap;
use station::Mark;
use words::Message;

/// MO 01.
pub static RULE: Rule = Rule {
    code: "MO 01",
    severity: Severity::Error,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((budget, left)) = look.outcome.money.budget else {
        return Vec::new();
    };
    if left.to_f64() >= 0.0 || !look.case.station.has_design() {
        return Vec::new();
    }
    let says = Message::new("mo-01")
        .money("price", look.outcome.money.capital.whole())
        .money("budget", budget.whole())
        .money("over", budget_gap(left).whole());
    vec![rule.finding(Stage::Money, "", says).rests_on("money.capital")]
}
