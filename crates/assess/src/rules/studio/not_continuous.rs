//! ST 20: Something in the programme's way is not made to run all day.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, price};
use station::Mark;
use station::shelf::Duty;
use words::Message;

/// ST 20.
pub static RULE: Rule = Rule {
    code: "ST 20",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .studio
        .not_continuous
        .iter()
        .map(|tag| {
            let item = look.case.station.item(tag);
            let shelf = item.and_then(|i| look.case.shelf.get(&i.shelf));
            let name = shelf.map_or("", |s| s.name.as_str());
            let says = Message::new("st-20").text("tag", tag.as_str()).text("name", name);
            let mut finding = rule.finding(Stage::Console, tag.as_str(), says);
            let better = shelf.and_then(|s| {
                look.case
                    .shelf
                    .of(s.kind)
                    .filter(|o| o.duty == Some(Duty::Continuous))
                    .min_by(|a, b| price(a).total_cmp(&price(b)))
            });
            if let Some(better) = better {
                finding = finding.remedy(Remedy::new(
                    Message::new("fd-01-do").text("name", better.name.as_str()),
                    exchange(look, &format!("items.{tag}"), "shelf", &better.id),
                ));
            }
            finding
        })
        .collect()
}
