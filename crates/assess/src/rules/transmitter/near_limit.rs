//! TX 02: The transmitter runs within half a decibel of its rating.
//!
//! Nothing is left for a feeder that turns out lossier; and heat and life suffer.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, next_transmitter, transmitter_tag};
use quantity::Power;
use station::Mark;
use words::Message;

/// TX 02.
pub static RULE: Rule = Rule {
    code: "TX 02",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let (Some(rated), Some(power)) = (path.rated_w, path.power_w) else {
            continue;
        };
        let room = 10.0 * (rated / power).log10();
        if !(0.0..0.5).contains(&room) || path.licence_w.is_some_and(|l| l > rated * 1.002) {
            continue;
        }
        let says = Message::new("tx-02")
            .text("tag", path.tag.as_str())
            .quantity("power", Power::from_w(power))
            .quantity("rated", Power::from_w(rated));
        let mut finding = rule.finding(Stage::Transmitter, transmitter_tag(look, &path.tag), says);
        if let Some(bigger) = next_transmitter(look, power * 1.2) {
            let at = format!("items.{}", transmitter_tag(look, &path.tag));
            finding = finding.remedy(Remedy::new(
                Message::new("tx-01-do").text("name", bigger.name.as_str()),
                exchange(look, &at, "shelf", &bigger.id),
            ));
        }
        found.push(finding);
    }
    found
}
