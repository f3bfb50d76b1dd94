//! AN 11: Ice is expected, and the bays have no cover against it: reflected power rises and the transmitter folds back.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, other_bay};
use quantity::{Length, Percent};
use station::Mark;
use station::shelf::ShelfItem;
use words::Message;

/// AN 11.
pub static RULE: Rule = Rule {
    code: "AN 11",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

/// Ice of this thickness on a bare bay is felt, mm (common practice, no source).
const FELT_MM: f64 = 10.0;
/// The least time in a year that ice stays where it is expected: one day, as a share of a year (common practice, no source).
const ICED_RATIO: f64 = 1.0 / 365.25;

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    match asked(look) {
        Some(_) => Vec::new(),
        None => {
            let says = Message::new("an-11");
            iced(look, rule, &says)
        }
    }
}

/// The share of the year on the air that the brief asks for and that one iced day breaks. Asked, not taken to be asked.
pub(super) fn asked(look: &Look) -> Option<Percent> {
    let share = &look.case.station.brief.continuity.availability;
    share
        .value()
        .copied()
        .filter(|_| share.assumption().is_none())
        .filter(|share| 1.0 - share.pct() / 100.0 < ICED_RATIO)
}

/// A finding for every antenna that stands in ice without a cover.
pub(super) fn iced(look: &Look, rule: &Rule, says: &Message) -> Vec<Finding> {
    let mut found = Vec::new();
    for antenna in &look.case.station.antennas {
        let ice = look
            .case
            .station
            .site(&antenna.site)
            .and_then(|s| s.climate.ice.value())
            .map_or(0.0, |i| i.mm());
        let bay = antenna.element.as_deref().and_then(|id| look.case.shelf.get(id));
        if ice < FELT_MM || bay.is_some_and(covered) {
            continue;
        }
        let says = says
            .clone()
            .text("tag", antenna.tag.as_str())
            .quantity("ice", Length::from_mm(ice));
        let mut finding = rule.finding(Stage::Antenna, antenna.tag.as_str(), says);
        if let Some(better) = bay.and_then(|bay| other_bay(look, bay, covered)) {
            finding = finding.remedy(Remedy::new(
                Message::new("fd-01-do").text("name", better.name.as_str()),
                exchange(look, &format!("antennas.{}", antenna.tag), "element", &better.id),
            ));
        }
        found.push(finding);
    }
    found
}

fn covered(bay: &ShelfItem) -> bool {
    bay.bay.as_ref().and_then(|b| b.radome) == Some(true)
}
