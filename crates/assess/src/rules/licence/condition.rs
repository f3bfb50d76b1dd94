//! LI 05: The field is stronger somewhere than a condition of the licence allows.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::{Azimuth, FieldStrength, Length};
use station::Mark;
use words::Message;

/// LI 05.
pub static RULE: Rule = Rule {
    code: "LI 05",
    severity: Severity::Error,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.licence.emissions {
        for condition in &check.conditions {
            let Some(field) = condition.field_dbuv_m else {
                continue;
            };
            if field < condition.below_dbuv_m {
                continue;
            }
            let says = Message::new("li-05")
                .text("tag", check.tag.as_str())
                .quantity("field", FieldStrength::from_dbuv_m(field))
                .quantity("below", FieldStrength::from_dbuv_m(condition.below_dbuv_m))
                .quantity("azimuth", Azimuth::from_deg(condition.azimuth_deg.unwrap_or(0.0)))
                .quantity("distance", Length::from_km(condition.distance_km.unwrap_or(0.0)));
            let remedy = super::power_for_condition(look, &check.tag, condition.below_dbuv_m - field);
            let finding = rule.finding(Stage::Field, check.tag.as_str(), says);
            found.push(finding.remedy_if(remedy));
        }
    }
    found
}
