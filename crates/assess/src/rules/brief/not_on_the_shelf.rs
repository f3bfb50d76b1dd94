//! BR 06: The file names a thing that is not on the shelf.
//!
//! Nothing of it can be computed or priced: its loss, its power and its price are missing from every sum.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// BR 06.
pub static RULE: Rule = Rule {
    code: "BR 06",
    severity: Severity::Error,
    clause: "clause-the-shelf",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let station = look.case.station;
    let items = station
        .items
        .iter()
        .map(|i| (format!("items.{}.shelf", i.tag), Some(i.shelf.as_str())));
    let cables = station
        .cables
        .iter()
        .map(|c| (format!("cables.{}.shelf", c.tag), Some(c.shelf.as_str())));
    let bays = station
        .antennas
        .iter()
        .map(|a| (format!("antennas.{}.element", a.tag), a.element.as_deref()));
    let radios = station
        .hops
        .iter()
        .map(|h| (format!("hops.{}.equipment", h.tag), h.equipment.as_deref()));
    let dishes = station
        .hops
        .iter()
        .map(|h| (format!("hops.{}.dish", h.tag), h.dish.as_deref()));
    let ids: Vec<&str> = look.case.shelf.items.iter().map(|i| i.id.as_str()).collect();
    items
        .chain(cables)
        .chain(bays)
        .chain(radios)
        .chain(dishes)
        .filter_map(|(path, id)| Some((path, id?)))
        .filter(|(_, id)| look.case.shelf.get(id).is_none())
        .map(|(path, id)| {
            let says = Message::new("br-06").text("path", path.as_str()).text("id", id);
            let finding = rule.finding(Stage::Brief, path.as_str(), says);
            match station::read::nearest(id, &ids) {
                Some(near) => finding.remedy(Remedy::new(
                    Message::new("br-06-do").text("near", near),
                    vec![look.case.set(path, near)],
                )),
                None => finding,
            }
        })
        .collect()
}
