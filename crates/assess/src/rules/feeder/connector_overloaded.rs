//! FD 02: A connector bears more than it may.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Power;
use station::Mark;
use words::Message;

/// FD 02.
pub static RULE: Rule = Rule {
    code: "FD 02",
    severity: Severity::Error,
    clause: "clause-connector-ratings",
    mark: Mark::Memory,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        for joint in &path.joints {
            let (Some(power), Some(allowed)) = (joint.power_w, joint.allowed_w) else {
                continue;
            };
            if power > allowed {
                let says = Message::new("fd-02")
                    .text("near", joint.between.0.as_str())
                    .text("far", joint.between.1.as_str())
                    .quantity("power", Power::from_w(power))
                    .quantity("allowed", Power::from_w(allowed));
                found.push(rule.finding(Stage::Feeder, joint.between.1.as_str(), says));
            }
        }
    }
    found
}
