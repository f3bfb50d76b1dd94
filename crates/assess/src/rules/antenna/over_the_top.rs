//! AN 06: The stack reaches over the mast's top or into the ground.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// AN 06.
pub static RULE: Rule = Rule {
    code: "AN 06",
    severity: Severity::Error,
    clause: "clause-mast-height",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let Ok(r) = &path.radiating else { continue };
        let half = 0.5 * (f64::from(r.bays - 1) * r.spacing_m + 1.5);
        let site = look.case.station.site(&r.site);
        let Some(mast) = site.and_then(|s| s.mast.height.value()).map(|h| h.m()) else {
            continue;
        };
        let (top, foot) = (r.centre_agl_m + half, r.centre_agl_m - half);
        // A pole clamp holds the uppermost bay by its middle: half a dipole may stand free.
        if top <= mast + 0.76 && foot >= 0.0 {
            continue;
        }
        let centre = (mast - half).max(half);
        let says = Message::new("an-06")
            .text("tag", r.tag.as_str())
            .quantity("top", Length::from_m(top))
            .quantity("foot", Length::from_m(foot))
            .quantity("mast", Length::from_m(mast));
        found.push(
            rule.finding(Stage::Antenna, r.tag.as_str(), says)
                .remedy(Remedy::new(
                    Message::new("an-06-do").quantity("centre", Length::from_m(centre)),
                    vec![look.case.set(
                        format!("antennas.{}.height", r.tag),
                        format!("{centre:.1} m above ground"),
                    )],
                )),
        );
    }
    found
}
