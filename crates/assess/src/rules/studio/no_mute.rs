//! ST 09: The console cannot mute the loudspeakers and light the lamp when a microphone opens.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::proofs::studio::Need;
use crate::rules::Look;
use crate::rules::shelf_moves::short;
use station::Mark;
use words::Message;

/// ST 09.
pub static RULE: Rule = Rule {
    code: "ST 09",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, there)) = short(look, Need::ControlOutputs) else {
        return Vec::new();
    };
    let says = Message::new("st-09")
        .count("needed", i64::from(needed))
        .count("there", i64::from(there));

    let finding = rule
        .finding(Stage::Console, "", says)
        .rests_on(format!("studio.{}", Need::ControlOutputs.word()));
    vec![finding]
}
