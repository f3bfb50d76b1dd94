//! LI 06: The licence is used to the last tenth of a decibel: a transmitter set 2 % high would pass it.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::LICENCE_TOLERANCE_DB;
use crate::rules::Look;
use quantity::Erp;
use station::Mark;
use words::Message;

/// LI 06.
pub static RULE: Rule = Rule {
    code: "LI 06",
    severity: Severity::Note,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .licence
        .emissions
        .iter()
        .filter_map(|check| Some((check, check.tightest?)))
        .filter(|(_, tight)| (-LICENCE_TOLERANCE_DB..0.09).contains(&tight.margin_db()))
        .map(|(check, tight)| {
            let says = Message::new("li-06")
                .text("tag", check.tag.as_str())
                .quantity("radiated", Erp::from_w(tight.radiated_w))
                .quantity("allowed", Erp::from_w(tight.allowed_w));
            rule.finding(Stage::Antenna, check.tag.as_str(), says)
                .rests_on(format!("licence.{}.margin", check.tag))
        })
        .collect()
}
