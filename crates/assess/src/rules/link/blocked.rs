//! LK 02: The ray does not clear the ground and what stands on it.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Length;
use station::Mark;
use words::Message;

/// LK 02.
pub static RULE: Rule = Rule {
    code: "LK 02",
    severity: Severity::Error,
    clause: "Rec. ITU-R P.530 § 2.2.2; draft rule is common practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (hop, check) in look.case.station.hops.iter().zip(&look.outcome.link.hops) {
        let Some(Ok(radio)) = &check.radio else { continue };
        let short = radio
            .summary
            .median
            .shortfall_m
            .max(radio.summary.low.shortfall_m);
        if radio.summary.clearance_met {
            continue;
        }
        let worst = &radio.summary.median.clearance.worst;
        let says = Message::new("lk-02")
            .text("tag", hop.tag.as_str())
            .quantity("clearance", Length::from_m(worst.clearance_m))
            .quantity("away", Length::from_km(worst.distance_km))
            .quantity("short", Length::from_m(short));
        let mut finding = rule
            .finding(Stage::Link, hop.tag.as_str(), says)
            .rests_on(format!("link.{}.clearance", hop.tag));
        let height = |h: &station::Known<quantity::Height>| match h.value() {
            Some(quantity::Height::AboveGround(h)) => Some(h.m()),
            _ => None,
        };
        if let (Some(a), Some(b)) = (height(&hop.from_height), height(&hop.to_height)) {
            // The obstacle's own share of each end decides which end gains more.
            let near_from = worst.distance_km < radio.summary.path_km / 2.0;
            let (path, now, share) = if near_from {
                (
                    format!("hops.{}.from_height", hop.tag),
                    a,
                    1.0 - worst.distance_km / radio.summary.path_km,
                )
            } else {
                (
                    format!("hops.{}.to_height", hop.tag),
                    b,
                    worst.distance_km / radio.summary.path_km,
                )
            };
            let to = (now + short / share + 0.5).ceil();
            finding = finding.remedy(Remedy::new(
                Message::new("lk-02-do").quantity("to", Length::from_m(to)).text(
                    "end",
                    if near_from {
                        hop.from.as_str()
                    } else {
                        hop.to.as_str()
                    },
                ),
                vec![look.case.set(path, format!("{to} m above ground"))],
            ));
        }
        found.push(finding);
    }
    found
}
