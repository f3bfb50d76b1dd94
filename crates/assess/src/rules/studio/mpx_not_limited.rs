//! ST 16: The country limits multiplex power, and nothing in the chain holds it there.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, item_of, price};
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 16.
pub static RULE: Rule = Rule {
    code: "ST 16",
    severity: Severity::Error,
    clause: "clause-mpx-power",
    mark: Mark::LookedUp,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    if look.outcome.studio.mpx_limited != Some(false) || !look.case.station.has_design() {
        return Vec::new();
    }
    let mut finding = rule.finding(Stage::Processing, "", Message::new("st-16"));
    let holds = |s: &&station::ShelfItem| {
        s.kind == ItemKind::Processor && s.audio.as_ref().and_then(|a| a.mpx_power_control) == Some(true)
    };
    let cheapest = look
        .case
        .shelf
        .items
        .iter()
        .filter(holds)
        .min_by(|a, b| price(a).total_cmp(&price(b)));
    if let Some(processor) = cheapest {
        // A processor that does not hold it makes room; without one, the new one stands by the transmitter.
        let edits = match item_of(look, ItemKind::Processor) {
            Some((tag, _)) => exchange(look, &format!("items.{tag}"), "shelf", &processor.id),
            None => {
                let place = look.case.station.antennas.first().map(|a| a.site.clone());
                let mut item = serde_json::json!({ "shelf": processor.id });
                if let Some(place) = place {
                    item["place"] = place.into();
                }
                vec![look.case.set("items.NEW-PROCESSOR", item)]
            }
        };
        finding = finding.remedy(Remedy::new(
            Message::new("fd-01-do").text("name", processor.name.as_str()),
            edits,
        ));
    }
    vec![finding]
}
