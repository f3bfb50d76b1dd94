//! LK 01: Studio and transmitter stand on different sites and no main way joins them.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// LK 01.
pub static RULE: Rule = Rule {
    code: "LK 01",
    severity: Severity::Error,
    clause: "clause-air-chain",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some(missing) = &look.outcome.link.missing else {
        return Vec::new();
    };
    let (from, to) = (missing.from.as_str(), missing.to.as_str());
    let code = if missing.reserve_joins {
        "lk-01-reserve"
    } else {
        "lk-01"
    };
    let says = Message::new(code).text("from", from).text("to", to);
    vec![rule.finding(Stage::Link, "", says).remedy(Remedy::new(
        Message::new("lk-01-do"),
        vec![look.case.set(
            "hops.L9",
            serde_json::json!({"from": from, "to": to, "way": "internet", "equipment": "codec-ip", "leased_availability": "99.5 %"}),
        )],
    ))]
}
