//! PW 06: Battery and generator together give less than the site draws.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use crate::rules::energy::feeds;
use quantity::Power;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// PW 06.
pub static RULE: Rule = Rule {
    code: "PW 06",
    severity: Severity::Error,
    clause: "clause-shelf-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter_map(|s| Some((s, s.reserve_output_w?)))
        .filter(|(s, output)| s.load_w > *output)
        .map(|(s, output)| {
            let says = Message::new("pw-06")
                .text("site", s.tag.as_str())
                .quantity("load", Power::from_w(s.load_w))
                .quantity("output", Power::from_w(output));
            let mut finding = rule.finding(Stage::Sites, s.tag.as_str(), says);
            if let Some(remedy) = feeds(look, ItemKind::Generator, &s.tag, s.load_w - output) {
                finding = finding.remedy(remedy);
            }
            finding
        })
        .collect()
}
