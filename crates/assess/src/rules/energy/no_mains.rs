//! PW 02: There is no mains and nothing else feeds the site.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use crate::rules::energy::feeds;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// PW 02.
pub static RULE: Rule = Rule {
    code: "PW 02",
    severity: Severity::Error,
    clause: "clause-supply",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter(|s| s.mains == Some(false) && s.reserve_output_w.is_none())
        .map(|s| {
            let mut finding = rule.finding(
                Stage::Sites,
                s.tag.as_str(),
                Message::new("pw-02").text("site", s.tag.as_str()),
            );
            if let Some(remedy) = feeds(look, ItemKind::Solar, &s.tag, s.load_w) {
                finding = finding.remedy(remedy);
            }
            finding
        })
        .collect()
}
