//! LK 06: The hop's carrier lies outside the band its radio covers.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Frequency;
use station::Mark;
use words::Message;

/// LK 06.
pub static RULE: Rule = Rule {
    code: "LK 06",
    severity: Severity::Error,
    clause: "shelf rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.link.hops {
        let Some(Ok(radio)) = &check.radio else { continue };
        if radio.in_band == Some(false) {
            let says = Message::new("lk-06")
                .text("tag", check.tag.as_str())
                .quantity("carrier", Frequency::from_ghz(radio.freq_ghz));
            found.push(rule.finding(Stage::Link, check.tag.as_str(), says));
        }
    }
    found
}
