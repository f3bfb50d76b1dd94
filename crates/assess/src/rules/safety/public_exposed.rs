//! SA 01: At a point where people can be, exposure passes the limit, or the point lies within one wavelength of a bay.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::{Length, Percent};
use station::Mark;
use words::Message;

/// SA 01.
pub static RULE: Rule = Rule {
    code: "SA 01",
    severity: Severity::Error,
    clause: "country profile, exposure of the public",
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
            finding = finding.remedy(Remedy::new(
                Message::new("an-06-do").quantity("centre", Length::from_m(centre)),
                vec![look.case.set(
                    format!("antennas.{antenna}.height"),
                    format!("{centre:.1} m above ground"),
                )],
            ));
        }
        found.push(finding);
    }
    found
}
