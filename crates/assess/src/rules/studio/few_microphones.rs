//! ST 01: Fewer microphones than people who talk.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::studio::Need;
use crate::rules::Look;
use crate::rules::shelf_moves::{more_of, short};
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 01.
pub static RULE: Rule = Rule {
    code: "ST 01",
    severity: Severity::Error,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, there)) = short(look, Need::Microphones) else {
        return Vec::new();
    };
    let says = Message::new("st-01")
        .count("needed", i64::from(needed))
        .count("there", i64::from(there));
    let missing = needed - there;
    let mut finding = rule
        .finding(Stage::Microphones, "", says)
        .rests_on(format!("studio.{}", Need::Microphones.word()));
    if let Some(edit) = more_of(look, ItemKind::Microphone, missing) {
        finding = finding.remedy(Remedy::new(
            Message::new("st-01-do").count("count", i64::from(missing)),
            vec![edit],
        ));
    }
    vec![finding]
}
