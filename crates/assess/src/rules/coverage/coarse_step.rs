//! CO 07: The study step is coarse: the answer at 1.5 m in clutter depends on it by several decibels.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// CO 07.
pub static RULE: Rule = Rule {
    code: "CO 07",
    severity: Severity::Note,
    clause: "clause-spacing",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .coverage
        .emissions
        .iter()
        .filter_map(|c| Some((c, c.study?)))
        .filter(|(_, study)| study.step_m > 150.0)
        .map(|(c, study)| {
            let says = Message::new("co-07")
                .text("tag", c.tag.as_str())
                .quantity("step", Length::from_m(study.step_m));
            rule.finding(Stage::Field, c.tag.as_str(), says)
                .remedy(Remedy::new(
                    Message::new("co-07-do"),
                    vec![look.case.set("study.step", "90 m")],
                ))
        })
        .collect()
}
