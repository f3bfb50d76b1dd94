//! FD 10: No earth kit goes on the line that climbs the mast: its outer conductor cannot be bonded.
//!
//! Lightning takes every conductor that comes down a mast. A feeder is bonded at the top, at the foot and where it enters; a thin
//! braided line has no kit that holds it.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::transmission::StepKind;
use crate::rules::Look;
use crate::rules::shelf_moves::{bonded_line, earth_kit_fits, exchange};
use station::Mark;
use words::Message;

/// FD 10.
pub static RULE: Rule = Rule {
    code: "FD 10",
    severity: Severity::Error,
    clause: "clause-bonding",
    mark: Mark::Memory,
    check,
};

/// A line longer than this leaves the building, m (common practice, no source).
const CLIMBS_M: f64 = 10.0;

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        for step in path.steps.as_deref().unwrap_or(&[]) {
            let climbs = matches!(step.kind, StepKind::Line { length_m } if length_m > CLIMBS_M);
            if !climbs || earth_kit_fits(look, &step.shelf) != Some(false) {
                continue;
            }
            let line = look.case.shelf.get(&step.shelf);
            let says = Message::new("fd-10")
                .text("tag", step.tag.as_str())
                .text("name", line.map_or(step.shelf.as_str(), |s| s.name.as_str()));
            let mut finding = rule.finding(Stage::Feeder, step.tag.as_str(), says);
            if let Some(line) = bonded_line(look, &step.shelf, step.power_in_w.unwrap_or(0.0)) {
                finding = finding.remedy(Remedy::new(
                    Message::new("fd-01-do").text("name", line.name.as_str()),
                    exchange(look, &format!("cables.{}", step.tag), "shelf", &line.id),
                ));
            }
            found.push(finding);
        }
    }
    found
}
