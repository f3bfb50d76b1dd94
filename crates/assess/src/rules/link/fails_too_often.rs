//! LK 04: The programme arrives for a smaller share of the year than is asked.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Digits;
use station::Mark;
use words::Message;

/// LK 04.
pub static RULE: Rule = Rule {
    code: "LK 04",
    severity: Severity::Warning,
    clause: "clause-availability",
    mark: Mark::Memory,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    let link = &look.outcome.link;
    let (Some(there), Some(wanted)) = (link.availability_ratio, link.wanted_ratio) else {
        return found;
    };
    if there < wanted {
        let says = Message::new("lk-04")
            .amount("there", 100.0 * there, Digits::Decimals(2), "%")
            .amount("wanted", 100.0 * wanted, Digits::Decimals(2), "%");
        let finding = rule.finding(Stage::Link, "", says).rests_on("link.availability");
        found.push(finding.remedy_if(super::second_way(look)));
    }
    found
}
