//! LK 05: A hop cannot be computed: something about it is not known.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::proofs::link::HopFault;
use crate::rules::Look;
use station::Mark;
use words::Message;

/// LK 05.
pub static RULE: Rule = Rule {
    code: "LK 05",
    severity: Severity::Error,
    clause: "clause-air-chain",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.link.hops {
        let Some(Err(fault)) = &check.radio else { continue };
        let why = match fault {
            HopFault::NotKnown(path) => Message::new("lk-05-missing").text("path", path.as_str()),
            HopFault::Ground(error) => Message::new("lk-05-why").message("why", error),
            HopFault::Refused(error) => Message::new("lk-05-why").message("why", error),
        };
        found.push(rule.finding(
            Stage::Link,
            check.tag.as_str(),
            why.text("tag", check.tag.as_str()),
        ));
    }
    found
}
