//! CO 01: A wanted place gets less field than it wants.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::{people_at, place_name};
use quantity::{Decibels, FieldStrength, Length};
use station::Mark;
use station::brief::Service;
use words::Message;

/// CO 01.
pub static RULE: Rule = Rule {
    code: "CO 01",
    severity: Severity::Warning,
    clause: "clause-wanted-field",
    mark: Mark::Memory,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.coverage.wanted {
        let Some(Ok(at)) = &check.place else { continue };
        if at.margin_db >= 0.0 {
            continue;
        }
        let base = match &at.obstacle {
            Some(o) if o.knife_edge_db > 1.0 => Message::new("co-01-hidden")
                .quantity("away", Length::from_km(o.distance_km))
                .quantity("taken", Decibels::from_db(o.knife_edge_db)),
            _ => Message::new("co-01"),
        };
        let says = base
            .text("place", place_name(look, &check.tag))
            .tag("service", check.service.word())
            .quantity("field", FieldStrength::from_dbuv_m(at.field_dbuv_m))
            .quantity("short", Decibels::from_db(-at.margin_db));
        let mut finding = rule
            .finding(Stage::Field, check.tag.as_str(), says)
            .rests_on(format!("coverage.{}.field", check.tag))
            .touches(people_at(look, &check.tag));
        // Mono wants 6 dB less, unless the wish names a field of its own.
        let own = look
            .case
            .station
            .brief
            .wanted
            .iter()
            .any(|w| w.tag == check.tag && w.field.is_some());
        if check.service == Service::Stereo && at.margin_db >= -6.0 && !own {
            finding = finding.remedy(Remedy::new(
                Message::new("co-01-mono").text("place", place_name(look, &check.tag)),
                vec![
                    look.case
                        .set(format!("brief.wanted.{}.service", check.tag), "mono"),
                ],
            ));
        }
        found.push(finding);
    }
    found
}
