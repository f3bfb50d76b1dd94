//! ST 19: The console has too little gain for the microphones at speech level.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, item_of};
use quantity::Decibels;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 19.
pub static RULE: Rule = Rule {
    code: "ST 19",
    severity: Severity::Warning,
    clause: "clause-pascal",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, Some(there))) = look.outcome.studio.microphone_gain_db else {
        return Vec::new();
    };
    if there >= needed {
        return Vec::new();
    }
    let says = Message::new("st-19")
        .quantity("needed", Decibels::from_db(needed))
        .quantity("there", Decibels::from_db(there));
    let mut finding = rule
        .finding(Stage::Microphones, "", says)
        .rests_on("studio.microphone_level");
    if let Some((tag, _)) = item_of(look, ItemKind::Microphone)
        && let Some(hotter) = look.case.shelf.of(ItemKind::Microphone).find(|m| {
            m.audio
                .as_ref()
                .and_then(|a| a.sensitivity_mv_pa)
                .is_some_and(|s| s >= 10.0)
        })
    {
        finding = finding.remedy(Remedy::new(
            Message::new("fd-01-do").text("name", hotter.name.as_str()),
            exchange(look, &format!("items.{tag}"), "shelf", &hotter.id),
        ));
    }
    vec![finding]
}
