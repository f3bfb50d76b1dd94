//! LI 07: The licence's power or polarisation is not in the file: nothing can be proved against it.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// LI 07.
pub static RULE: Rule = Rule {
    code: "LI 07",
    severity: Severity::Warning,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for emission in &look.case.station.emissions {
        let licence = &emission.licence;
        if licence.erp.value().is_none() || licence.polarisation.value().is_none() {
            found.push(rule.finding(
                Stage::Antenna,
                emission.tag.as_str(),
                Message::new("li-07").text("tag", emission.tag.as_str()),
            ));
        }
    }
    found
}
