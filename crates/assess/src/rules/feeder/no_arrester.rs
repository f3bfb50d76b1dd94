//! FD 07: No surge arrester stands between antenna and transmitter.
//!
//! Lightning enters by every conductor; an earth kit at the entry and an arrester in the line are the least.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// FD 07.
pub static RULE: Rule = Rule {
    code: "FD 07",
    severity: Severity::Warning,
    clause: "clause-arrester",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Ok(steps) = &path.steps else { continue };
        let arrested = steps.iter().any(|s| {
            look.case
                .shelf
                .get(&s.shelf)
                .is_some_and(|i| i.kind == ItemKind::Arrester)
        });
        if !arrested {
            found.push(rule.finding(
                Stage::Feeder,
                path.tag.as_str(),
                Message::new("fd-07").text("tag", path.tag.as_str()),
            ));
        }
    }
    found
}
