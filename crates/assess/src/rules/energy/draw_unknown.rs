//! PW 05: The shelf does not say what an item draws: the load is too low by that.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// PW 05.
pub static RULE: Rule = Rule {
    code: "PW 05",
    severity: Severity::Warning,
    clause: "clause-shelf",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .flat_map(|s| &s.unknown)
        .map(|tag| {
            rule.finding(
                Stage::Sites,
                tag.as_str(),
                Message::new("pw-05").text("tag", tag.as_str()),
            )
        })
        .collect()
}
