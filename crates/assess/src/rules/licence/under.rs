//! LI 02: Much less is radiated than the licence allows.

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
    clause: "the licence",
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
        let Some(tight) = check.tightest else { continue };
        // No power at all is another finding.
        if !(1.0..200.0).contains(&tight.margin_db()) || !path.power_stated {
            continue;
        }
        let says = Message::new("li-02")
            .text("tag", check.tag.as_str())
            .quantity("under", Decibels::from_db(tight.margin_db()));
        found.push(
            rule.finding(Stage::Antenna, check.tag.as_str(), says)
                .remedy(Remedy::new(
                    Message::new("li-01-do"),
                    vec![look.case.remove(format!("emissions.{}.power", check.tag))],
                )),
        );
    }
    found
}
