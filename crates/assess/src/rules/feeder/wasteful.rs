//! FD 05: The feeder turns more than a third of the power into heat.
//!
//! A thicker line often costs less than the energy it saves, and always less than a bigger transmitter.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::transmission::StepKind;
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, lower_loss_line};
use quantity::{Decibels, Percent};
use station::Mark;
use words::Message;

/// FD 05.
pub static RULE: Rule = Rule {
    code: "FD 05",
    severity: Severity::Warning,
    clause: "clause-line-loss",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Some(power) = path.power_w else { continue };
        for step in path.steps.as_deref().unwrap_or(&[]) {
            let Some(loss) = step.loss_db else { continue };
            if loss < 1.8 || matches!(step.kind, StepKind::Splitter) {
                continue;
            }
            let share = 100.0 * (1.0 - 10f64.powf(-loss / 10.0));
            let says = Message::new("fd-05")
                .text("tag", step.tag.as_str())
                .quantity("loss", Decibels::from_db(loss))
                .quantity("share", Percent::from_pct(share));
            let mut finding = rule
                .finding(Stage::Feeder, step.tag.as_str(), says)
                .rests_on(format!("transmission.{}.step.{}", path.tag, step.tag));
            if let Some(line) = lower_loss_line(look, &step.shelf, loss, 1.7) {
                finding = finding.remedy(Remedy::new(
                    Message::new("fd-01-do").text("name", line.name.as_str()),
                    exchange(look, &format!("cables.{}", step.tag), "shelf", &line.id),
                ));
            }
            let _ = power;
            found.push(finding);
        }
    }
    found
}
