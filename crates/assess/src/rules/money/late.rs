//! MO 06: The day by which the station must be on the air is past, or less than eight weeks away.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// MO 06.
pub static RULE: Rule = Rule {
    code: "MO 06",
    severity: Severity::Warning,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some(deadline) = look.case.station.brief.deadline else {
        return Vec::new();
    };
    let days = deadline.day_number() - look.case.today.day_number();
    if days >= 56 {
        return Vec::new();
    }
    let code = if days < 0 { "mo-06-past" } else { "mo-06" };
    vec![
        rule.finding(
            Stage::Money,
            "",
            Message::new(code)
                .count("days", days.abs())
                .text("day", deadline.to_string()),
        ),
    ]
}
