//! BR 04: Frequency or power are assumed: the design is a proposal, and no licence stands behind it.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// BR 04.
pub static RULE: Rule = Rule {
    code: "BR 04",
    severity: Severity::Warning,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for emission in &look.case.station.emissions {
        let assumed = matches!(emission.frequency, station::Known::Assumed(_))
            || matches!(emission.licence.erp, station::Known::Assumed(_));
        if assumed {
            found.push(rule.finding(
                Stage::Brief,
                emission.tag.as_str(),
                Message::new("br-04").text("tag", emission.tag.as_str()),
            ));
        }
    }
    found
}
