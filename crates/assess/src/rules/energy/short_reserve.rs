//! PW 03: Without mains a site stays on the air for a shorter time than is asked.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Duration;
use station::Mark;
use station::shelf::ItemKind;
use words::Message;

/// PW 03.
pub static RULE: Rule = Rule {
    code: "PW 03",
    severity: Severity::Error,
    clause: "the brief",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter_map(|s| Some((s, s.wanted_h?)))
        .filter(|(s, wanted)| s.mains != Some(false) && s.reserve_h + 1e-9 < *wanted)
        .map(|(s, wanted)| {
            let says = Message::new("pw-03")
                .text("site", s.tag.as_str())
                .quantity("there", Duration::from_hours(s.reserve_h))
                .quantity("wanted", Duration::from_hours(wanted));
            let mut finding = rule
                .finding(Stage::Sites, s.tag.as_str(), says)
                .rests_on(format!("energy.{}.reserve", s.tag));
            let fits = |i: &&station::ShelfItem| i.supply.as_ref().is_some_and(|r| r.output.w() >= s.load_w);
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
