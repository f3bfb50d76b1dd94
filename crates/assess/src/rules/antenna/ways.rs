//! AN 01: The splitter has another number of ways than there are bays.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// AN 01.
pub static RULE: Rule = Rule {
    code: "AN 01",
    severity: Severity::Error,
    clause: "clause-splitter",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Ok(radiating) = &path.radiating else { continue };
        if let Some(ways) = radiating.ways
            && ways != radiating.bays
        {
            let says = Message::new("an-01")
                .text("tag", radiating.tag.as_str())
                .count("ways", i64::from(ways))
                .count("bays", i64::from(radiating.bays));
            let mut finding = rule.finding(Stage::Antenna, radiating.tag.as_str(), says);
            finding = finding.remedy(Remedy::new(
                Message::new("an-01-do").count("ways", i64::from(ways)),
                vec![look.case.set(format!("antennas.{}.bays", radiating.tag), ways)],
            ));
            found.push(finding);
        }
    }
    found
}
