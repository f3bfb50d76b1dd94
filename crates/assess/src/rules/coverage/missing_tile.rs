//! CO 03: Elevation tiles are missing inside the study's circle; nothing is computed behind them.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Percent;
use station::Mark;
use words::Message;

/// CO 03.
pub static RULE: Rule = Rule {
    code: "CO 03",
    severity: Severity::Warning,
    clause: "clause-ground",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for covered in &look.outcome.coverage.emissions {
        let Some(shares) = covered.shares else { continue };
        if shares.missing <= 0.0 {
            continue;
        }
        let says = Message::new("co-03")
            .text("tag", covered.tag.as_str())
            .quantity("share", Percent::from_pct(100.0 * shares.missing));
        found.push(
            rule.finding(Stage::Field, covered.tag.as_str(), says)
                .remedy(Remedy::new(
                    Message::new("co-03-do"),
                    vec![look.case.set("ground.missing_is_sea", true)],
                )),
        );
    }
    found
}
