//! LK 03: The fade margin is thin.

use crate::explain::MARGIN_WANTED_DB;
use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::larger_dish;
use quantity::Decibels;
use station::Mark;
use words::Message;

/// LK 03.
pub static RULE: Rule = Rule {
    code: "LK 03",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (hop, check) in look.case.station.hops.iter().zip(&look.outcome.link.hops) {
        let Some(Ok(radio)) = &check.radio else { continue };
        let margin = radio.summary.median.levels.fade_margin_db;
        if margin >= MARGIN_WANTED_DB {
            continue;
        }
        let says = Message::new("lk-03")
            .text("tag", hop.tag.as_str())
            .quantity("margin", Decibels::from_db(margin))
            .quantity("wanted", Decibels::from_db(MARGIN_WANTED_DB));
        let mut finding = rule
            .finding(Stage::Link, hop.tag.as_str(), says)
            .rests_on(format!("link.{}.margin", hop.tag));
        if let Some(dish) = larger_dish(look, hop, MARGIN_WANTED_DB - margin) {
            finding = finding.remedy(Remedy::new(
                Message::new("fd-01-do").text("name", dish.name.as_str()),
                vec![look.case.set(format!("hops.{}.dish", hop.tag), dish.id.as_str())],
            ));
        }
        found.push(finding);
    }
    found
}
