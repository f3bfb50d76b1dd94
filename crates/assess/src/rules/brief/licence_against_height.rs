//! BR 03: The site's owner or its mast allows less height than the licence: the licence cannot be used.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// BR 03.
pub static RULE: Rule = Rule {
    code: "BR 03",
    severity: Severity::Warning,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for emission in &look.case.station.emissions {
        let Some(antenna) = emission
            .antenna
            .as_deref()
            .and_then(|a| look.case.station.antenna(a))
        else {
            continue;
        };
        let Some(site) = look.case.station.site(&antenna.site) else {
            continue;
        };
        let (Some(allowed), Some(quantity::Height::AboveGround(licensed))) =
            (site.mast.allowed_height, emission.licence.height)
        else {
            continue;
        };
        if allowed.m() + 0.05 < licensed.m() {
            let says = Message::new("br-03")
                .text("site", site.tag.as_str())
                .quantity("allowed", Length::from_m(allowed.m()))
                .quantity("licensed", Length::from_m(licensed.m()));
            found.push(rule.finding(Stage::Brief, site.tag.as_str(), says));
        }
    }
    found
}
