//! PW 02: There is no mains and nothing else feeds the site.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// PW 02.
pub static RULE: Rule = Rule {
    code: "PW 02",
    severity: Severity::Error,
    clause: "the supply",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter(|s| s.mains == Some(false) && s.reserve_output_w.is_none())
        .map(|s| {
            let mut finding = rule.finding(
                Stage::Sites,
                s.tag.as_str(),
                Message::new("pw-02").text("site", s.tag.as_str()),
            );
            if let Some(sun) = look
                .case
                .shelf
                .of(ItemKind::Solar)
                .find(|i| i.supply.as_ref().is_some_and(|r| r.output.w() >= s.load_w))
            {
                finding = finding.remedy(Remedy::new(
                    Message::new("fd-01-do").text("name", sun.name.as_str()),
                    vec![look.case.set(
                        format!("items.SUN-{}", s.tag),
                        serde_json::json!({"shelf": sun.id, "place": s.tag}),
                    )],
                ));
            }
            finding
        })
        .collect()
}
