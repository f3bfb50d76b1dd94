//! AN 08: A wanted place lies in a null of the stack, under the mast.
//!
//! Unequal power in the halves of the stack fills it; a tilt that lifts the beam off the place is taken back.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::coverage::WantedCheck;
use crate::proofs::transmission::EmissionPath;
use crate::rules::Look;
use crate::rules::shelf_moves::{place_name, tried};
use quantity::{Decibels, Tilt};
use station::Mark;
use words::Message;

/// AN 08.
pub static RULE: Rule = Rule {
    code: "AN 08",
    severity: Severity::Warning,
    clause: "clause-array-theory",
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
        let Some((below, depression)) = null(path, check).filter(|_| r.bays >= 2) else {
            continue;
        };
        let says = Message::new("an-08")
            .text("place", place_name(look, &check.tag))
            .quantity("below", Decibels::from_db(below))
            .quantity("depression", Tilt::from_deg(depression));
        let mut finding = rule
            .finding(Stage::Antenna, check.tag.as_str(), says)
            .rests_on(format!("coverage.{}.erp", check.tag));
        let antenna = look.case.station.antenna(&r.tag);
        if antenna.is_some_and(|a| a.tilt.value().is_some_and(|t| t.deg() != 0.0)) {
            let edit = look.case.remove(format!("antennas.{}.tilt", r.tag));
            finding = offer(look, finding, &check.tag, Message::new("an-08-level"), edit);
        }
        let edit = look.case.set(format!("antennas.{}.upper_half", r.tag), "70 %");
        finding = offer(look, finding, &check.tag, Message::new("an-08-do"), edit);
        found.push(finding);
    }
    found
}

/// How far the power towards a place is below the strongest, dB, and its angle below the horizon, where that is a null.
fn null(path: &EmissionPath, check: &WantedCheck) -> Option<(f64, f64)> {
    let at = check.place.as_ref()?.as_ref().ok()?;
    let peak_kw = path.planes.iter().map(|p| p.erp_w).fold(0.0, f64::max) / 1000.0;
    let below = 10.0 * peak_kw.log10() - at.erp_dbkw;
    (below >= 8.0 && below.is_finite() && at.elev_deg <= -2.0).then_some((below, -at.elev_deg))
}

/// Adds a remedy where it takes the place out of the null.
fn offer(look: &Look, finding: Finding, wanted: &str, does: Message, edit: station::Edit) -> Finding {
    let mends = |case: &crate::Case| {
        let transmission = crate::proofs::transmission::evaluate(case);
        let coverage = crate::proofs::coverage::evaluate(case, &crate::Fields::default(), &transmission);
        let path = transmission.emissions.first();
        let check = coverage.wanted.iter().find(|w| w.tag == wanted);
        path.zip(check)
            .is_some_and(|(path, check)| null(path, check).is_none())
    };
    if tried(look, std::slice::from_ref(&edit), mends) == Some(true) {
        finding.remedy(Remedy::new(does, vec![edit]))
    } else {
        finding
    }
}
