//! SA 01: At a point where people can be, exposure passes the limit, or the point lies within one wavelength of a bay.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::exposure::PointCheck;
use crate::rules::Look;
use crate::rules::shelf_moves::tried;
use quantity::{Length, Percent, Power};
use station::Mark;
use words::Message;

/// SA 01.
pub static RULE: Rule = Rule {
    code: "SA 01",
    severity: Severity::Error,
    clause: "clause-country-public",
    mark: Mark::LookedUp,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for p in &look.outcome.exposure.points {
        let share = p.ratio + p.others_ratio;
        if !p.fenced && share <= 1.0 {
            continue;
        }
        let says = if p.fenced {
            Message::new("sa-01-fenced").text("place", p.name.as_str())
        } else {
            Message::new("sa-01")
                .text("place", p.name.as_str())
                .quantity("share", Percent::from_pct(100.0 * share))
        };
        let mut finding = rule
            .finding(Stage::Sites, p.tag.as_str(), says)
            .rests_on(format!("exposure.{}.{}", p.site, p.tag));
        let highest = look.outcome.transmission.emissions.iter().find_map(|e| {
            let r = e.radiating.as_ref().ok().filter(|r| r.site == p.site)?;
            let mast = look.case.station.site(&r.site)?.mast.height.value()?.m();
            let half = 0.5 * f64::from(r.bays - 1) * r.spacing_m;
            (mast - half > r.centre_agl_m + 0.5).then(|| (r.tag.clone(), mast - half))
        });
        if let Some((antenna, centre)) = highest {
            let edits = vec![look.case.set(
                format!("antennas.{antenna}.height"),
                format!("{centre:.1} m above ground"),
            )];
            if allowed(look, &p.site, &p.tag, &edits) {
                finding = finding.remedy(Remedy::new(
                    Message::new("an-06-do").quantity("centre", Length::from_m(centre)),
                    edits,
                ));
            }
        }
        if let Some((emission, power)) = lower_power(look, p) {
            let edits = vec![
                look.case
                    .set(format!("emissions.{emission}.power"), format!("{power:.1} W")),
            ];
            if allowed(look, &p.site, &p.tag, &edits) {
                finding = finding.remedy(Remedy::new(
                    Message::new("li-05-do").quantity("power", Power::from_w(power)),
                    edits,
                ));
            }
        }
        found.push(finding);
    }
    found
}

/// The emission of the site and the power that keeps the limit with a twentieth in hand; the share goes with the power.
fn lower_power(look: &Look, point: &PointCheck) -> Option<(String, f64)> {
    let mut here = look
        .outcome
        .transmission
        .emissions
        .iter()
        .filter(|e| e.radiating.as_ref().is_ok_and(|r| r.site == point.site));
    let (only, None) = (here.next()?, here.next()) else {
        return None;
    };
    let room = 0.95 - point.others_ratio;
    let power = only.power_w? * room / point.ratio;
    (!point.fenced && power.is_finite() && power >= 1.0).then(|| (only.tag.clone(), power))
}

/// Whether the point keeps the limit once the edits are made.
fn allowed(look: &Look, site: &str, tag: &str, edits: &[station::Edit]) -> bool {
    let keeps = |case: &crate::Case| {
        let transmission = crate::proofs::transmission::evaluate(case);
        let outcome = crate::proofs::exposure::evaluate(case, &transmission);
        let point = outcome.points.iter().find(|p| p.site == site && p.tag == tag);
        point.is_some_and(|p| !p.fenced && p.ratio + p.others_ratio <= 1.0)
    };
    tried(look, edits, keeps).unwrap_or(false)
}
