//! TX 05: The carrier lies outside the country's FM band.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Frequency;
use station::Mark;
use words::Message;

/// TX 05.
pub static RULE: Rule = Rule {
    code: "TX 05",
    severity: Severity::Error,
    clause: "clause-country-band",
    mark: Mark::Memory,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    let country = look.case.country;
    let (from, to) = (country.band_from.value.mhz(), country.band_to.value.mhz());
    for path in &look.outcome.transmission.emissions {
        let Some(mhz) = path.frequency_mhz else { continue };
        if mhz < from || mhz > to {
            let says = Message::new("tx-05")
                .text("tag", path.tag.as_str())
                .quantity("carrier", Frequency::from_mhz(mhz))
                .quantity("from", Frequency::from_mhz(from))
                .quantity("to", Frequency::from_mhz(to));
            found.push(rule.finding(Stage::Transmitter, path.tag.as_str(), says));
        }
    }
    found
}
