//! AN 07: The bays radiate in a plane that the licence does not name.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, price};
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// AN 07.
pub static RULE: Rule = Rule {
    code: "AN 07",
    severity: Severity::Error,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (emission, path) in look
        .case
        .station
        .emissions
        .iter()
        .zip(&look.outcome.transmission.emissions)
    {
        let (Ok(r), Some(licensed)) = (&path.radiating, emission.licence.polarisation.value()) else {
            continue;
        };
        if r.polarisation
            .planes()
            .iter()
            .all(|p| licensed.planes().contains(p))
        {
            continue;
        }
        let says = Message::new("an-07")
            .text("tag", r.tag.as_str())
            .tag("built", r.polarisation.word())
            .tag("licensed", licensed.word());
        let mut finding = rule.finding(Stage::Antenna, r.tag.as_str(), says);
        if licensed.planes().len() == 1 && r.polarisation.planes().len() == 1 {
            finding = finding.remedy(Remedy::new(
                Message::new("an-07-do").tag("licensed", licensed.word()),
                vec![
                    look.case
                        .set(format!("antennas.{}.polarisation", r.tag), licensed.word()),
                ],
            ));
        } else if let Some(bay) = look
            .case
            .shelf
            .of(ItemKind::Bay)
            .filter(|b| b.bay.as_ref().is_some_and(|b| b.polarisation == *licensed))
            // What stands the sea air now is not given up for one that does not.
            .filter(|b| b.sea_air == Some(true) || !stands_sea_air(look, &r.tag))
            .min_by(|a, b| price(a).total_cmp(&price(b)))
        {
            finding = finding.remedy(Remedy::new(
                Message::new("fd-01-do").text("name", bay.name.as_str()),
                exchange(look, &format!("antennas.{}", r.tag), "element", &bay.id),
            ));
        }
        found.push(finding);
    }
    found
}

fn stands_sea_air(look: &Look, antenna: &str) -> bool {
    let element = look
        .case
        .station
        .antenna(antenna)
        .and_then(|a| a.element.as_deref());
    element
        .and_then(|id| look.case.shelf.get(id))
        .and_then(|s| s.sea_air)
        == Some(true)
}
