//! TX 08: A transmitter needs three phases, and the site has one.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::Message;

/// TX 08.
pub static RULE: Rule = Rule {
    code: "TX 08",
    severity: Severity::Error,
    clause: "clause-shelf-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for site in &look.outcome.energy.sites {
        if site.three_phase || site.mains == Some(false) {
            continue;
        }
        for tag in &site.need_three_phase {
            let says = Message::new("tx-08")
                .text("tag", tag.as_str())
                .text("site", site.tag.as_str());
            found.push(
                rule.finding(Stage::Transmitter, tag.as_str(), says)
                    .remedy(Remedy::new(
                        Message::new("tx-08-do").text("site", site.tag.as_str()),
                        vec![
                            look.case
                                .set(format!("sites.{}.supply.three_phase", site.tag), true),
                        ],
                    )),
            );
        }
    }
    found
}
