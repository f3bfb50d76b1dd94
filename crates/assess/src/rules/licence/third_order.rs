//! LI 10: A third-order product of the stations on the mast falls into the aeronautical band above the FM band.
//!
//! Products arise where one transmitter's output reaches another's final stage; a filter or circulator holds them down. The
//! case belongs to the administration: being silent here is no clearance.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Frequency;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// LI 10.
pub static RULE: Rule = Rule {
    code: "LI 10",
    severity: Severity::Warning,
    clause: "clause-third-order",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for site in &look.case.station.sites {
        let ours: Vec<f64> = look
            .outcome
            .transmission
            .emissions
            .iter()
            .filter(|e| e.radiating.as_ref().is_ok_and(|r| r.site == site.tag))
            .filter_map(|e| e.frequency_mhz)
            .collect();
        let others: Vec<f64> = site
            .others
            .iter()
            .map(|o| o.frequency.mhz())
            .filter(|f| (87.5..=108.0).contains(f))
            .collect();
        if others.is_empty() {
            continue;
        }
        let filtered = look.case.station.items.iter().any(|i| {
            look.case
                .shelf
                .get(&i.shelf)
                .is_some_and(|s| s.kind == ItemKind::Filter)
        });
        let all: Vec<f64> = ours.iter().chain(&others).copied().collect();
        for a in &all {
            for b in all.iter().filter(|b| *b != a) {
                let product = 2.0 * a - b;
                let aeronautical = (108.0..137.0).contains(&product);
                if aeronautical && !filtered {
                    let says = Message::new("li-10")
                        .text("site", site.tag.as_str())
                        .quantity("one", Frequency::from_mhz(*a))
                        .quantity("other", Frequency::from_mhz(*b))
                        .quantity("product", Frequency::from_mhz(product));
                    found.push(rule.finding(Stage::Transmitter, format!("{} {product:.1}", site.tag), says));
                }
            }
        }
    }
    found
}
