//! TX 09: The brief asks for a second transmitter and none waits in reserve.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{price, transmitter};
use station::chain::end_tag;
use station::design::{Emission, ItemStatus};
use station::shelf::{ItemKind, ShelfItem};
use station::{Edit, Mark};
use words::Message;

/// TX 09.
pub static RULE: Rule = Rule {
    code: "TX 09",
    severity: Severity::Error,
    clause: "clause-brief",
    mark: Mark::Computed,
    check,
};

/// Line from a transmitter to its change-over, m (common practice, no source).
const JUMPER_M: &str = "2 m";

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let station = look.case.station;
    if station.brief.continuity.reserve_transmitter != Some(true) {
        return Vec::new();
    }
    let waits = station.items.iter().any(|i| {
        i.reserve == Some(true)
            && i.status.unwrap_or(ItemStatus::New).is_present()
            && look
                .case
                .shelf
                .get(&i.shelf)
                .is_some_and(|s| s.kind == ItemKind::Transmitter)
    });
    let first = station
        .emissions
        .iter()
        .find_map(|e| Some((e, e.transmitter.as_deref()?)));
    let Some((emission, tag)) = first.filter(|_| !waits) else {
        return Vec::new();
    };
    let mut finding = rule.finding(Stage::Transmitter, tag, Message::new("tx-09").text("tag", tag));
    if let Some((change_over, edits)) = second(look, emission, tag) {
        let says = Message::new("tx-09-do").text("name", change_over.name.as_str());
        finding = finding.remedy(Remedy::new(says, edits));
    }
    vec![finding]
}

/// A second transmitter like the first and the cheapest change-over that bears them, between the first and its line.
fn second<'a>(look: &Look<'a>, emission: &Emission, tag: &str) -> Option<(&'a ShelfItem, Vec<Edit>)> {
    let station = look.case.station;
    let rated_w = transmitter(look, &emission.tag)?.output.w();
    let change_over = look
        .case
        .shelf
        .of(ItemKind::ChangeOver)
        .filter(|s| {
            s.inline
                .as_ref()
                .and_then(|i| i.power)
                .is_some_and(|p| p.w() >= rated_w)
        })
        .min_by(|a, b| price(a).total_cmp(&price(b)))?;
    let line = station.cables.iter().find(|c| end_tag(&c.from) == tag)?;
    let item = station.item(tag)?;
    let place = |mut table: serde_json::Value| {
        if let Some(place) = &item.place {
            table["place"] = place.as_str().into();
        }
        table
    };
    let set = |path: String, to: serde_json::Value| look.case.set(path, to);
    Some((
        change_over,
        vec![
            set(
                format!("items.{tag}-R"),
                place(serde_json::json!({ "shelf": item.shelf, "reserve": true })),
            ),
            set(
                format!("items.{tag}-CO"),
                place(serde_json::json!({ "shelf": change_over.id })),
            ),
            set(format!("cables.{}.from", line.tag), format!("{tag}-CO").into()),
            set(
                format!("cables.{tag}-J"),
                serde_json::json!({ "shelf": line.shelf, "from": tag, "to": format!("{tag}-CO"), "length": JUMPER_M }),
            ),
        ],
    ))
}
