//! FD 01: A line or a part in the feeder bears more than it may, hot, in the sun and with standing waves.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, thicker_line};
use quantity::Power;
use station::Mark;
use words::Message;

/// FD 01.
pub static RULE: Rule = Rule {
    code: "FD 01",
    severity: Severity::Error,
    clause: "clause-line-data",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        for step in path.steps.as_deref().unwrap_or(&[]) {
            let (Some(power), Some(allowed)) = (step.power_in_w, step.allowed_w) else {
                continue;
            };
            if power > allowed {
                let says = Message::new("fd-01")
                    .text("tag", step.tag.as_str())
                    .quantity("power", Power::from_w(power))
                    .quantity("allowed", Power::from_w(allowed));
                let mut finding = rule
                    .finding(Stage::Feeder, step.tag.as_str(), says)
                    .rests_on(format!("transmission.{}.step.{}", path.tag, step.tag));
                if let Some(thicker) = thicker_line(look, &step.shelf, power) {
                    finding = finding.remedy(Remedy::new(
                        Message::new("fd-01-do").text("name", thicker.name.as_str()),
                        exchange(look, &format!("cables.{}", step.tag), "shelf", &thicker.id),
                    ));
                }
                found.push(finding);
            }
        }
    }
    found
}
