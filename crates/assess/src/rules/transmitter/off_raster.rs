//! TX 06: The carrier does not stand on the country's raster.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use quantity::Frequency;
use station::Mark;
use words::Message;

/// TX 06.
pub static RULE: Rule = Rule {
    code: "TX 06",
    severity: Severity::Warning,
    clause: "clause-country-raster",
    mark: Mark::Memory,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let mut found = Vec::new();
    let raster = look.case.country.channel_raster.value.khz();
    for path in &look.outcome.transmission.emissions {
        let Some(mhz) = path.frequency_mhz else { continue };
        // Rasters count from 87.5 or 88.1 MHz; both stand on whole steps of 100 kHz.
        let steps = (mhz - 87.5) * 1000.0 / raster.min(100.0);
        if (steps - steps.round()).abs() > 1e-6 {
            let near = 87.5 + steps.round() * raster.min(100.0) / 1000.0;
            let says = Message::new("tx-06")
                .text("tag", path.tag.as_str())
                .quantity("carrier", Frequency::from_mhz(mhz))
                .quantity("raster", Frequency::from_khz(raster));
            found.push(
                rule.finding(Stage::Transmitter, path.tag.as_str(), says)
                    .remedy(Remedy::new(
                        Message::new("tx-06-do").quantity("near", Frequency::from_mhz(near)),
                        vec![look.case.set(
                            format!("emissions.{}.frequency", path.tag),
                            format!("{near:.1} MHz"),
                        )],
                    )),
            );
        }
    }
    found
}
