//! TX 04: The power set is below what the transmitter can be turned down to.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, next_transmitter, transmitter, transmitter_tag};
use quantity::Power;
use station::Mark;
use words::Message;

/// TX 04.
pub static RULE: Rule = Rule {
    code: "TX 04",
    severity: Severity::Error,
    clause: "clause-shelf-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Some(power) = path.power_w else { continue };
        let Some(least) = transmitter(look, &path.tag)
            .and_then(|t| t.least_output)
            .map(|p| p.w())
        else {
            continue;
        };
        if power < least {
            let says = Message::new("tx-04")
                .text("tag", path.tag.as_str())
                .quantity("power", Power::from_w(power))
                .quantity("least", Power::from_w(least));
            let mut finding = rule.finding(Stage::Transmitter, transmitter_tag(look, &path.tag), says);
            if let Some(other) = next_transmitter(look, power) {
                let at = format!("items.{}", transmitter_tag(look, &path.tag));
                finding = finding.remedy(Remedy::new(
                    Message::new("tx-01-do").text("name", other.name.as_str()),
                    exchange(look, &at, "shelf", &other.id),
                ));
            }
            found.push(finding);
        }
    }
    found
}
