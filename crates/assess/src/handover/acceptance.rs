//! What is measured on the day: what was promised, with which instrument, how, and what is accepted.
//!
//! Only what an instrument can read stands here. Tolerances come from a standard where one is named; the others are common practice,
//! no source, and say so.

use crate::assessment::Assessment;
use crate::case::Case;
use crate::finding::clause_message;
use crate::outcome::Outcome;
use crate::pen::Pen;
use crate::proofs::transmission::EmissionPath;
use crate::say::joined;
use crate::unit::Unit;
use serde::Serialize;
use station::design::Emission;
use words::{Message, WordsError};

/// Accepted either side of the power set. Common practice, no source.
const POWER_RATIO: f64 = 0.05;
/// VSWR that is accepted at most. Common practice, no source.
const VSWR_AT_MOST: f64 = 1.5;
/// Accepted either side of the carrier, kHz: Radio Regulations, Appendix 2, FM broadcasting [M].
const CARRIER_KHZ: f64 = 2.0;
/// Pilot tone's share of the deviation, least and most: Rec. ITU-R BS.450-3 § 2.2 [M].
const PILOT_RATIO: (f64, f64) = (0.08, 0.10);
/// Deviation by radio data, kHz: least, usual, most: IEC 62106 [M].
const RADIO_DATA_KHZ: (f64, f64, f64) = (1.0, 2.0, 7.5);
/// Accepted either side of a height above ground, m. Common practice, no source.
const HEIGHT_M: f64 = 0.1;
/// Accepted either side of the bays' direction, degrees. Common practice, no source.
const AZIMUTH_DEG: f64 = 3.0;
/// Accepted either side of a link's received level, dB. Common practice, no source.
const RECEIVED_DB: f64 = 3.0;
/// Accepted over the predicted draw from the mains. Common practice, no source.
const DRAW_RATIO: f64 = 0.2;

const PRACTICE: &str = "clause-practice";

/// Checks of one trade.
#[derive(Debug, Clone, PartialEq, Serialize, utoipa::ToSchema)]
pub struct CheckGroup {
    /// Its name.
    pub name: String,
    /// The caution of the trade.
    pub caution: String,
    /// The checks.
    pub checks: Vec<Check>,
    /// What to do when a reading is outside what is accepted, where the program can help.
    pub outside: Option<String>,
}

/// One thing that is measured.
#[derive(Debug, Clone, PartialEq, Serialize, utoipa::ToSchema)]
pub struct Check {
    /// What is measured, and where.
    pub what: String,
    /// With what.
    pub instrument: String,
    /// How.
    pub how: String,
    /// What was promised.
    pub promised: String,
    /// What is accepted.
    pub accepted: String,
    /// Where the tolerance is from.
    pub clause: String,
}

/// What is accepted.
enum Accept {
    AtMost(String),
    AtLeast(String),
    Within(String, String),
    Off(String),
}

pub(super) fn acceptance(
    case: &Case,
    outcome: &Outcome,
    assessment: &Assessment,
    pen: Pen,
) -> Result<Vec<CheckGroup>, WordsError> {
    let bench = Bench {
        case,
        outcome,
        assessment,
        pen,
    };
    let groups = [
        ("accept-group-transmitter", bench.transmitter()?),
        ("accept-group-modulation", bench.modulation()?),
        ("accept-group-antenna", bench.antenna()?),
        ("accept-group-field", bench.field()?),
        ("accept-group-exposure", bench.exposure()?),
        ("accept-group-link", bench.link()?),
        ("accept-group-supply", bench.supply()?),
    ];
    groups
        .into_iter()
        .filter(|(_, checks)| !checks.is_empty())
        .map(|(code, checks)| {
            // Power read both ways and the field at several places, taken together, tell one fault of an antenna from another.
            let outside = (code == "accept-group-field").then(|| pen.word("accept-outside-field"));
            Ok(CheckGroup {
                name: pen.word(code)?,
                caution: pen.text(&Message::new(format!("{code}.caution")))?,
                checks,
                outside: outside.transpose()?,
            })
        })
        .collect()
}

struct Bench<'a> {
    case: &'a Case<'a>,
    outcome: &'a Outcome,
    assessment: &'a Assessment,
    pen: Pen,
}

impl Bench<'_> {
    fn check(
        &self,
        message: Message,
        promised: String,
        accept: Accept,
        clause: &str,
    ) -> Result<Check, WordsError> {
        let pen = self.pen;
        let part = |name: &str| pen.text(&Message::new(format!("{}.{name}", message.code)));
        let accepted = match accept {
            Accept::AtMost(limit) => Message::new("accept-at-most").text("limit", limit),
            Accept::AtLeast(limit) => Message::new("accept-at-least").text("limit", limit),
            Accept::Within(low, high) => Message::new("accept-within").text("low", low).text("high", high),
            Accept::Off(limit) => Message::new("accept-off").text("limit", limit),
        };
        Ok(Check {
            what: pen.text(&message)?,
            instrument: part("instrument")?,
            how: part("how")?,
            promised,
            accepted: pen.text(&accepted)?,
            clause: pen.text(&clause_message(clause))?,
        })
    }

    fn show(&self, number: f64, unit: Unit) -> String {
        self.pen.joined(number, unit)
    }

    /// A figure's number, where it is known.
    fn figure(&self, id: &str) -> Option<f64> {
        self.assessment.figure(id)?.value.number()
    }

    fn paths(&self) -> impl Iterator<Item = (&EmissionPath, &Emission)> {
        let emissions = &self.case.station.emissions;
        self.outcome
            .transmission
            .emissions
            .iter()
            .filter_map(|p| Some((p, emissions.iter().find(|e| e.tag == p.tag)?)))
    }

    fn transmitter(&self) -> Result<Vec<Check>, WordsError> {
        let mut out = Vec::new();
        for (path, emission) in self.paths() {
            let at = emission.transmitter.as_deref().unwrap_or(&path.tag);
            let about = |code: &'static str| Message::new(code).text("tag", at);
            if let Some(power) = path.power_w {
                let most = power * (1.0 + POWER_RATIO);
                let most = path.licence_w.map_or(most, |l| most.min(l.max(power)));
                out.push(self.check(
                    about("accept-forward"),
                    self.show(power, Unit::Watt),
                    Accept::Within(
                        self.show(power * (1.0 - POWER_RATIO), Unit::Watt),
                        self.show(most, Unit::Watt),
                    ),
                    "clause-practice-licence",
                )?);
            }
            if let (Some(power), Some((_, vswr))) = (path.power_w, path.vswr) {
                out.push(self.check(
                    about("accept-reflected"),
                    self.show(power * reflected_ratio(vswr), Unit::Watt),
                    Accept::AtMost(self.show(power * reflected_ratio(VSWR_AT_MOST), Unit::Watt)),
                    PRACTICE,
                )?);
                out.push(self.check(
                    about("accept-return-loss"),
                    self.show(return_loss_db(vswr), Unit::Decibel),
                    Accept::AtLeast(self.show(return_loss_db(VSWR_AT_MOST), Unit::Decibel)),
                    PRACTICE,
                )?);
            }
            if let Some(carrier) = path.frequency_mhz {
                out.push(self.check(
                    about("accept-carrier"),
                    self.show(carrier, Unit::Megahertz),
                    Accept::Off(self.show(CARRIER_KHZ, Unit::Kilohertz)),
                    "clause-appendix-2",
                )?);
            }
        }
        Ok(out)
    }

    fn modulation(&self) -> Result<Vec<Check>, WordsError> {
        let country = self.case.country;
        let deviation_khz = country.deviation.value.hz() / 1e3;
        let mut out = Vec::new();
        for (path, emission) in self.paths().filter(|(p, _)| p.power_w.is_some()) {
            let about = |code: &'static str| Message::new(code).text("tag", path.tag.as_str());
            let khz = |n: f64| self.show(n, Unit::Kilohertz);
            out.push(self.check(
                about("accept-deviation"),
                khz(deviation_khz),
                Accept::AtMost(khz(deviation_khz)),
                &country.deviation.source,
            )?);
            if let Some(mpx) = &country.mpx_power {
                let limit = self.show(mpx.value.dbr(), Unit::Dbr);
                out.push(self.check(
                    about("accept-mpx"),
                    limit.clone(),
                    Accept::AtMost(limit),
                    &mpx.source,
                )?);
            }
            if self.outcome.studio.stereo_coders > 0 {
                let (least, most) = PILOT_RATIO;
                out.push(self.check(
                    about("accept-pilot"),
                    khz(deviation_khz * (least + most) / 2.0),
                    Accept::Within(khz(deviation_khz * least), khz(deviation_khz * most)),
                    "clause-pilot",
                )?);
            }
            if emission.radio_data == Some(true) {
                let (least, usual, most) = RADIO_DATA_KHZ;
                out.push(self.check(
                    about("accept-radio-data"),
                    khz(usual),
                    Accept::Within(khz(least), khz(most)),
                    "clause-radio-data",
                )?);
            }
        }
        Ok(out)
    }

    fn antenna(&self) -> Result<Vec<Check>, WordsError> {
        let mut out = Vec::new();
        let mut done = Vec::new();
        for (path, _) in self.paths() {
            let Ok(radiating) = &path.radiating else { continue };
            if done.contains(&&radiating.tag) {
                continue;
            }
            done.push(&radiating.tag);
            let about = |code: &'static str| Message::new(code).text("antenna", radiating.tag.as_str());
            out.push(self.check(
                about("accept-height"),
                self.show(radiating.centre_agl_m, Unit::FineMetre),
                Accept::Off(self.show(HEIGHT_M, Unit::FineMetre)),
                PRACTICE,
            )?);
            let facing = self.case.station.antenna(&radiating.tag);
            if let Some(azimuth) = facing.and_then(|a| a.azimuth.value()) {
                out.push(self.check(
                    about("accept-azimuth"),
                    self.show(azimuth.deg(), Unit::Degree),
                    Accept::Off(self.show(AZIMUTH_DEG, Unit::Degree)),
                    PRACTICE,
                )?);
            }
            if let Some((vswr, _)) = path.vswr {
                out.push(self.check(
                    about("accept-antenna-return-loss"),
                    self.show(return_loss_db(vswr), Unit::Decibel),
                    Accept::AtLeast(self.show(return_loss_db(VSWR_AT_MOST), Unit::Decibel)),
                    PRACTICE,
                )?);
            }
        }
        Ok(out)
    }

    fn field(&self) -> Result<Vec<Check>, WordsError> {
        let mut out = Vec::new();
        for wanted in &self.outcome.coverage.wanted {
            let Some(Ok(at)) = &wanted.place else { continue };
            let wish = self
                .case
                .station
                .brief
                .wanted
                .iter()
                .find(|w| w.tag == wanted.tag);
            let place = wish
                .and_then(|w| self.case.station.place(w.place.as_deref()?))
                .map_or(wanted.tag.as_str(), |p| p.name.as_str());
            let level = |n: f64| self.show(n, Unit::DbuvPerMetre);
            let (field, spread) = (at.field_at_prediction_dbuv_m, at.threshold.spread_db);
            out.push(
                self.check(
                    Message::new("accept-field")
                        .text("place", place)
                        .text("height", self.show(at.prediction_agl_m, Unit::Metre)),
                    level(field),
                    Accept::AtLeast(level(field - spread)),
                    "clause-deviation",
                )?,
            );
        }
        Ok(out)
    }

    fn exposure(&self) -> Result<Vec<Check>, WordsError> {
        let country = self.case.country;
        let volts = |n: f64| self.show(n, Unit::VoltPerMetre);
        let mut out = Vec::new();
        for point in &self.outcome.exposure.points {
            let limit = if point.workers_only {
                &country.exposure_workers_field
            } else {
                &country.exposure_public_field
            };
            out.push(self.check(
                Message::new("accept-exposure").text("place", point.name.as_str()),
                volts(point.field_v_m),
                Accept::AtMost(volts(limit.value.v_m())),
                &limit.source,
            )?);
        }
        for distances in &self.outcome.exposure.emissions {
            let metres = self.show(distances.public_printed_m(), Unit::FineMetre);
            out.push(self.check(
                Message::new("accept-fence").text("tag", distances.tag.as_str()),
                metres.clone(),
                Accept::AtLeast(metres),
                &country.exposure_public_field.source,
            )?);
        }
        Ok(out)
    }

    fn link(&self) -> Result<Vec<Check>, WordsError> {
        let mut out = Vec::new();
        for hop in &self.outcome.link.hops {
            let Some(received) = self.figure(&format!("link.{}.received", hop.tag)) else {
                continue;
            };
            let level = |n: f64| self.show(n, Unit::Dbm);
            out.push(self.check(
                Message::new("accept-received").text("tag", hop.tag.as_str()),
                level(received),
                Accept::Within(level(received - RECEIVED_DB), level(received + RECEIVED_DB)),
                PRACTICE,
            )?);
        }
        Ok(out)
    }

    fn supply(&self) -> Result<Vec<Check>, WordsError> {
        let mut out = Vec::new();
        for site in &self.outcome.energy.sites {
            let about = |code: &'static str| {
                let name = self
                    .case
                    .station
                    .site(&site.tag)
                    .map_or(site.tag.as_str(), |s| &s.name);
                Message::new(code).text("site", name)
            };
            if site.load_w > 0.0 {
                out.push(self.check(
                    about("accept-draw"),
                    self.show(site.load_w, Unit::Watt),
                    Accept::AtMost(self.show(site.load_w * (1.0 + DRAW_RATIO), Unit::Watt)),
                    PRACTICE,
                )?);
            }
            if let Some(reserve) = self.assessment.figure(&format!("energy.{}.reserve", site.tag))
                && let Some(hours) = reserve.value.number()
            {
                let asked = reserve.margin.as_ref().and_then(|m| m.against.number());
                out.push(self.check(
                    about("accept-battery"),
                    joined(&self.pen.shown(hours * 60.0, Unit::Minute)),
                    Accept::AtLeast(self.show(asked.unwrap_or(hours) * 60.0, Unit::Minute)),
                    "clause-brief",
                )?);
            }
        }
        Ok(out)
    }
}

/// Share of the power that comes back at a VSWR: |Γ|², transmission-line theory.
fn reflected_ratio(vswr: f64) -> f64 {
    let gamma = (vswr - 1.0) / (vswr + 1.0);
    gamma * gamma
}

/// Return loss at a VSWR, dB; what can be told apart on a bench at most (60 dB).
fn return_loss_db(vswr: f64) -> f64 {
    (-10.0 * reflected_ratio(vswr).log10()).min(60.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Transmission-line theory: VSWR 1.5 is a reflection of 0.2, 4 % of the power, 13.98 dB; VSWR 2 is a third, 9.54 dB.
    #[test]
    fn what_comes_back() {
        assert!((reflected_ratio(1.5) - 0.04).abs() < 1e-12);
        assert!((return_loss_db(1.5) - 13.979).abs() < 1e-3);
        assert!((return_loss_db(2.0) - 9.542).abs() < 1e-3);
        assert_eq!(return_loss_db(1.0), 60.0);
    }
}
