//! CO 02: Fewer people are served than the brief asks for.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::tens;
use quantity::Length;
use station::Mark;
use words::Message;

/// CO 02.
pub static RULE: Rule = Rule {
    code: "CO 02",
    severity: Severity::Warning,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.coverage.wanted {
        let Some(area) = check.area else { continue };
        let Some(ratio) = area.wanted_ratio else { continue };
        let asked = ratio * area.people_total;
        if area.people >= asked {
            continue;
        }
        let says = Message::new("co-02")
            .count("there", tens(area.people))
            .count("asked", tens(asked))
            .quantity("radius", Length::from_km(area.radius_km));
        found.push(
            rule.finding(Stage::Listener, check.tag.as_str(), says)
                .rests_on(format!("coverage.{}.people", check.tag))
                .touches(asked - area.people),
        );
    }
    found
}
