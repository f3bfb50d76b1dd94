//! LI 02: Much less is radiated than the licence and its conditions allow.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::{Decibels, Power};
use station::Mark;
use words::Message;

/// LI 02.
pub static RULE: Rule = Rule {
    code: "LI 02",
    severity: Severity::Warning,
    clause: "clause-licence",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    for (path, check) in look
        .outcome
        .transmission
        .emissions
        .iter()
        .zip(&look.outcome.licence.emissions)
    {
        let Some((tight, room_db)) = check.tightest.zip(check.room_db()) else {
            continue;
        };
        // No power at all is another finding.
        if !(1.0..200.0).contains(&room_db) || !path.power_stated {
            continue;
        }
        let power = format!("emissions.{}.power", check.tag);
        let finding = |code| {
            let says = Message::new(code).text("tag", check.tag.as_str());
            rule.finding(
                Stage::Antenna,
                check.tag.as_str(),
                says.quantity("under", Decibels::from_db(room_db)),
            )
        };
        found.push(if room_db < tight.margin_db() {
            // A condition is met sooner than the licensed ERP.
            let higher = path.power_w.map(|w| w * 10f64.powf((room_db - 0.1) / 10.0));
            match higher {
                Some(w) => finding("li-02-condition").remedy(Remedy::new(
                    Message::new("li-05-do").quantity("power", Power::from_w(w)),
                    vec![look.case.set(power, format!("{w:.1} W"))],
                )),
                None => finding("li-02-condition"),
            }
        } else {
            finding("li-02").remedy(Remedy::new(
                Message::new("li-01-do"),
                vec![look.case.remove(power)],
            ))
        });
    }
    found
}
