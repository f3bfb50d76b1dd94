//! LK 06: The hop's carrier lies outside the band its radio covers, or its codec does not send over such a way.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::link::HopCheck;
use crate::rules::Look;
use crate::rules::shelf_moves::codec_over;
use quantity::Frequency;
use station::Mark;
use words::Message;

/// LK 06.
pub static RULE: Rule = Rule {
    code: "LK 06",
    severity: Severity::Error,
    clause: "clause-shelf-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in &look.outcome.link.hops {
        if check.sends == Some(false) {
            found.push(elsewhere(look, rule, check));
        }
        let Some(Ok(radio)) = &check.radio else { continue };
        if radio.in_band == Some(false) {
            let says = Message::new("lk-06")
                .text("tag", check.tag.as_str())
                .quantity("carrier", Frequency::from_ghz(radio.freq_ghz));
            found.push(rule.finding(Stage::Link, check.tag.as_str(), says));
        }
    }
    found
}

/// A codec that sends over other ways; the cheapest that does is offered.
fn elsewhere(look: &Look, rule: &Rule, check: &HopCheck) -> Finding {
    let case = look.case;
    let hop = case.station.hops.iter().find(|h| h.tag == check.tag);
    let name = hop
        .and_then(|h| case.shelf.get(h.equipment.as_deref()?))
        .map_or("", |s| &s.name);
    let way = check.way.map_or_else(String::new, |w| w.variant());
    let says = Message::new("lk-06-way")
        .text("tag", check.tag.as_str())
        .text("equipment", name)
        .message("way", Message::new("plan-over").tag("way", way));
    let remedy = check.way.and_then(|way| codec_over(look, way)).map(|other| {
        Remedy::new(
            Message::new("lk-06-way-do").text("equipment", other.name.as_str()),
            vec![case.set(format!("hops.{}.equipment", check.tag), other.id.as_str())],
        )
    });
    rule.finding(Stage::Link, check.tag.as_str(), says)
        .remedy_if(remedy)
}
