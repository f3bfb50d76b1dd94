//! PW 04: On the hottest day the room gets warmer than its equipment may.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::{Digits, Temperature};
use station::Mark;
use words::Message;

/// PW 04.
pub static RULE: Rule = Rule {
    code: "PW 04",
    severity: Severity::Warning,
    clause: "clause-moving-air",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    look.outcome
        .energy
        .sites
        .iter()
        .filter_map(|s| Some((s, s.room_c?, s.room_allowed_c?)))
        .filter(|(_, room, allowed)| room > allowed)
        .map(|(s, room, allowed)| {
            let says = Message::new("pw-04")
                .text("site", s.tag.as_str())
                .quantity("room", Temperature::from_celsius(room.min(999.0)))
                .quantity("allowed", Temperature::from_celsius(allowed));
            let mut finding = rule
                .finding(Stage::Sites, s.tag.as_str(), says)
                .rests_on(format!("energy.{}.room", s.tag));
            if let Some(air) = s.air_m3_h {
                let air = (air * 1.1 / 10.0).ceil() * 10.0;
                finding = finding.remedy(Remedy::new(
                    Message::new("pw-04-do")
                        .amount("air", air, Digits::Decimals(0), "m³/h")
                        .text("site", s.tag.as_str()),
                    vec![
                        look.case
                            .set(format!("sites.{}.shelter.airflow_m3_h", s.tag), air),
                    ],
                ));
            }
            finding
        })
        .collect()
}
