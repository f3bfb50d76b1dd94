//! ST 14: Fewer places at the desk than people.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::proofs::studio::Need;
use crate::rules::Look;
use crate::rules::shelf_moves::short;
use station::Mark;
use words::Message;

/// ST 14.
pub static RULE: Rule = Rule {
    code: "ST 14",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, there)) = short(look, Need::DeskSeats) else {
        return Vec::new();
    };
    let says = Message::new("st-14")
        .count("needed", i64::from(needed))
        .count("there", i64::from(there));

    let finding = rule
        .finding(Stage::Microphones, "", says)
        .rests_on(format!("studio.{}", Need::DeskSeats.word()));
    vec![finding]
}
