//! AN 14: The splitter does not divide the power as the design asks.
//!
//! Shares stated bay by bay, and null fill by a stronger half, want a splitter made for that division: an equal one gives the
//! phases only, and pattern, gain and licence margin are not those computed.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Percent;
use station::Mark;
use words::Message;

/// How far a way may be off, as a ratio of its share: a tenth of a decibel, as splitters are made (common practice, no source).
const AS_MADE: f64 = 0.023;

/// AN 14.
pub static RULE: Rule = Rule {
    code: "AN 14",
    severity: Severity::Warning,
    clause: "clause-splitter",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Ok(radiating) = &path.radiating else { continue };
        let Some(division) = &radiating.division else {
            continue;
        };
        if (division.wanted - division.given).abs() <= AS_MADE * division.given {
            continue;
        }
        let says = Message::new("an-14")
            .text("tag", radiating.tag.as_str())
            .count("bay", division.bay as i64)
            .quantity("given", Percent::from_pct(100.0 * division.given))
            .quantity("wanted", Percent::from_pct(100.0 * division.wanted));
        let key = |key: &str| format!("antennas.{}.{key}", radiating.tag);
        let edits = if division.made.is_empty() {
            let antenna = look.case.station.antennas.iter().find(|a| a.tag == radiating.tag);
            let mut edits = Vec::new();
            if antenna.is_some_and(|a| !a.bay_shares.is_empty()) {
                edits.push(look.case.remove(key("bay_shares")));
            }
            if antenna
                .and_then(|a| a.upper_half.value())
                .is_some_and(|p| p.pct() != 50.0)
            {
                edits.push(look.case.set(key("upper_half"), "50 %"));
            }
            edits
        } else {
            let made = division.made.iter().map(|share| format!("{} %", 100.0 * share));
            vec![look.case.set(key("bay_shares"), made.collect::<Vec<_>>())]
        };
        found.push(
            rule.finding(Stage::Antenna, radiating.tag.as_str(), says)
                .remedy(Remedy::new(Message::new("an-14-do"), edits)),
        );
    }
    found
}
