//! CO 08: A site stands in the water by its position.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// CO 08.
pub static RULE: Rule = Rule {
    code: "CO 08",
    severity: Severity::Error,
    clause: "clause-ground",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for site in &look.case.station.sites {
        let Ok(at) = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()) else {
            continue;
        };
        if look.case.world.spot(at).is_ok_and(|spot| spot.water) {
            let west = site.position.lon_deg() > 0.0;
            let code = if west { "co-08-west" } else { "co-08" };
            found.push(rule.finding(
                Stage::Sites,
                site.tag.as_str(),
                Message::new(code).text("site", site.name.as_str()),
            ));
        }
    }
    found
}
