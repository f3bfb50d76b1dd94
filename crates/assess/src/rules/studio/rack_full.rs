//! ST 18: A rack is fuller than four fifths, or there is none: no air between hot devices.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::studio::RACK_FILL;
use crate::rules::Look;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 18.
pub static RULE: Rule = Rule {
    code: "ST 18",
    severity: Severity::Warning,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .studio
        .racks
        .iter()
        .filter(|(_, used, offered)| f64::from(*used) > RACK_FILL * f64::from(*offered))
        .map(|(place, used, offered)| {
            let says = Message::new("st-18")
                .text("place", place.as_str())
                .count("used", i64::from(*used))
                .count("offered", i64::from(*offered));
            let mut finding = rule
                .finding(Stage::Console, place.as_str(), says)
                .rests_on(format!("studio.rack.{place}"));
            if let Some(rack) = look.case.shelf.of(ItemKind::Rack).find(|r| {
                r.audio
                    .as_ref()
                    .and_then(|a| a.rack_space)
                    .is_some_and(|n| RACK_FILL * f64::from(n + offered) >= f64::from(*used))
            }) {
                finding = finding.remedy(Remedy::new(
                    Message::new("fd-01-do").text("name", rack.name.as_str()),
                    vec![look.case.set(
                        format!("items.RACK-{place}"),
                        serde_json::json!({"shelf": rack.id, "place": place}),
                    )],
                ));
            }
            finding
        })
        .collect()
}
