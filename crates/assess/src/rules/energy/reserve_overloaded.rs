//! PW 06: Battery and generator together give less than the site draws.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Power;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// PW 06.
pub static RULE: Rule = Rule {
    code: "PW 06",
    severity: Severity::Error,
    clause: "shelf rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter_map(|s| Some((s, s.reserve_output_w?)))
        .filter(|(s, output)| s.load_w > *output)
        .map(|(s, output)| {
            let says = Message::new("pw-06")
                .text("site", s.tag.as_str())
                .quantity("load", Power::from_w(s.load_w))
                .quantity("output", Power::from_w(output));
            let mut finding = rule.finding(Stage::Sites, s.tag.as_str(), says);
            let fits = |i: &&station::ShelfItem| {
                i.supply
                    .as_ref()
                    .is_some_and(|r| r.output.w() + output >= s.load_w)
            };
            if let Some(set) = look.case.shelf.of(ItemKind::Generator).find(fits) {
                finding = finding.remedy(Remedy::new(
                    Message::new("pw-03-do")
                        .text("name", set.name.as_str())
                        .text("site", s.tag.as_str()),
                    vec![look.case.set(
                        format!("items.GEN-{}", s.tag),
                        serde_json::json!({"shelf": set.id, "place": s.tag}),
                    )],
                ));
            }
            finding
        })
        .collect()
}
