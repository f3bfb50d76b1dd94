//! PW 03: Without mains a site stays on the air for a shorter time than is asked.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use crate::rules::energy::feeds;
use quantity::Duration;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// PW 03.
pub static RULE: Rule = Rule {
    code: "PW 03",
    severity: Severity::Error,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter_map(|s| Some((s, s.wanted_h?)))
        .filter(|(s, wanted)| s.mains != Some(false) && s.reserve_h + 1e-9 < *wanted)
        .map(|(s, wanted)| {
            let says = Message::new("pw-03")
                .text("site", s.tag.as_str())
                .quantity("there", Duration::from_hours(s.reserve_h))
                .quantity("wanted", Duration::from_hours(wanted));
            let mut finding = rule
                .finding(Stage::Sites, s.tag.as_str(), says)
                .rests_on(format!("energy.{}.reserve", s.tag));
            if let Some(remedy) = feeds(look, ItemKind::Generator, &s.tag, s.load_w) {
                finding = finding.remedy(remedy);
            }
            finding
        })
        .collect()
}
