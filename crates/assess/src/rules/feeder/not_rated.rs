//! FD 08: A part of the chain does not say its loss or its rating: it cannot be proved.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// FD 08.
pub static RULE: Rule = Rule {
    code: "FD 08",
    severity: Severity::Warning,
    clause: "clause-shelf",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        for step in path.steps.as_deref().unwrap_or(&[]) {
            if step.loss_db.is_some() && step.allowed_w.is_some() {
                continue;
            }
            let name = look
                .case
                .shelf
                .get(&step.shelf)
                .map_or(step.shelf.as_str(), |s| s.name.as_str());
            let says = Message::new("fd-08")
                .text("tag", step.tag.as_str())
                .text("name", name);
            found.push(rule.finding(Stage::Feeder, step.tag.as_str(), says));
        }
    }
    found
}
