//! SA 02: Other emitters stand on the site and their share of the exposure is not known.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// SA 02.
pub static RULE: Rule = Rule {
    code: "SA 02",
    severity: Severity::Warning,
    clause: "clause-cumulative",
    mark: Mark::LookedUp,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for p in &look.outcome.exposure.points {
        if p.others_unknown.is_empty() {
            continue;
        }
        let says = Message::new("sa-02")
            .text("place", p.name.as_str())
            .with("others", words::Arg::All(p.others_unknown.clone()));
        found.push(rule.finding(Stage::Sites, p.tag.as_str(), says));
    }
    found
}
