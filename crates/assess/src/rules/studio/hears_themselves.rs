//! ST 04: A caller would hear their own voice: fewer clean feeds than callers and contributors.
//!
//! Every voice from outside needs the programme without itself, or the line echoes.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::proofs::studio::Need;
use crate::rules::Look;
use crate::rules::shelf_moves::{exchange, item_of, price, short};
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// ST 04.
pub static RULE: Rule = Rule {
    code: "ST 04",
    severity: Severity::Error,
    clause: "clause-practice",
    mark: Mark::Practice,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some((needed, there)) = short(look, Need::CleanFeeds) else {
        return Vec::new();
    };
    let says = Message::new("st-04")
        .count("needed", i64::from(needed))
        .count("there", i64::from(there));
    let mut finding = rule
        .finding(Stage::Console, "", says)
        .rests_on("studio.clean_feeds");
    if let Some((tag, shelf)) = item_of(look, ItemKind::Console)
        && let Some(better) = look
            .case
            .shelf
            .of(ItemKind::Console)
            .filter(|s| {
                s.audio
                    .as_ref()
                    .and_then(|a| a.clean_feeds)
                    .is_some_and(|n| n >= needed)
            })
            .filter(|s| {
                let inputs =
                    |i: &station::ShelfItem| i.audio.as_ref().and_then(|a| a.microphone_inputs).unwrap_or(0);
                inputs(s) >= inputs(shelf)
            })
            .min_by(|a, b| price(a).total_cmp(&price(b)))
    {
        finding = finding.remedy(Remedy::new(
            Message::new("fd-01-do").text("name", better.name.as_str()),
            exchange(look, &format!("items.{tag}"), "shelf", &better.id),
        ));
    }
    vec![finding.remedy(Remedy::new(
        Message::new("st-04-fewer").count("there", i64::from(there)),
        vec![look.case.set("brief.seats.callers", there)],
    ))]
}
