//! AN 03: A bay or a branch of the splitter gets more power than it may bear.

use crate::figure::Stage;
use crate::finding::{Finding, Rule, Severity};
use crate::rules::Look;
use quantity::Power;
use station::Mark;
use words::Message;

/// AN 03.
pub static RULE: Rule = Rule {
    code: "AN 03",
    severity: Severity::Error,
    clause: "clause-shelf-rating",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for path in &look.outcome.transmission.emissions {
        let (Ok(radiating), Some(power)) = (&path.radiating, path.power_w) else {
            continue;
        };
        let bay = power * 10f64.powf(-path.loss_db() / 10.0) * radiating.strongest_bay_ratio;
        let limits = [
            radiating.bay_rated_w,
            radiating.branch_rated_w.filter(|_| radiating.bays > 1),
        ];
        if let Some(allowed) = limits.into_iter().flatten().reduce(f64::min)
            && bay > allowed
        {
            let says = Message::new("an-03")
                .text("tag", radiating.tag.as_str())
                .quantity("power", Power::from_w(bay))
                .quantity("allowed", Power::from_w(allowed));
            found.push(rule.finding(Stage::Antenna, radiating.tag.as_str(), says));
        }
    }
    found
}
