//! TX 03: The VSWR at the transmitter is above the value at which it folds back.
//!
//! The transmitter protects itself by giving less power; the meter on the air shows it, the one on the desk may not.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{transmitter, transmitter_tag};
use quantity::Digits;
use station::Mark;
use words::Message;

/// TX 03.
pub static RULE: Rule = Rule {
    code: "TX 03",
    severity: Severity::Error,
    clause: "clause-shelf-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Some((_, vswr)) = path.vswr else { continue };
        let Some(limit) = transmitter(look, &path.tag).and_then(|t| t.fold_back_vswr) else {
            continue;
        };
        if vswr >= limit {
            let says = Message::new("tx-03")
                .text("tag", path.tag.as_str())
                .number("vswr", vswr, Digits::Decimals(2))
                .number("limit", limit, Digits::Decimals(2));
            found.push(
                rule.finding(Stage::Transmitter, transmitter_tag(look, &path.tag), says)
                    .rests_on(format!("transmission.{}.vswr_transmitter", path.tag)),
            );
        }
    }
    found
}
