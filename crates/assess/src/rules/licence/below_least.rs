//! LI 08: Less is radiated than the licence or its class asks for at least.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Erp;
use station::Mark;
use words::Message;

/// LI 08.
pub static RULE: Rule = Rule {
    code: "LI 08",
    severity: Severity::Error,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (emission, path) in look
        .case
        .station
        .emissions
        .iter()
        .zip(&look.outcome.transmission.emissions)
    {
        let (Some(least), Some(erp)) = (emission.licence.erp_at_least, path.erp_w) else {
            continue;
        };
        if erp < least.erp().w() * 0.999 {
            let says = Message::new("li-08")
                .text("tag", emission.tag.as_str())
                .quantity("erp", Erp::from_w(erp))
                .quantity("least", least.erp());
            let mut finding = rule.finding(Stage::Antenna, emission.tag.as_str(), says);
            if path.power_stated {
                finding = finding.remedy(Remedy::new(
                    Message::new("li-01-do"),
                    vec![look.case.remove(format!("emissions.{}.power", emission.tag))],
                ));
            }
            found.push(finding);
        }
    }
    found
}
