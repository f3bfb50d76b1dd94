//! LK 02: The ray does not clear the ground and what stands on it.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use crate::rules::shelf_moves::tried;
use quantity::Length;
use station::Mark;
use words::Message;

/// LK 02.
pub static RULE: Rule = Rule {
    code: "LK 02",
    severity: Severity::Error,
    clause: "clause-clearance",
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
            let share = worst.distance_km / radio.summary.path_km;
            let (end, key, now, share) = if near_from {
                (hop.from.as_str(), "from_height", a, 1.0 - share)
            } else {
                (hop.to.as_str(), "to_height", b, share)
            };
            let raise = |key: &str, to: f64| {
                look.case
                    .set(format!("hops.{}.{key}", hop.tag), format!("{to} m above ground"))
            };
            let one = (now + short / share + 0.5).ceil();
            let edits = vec![raise(key, one)];
            // Another obstacle may stand nearer the other end: then both ends rise.
            if clears(look, &hop.tag, &edits) {
                let does = Message::new("lk-02-do")
                    .quantity("to", Length::from_m(one))
                    .text("end", end);
                finding = finding.remedy(Remedy::new(does, edits));
            } else {
                let (from, to) = ((a + short + 0.5).ceil(), (b + short + 0.5).ceil());
                let edits = vec![raise("from_height", from), raise("to_height", to)];
                if clears(look, &hop.tag, &edits) {
                    let does = Message::new("lk-02-both")
                        .quantity("from", Length::from_m(from))
                        .quantity("to", Length::from_m(to));
                    finding = finding.remedy(Remedy::new(does, edits));
                }
            }
        }
        found.push(finding);
    }
    found
}

/// Whether the ray is clear once the edits are made.
fn clears(look: &Look, hop: &str, edits: &[station::Edit]) -> bool {
    let met = |case: &crate::Case| {
        let outcome = crate::proofs::link::evaluate(case);
        let check = outcome.hops.iter().find(|h| h.tag == hop);
        check.is_some_and(|c| matches!(&c.radio, Some(Ok(r)) if r.summary.clearance_met))
    };
    tried(look, edits, met).unwrap_or(false)
}
