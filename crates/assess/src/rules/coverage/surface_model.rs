//! CO 04: The heights are those of a surface model, or no land cover is known: no clutter is added.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// CO 04.
pub static RULE: Rule = Rule {
    code: "CO 04",
    severity: Severity::Note,
    clause: "clause-profile",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let code = match look.case.world.clutter_mode() {
        terrain::ClutterMode::AddedToBareGround => return Vec::new(),
        terrain::ClutterMode::HeldBySurfaceModel => "co-04-surface",
        terrain::ClutterMode::NoLandCover => "co-04-none",
    };
    vec![rule.finding(Stage::Field, "", Message::new(code))]
}
