//! AN 08: A wanted place lies in a null of the stack, under the mast.
//!
//! Fewer bays, or unequal power in the halves of the stack, fill it.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::place_name;
use quantity::{Decibels, Tilt};
use station::Mark;
use words::Message;

/// AN 08.
pub static RULE: Rule = Rule {
    code: "AN 08",
    severity: Severity::Warning,
    clause: "array theory",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    let Some(path) = look.outcome.transmission.emissions.first() else {
        return found;
    };
    let Ok(r) = &path.radiating else { return found };
    for check in &look.outcome.coverage.wanted {
        let Some(Ok(at)) = &check.place else { continue };
        let peak_kw = path.planes.iter().map(|p| p.erp_w).fold(0.0, f64::max) / 1000.0;
        let below = 10.0 * peak_kw.log10() - at.erp_dbkw;
        if below < 8.0 || at.elev_deg > -2.0 || r.bays < 2 {
            continue;
        }
        let says = Message::new("an-08")
            .text("place", place_name(look, &check.tag))
            .quantity("below", Decibels::from_db(below))
            .quantity("depression", Tilt::from_deg(-at.elev_deg));
        let finding = rule
            .finding(Stage::Antenna, check.tag.as_str(), says)
            .rests_on(format!("coverage.{}.erp", check.tag))
            .remedy(Remedy::new(
                Message::new("an-08-do"),
                vec![look.case.set(format!("antennas.{}.upper_half", r.tag), "70 %")],
            ));
        found.push(finding);
    }
    found
}
