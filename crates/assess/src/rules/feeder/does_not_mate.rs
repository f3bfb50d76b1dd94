//! FD 03: Two sides of a joint do not mate, and no adapter on the shelf joins them.
//!
//! Discovered on the hill, one missing adapter stops a crew.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// FD 03.
pub static RULE: Rule = Rule {
    code: "FD 03",
    severity: Severity::Error,
    clause: "clause-connector",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        for joint in path.joints.iter().filter(|j| j.impossible) {
            let side = |s: &Option<String>| s.clone().unwrap_or_else(|| "?".into());
            let says = Message::new("fd-03")
                .text("near", joint.between.0.as_str())
                .text("far", joint.between.1.as_str())
                .text("one", side(&joint.sides.0))
                .text("other", side(&joint.sides.1));
            found.push(rule.finding(Stage::Feeder, joint.between.1.as_str(), says));
        }
    }
    found
}
