//! LK 08: The brief asks for a second way to the transmitter and there is none.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// LK 08.
pub static RULE: Rule = Rule {
    code: "LK 08",
    severity: Severity::Warning,
    clause: "the brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let wanted = look.case.station.brief.continuity.reserve_link == Some(true);
    if !wanted || look.outcome.link.hops.iter().any(|h| h.reserve) {
        return Vec::new();
    }
    let mut finding = rule.finding(Stage::Link, "", Message::new("lk-08"));
    if let Some(main) = look.case.station.main_hop() {
        finding = finding.remedy(Remedy::new(
            Message::new("lk-04-do"),
            vec![look.case.set(
                "hops.LR",
                serde_json::json!({"from": main.from, "to": main.to, "way": "mobile data", "role": "reserve",
                    "equipment": "modem-mobile", "leased_availability": "98 %"}),
            )],
        ));
    }
    vec![finding]
}
