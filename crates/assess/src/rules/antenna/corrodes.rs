//! AN 04: Aluminium stands in sea air.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, other_bay};
use station::Mark;
use words::Message;

/// AN 04.
pub static RULE: Rule = Rule {
    code: "AN 04",
    severity: Severity::Error,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for antenna in &look.case.station.antennas {
        let sea = look
            .case
            .station
            .site(&antenna.site)
            .and_then(|s| s.climate.sea_air.value().copied());
        let Some(shelf) = antenna.element.as_deref().and_then(|id| look.case.shelf.get(id)) else {
            continue;
        };
        if sea != Some(true) || shelf.sea_air == Some(true) {
            continue;
        }
        let says = Message::new("an-04")
            .text("tag", antenna.tag.as_str())
            .text("name", shelf.name.as_str());
        let mut finding = rule.finding(Stage::Antenna, antenna.tag.as_str(), says);
        if let Some(better) = other_bay(look, shelf, |b| b.sea_air == Some(true)) {
            finding = finding.remedy(Remedy::new(
                Message::new("fd-01-do").text("name", better.name.as_str()),
                exchange(look, &format!("antennas.{}", antenna.tag), "element", &better.id),
            ));
        }
        found.push(finding);
    }
    found
}
