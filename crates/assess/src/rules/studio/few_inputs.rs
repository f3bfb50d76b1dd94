//! ST 02: The console has fewer microphone inputs than microphones.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::proofs::studio::Need;
use crate::rules::Look;
use crate::rules::shelf_moves::short;
use station::Mark;
use words::Message;

/// ST 02.
pub static RULE: Rule = Rule {
    code: "ST 02",
    severity: Severity::Error,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, there)) = short(look, Need::MicrophoneInputs) else {
        return Vec::new();
    };
    let says = Message::new("st-02")
        .count("needed", i64::from(needed))
        .count("there", i64::from(there));

    let finding = rule
        .finding(Stage::Console, "", says)
        .rests_on(format!("studio.{}", Need::MicrophoneInputs.word()));
    vec![finding]
}
