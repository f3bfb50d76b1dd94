//! AN 11: Ice is expected, and the bays have no cover against it: reflected power rises and the transmitter folds back.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// AN 11.
pub static RULE: Rule = Rule {
    code: "AN 11",
    severity: Severity::Warning,
    clause: "common practice, no source",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for antenna in &look.case.station.antennas {
        let ice = look
            .case
            .station
            .site(&antenna.site)
            .and_then(|s| s.climate.ice.value())
            .map_or(0.0, |i| i.mm());
        let covered = antenna
            .element
            .as_deref()
            .and_then(|id| look.case.shelf.get(id))
            .and_then(|s| s.bay.as_ref())
            .and_then(|b| b.radome);
        if ice >= 10.0 && covered != Some(true) {
            let says = Message::new("an-11")
                .text("tag", antenna.tag.as_str())
                .quantity("ice", Length::from_mm(ice));
            found.push(rule.finding(Stage::Antenna, antenna.tag.as_str(), says));
        }
    }
    found
}
