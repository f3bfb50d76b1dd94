//! ST 08: Fewer microphone arms than microphones.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::studio::Need;
use crate::rules::Look;
use crate::rules::shelf_moves::{more_of, short};
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 08.
pub static RULE: Rule = Rule {
    code: "ST 08",
    severity: Severity::Note,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, there)) = short(look, Need::Arms) else {
        return Vec::new();
    };
    let says = Message::new("st-08")
        .count("needed", i64::from(needed))
        .count("there", i64::from(there));
    let missing = needed - there;
    let mut finding = rule
        .finding(Stage::Microphones, "", says)
        .rests_on(format!("studio.{}", Need::Arms.word()));
    if let Some(edit) = more_of(look, ItemKind::Arm, missing) {
        finding = finding.remedy(Remedy::new(
            Message::new("st-08-do").count("count", i64::from(missing)),
            vec![edit],
        ));
    }
    vec![finding]
}
