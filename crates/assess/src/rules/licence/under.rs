//! LI 02: Much less is radiated than the licence and its conditions allow.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Decibels;
use station::Mark;
use words::Message;

/// LI 02.
pub static RULE: Rule = Rule {
    code: "LI 02",
    severity: Severity::Warning,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (path, check) in look
        .outcome
        .transmission
        .emissions
        .iter()
        .zip(&look.outcome.licence.emissions)
    {
        let Some((tight, room_db)) = check.tightest.zip(check.room_db()) else {
            continue;
        };
        // No power at all is another finding.
        if !(1.0..200.0).contains(&room_db) || !path.power_stated {
            continue;
        }
        let by_condition = room_db < tight.margin_db();
        let says = Message::new(if by_condition { "li-02-condition" } else { "li-02" })
            .text("tag", check.tag.as_str())
            .quantity("under", Decibels::from_db(room_db));
        let remedy = if by_condition {
            super::power_for_condition(look, &check.tag, room_db)
        } else {
            let unset = look.case.remove(format!("emissions.{}.power", check.tag));
            Some(Remedy::new(Message::new("li-01-do"), vec![unset]))
        };
        let finding = rule.finding(Stage::Antenna, check.tag.as_str(), says);
        found.push(finding.remedy_if(remedy));
    }
    found
}
