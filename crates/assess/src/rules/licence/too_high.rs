//! LI 03: The antenna stands higher than the licence allows.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// LI 03.
pub static RULE: Rule = Rule {
    code: "LI 03",
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
        let (Some(over), Ok(r)) = (check.over_height_m, &path.radiating) else {
            continue;
        };
        if over <= 0.05 {
            continue;
        }
        let lower = r.centre_agl_m - over;
        let says = Message::new("li-03")
            .text("tag", check.tag.as_str())
            .quantity("over", Length::from_m(over));
        let mut finding = rule.finding(Stage::Antenna, check.tag.as_str(), says);
        if lower > 1.0 {
            finding = finding.remedy(Remedy::new(
                Message::new("an-06-do").quantity("centre", Length::from_m(lower)),
                vec![look.case.set(
                    format!("antennas.{}.height", r.tag),
                    format!("{:.1} m above ground", lower - 0.05),
                )],
            ));
        }
        found.push(finding);
    }
    found
}
