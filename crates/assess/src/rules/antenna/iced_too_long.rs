//! AN 13: Ice is expected on bare bays, and the brief allows less than a day a year off the air.
//!
//! Ice on a bare bay moves its resonance, and the transmitter folds back for as long as it stays: a day at least, where it is
//! expected at all. What the brief asks for cannot be kept without a cover.

use super::ice::{asked, iced};
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// AN 13.
pub static RULE: Rule = Rule {
    code: "AN 13",
    severity: Severity::Error,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    asked(look).map_or_else(Vec::new, |share| {
        let says = Message::new("an-13").quantity("asked", share);
        iced(look, rule, &says)
    })
}
