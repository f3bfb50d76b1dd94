//! TX 01: The transmitter cannot give the power that the licence allows.
//!
//! Coverage is then less than the licence permits. A bigger transmitter, or less loss in the feeder, mends it.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, next_transmitter, transmitter_tag};
use quantity::{Decibels, Power};
use station::Mark;
use words::Message;

/// TX 01.
pub static RULE: Rule = Rule {
    code: "TX 01",
    severity: Severity::Error,
    clause: "clause-licence-and-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let (Some(rated), Some(licence)) = (path.rated_w, path.licence_w) else {
            continue;
        };
        if path.power_stated || licence <= rated * 1.002 {
            continue;
        }
        let says = Message::new("tx-01")
            .text("tag", path.tag.as_str())
            .quantity("rated", Power::from_w(rated))
            .quantity("needed", Power::from_w(licence))
            .quantity("short", Decibels::from_db(10.0 * (licence / rated).log10()));
        let mut finding = rule
            .finding(Stage::Transmitter, transmitter_tag(look, &path.tag), says)
            .rests_on(format!("transmission.{}.power", path.tag));
        if let Some(bigger) = next_transmitter(look, licence) {
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
