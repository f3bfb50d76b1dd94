//! LI 01: More is radiated in some direction than the licence allows.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::LICENCE_TOLERANCE_DB;
use crate::rules::Look;
use quantity::{Azimuth, Decibels, Erp};
use station::Mark;
use words::Message;

/// LI 01.
pub static RULE: Rule = Rule {
    code: "LI 01",
    severity: Severity::Error,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (path, check) in look
        .outcome
        .transmission
        .emissions
        .iter()
        .zip(&look.outcome.licence.emissions)
    {
        let Some(tight) = check.tightest else { continue };
        // Nothing radiated of nothing allowed is no ratio.
        if tight.margin_db().is_nan() || tight.margin_db() >= -LICENCE_TOLERANCE_DB {
            continue;
        }
        let says = Message::new("li-01")
            .text("tag", check.tag.as_str())
            .quantity("radiated", Erp::from_w(tight.radiated_w))
            .quantity("allowed", Erp::from_w(tight.allowed_w))
            .quantity("azimuth", Azimuth::from_deg(tight.azimuth_deg))
            .quantity("over", Decibels::from_db(-tight.margin_db()));
        let mut finding = rule
            .finding(Stage::Antenna, check.tag.as_str(), says)
            .rests_on(format!("licence.{}.margin", check.tag));
        if path.power_stated {
            finding = finding.remedy(Remedy::new(
                Message::new("li-01-do"),
                vec![look.case.remove(format!("emissions.{}.power", check.tag))],
            ));
        }
        found.push(finding);
    }
    found
}
