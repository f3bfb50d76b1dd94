//! MO 05: A packed item is heavier than a case may be.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Mass;
use station::Mark;
use station::shelf::Per;
use words::Message;

/// MO 05.
pub static RULE: Rule = Rule {
    code: "MO 05",
    severity: Severity::Warning,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some(limit) = look.case.station.brief.delivery.case_mass.map(|m| m.kg()) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for line in &look.outcome.money.lines {
        let Some(shelf) = look.case.shelf.get(&line.shelf) else {
            continue;
        };
        let by_length = matches!(line.per, Per::Metre | Per::SquareMetre);
        let Some(each) = shelf.packed.or(shelf.mass).map(|m| m.kg()) else {
            continue;
        };
        if each > limit && !by_length {
            let says = Message::new("mo-05")
                .text("id", line.id.as_str())
                .quantity("mass", Mass::from_kg(each))
                .quantity("limit", Mass::from_kg(limit));
            found.push(rule.finding(Stage::Money, line.id.as_str(), says));
        }
    }
    found
}
