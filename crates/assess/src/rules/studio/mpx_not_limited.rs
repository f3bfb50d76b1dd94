//! ST 16: The country limits multiplex power, and nothing in the chain holds it there.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::more_of;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 16.
pub static RULE: Rule = Rule {
    code: "ST 16",
    severity: Severity::Error,
    clause: "Rec. ITU-R BS.412-9 § 2.5.1; SM.1268",
    mark: Mark::LookedUp,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.outcome.studio.mpx_limited != Some(false) || !look.case.station.has_design() {
        return Vec::new();
    }
    let mut finding = rule.finding(Stage::Processing, "", Message::new("st-16"));
    if let Some(edit) = more_of(look, ItemKind::Processor, 1) {
        finding = finding.remedy(Remedy::new(
            Message::new("st-13-do").count("count", 1),
            vec![edit],
        ));
    }
    vec![finding]
}
