//! ST 17: Radio data are asked for and no encoder is there.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::more_of;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 17.
pub static RULE: Rule = Rule {
    code: "ST 17",
    severity: Severity::Error,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let (asked, there) = look.outcome.studio.radio_data;
    if !asked || there || !look.case.station.has_design() {
        return Vec::new();
    }
    let mut finding = rule.finding(Stage::Processing, "", Message::new("st-17"));
    if let Some(edit) = more_of(look, ItemKind::RdsEncoder, 1) {
        finding = finding.remedy(Remedy::new(Message::new("st-17-do"), vec![edit]));
    }
    vec![finding]
}
