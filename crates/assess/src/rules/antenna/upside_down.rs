//! AN 05: A bay is upside down.
//!
//! All power is accepted and the VSWR stays good; only the field shows it.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// AN 05.
pub static RULE: Rule = Rule {
    code: "AN 05",
    severity: Severity::Error,
    clause: "clause-array-theory",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.case
        .station
        .antennas
        .iter()
        .filter(|a| !a.inverted_bays.is_empty())
        .map(|a| {
            let bays: Vec<String> = a.inverted_bays.iter().map(|b| b.to_string()).collect();
            let says = Message::new("an-05")
                .text("tag", a.tag.as_str())
                .with("bays", words::Arg::All(bays));
            rule.finding(Stage::Antenna, a.tag.as_str(), says)
                .remedy(Remedy::new(
                    Message::new("an-05-do"),
                    vec![look.case.remove(format!("antennas.{}.inverted_bays", a.tag))],
                ))
        })
        .collect()
}
