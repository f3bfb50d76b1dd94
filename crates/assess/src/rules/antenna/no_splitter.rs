//! AN 02: Several bays hang on one line without a splitter.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// AN 02.
pub static RULE: Rule = Rule {
    code: "AN 02",
    severity: Severity::Error,
    clause: "clause-air-graph",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .transmission
        .emissions
        .iter()
        .filter_map(|path| path.radiating.as_ref().ok().filter(|_| path.steps.is_ok()))
        .filter(|r| r.bays > 1 && r.ways.is_none())
        .map(|r| {
            let says = Message::new("an-02")
                .text("tag", r.tag.as_str())
                .count("bays", i64::from(r.bays));
            rule.finding(Stage::Antenna, r.tag.as_str(), says)
                .remedy(Remedy::new(
                    Message::new("an-01-do").count("ways", 1),
                    vec![look.case.set(format!("antennas.{}.bays", r.tag), 1)],
                ))
        })
        .collect()
}
