//! LK 07: The link is late: nobody can listen to themselves off the air.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Duration;
use station::Mark;
use words::Message;

/// LK 07.
pub static RULE: Rule = Rule {
    code: "LK 07",
    severity: Severity::Note,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some(delay) = look.outcome.link.delay_s else {
        return Vec::new();
    };
    if delay < 0.02 {
        return Vec::new();
    }
    let says = Message::new("lk-07").quantity("delay", Duration::from_s(delay));
    vec![rule.finding(Stage::Link, "", says)]
}
