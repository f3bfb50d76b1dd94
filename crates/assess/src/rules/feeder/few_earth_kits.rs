//! FD 09: The feeder has fewer earth kits than top, bottom and entry want.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::count_of;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// FD 09.
pub static RULE: Rule = Rule {
    code: "FD 09",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    let kits: u32 = count_of(look, |s| {
        s.kind == ItemKind::FeederFitting && s.id.contains("earth")
    });
    let masts = look
        .outcome
        .transmission
        .emissions
        .iter()
        .filter(|e| e.steps.is_ok())
        .count() as u32;
    let long = look.case.station.cables.iter().any(|c| c.length.m() > 10.0);
    if masts > 0 && long && kits < 3 {
        let mut finding = rule.finding(
            Stage::Feeder,
            "",
            Message::new("fd-09")
                .count("there", i64::from(kits))
                .count("wanted", 3),
        );
        if look.case.station.item("EARTH").is_some() {
            finding = finding.remedy(Remedy::new(
                Message::new("fd-09-do").count("wanted", 3),
                vec![look.case.set("items.EARTH.count", 3)],
            ));
        } else if look.case.shelf.get("earth-kit").is_some() {
            finding = finding.remedy(Remedy::new(
                Message::new("fd-09-do").count("wanted", 3),
                vec![look.case.set(
                    "items.EARTH",
                    serde_json::json!({"shelf": "earth-kit", "count": 3}),
                )],
            ));
        }
        found.push(finding);
    }
    found
}
