//! FD 06: No whole run of cables leads from the transmitter to the antenna.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use station::chain::ChainFault;
use words::Message;

/// FD 06.
pub static RULE: Rule = Rule {
    code: "FD 06",
    severity: Severity::Error,
    clause: "clause-air-graph",
    mark: Mark::Computed,
    check,
};

/// Where the run of cables ends.
pub(crate) fn says(fault: &ChainFault) -> Message {
    let (code, tag) = match fault {
        ChainFault::NoTransmitter { emission } => ("fd-06-transmitter", emission),
        ChainFault::NoAntenna { emission } => ("fd-06-antenna", emission),
        ChainFault::OpenEnd { tag } => ("fd-06-open", tag),
        ChainFault::Circle { tag } => ("fd-06-circle", tag),
        ChainFault::OtherAntenna { found, .. } => ("fd-06-other", found),
    };
    Message::new(code).text("tag", tag.as_str())
}

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Err(fault) = &path.steps else { continue };
        if !look.case.station.has_design() {
            continue;
        }
        found.push(rule.finding(Stage::Feeder, path.tag.as_str(), says(fault)));
    }
    found
}
