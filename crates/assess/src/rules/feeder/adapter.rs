//! FD 04: An adapter was added where two sides do not mate.
//!
//! Each adapter costs a twentieth of a decibel and is one more place for water; a line that takes the right connector needs none.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// FD 04.
pub static RULE: Rule = Rule {
    code: "FD 04",
    severity: Severity::Note,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        for joint in &path.joints {
            let Some(name) = joint
                .adapter
                .as_deref()
                .and_then(|id| look.case.shelf.get(id))
                .map(|s| s.name.as_str())
            else {
                continue;
            };
            let says = Message::new("fd-04")
                .text("near", joint.between.0.as_str())
                .text("far", joint.between.1.as_str())
                .text("name", name);
            found.push(rule.finding(Stage::Feeder, joint.between.1.as_str(), says));
        }
    }
    found
}
