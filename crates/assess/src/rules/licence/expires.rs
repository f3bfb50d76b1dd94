//! LI 09: The licence ends before the station has run a year.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// LI 09.
pub static RULE: Rule = Rule {
    code: "LI 09",
    severity: Severity::Warning,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for emission in &look.case.station.emissions {
        let Some(until) = emission.licence.until else {
            continue;
        };
        if until.day_number() - look.case.today.day_number() < 365 {
            let says = Message::new("li-09")
                .text("tag", emission.tag.as_str())
                .text("day", until.to_string());
            found.push(rule.finding(Stage::Antenna, emission.tag.as_str(), says));
        }
    }
    found
}
