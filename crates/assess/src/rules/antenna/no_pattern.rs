//! AN 10: The antenna cannot be computed: something about it is not known or not possible.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::proofs::transmission::NoPattern;
use crate::rules::Look;
use station::Mark;
use words::Message;

/// AN 10.
pub static RULE: Rule = Rule {
    code: "AN 10",
    severity: Severity::Error,
    clause: "clause-array-model",
    mark: Mark::Computed,
    check,
};

/// Why an emission's antenna could not be computed.
pub(crate) fn says(emission: &str, why: &NoPattern) -> Message {
    match why {
        NoPattern::NotChosen => Message::new("an-10-bay").text("tag", emission),
        NoPattern::NotKnown(at) => Message::new("an-10-missing").text("path", at.as_str()),
        NoPattern::Refused(error) => Message::new("an-10-refused")
            .text("tag", emission)
            .message("why", error),
        NoPattern::Unbuildable(error) => Message::new("an-10-refused")
            .text("tag", emission)
            .message("why", error),
    }
}

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    if !look.case.station.has_design() {
        return found;
    }
    for path in &look.outcome.transmission.emissions {
        let Err(why) = &path.radiating else { continue };
        found.push(rule.finding(Stage::Antenna, path.tag.as_str(), says(&path.tag, why)));
    }
    found
}
