//! AN 09: The pattern is that of the bays alone; the mast beside them bends it.
//!
//! Until the antenna has been solved on its mast, gain and mask are a draft.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// AN 09.
pub static RULE: Rule = Rule {
    code: "AN 09",
    severity: Severity::Note,
    clause: "clause-array-model",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .transmission
        .emissions
        .iter()
        .filter_map(|path| path.radiating.as_ref().ok())
        .filter(|r| !r.mast_included)
        .map(|r| {
            rule.finding(
                Stage::Antenna,
                r.tag.as_str(),
                Message::new("an-09").text("tag", r.tag.as_str()),
            )
        })
        .collect()
}
