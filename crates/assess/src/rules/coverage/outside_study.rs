//! CO 05: A wanted place or area lies outside the study's circle.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::wanted_name;
use quantity::Length;
use station::Mark;
use words::Message;

/// CO 05.
pub static RULE: Rule = Rule {
    code: "CO 05",
    severity: Severity::Warning,
    clause: "clause-study",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.coverage.wanted {
        let Some(radius) = look
            .outcome
            .coverage
            .emissions
            .first()
            .and_then(|c| c.study)
            .map(|s| s.radius_km)
        else {
            continue;
        };
        let away = match (&check.place, check.area) {
            (Some(Ok(at)), _) => at.distance_km,
            (_, Some(area)) => area.radius_km,
            _ => continue,
        };
        if away > radius + 1e-9 {
            let wider = (away * 1.1).ceil();
            let says = Message::new("co-05")
                .text("what", wanted_name(look, &check.tag))
                .quantity("away", Length::from_km(away))
                .quantity("radius", Length::from_km(radius));
            found.push(
                rule.finding(Stage::Field, check.tag.as_str(), says)
                    .remedy(Remedy::new(
                        Message::new("co-05-do").quantity("radius", Length::from_km(wider)),
                        vec![look.case.set("study.radius", format!("{wider} km"))],
                    )),
            );
        }
    }
    found
}
